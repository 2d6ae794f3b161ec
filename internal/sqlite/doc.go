// Package sqlite keeps households, recipes and versions in one SQLite file. It
// is the kitchen's Store.
//
// An exported method opens one transaction and commits it; the unexported
// functions that take a *gorm.DB run inside it. Rows are structs of their own,
// turned into the domain's values at the edge. The schema is the numbered SQL in
// migrations/, never gorm's own migrator, which can lose rows of a table that
// others refer to.
package sqlite
