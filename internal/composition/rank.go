package composition

import (
	"cmp"
	"math"
	"slices"
	"strings"
)

// text says for people what the hit rests on.
func (h *hit) text() string {
	if h.why == "" && h.near != "" {
		return "not " + strings.ReplaceAll(h.near, "_", " ") + ", but the nearest row"
	}
	return h.why
}

// rank turns scores into weights: the likeliest first, ties by name.
func rank(hits hits) []Candidate {
	out := make([]Candidate, 0, len(hits))
	top := math.Inf(-1)
	for _, h := range hits {
		top = max(top, h.score)
	}
	var sum float64
	sure := 0.0
	for _, h := range hits {
		w := math.Exp((h.score - top) / temperature)
		if w < leastWeight {
			continue
		}
		if h.score == top {
			sure = max(sure, h.sure)
		}
		out = append(out, Candidate{Food: h.food, Weight: w, Why: h.text()})
	}
	slices.SortFunc(out, func(a, b Candidate) int {
		return cmp.Or(cmp.Compare(b.Weight, a.Weight), strings.Compare(a.Food.Name, b.Food.Name))
	})
	out = out[:min(len(out), maxCandidates)]
	for _, c := range out {
		sum += c.Weight
	}
	for i := range out {
		out[i].Weight *= sure / sum
	}
	return out
}
