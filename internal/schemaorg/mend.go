package schemaorg

import (
	"encoding/json"
	"fmt"
	"html"
	"strings"

	"potwright/internal/diagnostic"
)

// decode reads JSON, and JSON as pages really hold it: wrapped in a comment or
// CDATA, with comments, trailing commas, line breaks inside strings, or escaped as
// HTML.
func decode(block string) (any, error) {
	block = unwrap(block)
	var doc any
	err := json.Unmarshal([]byte(block), &doc)
	if err == nil {
		return doc, nil
	}
	for _, try := range []string{mend(block), mend(html.UnescapeString(block))} {
		dec := json.NewDecoder(strings.NewReader(try)) // what stands behind the value is left
		if dec.Decode(&doc) == nil {
			return doc, nil
		}
	}
	fault := diagnostic.JSON([]byte(block), err)
	fault.Problem = "the recipe's JSON-LD is broken: " + fault.Problem
	fault.Expected = "JSON as the page was meant to hold; or copy the recipe's words from the page"
	return nil, fault
}

// unwrap takes off what old pages put around a script.
func unwrap(s string) string {
	for _, w := range []struct{ open, close string }{{"//<![CDATA[", "//]]>"}, {"/*<![CDATA[*/", "/*]]>*/"}, {"<![CDATA[", "]]>"}, {"<!--", "-->"}} {
		s = strings.TrimSpace(s)
		if rest, ok := strings.CutPrefix(s, w.open); ok {
			s = strings.TrimSuffix(strings.TrimSpace(rest), w.close)
		}
	}
	return strings.Trim(strings.TrimSpace(s), "\ufeff")
}

// mend drops comments and trailing commas outside of strings and writes control
// characters inside of them as escapes.
func mend(s string) string {
	var b strings.Builder
	inside := false
	for i := 0; i < len(s); i++ {
		c := s[i]
		switch {
		case inside && c == '\\' && i+1 < len(s):
			if !strings.ContainsRune(`"\/bfnrtu`, rune(s[i+1])) {
				b.WriteByte('\\') // a lone backslash stands for itself
			}
			b.WriteByte(c)
			i++
			b.WriteByte(s[i])
		case inside && c < ' ':
			fmt.Fprintf(&b, `\u%04x`, c)
		case c == '"':
			inside = !inside
			b.WriteByte(c)
		case !inside && c == '/' && i+1 < len(s) && (s[i+1] == '/' || s[i+1] == '*'):
			i = afterComment(s, i) - 1
		case !inside && c == ',' && closes(s[i+1:]):
		default:
			b.WriteByte(c)
		}
	}
	return b.String()
}

// afterComment is where the comment that starts at i ends.
func afterComment(s string, i int) int {
	end, skip := "\n", 0
	if s[i+1] == '*' {
		end, skip = "*/", 2
	}
	n := strings.Index(s[i+2:], end)
	if n < 0 {
		return len(s)
	}
	return i + 2 + n + skip
}

// closes reports whether nothing but blanks, commas and comments stands before the
// end of the list or object.
func closes(s string) bool {
	for i := 0; i < len(s); i++ {
		switch c := s[i]; {
		case c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == ',':
		case c == '/' && i+1 < len(s) && (s[i+1] == '/' || s[i+1] == '*'):
			i = afterComment(s, i) - 1
		default:
			return c == '}' || c == ']'
		}
	}
	return false
}
