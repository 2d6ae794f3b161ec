package label

import (
	"math"

	"potwright/internal/spread"
)

// Sodium gives the mg of sodium in grams of salt as Regulation (EU) 1169/2011, Annex I,
// declares them: total sodium times 2.5, unrounded.
func Sodium(salt float64) float64 { return salt * 1000 / 2.5 }

// RoundSalt rounds grams of salt by the Commission's guidance on tolerances of
// 2012: to 0.1 g from 1 g, to 0.01 g below, and 0 up to 0.0125 g.
func RoundSalt(grams float64) float64 {
	switch {
	case math.IsNaN(grams) || math.IsInf(grams, 0):
		return grams
	case grams <= 0.0125+slack:
		return 0
	case grams < 1:
		return Nearest(grams, 0.01)
	default:
		return Nearest(grams, 0.1)
	}
}

// PrintedSalt gives the grams of salt, per 100 g or 100 ml, that a printed figure
// stands for: 1.2 g is 1.15 to 1.25 g. It is false for a figure that RoundSalt
// never gives.
func PrintedSalt(figure float64) (grams spread.Range, ok bool) {
	return invert(RoundSalt, figure, 2*figure+1)
}
