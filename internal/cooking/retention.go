package cooking

import (
	"potwright/internal/composition"
	"potwright/internal/nutrient"
	"potwright/internal/spread"
)

// Retention is one row of the USDA Table of Nutrient Retention Factors: how much
// of each nutrient of a food stays when it is cooked in one way. The factors are
// true retentions: of the amount that went in, whatever the cooked food weighs.
type Retention struct {
	Code, Name string
	// Percent, 0..100, of the nutrients that the table has; Known tells which.
	Percent [composition.NutrientCount]float64
	Known   [composition.NutrientCount]bool
}

// Retentions is the table by code.
type Retentions map[string]Retention

// lossDoubt is how far a loss may be from the table's, as a share of it. The
// table gives no spread and rounds to 5 %. A design figure.
const lossDoubt = 0.5

// lost is what is lost by a row of the table, worked out once.
type lost struct {
	// sure is by the table; perhaps, where it is not sure that the food was treated so,
	// anything from nothing to that. Both are nil where nothing is lost.
	sure, perhaps *nutrient.Losses
}

func (r Retention) lost() lost { return lost{r.losses(true), r.losses(false)} }

func (r Retention) losses(sure bool) *nutrient.Losses {
	var out nutrient.Losses
	for n, known := range r.Known {
		loss := 1 - r.Percent[n]/100
		switch {
		case !known || loss <= 0:
		case sure:
			out[n] = spread.Between((1-lossDoubt)*loss, loss, min(1, (1+lossDoubt)*loss))
		default:
			out[n] = spread.Between(0, 0, min(1, (1+lossDoubt)*loss))
		}
	}
	return someOf(out)
}

// someOf is nil for losses of nothing.
func someOf(l nutrient.Losses) *nutrient.Losses {
	if l == (nutrient.Losses{}) {
		return nil
	}
	return &l
}
