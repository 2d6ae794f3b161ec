package household

import (
	"math"

	"potwright/internal/composition"
	"potwright/internal/spread"
)

// Amount is an amount on a plate as a range, and how many parts of it are
// unknown: where Unknown > 0 the range covers the known parts only and is a
// lower bound. It converts from and to the amounts of a panel.
type Amount struct {
	spread.Range
	Unknown int
}

// Amounts looks a nutrient up on a plate.
type Amounts func(composition.Nutrient) Amount

// Tolerance is how far an amount may pass a bound, relative to the larger of 1
// and the bound, and still count as on it: it covers the rounding of sums of
// doubles only.
const Tolerance = 1e-9

// reaches reports whether x <= bound, within Tolerance.
func reaches(x, bound float64) bool {
	return x <= bound+Tolerance*math.Max(1, math.Abs(bound))
}
