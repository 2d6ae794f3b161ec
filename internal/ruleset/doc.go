// Package ruleset reads the files that cooks and dietitians write: swap rules,
// dish balance, needs and household files. Every fault of a file is reported at
// once, with its place, what is wrong and what was expected.
package ruleset
