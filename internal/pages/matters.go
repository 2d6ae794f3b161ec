package pages

import (
	"fmt"
	"strings"

	"potwright/internal/composition"
	"potwright/internal/nutrient"
)

// weighedNutrients are those by which a line's weight in the dish is told: salt and
// size, which most households watch. They are some of those doubted.
var weighedNutrients = []composition.Nutrient{composition.Sodium, composition.Energy}

// leastMatter is the share of the dish from which a line's part is told. A design
// choice: smaller parts decide nothing.
const leastMatter = 0.05

// matterWords says for each line how much of the dish hangs on it: its share of
// what is in the pot, and of what makes the figure uncertain. "" where it is
// little. sources are what makes the figures of a nutrient uncertain.
func matterWords(pot nutrient.Pot, sources map[composition.Nutrient][]nutrient.Source) []string {
	parts := make([][]string, len(pot.Lines))
	for _, n := range weighedNutrients {
		doubt := map[int]float64{}
		for _, src := range sources[n] {
			doubt[src.Line] += src.Share
		}
		for i, lp := range pot.Lines {
			if share := lineShare(lp, pot, n); share >= leastMatter || doubt[i] > 0 {
				parts[i] = append(parts[i], matter(n, share, doubt[i]))
			}
		}
	}
	out := make([]string, len(pot.Lines))
	for i, p := range parts {
		if len(p) > 0 {
			out[i] = "Matters: " + strings.Join(p, "; ") + "."
		}
	}
	return out
}

func lineShare(lp nutrient.LinePanel, pot nutrient.Pot, n composition.Nutrient) float64 {
	if total := pot.Total[n].Mid; total > 0 && !lp.AtTable {
		return lp.Panel[n].Mid / total
	}
	return 0
}

func matter(n composition.Nutrient, share, doubt float64) string {
	text := fmt.Sprintf("%.0f %% of the %s", 100*share, n.Name())
	if doubt > 0 {
		text += fmt.Sprintf(", %.0f %% of the doubt about it", 100*doubt)
	}
	return text
}
