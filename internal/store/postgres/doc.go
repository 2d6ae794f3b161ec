// Package postgres opens a store over a PostgreSQL database, or one schema of it: its
// tables and the way to their newest form, how its writers take turns, and what its
// errors mean in words.
package postgres
