package recipe

import (
	"strconv"
	"strings"
)

// Text writes a recipe as plain text that Parse reads back to the same title,
// servings, lines and steps with their sections. Notes of the reader are left
// out.
func Text(r Recipe) string {
	var b strings.Builder
	b.WriteString(r.Title + "\n")
	switch {
	case r.YieldText != "":
		b.WriteString("\n" + r.YieldText + "\n")
	case !r.ServingsAssumed && r.Servings > 0:
		b.WriteString("\nServings: " + strconv.FormatFloat(r.Servings, 'f', -1, 64) + "\n")
	}
	b.WriteString("\nIngredients\n")
	section := ""
	for _, l := range r.Lines {
		if l.Section != section {
			section = l.Section
			b.WriteString("\n" + sectionText(section, "Ingredients") + "\n")
		}
		b.WriteString(l.Reading.Text + "\n")
	}
	if len(r.Steps) == 0 {
		return b.String()
	}
	b.WriteString("\nMethod\n")
	section = ""
	for i, s := range r.Steps {
		if s.Section != section {
			section = s.Section
			b.WriteString("\n" + sectionText(section, "Method") + "\n")
		}
		b.WriteString("\n" + strconv.Itoa(i%99+1) + ". " + s.Text + "\n")
	}
	return b.String()
}

// sectionText is the heading of a section; the part's own heading ends one.
func sectionText(section, part string) string {
	if section == "" {
		return part
	}
	return section + ":"
}
