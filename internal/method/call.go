package method

import (
	"strings"

	"potwright/internal/ingredient"
	"potwright/internal/swap"
)

// lesser are words of a shopping list that steps leave out, where the rest still
// names one food only.
var lesser = newSet(`firm soft silken stick all-purpose unsalted plain low-sodium reduced-sodium no-salt-added salt-free
fat-free reduced-fat low-fat nonfat fat-free unsweetened long-grain raw cooked canned lean boneless skinless large
smooth light extra-firm yellow whole`)

// kept are words that a lesser word before them makes another food.
var kept = newSet(`wheat grain wine pepper onion squash mustard corn tortilla cream`)

// name settles what the steps call each fresh food.
func (c *change) name(b *book) {
	c.names = nil
	for i, r := range c.fresh {
		c.names = append(c.names, c.call(i, r))
	}
	for i, n := range c.names {
		c.names[i] = c.short(b, i, n)
	}
}

// call is the food phrase of a fresh line.
func (c *change) call(i int, r ingredient.Reading) string {
	rule := c.option.Rule
	of := rule != nil && rule.Do == swap.Replace && i < len(rule.With)
	if of && rule.With[i].Same {
		r = c.old // the new line's own words may be cut by its note
	}
	phrase, found := asWritten(r)
	if !found && of && rule.With[i].Same {
		phrase = inFront(r)
	}
	if !found && of && !rule.With[i].Same {
		phrase = rule.With[i].Say
		if phrase == "" {
			phrase = rule.With[i].Food
		}
	}
	phrase, _, _ = strings.Cut(phrase, ",")
	if phrase = strings.TrimSpace(phrase); phrase == "" {
		phrase = r.Food
	}
	return phrase
}

// inFront are the words of a line's food that stand before its first comma.
func inFront(r ingredient.Reading) string {
	piece, _, _ := strings.Cut(r.Text, ",")
	piece, _, _ = strings.Cut(piece, "(")
	var out []string
	for _, f := range strings.Fields(piece) {
		if n := normal(f); n != "or" && hasWord(r.Food, n) {
			out = append(out, f)
		}
	}
	return strings.Join(out, " ")
}

// short leaves out what only the shopping list needs.
func (c *change) short(b *book, i int, phrase string) string {
	fields := strings.Fields(phrase)
	for len(fields) > 1 && lesser[strings.ToLower(fields[0])] && !kept[normal(fields[1])] {
		if len(fields) > 2 && normal(fields[1]) == "milk" || !c.tells(b, i, fields[1:]) {
			break
		}
		fields = fields[1:]
	}
	return strings.Join(fields, " ")
}

// tells reports whether words name the i-th fresh food and no other line or
// fresh food.
func (c *change) tells(b *book, i int, fields []string) bool {
	ws := words(strings.Join(fields, " "))
	if len(ws) == 0 {
		return false
	}
	for at := b.first(ws[0]); at > 0; at = b.names[at].next {
		n := b.name(at)
		if n.line != c.line && strings.Join(n.words, " ") == strings.Join(ws, " ") {
			return false
		}
	}
	for k, other := range c.names {
		if k != i && endsWith(words(other), ws[len(ws)-1:]) {
			return false
		}
	}
	return true
}

// head is the last word of a food, by which a rule's text names it.
func head(phrase string) string {
	ws := words(phrase)
	if len(ws) == 0 {
		return ""
	}
	return ws[len(ws)-1]
}

// saidIn reports whether a rule's text names a fresh food.
func saidIn(text, phrase string) bool {
	h := head(phrase)
	for _, w := range words(text) {
		if w == h {
			return true
		}
		for _, class := range classes[h] {
			if class == w {
				return true
			}
		}
	}
	return false
}

// sayIn reports whether a rule's text names the i-th fresh food, if only among
// "the spices".
func (c *change) sayIn(text string, i int) bool {
	spices := hasWord(text, "spice") && ofKinds(freshKinds(c, i), groups["spice"])
	return spices || saidIn(text, c.names[i])
}

// without takes the fresh foods that a text names out of those the steps say.
func (c *change) without(text string) {
	var fresh []ingredient.Reading
	var names []string
	for i, n := range c.names {
		if c.sayIn(text, i) && !strings.EqualFold(c.fresh[i].Food, c.old.Food) {
			continue
		}
		fresh, names = append(fresh, c.fresh[i]), append(names, n)
	}
	if len(fresh) == len(c.fresh) {
		fresh, names = nil, nil // it speaks of them in other words
	}
	c.fresh, c.names = fresh, names
	c.leaves = len(fresh) == 0
}

// withoutMore takes the foods that a text names out of all but the first.
func (c *change) withoutMore(text string) {
	fresh, names := c.fresh[:1:1], c.names[:1:1]
	for i, n := range c.names[1:] {
		if !c.sayIn(text, i+1) {
			fresh, names = append(fresh, c.fresh[i+1]), append(names, n)
		}
	}
	c.fresh, c.names = fresh, names
}

// together calls the fresh foods that a text puts together by one name.
func (c *change) together(text string) {
	var names []string
	var fresh []ingredient.Reading
	first, n := "", 0
	for i, name := range c.names {
		if c.sayIn(text, i) {
			n++
			if first == "" {
				first = name
			}
			continue
		}
		names, fresh = append(names, name), append(fresh, c.fresh[i])
	}
	if n < 2 || c.made > 0 {
		return
	}
	noun := "mixture"
	if strings.Contains(text, "sauce") && !strings.Contains(text, "tomato sauce") || strings.Contains(text, "until thick") {
		noun = "sauce"
	}
	all := strings.Fields(first)
	if noun == "sauce" || len(all) > 2 {
		all = all[max(0, len(all)-2):]
	}
	all[len(all)-1] = singularWord(all[len(all)-1])
	if k := len(all) - 1; normal(all[k]) == noun {
		all = all[:k] // "the tomato sauce"
	}
	c.made = n
	c.names = append([]string{strings.Join(append(all, noun), " ")}, names...)
	c.fresh = append([]ingredient.Reading{{}}, fresh...)
}

// singularWord is a word in the singular, in its own letter case.
func singularWord(w string) string {
	if s := normal(w); s != strings.ToLower(w) {
		return s
	}
	return w
}
