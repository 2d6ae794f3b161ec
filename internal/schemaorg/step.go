package schemaorg

import (
	"fmt"
	"strings"
)

// longestHeading is the longest name of a section, bytes; the recipe reader takes a
// longer line for a step.
const longestHeading = 58

// stepWriter writes recipeInstructions, a step a paragraph.
type stepWriter struct {
	b  *strings.Builder
	ix index
}

func (w stepWriter) line(s string) {
	if s = oneLine(s); s != "" {
		fmt.Fprintf(w.b, "%s\n\n", s)
	}
}

// steps writes text, HowToStep, HowToDirection, HowToSection, ItemList and lists of
// them.
func (w stepWriter) steps(v any, depth int) {
	if depth > maxDepth {
		return
	}
	for _, s := range list(v) {
		switch x := s.(type) {
		case string:
			for _, line := range strings.Split(plain(x), "\n") {
				w.line(line)
			}
		case map[string]any:
			w.object(w.ix.of(x), depth)
		}
	}
}

func (w stepWriter) object(x map[string]any, depth int) {
	inner := property(x, "itemListElement")
	if inner == nil {
		inner = property(x, "steps")
	}
	if inner == nil && hasType(x, "ListItem") {
		inner = property(x, "item")
	}
	text := property(x, "text")
	switch {
	case words(text) != "":
		w.steps(textsOf(text), depth+1)
	case inner != nil:
		if name := words(property(x, "name")); name != "" && hasType(x, "HowToSection") && len(name) <= longestHeading {
			fmt.Fprintf(w.b, "%s:\n\n", strings.TrimRight(name, ": "))
		}
		w.steps(inner, depth+1)
	default:
		w.line(words(property(x, "name")))
	}
}

// textsOf are the strings of a text that may be a list or carry a language.
func textsOf(v any) (out []any) {
	for _, t := range list(v) {
		if s, ok := t.(string); ok {
			out = append(out, s)
			continue
		}
		out = append(out, words(t))
	}
	return out
}
