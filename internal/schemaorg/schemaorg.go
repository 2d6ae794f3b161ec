// Package schemaorg reads and writes recipes in the schema.org vocabulary
// (schema.org/Recipe) as JSON-LD. It reads what is found in the wild, alone or
// inside an HTML page, into plain text that the recipe reader takes, and lists what
// it left. It writes strictly, and lists what the vocabulary has no place for.
package schemaorg

import (
	"fmt"
	"strings"

	"golang.org/x/net/html"

	"potwright/internal/diagnostic"
)

// maxInput bounds what is looked through, bytes; longer input is left as it is.
const maxInput = 16 << 20

// Found is a recipe found in markup.
type Found struct {
	// Text is the recipe as plain text.
	Text string
	// Lost is what the markup says and the text does not, in words.
	Lost []string
}

// Read finds the recipe in JSON-LD or in an HTML page that holds some. ok is false
// for any other input: it is read as it is. The error, a diagnostic.Fault, is given
// where a recipe is surely there and can't be read: broken JSON, a page marked up
// another way.
func Read(input string) (found Found, ok bool, err error) {
	if len(input) > maxInput {
		return Found{}, false, nil
	}
	start := strings.TrimLeft(strings.TrimSpace(input), "\ufeff")
	var blocks []string
	page := strings.HasPrefix(start, "<")
	switch {
	case strings.HasPrefix(start, "{"), strings.HasPrefix(start, "["):
		blocks = []string{start}
	case page:
		blocks = scripts(start)
	}
	var docs []any
	var broken error
	for _, b := range blocks {
		doc, err := decode(b)
		switch {
		case err == nil:
			docs = append(docs, doc)
		case broken == nil && strings.Contains(b, "Recipe"):
			broken = err
		}
	}
	if r, others := choose(docs); r != nil {
		found = readRecipe(newIndex(docs), r)
		found.Lost = append(found.Lost, others...)
		return found, true, nil
	}
	if broken != nil {
		return Found{}, false, broken
	}
	if page && hasMicrodata(start) {
		return Found{}, false, diagnostic.Fault{Problem: "this page marks its recipe up as microdata or RDFa, which can't be read",
			Expected: "the recipe as it reads on the page: copy its title, ingredients and method"}
	}
	return Found{}, false, nil
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

// hasMicrodata reports whether an element of the page says that it is a recipe
// (HTML, section 5 Microdata; RDFa Lite 1.1).
func hasMicrodata(page string) bool {
	z := html.NewTokenizer(strings.NewReader(page))
	for {
		switch z.Next() {
		case html.ErrorToken:
			return false
		case html.StartTagToken:
			for _, a := range z.Token().Attr {
				if (a.Key == "itemtype" || a.Key == "typeof") && isType(a.Val, "Recipe") {
					return true
				}
			}
		}
	}
}

// isType compares a type as it may be written: "Recipe", "schema:Recipe",
// "https://schema.org/Recipe".
func isType(written, want string) bool {
	at := strings.LastIndexAny(written, "/:#")
	return strings.EqualFold(strings.TrimSpace(written[at+1:]), want)
}

func hasType(x map[string]any, want string) bool {
	for _, t := range list(property(x, "@type")) {
		if s, ok := t.(string); ok && isType(s, want) {
			return true
		}
	}
	return false
}

// property is a value by name, also under a prefix: "schema:name",
// "https://schema.org/name".
func property(x map[string]any, name string) any {
	if v, ok := x[name]; ok {
		return v
	}
	for _, prefix := range []string{"schema:", "https://schema.org/", "http://schema.org/"} {
		if v, ok := x[prefix+name]; ok {
			return v
		}
	}
	return nil
}

// list is a value as a list, lists in it laid flat: JSON-LD lets one stand for many.
func list(v any) []any {
	switch x := v.(type) {
	case nil:
		return nil
	case []any:
		var out []any
		for _, e := range x {
			out = append(out, list(e)...)
		}
		return out
	case map[string]any:
		if inner, ok := x["@list"]; ok {
			return list(inner)
		}
	}
	return []any{v}
}

// maxDepth bounds how deep a document is looked through.
const maxDepth = 32

// choose is the recipe to read: the first that has ingredients, else the first;
// others names those beside it.
func choose(docs []any) (recipe map[string]any, others []string) {
	var all []map[string]any
	for _, doc := range docs {
		all = append(all, recipesIn(doc, 0)...)
	}
	best := 0
	for i, r := range all {
		if len(ingredientsOf(r)) > 0 {
			best = i
			break
		}
	}
	for i, r := range all {
		if i != best {
			others = append(others, fmt.Sprintf("another recipe beside it, %q", words(property(r, "name"))))
		}
	}
	if len(all) == 0 {
		return nil, nil
	}
	return all[best], others
}

// recipesIn finds every object of type Recipe, in the order of the keys; what is
// inside one is not looked through.
func recipesIn(doc any, depth int) (out []map[string]any) {
	if depth > maxDepth {
		return nil
	}
	switch x := doc.(type) {
	case []any:
		for _, e := range x {
			out = append(out, recipesIn(e, depth+1)...)
		}
	case map[string]any:
		if hasType(x, "Recipe") {
			return []map[string]any{x}
		}
		for _, key := range sortedKeys(x) {
			out = append(out, recipesIn(x[key], depth+1)...)
		}
	}
	return out
}
