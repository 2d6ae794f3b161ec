package pages

import (
	"fmt"
	"slices"
	"strings"

	"potwright/internal/foodmatch"
	"potwright/internal/ingredient"
	"potwright/internal/kitchen"
	"potwright/internal/method"
)

// stepPart is a stretch of a step's text with the amount that goes in behind it; ""
// where none is told there.
type stepPart struct{ Text, Amount string }

// stepUse is an ingredient that a step speaks of, the whole amount of its line.
type stepUse struct {
	Text string
	// Or are the lines the words may mean as well.
	Or []string
	// Elsewhere says that other steps use the line too, so that nobody puts all of
	// it in here.
	Elsewhere string
}

// mentions are where the steps of a dish speak of its lines.
type mentions struct {
	steps [][]method.Mention
	lines []foodmatch.Matched
	by    measuring
	// in are the steps that speak of a line, in order.
	in map[int][]int
}

func mentionsOf(a kitchen.Analysis, by measuring) mentions {
	m := mentions{by: by, lines: a.Pot.Matched(), in: map[int][]int{}}
	m.steps = method.Mentions(a.Recipe.Steps, m.lines)
	for i, said := range m.steps {
		for _, x := range said {
			if !slices.Contains(m.in[x.Line], i) {
				m.in[x.Line] = append(m.in[x.Line], i)
			}
		}
	}
	return m
}

// inStep is the text of a step with each line's amount behind the first words that
// speak of it. No amount stands where the words may mean another line, where the step
// tells a part of it itself, or where an earlier step has used it.
func (m mentions) inStep(text string, at int) []stepPart {
	runes, from := []rune(text), 0
	var out []stepPart
	seen := map[int]bool{}
	for _, x := range m.steps[at] {
		if x.Ambiguous() || seen[x.Line] || x.To > len(runes) || m.in[x.Line][0] < at || tellsPart(string(runes[:x.From])) {
			continue
		}
		seen[x.Line] = true
		amount := m.amount(x)
		if amount == "" {
			continue
		}
		if len(m.in[x.Line]) > 1 {
			amount += " in all"
		}
		out, from = append(out, stepPart{string(runes[from:x.To]), amount}), x.To
	}
	return append(out, stepPart{Text: string(runes[from:])})
}

// amount is how much a line brings of what is mentioned, "" where it does not say.
func (m mentions) amount(x method.Mention) string {
	r := m.lines[x.Line].Reading
	if x.Part > 0 && x.Part <= len(r.Together) {
		r = r.Together[x.Part-1]
	}
	text := ingredient.AmountText(r)
	if spoons := m.by.spoons(m.lines[x.Line], x.Part); text != "" && spoons != "" {
		text += ", " + spoons
	}
	return text
}

// tellsPart reports whether the words right before a food say how much of it goes in
// here: "2 tablespoons of the", "the rest of the", "half the".
func tellsPart(before string) bool {
	if i := strings.LastIndexAny(before, ".;:,("); i >= 0 {
		before = before[i:]
	}
	ws := strings.Fields(strings.ToLower(before))
	for _, w := range ws[max(0, len(ws)-4):] {
		switch w {
		case "half", "remaining", "rest", "some", "reserved", "quarter", "third", "other", "more", "little":
			return true
		}
		if strings.ContainsAny(w, "0123456789¼½¾⅓⅔⅛") {
			return true
		}
	}
	return false
}

// uses are the lines that a step speaks of, each once, in its order.
func (m mentions) uses(at int) []stepUse {
	var out []stepUse
	seen := map[int]bool{}
	for _, x := range m.steps[at] {
		if seen[x.Line] {
			continue
		}
		seen[x.Line] = true
		u := stepUse{Text: m.lines[x.Line].Reading.Text, Elsewhere: elsewhere(m.in[x.Line], at)}
		for _, other := range x.Others {
			u.Or = append(u.Or, m.lines[other].Reading.Text)
		}
		out = append(out, u)
	}
	return out
}

// elsewhere names the other steps that speak of a line.
func elsewhere(steps []int, at int) string {
	switch {
	case steps[0] < at:
		return fmt.Sprintf("the whole amount; first in step %d", steps[0]+1)
	case len(steps) > 1:
		return fmt.Sprintf("the whole amount; named again in step %d", steps[1]+1)
	}
	return ""
}
