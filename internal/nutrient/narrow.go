package nutrient

import (
	"fmt"
	"sort"
	"strings"

	"potwright/internal/composition"
)

// Source is one source of doubt about an amount, and what would narrow it.
type Source struct {
	Line int // index of the line, the first of them where several share it
	// Share of the whole variance, 0..1.
	Share float64
	// Text names it and says what narrows it, for people.
	Text string
}

// leastShare is the share of the variance below which a source is not worth a
// cook's while. A design choice.
const leastShare = 0.10

// Narrow ranks what makes the range of a nutrient in the pot wide, largest
// first: the weight of a line, which food it is, or what that food holds.
// Sources under a tenth of the variance are left out.
func Narrow(pot Pot, n composition.Nutrient) []Source {
	type source struct {
		factor Factor
		line   int
		half   float64
	}
	var sources []source
	known := map[Factor]int{}
	for i, lp := range pot.Lines {
		if lp.AtTable {
			continue
		}
		for k := range lp.Doubts {
			d := &lp.Doubts[k]
			half := (d.Down[n] + d.Up[n]) / 2
			if half == 0 {
				continue
			}
			at, seen := known[d.Factor]
			if !seen {
				at = len(sources)
				known[d.Factor] = at
				sources = append(sources, source{factor: d.Factor, line: i})
			}
			sources[at].half += half
		}
	}
	var total float64
	for _, s := range sources {
		total += s.half * s.half
	}
	var out []Source
	for _, s := range sources {
		if share := s.half * s.half / total; share >= leastShare {
			out = append(out, Source{Line: s.line, Share: share, Text: narrowText(s.factor, pot.Lines[s.line])})
		}
	}
	sort.SliceStable(out, func(a, b int) bool { return out[a].Share > out[b].Share })
	return out
}

func narrowText(factor Factor, lp LinePanel) string {
	text := lp.Matched.Reading.Text
	switch {
	case factor.Of == OfGrams:
		return fmt.Sprintf("how much there is of %q: weigh it", text)
	case factor.Of == OfMatch:
		return fmt.Sprintf("which food %q is: say which", text)
	case factor.Of == OfContent && strings.HasPrefix(factor.ID, composition.OwnPrefix):
		return fmt.Sprintf("what the label of %q leaves open by its rounding", text)
	default:
		return fmt.Sprintf("what %q holds, which differs from one purchase to the next: read its label", text)
	}
}
