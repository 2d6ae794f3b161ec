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

// meats of which "ground" makes another food: "turkey, ground".
var meats = map[string]bool{"beef": true, "turkey": true, "chicken": true, "pork": true, "lamb": true, "veal": true, "bison": true}

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
	if (p.Words == "chicken" || p.Words == "turkey" || p.Words == "chickens") && isWholeBird(r) {
		return "whole " + strings.TrimSuffix(p.Words, "s")
	}
	if p.Words == "beef" && !slices.Contains(p.States, "ground") {
		if cut := cutOfBeef(r); cut != "" {
			return cut
		}
	}
	if p.Words == "whole cloves" || p.Words == "whole clove" {
		return "ground cloves" // the spice; the table has it ground
	}
	if slices.Contains(p.States, "ground") && meats[p.Words] {
		return "ground " + p.Words
	}
	if fruit, ok := strings.CutSuffix(p.Words, " rind"); ok {
		return fruit + " peel"
	}
	return p.Words
}

// cutOfBeef is what "beef" means by the way it is cut: strips and slices are of
// a steak, cubes are stewing meat. Common practice, no source.
func cutOfBeef(r ingredient.Reading) string {
	for _, prep := range r.Preparation {
		prep = strings.ToLower(prep)
		switch {
		case strings.Contains(prep, "strip"), strings.Contains(prep, "slice"):
			return "beef round steak"
		case strings.Contains(prep, "cube"), strings.Contains(prep, "chunk"):
			return "beef stew meat"
		}
	}
	return ""
}

// isWholeBird reports whether a line that says only "chicken" means a whole one:
// it is counted, or weighs two pounds or more and is cut up.
func isWholeBird(r ingredient.Reading) bool {
	if slices.Contains(r.States, "cooked") || slices.Contains(r.States, "boneless") || slices.Contains(r.States, "canned") || slices.Contains(r.States, "ground") {
		return false
	}
	if r.Amount.Unit.Name == "each" && !r.HasContainer {
		return r.HasAmount
	}
	cut := false
	for _, prep := range r.Preparation {
		cut = cut || strings.Contains(prep, "cut up") || strings.Contains(prep, "fryer") || strings.HasPrefix(prep, "cut into") && strings.HasSuffix(prep, "pieces")
	}
	return cut && r.Amount.Unit.Kind == measure.Mass && r.Amount.Quantity.Mid()*r.Amount.Unit.Size > 900
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
	// "8 oz pasta (uncooked, 4 cups cooked)": the first word is of the amount.
	if raw, cooked := slices.Index(p.States, "raw"), slices.Index(p.States, "cooked"); raw >= 0 && cooked > raw {
		p.States = slices.Delete(p.States, cooked, cooked+1)
	}
	if slices.Contains(p.States, "cooked") && slices.Contains(p.States, "dried") {
		p.States = slices.DeleteFunc(p.States, func(s string) bool { return s == "dried" })
	}
	if slices.Contains(p.States, "cooked") || slices.Contains(p.States, "raw") {
		return p
	}
	for _, prep := range r.Preparation {
		if by := strings.ToLower(prep); slices.Contains(cookedBy, by) {
			p.States = append(p.States, by, "cooked")
			break
		}
	}
	return p
}
