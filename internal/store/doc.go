// Package store keeps households, recipes and versions in a database through gorm.
// It is the kitchen's Store and that of access; which database it is, and how that
// is opened, is told by the packages below it, each an Engine: sqlite, a file.
//
// An exported method opens one transaction and commits it; the unexported
// functions that take a *gorm.DB run inside it. Rows are structs of their own,
// turned into the domain's values at the edge. The schema is the numbered SQL of
// each engine, never gorm's own migrator, which can lose rows of a table that
// others refer to. SQL in this package is what every engine understands alike.
package store
