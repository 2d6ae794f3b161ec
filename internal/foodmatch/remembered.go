package foodmatch

import (
	"slices"

	"potwright/internal/composition"
	"potwright/internal/ingredient"
	"potwright/internal/recipe"
)

// Remembered finds what a household remembers of a line's food, and the phrase under
// which: that of Phrase, else the one that means the same food once or several times, as
// a line for twice as many says "2 onions". ok is false where nothing is remembered;
// phrase is then where it would be.
func Remembered(choices map[string]recipe.Correction, r ingredient.Reading) (phrase string, c recipe.Correction, ok bool) {
	phrase = Phrase(r)
	if c, ok = choices[phrase]; ok || r.Food == "" {
		return phrase, c, ok
	}
	var words []string
	found := ""
	for other := range choices {
		if len(other) == 0 || other[0] != phrase[0] || len(other) > len(phrase)+longestEnding || len(phrase) > len(other)+longestEnding {
			continue // no plural of it, and looking closer costs more
		}
		if words == nil {
			words = composition.Words(phrase)
		}
		if (found == "" || other < found) && slices.Equal(composition.Words(other), words) {
			found = other
		}
	}
	if found == "" {
		return phrase, c, false
	}
	return found, choices[found], true
}

// longestEnding is how many letters more a food's plural has, for two words of it.
const longestEnding = 4

// WithRemembered is a line's correction, nil for none, with the food that the household
// remembers, which told reports: what a person says of the line goes first.
func WithRemembered(fix *recipe.Correction, choices map[string]recipe.Correction, r ingredient.Reading) (out *recipe.Correction, told bool) {
	if fix != nil && (fix.FoodID != "" || fix.Skip) {
		return fix, false
	}
	_, kept, ok := Remembered(choices, r)
	switch {
	case !ok || kept.FoodID == "" && !kept.Skip:
		return fix, false
	case fix == nil:
		return &recipe.Correction{FoodID: kept.FoodID, Skip: kept.Skip}, true
	case kept.Skip:
		return fix, false // it was weighed to be counted
	}
	return &recipe.Correction{FoodID: kept.FoodID, Grams: fix.Grams}, true
}
