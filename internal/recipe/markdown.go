package recipe

import (
	"fmt"
	"strings"
)

// Markdown writes a recipe as CommonMark: headings, a list of ingredients, numbered
// steps, notes. A mark in the recipe's own words is escaped, so that they read as
// they were written.
func Markdown(r Recipe) string {
	var b strings.Builder
	fmt.Fprintf(&b, "# %s\n\n", escaped(r.Title))
	switch {
	case r.YieldText != "":
		fmt.Fprintf(&b, "%s\n\n", escaped(r.YieldText))
	case !r.ServingsAssumed && r.Servings > 0:
		fmt.Fprintf(&b, "Servings: %g\n\n", r.Servings)
	}
	b.WriteString("## Ingredients\n\n")
	section := ""
	for i, l := range r.Lines {
		if l.Section != section {
			section = l.Section
			markdownSection(&b, section, i > 0)
		}
		fmt.Fprintf(&b, "- %s\n", escaped(l.Reading.Text))
	}
	if len(r.Steps) > 0 {
		b.WriteString("\n## Method\n\n")
	}
	section = ""
	for i, s := range r.Steps {
		if s.Section != section {
			section = s.Section
			markdownSection(&b, section, i > 0)
		}
		fmt.Fprintf(&b, "%d. %s\n", i+1, escaped(s.Text))
	}
	if len(r.Notes) > 0 {
		b.WriteString("\n## Notes\n\n")
	}
	for _, n := range r.Notes {
		fmt.Fprintf(&b, "- %s\n", escaped(n))
	}
	return b.String()
}

func markdownSection(b *strings.Builder, name string, after bool) {
	if after {
		b.WriteString("\n")
	}
	if name != "" {
		fmt.Fprintf(b, "### %s\n\n", escaped(name))
	}
}

// escaped puts a backslash before what CommonMark would take for a mark (CommonMark
// 0.31, section 2.4).
func escaped(s string) string {
	var b strings.Builder
	for i, r := range s {
		lineMark := i == 0 && strings.ContainsRune("#+-=>", r)
		if lineMark || strings.ContainsRune("\\`*_[]<>&|~", r) {
			b.WriteByte('\\')
		}
		b.WriteRune(r)
	}
	return b.String()
}
