// Package sqlite opens a store over one SQLite file: its schema and the way to the
// newest one, what makes a file damaged, its backups and their restoring.
package sqlite
