package schemaorg

import (
	"strconv"
	"strings"

	"golang.org/x/net/html"
)

// words is a value as one line of text: strings without tags, numbers, the text
// or name of an object, "value unitText" of a QuantitativeValue.
func words(v any) string {
	switch x := v.(type) {
	case string:
		return oneLine(plain(x))
	case float64:
		return strconv.FormatFloat(x, 'f', -1, 64)
	case []any:
		for _, e := range x {
			if s := words(e); s != "" {
				return s
			}
		}
	case map[string]any:
		for _, key := range []string{"@value", "text", "name"} {
			if s := words(x[key]); s != "" {
				return s
			}
		}
		return strings.TrimSpace(words(x["value"]) + " " + words(x["unitText"]))
	}
	return ""
}

// oneLine is a text with its blanks and line ends made single blanks.
func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }

// plain takes tags and entities out of a text; a tag that ends a block becomes
// a new line.
func plain(s string) string {
	var b strings.Builder
	z := html.NewTokenizer(strings.NewReader(html.UnescapeString(s)))
	for {
		switch z.Next() {
		case html.ErrorToken:
			return b.String()
		case html.TextToken:
			b.WriteString(string(z.Text()))
		case html.StartTagToken, html.EndTagToken, html.SelfClosingTagToken:
			name, _ := z.TagName()
			switch string(name) {
			case "br", "p", "li", "div", "ol", "ul", "h1", "h2", "h3", "h4":
				b.WriteString("\n")
			}
		}
	}
}
