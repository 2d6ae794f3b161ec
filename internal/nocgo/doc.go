// Package sqlite3 is empty on purpose: gorm's SQLite dialect imports a driver
// that needs a C compiler, and Potwright uses a pure Go one instead. The
// replace directive in go.mod puts this package in its place.
package sqlite3
