// Package schemaorg reads recipes marked up with the schema.org vocabulary
// (schema.org/Recipe) as JSON-LD, alone or inside an HTML page, into plain text
// that the recipe reader takes. Only the words are taken: what the page says of
// nutrition is left to be computed.
package schemaorg

import (
	"encoding/json"
	"fmt"
	"strings"

	"golang.org/x/net/html"
)

// maxInput bounds what is looked through, bytes; longer input is left as it is.
const maxInput = 16 << 20

// Plain is the recipe as plain text where the input is JSON-LD or an HTML page
// that holds one; any other input is returned as it is, ok false.
func Plain(input string) (text string, ok bool) {
	if len(input) > maxInput {
		return input, false
	}
	start := strings.TrimSpace(input)
	var blocks []string
	switch {
	case strings.HasPrefix(start, "{"), strings.HasPrefix(start, "["):
		blocks = []string{start}
	case strings.HasPrefix(start, "<"):
		blocks = scripts(start)
	}
	for _, b := range blocks {
		var doc any
		if json.Unmarshal([]byte(b), &doc) != nil {
			continue
		}
		if r, found := findRecipe(doc, 0); found {
			return write(r), true
		}
	}
	return input, false
}

// scripts are the JSON-LD blocks of a page, in order.
func scripts(page string) []string {
	var out []string
	z := html.NewTokenizer(strings.NewReader(page))
	inside := false
	for {
		switch z.Next() {
		case html.ErrorToken:
			return out
		case html.StartTagToken:
			t := z.Token()
			inside = t.Data == "script" && isJSONLD(t)
		case html.EndTagToken:
			inside = false
		case html.TextToken:
			if inside {
				out = append(out, string(z.Text()))
			}
		}
	}
}

func isJSONLD(t html.Token) bool {
	for _, a := range t.Attr {
		if a.Key == "type" && strings.HasPrefix(strings.ToLower(strings.TrimSpace(a.Val)), "application/ld+json") {
			return true
		}
	}
	return false
}

// maxDepth bounds how deep a document is looked through.
const maxDepth = 32

// findRecipe finds the first object of type Recipe, also inside arrays, @graph
// and other objects.
func findRecipe(doc any, depth int) (map[string]any, bool) {
	if depth > maxDepth {
		return nil, false
	}
	switch x := doc.(type) {
	case []any:
		for _, e := range x {
			if r, ok := findRecipe(e, depth+1); ok {
				return r, true
			}
		}
	case map[string]any:
		if hasType(x, "Recipe") {
			return x, true
		}
		for _, key := range []string{"@graph", "mainEntity", "mainEntityOfPage", "itemListElement", "item"} {
			if r, ok := findRecipe(x[key], depth+1); ok {
				return r, true
			}
		}
	}
	return nil, false
}

func hasType(x map[string]any, want string) bool {
	for _, t := range list(x["@type"]) {
		if s, ok := t.(string); ok && strings.TrimPrefix(strings.TrimPrefix(s, "http://schema.org/"), "https://schema.org/") == want {
			return true
		}
	}
	return false
}

// list is a value as a list: JSON-LD lets one stand for many.
func list(v any) []any {
	switch x := v.(type) {
	case nil:
		return nil
	case []any:
		return x
	default:
		return []any{x}
	}
}

func write(r map[string]any) string {
	var b strings.Builder
	title := words(r["name"])
	if title == "" {
		title = "Untitled recipe"
	}
	fmt.Fprintln(&b, title)
	if y := yield(r["recipeYield"]); y != "" {
		fmt.Fprintln(&b, y)
	}
	fmt.Fprintln(&b, "\nIngredients")
	ingredients := r["recipeIngredient"]
	if ingredients == nil {
		ingredients = r["ingredients"] // the property's older name
	}
	for _, i := range list(ingredients) {
		if line := words(i); line != "" {
			fmt.Fprintln(&b, line)
		}
	}
	fmt.Fprintln(&b, "\nMethod")
	writeSteps(&b, r["recipeInstructions"], 0)
	return b.String()
}

// yield writes recipeYield so that the recipe reader knows it: "Serves 4" for a
// bare number, the words of the page otherwise.
func yield(v any) string {
	for _, y := range list(v) {
		text := words(y)
		if text == "" {
			continue
		}
		if strings.Trim(text, "0123456789.,-–to ") == "" {
			return "Serves " + text
		}
		for _, known := range []string{"serves", "makes", "yield", "serving", "portion"} {
			if strings.HasPrefix(strings.ToLower(text), known) {
				return text
			}
		}
		return "Yield: " + text
	}
	return ""
}

// writeSteps writes text, HowToStep, HowToSection, ItemList and lists of them,
// a step a paragraph.
func writeSteps(b *strings.Builder, v any, depth int) {
	if depth > maxDepth {
		return
	}
	for _, s := range list(v) {
		switch x := s.(type) {
		case string:
			for _, line := range strings.Split(plain(x), "\n") {
				if line = strings.Join(strings.Fields(line), " "); line != "" {
					fmt.Fprintf(b, "%s\n\n", line)
				}
			}
		case map[string]any:
			text := words(x["text"])
			if text == "" && x["itemListElement"] == nil {
				text = words(x["name"])
			}
			if text != "" {
				fmt.Fprintf(b, "%s\n\n", text)
				continue
			}
			writeSteps(b, x["itemListElement"], depth+1)
		}
	}
}
