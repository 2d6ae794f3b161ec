// Package keeping says how a finished dish is kept and what its cooking must not
// leave out: time in the fridge and freezer, cooling, reheating, least inside
// temperatures, and the few foods that are dangerous as they come. Its figures are
// those of agencies; it never says that a dish is safe.
package keeping
