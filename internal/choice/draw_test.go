package choice

import (
	"slices"

	"pgregory.net/rapid"
)

// drawProblem draws a problem small enough to try every choice. Half of the
// numbers are on a coarse grid, so that ties and exact fits are common.
func drawProblem(t *rapid.T) Problem {
	var p Problem
	levels := rapid.IntRange(1, 3).Draw(t, "levels")
	groups := rapid.IntRange(1, 6).Draw(t, "groups")
	topCost := rapid.SampledFrom([]int64{1, 3, 20, 1000}).Draw(t, "top cost")
	for range groups {
		var group Group
		for range rapid.IntRange(1, 4).Draw(t, "options") {
			cost := make([]int64, levels)
			for l := range cost {
				cost[l] = rapid.Int64Range(-topCost/2, topCost).Draw(t, "cost")
			}
			group.Options = append(group.Options, Option{Cost: cost})
		}
		p.Groups = append(p.Groups, group)
	}
	for range rapid.IntRange(0, 6).Draw(t, "rows") {
		p.Rows = append(p.Rows, drawRow(t, p))
	}
	for range rapid.IntRange(0, 3).Draw(t, "apart sets") {
		p.Apart = append(p.Apart, rapid.SliceOfN(drawPick(p), 1, 4).Draw(t, "apart"))
	}
	return p
}

func drawPick(p Problem) *rapid.Generator[Pick] {
	return rapid.Custom(func(t *rapid.T) Pick {
		g := rapid.IntRange(0, len(p.Groups)-1).Draw(t, "group")
		return Pick{Group: g, Option: rapid.IntRange(0, len(p.Groups[g].Options)-1).Draw(t, "option")}
	})
}

func drawNumber(t *rapid.T, low, high int) float64 {
	if rapid.Bool().Draw(t, "on a grid") {
		return float64(rapid.IntRange(low, high).Draw(t, "number"))
	}
	return rapid.Float64Range(float64(low), float64(high)).Draw(t, "number")
}

func drawRow(t *rapid.T, p Problem) Row {
	row := Row{Name: "row"}
	low, high := 0, 10
	if rapid.IntRange(0, 3).Draw(t, "kind") == 0 {
		low, high = -10, 0 // an at-least row
	}
	scale := rapid.SampledFrom([]float64{1, 0.001, 700}).Draw(t, "scale")
	loaded := rapid.Bool().Draw(t, "cone")
	var least, most float64
	for _, group := range p.Groups {
		var mids []float64
		var loads [][]Load
		for range group.Options {
			mids = append(mids, scale*drawNumber(t, low, high))
			var of []Load
			for range rapid.IntRange(0, 2).Draw(t, "loads") {
				of = append(of, Load{Factor: rapid.IntRange(0, 7).Draw(t, "factor"), Half: scale * drawNumber(t, -2, 4)})
			}
			loads = append(loads, of)
		}
		row.Mid = append(row.Mid, mids)
		if loaded {
			row.Loads = append(row.Loads, loads)
		}
		least += slices.Min(mids)
		most += slices.Max(mids)
	}
	row.Bound = least + (most-least)*rapid.Float64Range(0, 1.3).Draw(t, "bound")
	if rapid.Bool().Draw(t, "reachable bound") {
		row.Bound = row.Value(drawChoice(t, p))
	}
	return row
}

func drawChoice(t *rapid.T, p Problem) []int {
	chosen := make([]int, len(p.Groups))
	for g, group := range p.Groups {
		chosen[g] = rapid.IntRange(0, len(group.Options)-1).Draw(t, "chosen")
	}
	return chosen
}

// everyChoice calls try with each choice in the order of the option numbers.
func everyChoice(p Problem, try func(chosen []int)) {
	chosen := make([]int, len(p.Groups))
	for {
		try(chosen)
		g := len(chosen) - 1
		for ; g >= 0; g-- {
			chosen[g]++
			if chosen[g] < len(p.Groups[g].Options) {
				break
			}
			chosen[g] = 0
		}
		if g < 0 {
			return
		}
	}
}

// bruteForce is the first of the cheapest choices, or nil.
func bruteForce(p Problem) []int {
	var best []int
	var cost []int64
	everyChoice(p, func(chosen []int) {
		c := plainCost(p, chosen)
		if (best == nil || slices.Compare(c, cost) < 0) && plainHolds(p, chosen) {
			best, cost = slices.Clone(chosen), c
		}
	})
	return best
}
