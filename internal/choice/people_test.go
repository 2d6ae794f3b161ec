package choice

import (
	"fmt"
	"math"
	"math/rand/v2"
)

// people builds a dish of lines with options for members who each leave out
// about an eighth of the lines, so that no two rows can be merged: 7 of 10
// nutrients each, some 55 rows, up to 4 % away from a hidden choice; three of the
// nutrients are limited from below, the others from above.
func people(lines, options, members int) func(seed uint64) Problem {
	return func(seed uint64) Problem {
		r := rand.New(rand.NewPCG(seed, 13))
		var p Problem
		hidden := make([]int, lines)
		for g := range lines {
			hidden[g] = r.IntN(options)
			p.Groups = append(p.Groups, Group{Options: make([]Option, options)})
		}
		family{}.price(r, p, nil)
		const kinds = 10
		var amount [kinds][][]float64
		for k := range amount {
			for range lines {
				size := math.Exp(r.NormFloat64())
				of := make([]float64, options)
				for o := range of {
					of[o] = size * (0.2 + 1.6*r.Float64())
				}
				amount[k] = append(amount[k], of)
			}
		}
		for who := range members {
			out := make([]bool, lines)
			for g := range out {
				out[g] = r.IntN(8) == 0
			}
			for _, k := range r.Perm(kinds)[:7] {
				row := Row{Name: fmt.Sprintf("member %d, kind %d", who, k)}
				for g := range lines {
					of := make([]float64, options)
					if !out[g] {
						copy(of, amount[k][g])
					}
					row.Mid = append(row.Mid, of)
				}
				if k >= 7 {
					row.Name = "at most " + row.Name
					row = turned(row)
				}
				v := row.Value(hidden)
				row.Bound = v + math.Abs(v)*0.04*r.Float64()
				p.Rows = append(p.Rows, row)
			}
		}
		return p
	}
}
