// Package cooking tells what cooking does to the figures of a dish: which
// nutrients heat and discarded water take, how much alcohol goes, what is poured
// off, and what the finished dish weighs. How each line is treated is read from
// the method; how much a treatment takes is in files that cooks and dietitians
// can read (rules/factor) and in USDA's retention table.
package cooking
