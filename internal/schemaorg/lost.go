package schemaorg

import (
	"slices"
	"strings"
)

// taken are the properties that the text holds, or that say nothing of the dish.
func taken() []string {
	return []string{"name", "headline", "recipeYield", "yield", "recipeIngredient", "ingredients", "recipeInstructions", "prepTime", "cookTime", "totalTime", "text",
		"url", "mainEntityOfPage", "isPartOf", "inLanguage", "dateModified", "datePublished", "dateCreated", "publisher", "potentialAction", "interactionStatistic"}
}

// lost lists what of a Recipe is not in the text.
func lost(r map[string]any) []string {
	var names []string
	var out []string
	for _, key := range sortedKeys(r) {
		at := strings.LastIndexAny(key, ":/")
		name := key[at+1:]
		switch {
		case strings.HasPrefix(name, "@"), slices.Contains(taken(), name), words(r[key]) == "" && len(list(r[key])) == 0:
		case name == "nutrition":
			out = append(out, "the page's nutrition figures: they are computed afresh")
		default:
			names = append(names, name)
		}
	}
	if len(names) > 0 {
		out = append(out, "not taken over: "+strings.Join(names, ", "))
	}
	return out
}
