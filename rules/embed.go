// Package rules holds the data that cooks and dietitians write, by folder:
// swap (what may be changed in a dish), balance (what ingredients do for it),
// need (what people need) and others beside them.
package rules

import "embed"

// FS is every rule file, as "swap/salt.yaml".
//
//go:embed */*.yaml
var FS embed.FS
