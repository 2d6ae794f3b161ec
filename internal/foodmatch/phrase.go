package foodmatch

import (
	"slices"
	"strings"

	"potwright/internal/composition"
	"potwright/internal/ingredient"
)

// Phrase is the key under which a household's choice of food for a line is
// remembered: the food's words, its states in order, and whether it comes in a
// can. Amount, size and preparation do not matter.
func Phrase(r ingredient.Reading) string {
	states := slices.Clone(r.States)
	slices.Sort(states)
	key := r.Food
	if len(states) > 0 {
		key += "; " + strings.Join(states, " ")
	}
	if r.HasAmount && r.Amount.Unit.Name == "can" {
		key += "; can"
	}
	return key
}

// cookedBy are preparations that mean a food came cooked, where it is measured
// after cooking.
var cookedBy = []string{"roasted", "grilled", "boiled", "steamed", "baked"}

// phraseOf is what a reading asks of the table.
func phraseOf(r ingredient.Reading) composition.Phrase {
	p := composition.Phrase{Words: r.Food, States: slices.Clone(r.States)}
	if r.HasAmount {
		p.Unit = r.Amount.Unit.Name
	}
	if slices.Contains(p.States, "cooked") || slices.Contains(p.States, "raw") {
		return p
	}
	for _, prep := range r.Preparation {
		if slices.Contains(cookedBy, strings.ToLower(prep)) {
			p.States = append(p.States, "cooked")
			break
		}
	}
	return p
}
