package pages

import (
	"fmt"
	"strings"
)

// text is the list as plain text, a line a thing.
func (p shoppingPage) text() string {
	var b strings.Builder
	fmt.Fprintln(&b, "Shopping list")
	for _, d := range p.Dishes {
		if d.Here.On {
			fmt.Fprintf(&b, "for %s of %s\n", typedServings(d.Servings.Value), d.Here.Label)
		}
	}
	for _, g := range p.Groups {
		fmt.Fprintf(&b, "\n%s\n", g.Title)
		for _, it := range g.Items {
			box := "[ ] "
			if it.Have.On {
				box = "[x] "
			}
			fmt.Fprint(&b, box+it.What)
			if it.Row != "" {
				fmt.Fprintf(&b, " (%s)", it.Row)
			}
			if it.Much != "" {
				fmt.Fprint(&b, ": "+it.Much)
			}
			fmt.Fprintln(&b)
			for _, l := range it.Label {
				fmt.Fprintln(&b, "    label: "+l)
			}
			for _, use := range it.For {
				fmt.Fprintln(&b, "    "+use)
			}
		}
	}
	if len(p.Must) > 0 {
		fmt.Fprintln(&b, "\nLabels must say so")
		for _, m := range p.Must {
			fmt.Fprintln(&b, m)
		}
	}
	if len(p.Groups) > 0 {
		fmt.Fprintln(&b)
		for _, line := range cautions() {
			fmt.Fprintln(&b, line)
		}
	}
	return b.String()
}

// typedServings is a number of servings as typed, in words.
func typedServings(typed string) string {
	if typed == "1" {
		return "1 serving"
	}
	return typed + " servings"
}
