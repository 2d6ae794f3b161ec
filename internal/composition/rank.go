package composition

import (
	"math"
	"sort"
)

// rank turns scores into weights: the likeliest first, ties by name.
func rank(hits map[*Food]hit) []Candidate {
	out := make([]Candidate, 0, len(hits))
	top := math.Inf(-1)
	for _, h := range hits {
		top = max(top, h.score)
	}
	var sum float64
	sure := 0.0
	for f, h := range hits {
		w := math.Exp((h.score - top) / temperature)
		if w < leastWeight {
			continue
		}
		if h.score == top {
			sure = max(sure, h.sure)
		}
		out = append(out, Candidate{Food: f, Weight: w, Why: h.why})
	}
	sort.Slice(out, func(i, j int) bool {
		if out[i].Weight != out[j].Weight {
			return out[i].Weight > out[j].Weight
		}
		return out[i].Food.Name < out[j].Food.Name
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
