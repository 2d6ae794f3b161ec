package foodmatch

import (
	"slices"
	"strings"

	"potwright/internal/composition"
	"potwright/internal/ingredient"
	"potwright/internal/measure"
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

// plainer puts a few words into the form of the table: ground or pinched
// "pepper" is black pepper, not the vegetable; rind is peel.
func plainer(r ingredient.Reading, p composition.Phrase) string {
	if p.Words == "pepper" || p.Words == "peppers" && r.ToTaste {
		ground := r.ToTaste || r.Amount.Unit.Name == "tsp" || r.Amount.Unit.Kind == measure.Volume && r.Amount.Unit.Size < 5
		for _, prep := range r.Preparation {
			ground = ground || strings.Contains(prep, "ground") || strings.Contains(prep, "cracked")
		}
		if ground {
			return "black pepper"
		}
	}
	if fruit, ok := strings.CutSuffix(p.Words, " rind"); ok {
		return fruit + " peel"
	}
	return p.Words
}

// phraseOf is what a reading asks of the table.
func phraseOf(r ingredient.Reading) composition.Phrase {
	p := composition.Phrase{Words: r.Food, States: slices.Clone(r.States)}
	if r.HasAmount {
		p.Unit = r.Amount.Unit.Name
	}
	p.Words = plainer(r, p)
	if p.Unit == "fillet" && len(p.States) == 0 && !strings.Contains(p.Words, "anchov") {
		p.States = append(p.States, "raw")
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
