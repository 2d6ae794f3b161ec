package choice

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
)

// family is a kind of random problem built around a hidden choice that fits, so
// that limits are tight without being impossible.
type family struct {
	name            string
	groups, options int
	rows            int
	low, high       float64 // slack of a bound, as a share
	both            bool    // limits above and below on every row
	near            bool    // cost follows how far an option is from the first
	cone            bool
	fine            bool // effort and room levels after the cost
	impossible      bool // bounds beyond the hidden choice
}

var families = []family{
	{name: "loose", rows: 12, high: 0.25},
	{name: "tight", rows: 12, high: 0.04},
	{name: "corr", rows: 12, high: 0.04, near: true},
	{name: "band", rows: 10, high: 0.03, both: true},
}

func (f family) sized(groups, options int) family {
	f.groups, f.options = groups, options
	return f
}

func (f family) String() string {
	kind := "linear"
	if f.cone {
		kind = "cone"
	}
	if f.fine {
		kind += " 3 levels"
	}
	return fmt.Sprintf("%s/%s/%dx%d", f.name, kind, f.groups, f.options)
}

// make builds the seed-th problem of a family.
func (f family) make(seed uint64) Problem {
	r := rand.New(rand.NewPCG(seed, 7))
	var p Problem
	hidden := make([]int, f.groups)
	food := make([][]int, f.groups)
	for g := range f.groups {
		hidden[g] = r.IntN(f.options)
		food[g] = make([]int, f.options)
		for o := range food[g] {
			food[g][o] = 100 + r.IntN(3*f.groups)
		}
		p.Groups = append(p.Groups, Group{Options: make([]Option, f.options)})
	}
	far := make([][]float64, f.groups)
	for g := range far {
		far[g] = make([]float64, f.options)
	}
	for i := range f.rows {
		up := Row{Name: fmt.Sprintf("at most %d", i)}
		for g := range f.groups {
			size := math.Exp(r.NormFloat64())
			mids := make([]float64, f.options)
			loads := make([][]Load, f.options)
			for o := range mids {
				mids[o] = size * (0.2 + 1.6*r.Float64())
				loads[o] = []Load{
					{Factor: g, Half: mids[o] * (0.05 + 0.2*r.Float64())},
					{Factor: food[g][o], Half: mids[o] * 0.1},
				}
				far[g][o] += math.Abs(mids[o]-mids[0]) / size
			}
			up.Mid = append(up.Mid, mids)
			up.Loads = append(up.Loads, loads)
		}
		if !f.cone {
			up.Loads = nil
		}
		p.Rows = append(p.Rows, f.bounded(r, up, hidden))
		if f.both {
			p.Rows = append(p.Rows, f.bounded(r, turned(up), hidden))
		}
	}
	f.price(r, p, far)
	return p
}

func turned(row Row) Row {
	row.Name = "at least " + row.Name[len("at most "):]
	row.Mid = slices.Clone(row.Mid)
	for g := range row.Mid {
		row.Mid[g] = slices.Clone(row.Mid[g])
		for o := range row.Mid[g] {
			row.Mid[g][o] *= -1
		}
	}
	return row
}

func (f family) bounded(r *rand.Rand, row Row, hidden []int) Row {
	v := row.Value(hidden)
	row.Bound = v + math.Abs(v)*(f.low+(f.high-f.low)*r.Float64())
	if f.impossible {
		row.Bound = v - math.Abs(v)*0.02
	}
	return row
}

func (f family) price(r *rand.Rand, p Problem, far [][]float64) {
	for g := range p.Groups {
		for o := range p.Groups[g].Options {
			cost := []int64{0}
			if o > 0 {
				cost[0] = 1 + r.Int64N(10)
				if f.near {
					cost[0] = 1 + int64(9*far[g][o]/slices.Max(far[g]))
				}
			}
			if f.fine {
				cost = append(cost, r.Int64N(4), r.Int64N(100000))
			}
			p.Groups[g].Options[o].Cost = cost
		}
	}
}

// portions builds a table of 4 members: 12 groups of 5 options for the lines, and
// for each member a group of 7 portions that carries -bound/portion in the
// member's rows.
func portions(seed uint64, fine bool) Problem {
	const lines, members, kinds = 12, 4, 5
	r := rand.New(rand.NewPCG(seed, 11))
	sizes := []float64{0.5, 0.6, 0.75, 1, 1.25, 1.5, 2}
	var p Problem
	for range lines {
		p.Groups = append(p.Groups, Group{Options: make([]Option, 5)})
	}
	for range members {
		p.Groups = append(p.Groups, Group{Options: make([]Option, len(sizes))})
	}
	food := make([][]int, lines)
	for g := range food {
		for range 5 {
			food[g] = append(food[g], 100+r.IntN(2*lines))
		}
	}
	amount := make([][][]float64, kinds)
	for k := range amount {
		amount[k] = make([][]float64, lines)
		for g := range lines {
			size := math.Exp(r.NormFloat64())
			for range 5 {
				amount[k][g] = append(amount[k][g], size*(0.2+1.6*r.Float64()))
			}
		}
	}
	hidden := make([]int, lines+members)
	for g := range hidden {
		hidden[g] = r.IntN(len(p.Groups[g].Options))
	}
	for i := range 10 {
		who, kind := i%members, r.IntN(kinds)
		row := Row{Name: fmt.Sprintf("member %d", who), Loads: make([][][]Load, lines+members)}
		for g := range lines {
			row.Mid = append(row.Mid, amount[kind][g])
			for o, v := range amount[kind][g] {
				row.Loads[g] = append(row.Loads[g], []Load{{Factor: g, Half: 0.15 * v}, {Factor: food[g][o], Half: 0.1 * v}})
			}
		}
		for g := range members {
			row.Mid = append(row.Mid, make([]float64, len(sizes)))
			row.Loads[lines+g] = make([][]Load, len(sizes))
		}
		bound := row.Value(hidden) * sizes[hidden[lines+who]] * (1 + 0.08*r.Float64())
		for o, size := range sizes {
			row.Mid[lines+who][o] = -bound / size
		}
		p.Rows = append(p.Rows, row)
	}
	pricePortions(r, p, lines, fine)
	return p
}

func pricePortions(r *rand.Rand, p Problem, lines int, fine bool) {
	for g := range p.Groups {
		for o := range p.Groups[g].Options {
			cost := []int64{0}
			switch {
			case g >= lines:
				cost[0] = 4 * int64(max(o-3, 3-o))
			case o > 0:
				cost[0] = 1 + r.Int64N(20)
			}
			if fine {
				cost = append(cost, r.Int64N(7)-3, r.Int64N(100000))
			}
			p.Groups[g].Options[o].Cost = cost
		}
	}
}
