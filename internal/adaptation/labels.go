package adaptation

import (
	"fmt"
	"math"

	"potwright/internal/composition"
	"potwright/internal/foodmatch"
	"potwright/internal/label"
	"potwright/internal/nutrient"
)

// labelServing is what a package label counts by for a kind of food.
type labelServing struct {
	kind  string
	grams float64
	say   string
}

// labelServings are the reference amounts of 21 CFR 101.12(b), table 2, for
// foods that come with a label; liquids by their weight in water. Bacon is left
// out: its label counts cooked slices, a recipe raw ones.
var labelServings = []labelServing{
	{"broth", 240, "1 cup"}, {"stock_unsalted", 240, "1 cup"}, {"condensed_soup", 120, "1/2 cup as it comes in the can"},
	{"soy_sauce", 15, "1 tbsp"}, {"ketchup", 15, "1 tbsp"}, {"mustard", 5, "1 tsp"}, {"condiment", 15, "1 tbsp"},
	{"canned_beans", 130, "1/2 cup (130 g)"}, {"canned_vegetable", 130, "1/2 cup (130 g)"}, {"tomato_product", 60, "1/4 cup (60 g)"},
	{"cheese", 30, "30 g"}, {"sausage", 55, "55 g"}, {"bread", 50, "50 g"}, {"cracker", 30, "30 g"},
}

// labels are, for each packaged line, the highest sodium a label may show with
// everything else as it is, so that every sodium limit still holds. A label
// figure replaces what was assumed of that line, at the middle of the range.
func (m *model) labels(chosen []int) []LabelCeiling {
	slack, limited := m.sodiumSlack(chosen)
	if !limited {
		return nil
	}
	var out []LabelCeiling
	line := 0
	for g, cells := range m.cells {
		for _, lp := range cells[chosen[g]].panels {
			if c, ok := ceilingOf(line, lp, slack); ok {
				out = append(out, c)
			}
			line++
		}
	}
	return out
}

// sodiumSlack is the sodium, mg in the whole pot, that may still come in before
// the first at-most limit is reached.
func (m *model) sodiumSlack(chosen []int) (slack float64, limited bool) {
	slack = math.Inf(1)
	for i, a := range m.asks {
		if a.plan != nil || a.atLeast || a.limit.Nutrient != composition.Sodium {
			continue
		}
		limited = true
		slack = math.Min(slack, -m.problem.Rows[i].Value(chosen)*m.in.Pot.Servings)
	}
	return math.Max(0, slack), limited
}

func ceilingOf(line int, lp nutrient.LinePanel, slack float64) (LabelCeiling, bool) {
	if lp.AtTable || lp.Matched.State == foodmatch.Unread || len(lp.Matched.Items) != 1 {
		return LabelCeiling{}, false
	}
	item := lp.Matched.Items[0]
	for _, s := range labelServings {
		if !item.Food.HasKind(s.kind) || item.Grams.Mid <= 0 {
			continue
		}
		perServing := (lp.Panel[composition.Sodium].Mid + slack) / item.Grams.Mid * s.grams
		at := roundDown(composition.Sodium, perServing)
		text := fmt.Sprintf("%s: a label with at most %s sodium in a serving of %s keeps everyone inside, the rest as it is.", lp.Matched.Reading.Text, label.Text(composition.Sodium, at), s.say)
		return LabelCeiling{Line: line, Nutrient: composition.Sodium, AtMost: at, Per: s.say, Text: text}, true
	}
	return LabelCeiling{}, false
}

// roundDown is the largest figure a label may show that does not pass x.
func roundDown(n composition.Nutrient, x float64) float64 {
	at := label.Round(n, x)
	if at > x {
		at = label.Round(n, at-label.Step(n, at))
	}
	return math.Max(0, at)
}
