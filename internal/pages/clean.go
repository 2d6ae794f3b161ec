package pages

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"potwright/internal/recipe"
)

// cleanName reads a name; wrong says what is the matter with it.
func cleanName(typed string) (name, wrong string) {
	name = strings.Join(strings.Fields(printable(typed)), " ")
	switch n := utf8.RuneCountInString(name); {
	case n == 0:
		return "", "Write a name."
	case n > nameLimit:
		return "", fmt.Sprintf("Write a shorter name: at most %d characters.", nameLimit)
	}
	return name, ""
}

// printable drops what no keyboard writes: control signs and broken bytes.
func printable(s string) string {
	return strings.Map(func(r rune) rune {
		if r == utf8.RuneError || unicode.IsControl(r) && r != '\n' && r != '\t' {
			return -1
		}
		return r
	}, strings.ToValidUTF8(strings.ReplaceAll(s, "\r\n", "\n"), ""))
}

// isBinary reports whether a text is a file and not words: a zero byte, broken
// UTF-8, or many control signs.
func isBinary(s string) bool {
	if strings.ContainsRune(s, 0) || !utf8.ValidString(s) {
		return true
	}
	return len(strings.ReplaceAll(s, "\r", ""))-len(printable(s)) > 8
}

// checkText says what is wrong with a recipe text before it is read, and what
// of it is kept in the box.
func checkText(typed string, cut bool) (keep, wrong string) {
	switch {
	case cut || len(typed) > recipe.MaxBytes:
		return firstPart(printable(typed[:min(len(typed), keepLimit*2)])),
			fmt.Sprintf("That is far more than a recipe: at most %s characters are read. "+
				"The first part is kept below; cut it down to the one recipe and send it again.", group(recipe.MaxBytes))
	case isBinary(typed):
		return firstPart(printable(typed)),
			"That looks like a file and not like words. Copy the recipe’s own text and paste that; " +
				"what could be read as words is kept below."
	case strings.TrimSpace(typed) == "":
		return typed, "Paste or type a recipe: its title, the ingredients a line each, and the method."
	}
	return typed, ""
}

// firstPart keeps the first keepLimit bytes, whole characters only.
func firstPart(s string) string {
	if len(s) <= keepLimit {
		return s
	}
	return strings.ToValidUTF8(s[:keepLimit], "")
}
