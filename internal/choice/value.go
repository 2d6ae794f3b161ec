package choice

import "math"

// Value is the left side of a row for chosen options, one of each group:
// Σ Mid + sqrt( Σ_factor ( Σ Load )² ), added in the order of the groups.
func (r Row) Value(chosen []int) float64 {
	var mid float64
	for g, o := range chosen {
		mid += r.Mid[g][o]
	}
	if r.Loads == nil {
		return mid
	}
	var room [32]Load
	sums := room[:0]
	for g, o := range chosen {
		if r.Loads[g] == nil {
			continue
		}
		for _, load := range r.Loads[g][o] {
			sums = addLoad(sums, load)
		}
	}
	var squares float64
	for _, s := range sums {
		squares += s.Half * s.Half
	}
	return mid + math.Sqrt(squares)
}

// summed is an option's loads, one for each factor.
func summed(loads []Load) []Load {
	var sums []Load
	for _, load := range loads {
		sums = addLoad(sums, load)
	}
	return sums
}

func addLoad(sums []Load, load Load) []Load {
	for i := range sums {
		if sums[i].Factor == load.Factor {
			sums[i].Half += load.Half
			return sums
		}
	}
	return append(sums, load)
}

// Holds tells whether the row holds for chosen options, within Tolerance.
func (r Row) Holds(chosen []int) bool { return r.Value(chosen) <= r.ceiling() }

// ceiling is the largest value at which the row still holds.
func (r Row) ceiling() float64 { return r.Bound + Tolerance*max(1, math.Abs(r.Bound)) }

// Holds tells whether chosen options keep every row and every apart set.
func (p Problem) Holds(chosen []int) bool {
	for i := range p.Rows {
		if !p.Rows[i].Holds(chosen) {
			return false
		}
	}
	return p.apart(chosen)
}

func (p Problem) apart(chosen []int) bool {
	for _, set := range p.Apart {
		first := -1
		for i, k := range set {
			if chosen[k.Group] != k.Option {
				continue
			}
			if first >= 0 && set[first] != k {
				return false
			}
			first = i
		}
	}
	return true
}

// CostOf is the cost of chosen options, level by level.
func (p Problem) CostOf(chosen []int) []int64 {
	cost := make([]int64, p.levels())
	for g, o := range chosen {
		for l, c := range p.Groups[g].Options[o].Cost {
			cost[l] += c
		}
	}
	return cost
}

func (p Problem) levels() int {
	if len(p.Groups) == 0 {
		return 0
	}
	return len(p.Groups[0].Options[0].Cost)
}
