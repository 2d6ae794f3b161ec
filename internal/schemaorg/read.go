package schemaorg

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"potwright/internal/recipe"
)

// index finds the objects that others refer to by @id.
type index map[string]map[string]any

func newIndex(docs []any) index {
	ix := index{}
	for _, doc := range docs {
		ix.add(doc, 0)
	}
	return ix
}

func (ix index) add(v any, depth int) {
	if depth > maxDepth {
		return
	}
	switch x := v.(type) {
	case []any:
		for _, e := range x {
			ix.add(e, depth+1)
		}
	case map[string]any:
		if id, ok := x["@id"].(string); ok && len(x) > 1 {
			ix[id] = x
		}
		for _, e := range x {
			ix.add(e, depth+1)
		}
	}
}

// of is the object itself, or the one it refers to.
func (ix index) of(x map[string]any) map[string]any {
	if id, ok := x["@id"].(string); ok && len(x) == 1 && ix[id] != nil {
		return ix[id]
	}
	return x
}

func sortedKeys(x map[string]any) []string { return slices.Sorted(maps.Keys(x)) }

// readRecipe writes a Recipe as plain text.
func readRecipe(ix index, r map[string]any) Found {
	if text, ok := ownText(r); ok {
		return Found{Text: text, Lost: lost(r)}
	}
	var b strings.Builder
	title := words(property(r, "name"))
	if title == "" {
		title = words(property(r, "headline"))
	}
	if title == "" {
		title = "Untitled recipe"
	}
	fmt.Fprintln(&b, title)
	if y := yield(property(r, "recipeYield")); y != "" {
		fmt.Fprintln(&b, "\n"+y)
	} else if y := yield(property(r, "yield")); y != "" {
		fmt.Fprintln(&b, "\n"+y)
	}
	for _, t := range times() {
		if text := durationText(words(property(r, t.property))); text != "" {
			fmt.Fprintf(&b, "%s: %s\n", t.name, text)
		}
	}
	fmt.Fprintln(&b, "\nIngredients")
	for _, line := range ix.ingredients(r) {
		fmt.Fprintln(&b, line)
	}
	fmt.Fprintln(&b, "\nMethod")
	w := stepWriter{b: &b, ix: ix}
	w.steps(property(r, "recipeInstructions"), 0)
	found := Found{Text: b.String(), Lost: lost(r)}
	if len(ingredientsOf(r)) == 0 {
		found.Lost = append(found.Lost, "the markup holds no ingredients: copy them from the page")
	}
	return found
}

// ownText is the property text, where it is the whole recipe in plain words: it
// holds the very ingredients of recipeIngredient. So a recipe that Write wrote is
// read back letter by letter.
func ownText(r map[string]any) (string, bool) {
	text, ok := property(r, "text").(string)
	if !ok {
		return "", false
	}
	parsed, err := recipe.Parse(text)
	if err != nil {
		return "", false
	}
	var lines []string
	for _, l := range parsed.Lines {
		lines = append(lines, strings.Join(strings.Fields(l.Reading.Text), " "))
	}
	var given []string
	for _, i := range ingredientsOf(r) {
		if s, ok := i.(string); ok {
			given = append(given, strings.Join(strings.Fields(s), " "))
		}
	}
	return text, slices.Equal(lines, given)
}

// ingredientsOf are the values of recipeIngredient, or of its older name.
func ingredientsOf(r map[string]any) []any {
	if v := property(r, "recipeIngredient"); v != nil {
		return list(v)
	}
	return list(property(r, "ingredients"))
}

// ingredients are the lines; a list in the list gives its name as a heading, and the
// part's own heading ends it.
func (ix index) ingredients(r map[string]any) (lines []string) {
	named := false
	for _, i := range ingredientsOf(r) {
		object, isObject := i.(map[string]any)
		if named && !(isObject && property(ix.of(object), "itemListElement") != nil) {
			lines, named = append(lines, "Ingredients"), false
		}
		switch x := i.(type) {
		case string:
			for _, line := range strings.Split(plain(x), "\n") {
				lines = append(lines, oneLine(line))
			}
		case map[string]any:
			x = ix.of(x)
			if items := list(property(x, "itemListElement")); len(items) > 0 {
				if name := words(property(x, "name")); name != "" && len(name) <= longestHeading {
					lines, named = append(lines, strings.TrimRight(name, ": ")+":"), true
				}
				lines = append(lines, ix.ingredients(map[string]any{"recipeIngredient": items})...)
				continue
			}
			lines = append(lines, ingredient(x))
		default:
			lines = append(lines, words(i))
		}
	}
	return slices.DeleteFunc(lines, func(s string) bool { return s == "" })
}

// ingredient writes an object as a line: PropertyValue, HowToSupply, or a name with
// an amount.
func ingredient(x map[string]any) string {
	name := ""
	for _, key := range []string{"name", "text", "@value"} {
		if name == "" {
			name = words(property(x, key))
		}
	}
	if item, ok := property(x, "item").(map[string]any); ok && name == "" {
		name = words(item)
	}
	for _, key := range []string{"requiredQuantity", "amount", "quantity", "value"} {
		if a := words(property(x, key)); a != "" {
			unit := words(property(x, "unitText"))
			if unit == "" {
				unit = words(property(x, "unit"))
			}
			return oneLine(a + " " + unit + " " + name)
		}
	}
	return oneLine(name)
}

// yield writes recipeYield so that the recipe reader knows it: "Serves 4" for a
// bare number, the words of the page otherwise. Of several the first with words.
func yield(v any) string {
	bare := ""
	for _, y := range list(v) {
		text := words(y)
		if strings.Trim(text, "0123456789.,-–to ") == "" {
			if bare == "" && text != "" {
				bare = "Serves " + text
			}
			continue
		}
		for _, known := range []string{"serves", "makes", "yield", "serving", "portion"} {
			if strings.HasPrefix(strings.ToLower(text), known) {
				return text
			}
		}
		return "Yield: " + text
	}
	return bare
}
