package certificate

import (
	"fmt"
	"math"
)

// Plate says what a row is about: a weighted sum of nutrients on somebody's plate.
// The row counts by the serving, of which the plate is a share.
type Plate struct {
	Member string `json:"member"`
	// Weights by nutrient key, such as "sodium_mg".
	Weights map[string]float64 `json:"weights"`
	// Free are kinds of food that are left out of the sum.
	Free    []string `json:"free,omitempty"`
	AtLeast bool     `json:"at_least,omitempty"`
	// Group is the group of the member's portion, Shares what its options are of a
	// serving.
	Group  int       `json:"group"`
	Shares []float64 `json:"shares"`
}

// Figure is what a recipe's own text brings to a plate, in the unit of the row's
// sum: the middle of its range and the end that the row is held at, which is the
// middle where the row has no loads.
type Figure struct{ Mid, End float64 }

// agreement is how far a row's sum may be from the figure of the recipe, relative
// to the larger of 1 and the figure: the last digits of sums.
const agreement = 1e-6

// Agrees holds the sums of the chosen options, line by line added up, against
// figures computed from the recipe that was made of them. of gives the figure of a
// plate at a share of a serving. The error names the first row that differs.
func (c Certificate) Agrees(of func(p Plate, share float64) (Figure, error)) error {
	if c.Chosen == nil {
		return fmt.Errorf("nothing was chosen, so there is no recipe to hold it against")
	}
	if err := c.CheckChosen(c.Chosen); err != nil {
		return err
	}
	for r, row := range c.Rows {
		if row.Plate == nil {
			continue
		}
		p := *row.Plate
		if p.Group < 0 || p.Group >= len(c.Groups) || len(p.Shares) != len(c.Groups[p.Group].Options) {
			return fmt.Errorf("row %d (%s): its portion is of no group", r, row.Name)
		}
		share := p.Shares[c.Chosen[p.Group]]
		want, err := of(p, share)
		if err != nil {
			return fmt.Errorf("row %d (%s): %w", r, row.Name, err)
		}
		got := c.figure(row, share)
		if far(got.Mid, want.Mid) || far(got.End, want.End) {
			return fmt.Errorf("row %d (%s): its lines come to %s (%s at the end that counts), the recipe to %s (%s)",
				r, row.Name, figure(got.Mid), figure(got.End), figure(want.Mid), figure(want.End))
		}
	}
	return nil
}

func far(got, want float64) bool {
	return !(math.Abs(got-want) <= agreement*math.Max(1, math.Abs(want)))
}

// figure is what the chosen lines bring to a row's plate.
func (c Certificate) figure(row Row, share float64) Figure {
	lines := Row{Mid: row.Mid, Loads: row.Loads}
	lines.Mid = append([][]float64(nil), row.Mid...)
	lines.Mid[row.Plate.Group] = make([]float64, len(row.Mid[row.Plate.Group]))
	if row.Loads != nil {
		lines.Loads = append([][][]Load(nil), row.Loads...)
		lines.Loads[row.Plate.Group] = nil
	}
	end := lines.Value(c.Chosen) * share
	lines.Loads = nil
	mid := lines.Value(c.Chosen) * share
	if row.Plate.AtLeast {
		return Figure{-mid, math.Max(0, -end)}
	}
	return Figure{mid, end}
}
