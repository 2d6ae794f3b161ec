package method

import (
	"strings"

	"potwright/internal/foodmatch"
	"potwright/internal/ingredient"
	"potwright/internal/swap"
)

// LineChange is an option taken on an ingredient line.
type LineChange struct {
	Line   int // index in Recipe.Lines
	Option swap.Option
}

// change is what becomes of one food of a line.
type change struct {
	line, part int
	option     swap.Option
	old        ingredient.Reading
	// fresh are the readings of what comes instead, or of the line with less; none
	// where the food leaves the pot.
	fresh []ingredient.Reading
	// leaves is set where the steps no longer say the food: left out, taken to the
	// table, or said by a step of the rule instead.
	leaves bool
}

// changesOf leaves out changes of lines that are not there.
func changesOf(lines []foodmatch.Matched, given []LineChange) []change {
	var out []change
	for _, g := range given {
		if g.Line >= 0 && g.Line < len(lines) {
			out = append(out, newChange(lines[g.Line], g))
		}
	}
	return out
}

func newChange(m foodmatch.Matched, g LineChange) change {
	c := change{line: g.Line, option: g.Option}
	fresh := freshCount(g.Option)
	c.part = changedPart(m, g.Option.Lines[fresh:])
	c.old = readings(m)[c.part]
	for _, l := range g.Option.Lines[:fresh] {
		c.fresh = append(c.fresh, l.Reading)
	}
	c.leaves = len(c.fresh) == 0
	for _, e := range c.edits() {
		c.leaves = c.leaves || e.Do == "move"
	}
	return c
}

// freshCount is how many of the option's lines stand for the changed food; the
// rest are the line's other foods.
func freshCount(o swap.Option) int {
	n := len(o.Lines)
	if o.Rule != nil {
		switch o.Rule.Do {
		case swap.Omit, swap.ToTable:
			n = 0
		case swap.Replace:
			n = len(o.Rule.With)
		case swap.Reduce, swap.Rinse, swap.Drain:
			n = 1
		}
	}
	return min(n, len(o.Lines))
}

// changedPart is the food of a line that is not among those that stay.
func changedPart(m foodmatch.Matched, stay []foodmatch.Matched) int {
	for p, r := range readings(m) {
		kept := false
		for _, s := range stay {
			kept = kept || strings.EqualFold(s.Reading.Food, r.Food)
		}
		if !kept {
			return p
		}
	}
	return 0
}

func (c *change) edits() []swap.MethodEdit {
	if c.option.Rule == nil {
		return nil
	}
	return c.option.Rule.Method
}

// is reports whether a mention speaks of the changed food and of no line that
// stays.
func (c *change) is(m *Mention) bool { return m.Line == c.line && m.Part == c.part }

// newWords are what the steps call each fresh food.
func (c *change) newWords() []string {
	var out []string
	for i, r := range c.fresh {
		phrase, found := asWritten(r)
		if rule := c.option.Rule; !found && rule != nil && rule.Do == swap.Replace && i < len(rule.With) {
			phrase = rule.With[i].Say
			if phrase == "" {
				phrase = rule.With[i].Food
			}
		}
		phrase, _, _ = strings.Cut(phrase, ",")
		if phrase = strings.TrimSpace(phrase); phrase != "" {
			out = append(out, phrase)
		}
	}
	return out
}

// asWritten is the food phrase of a reading in the letter case of its text;
// found is false where it does not stand there in one piece.
func asWritten(r ingredient.Reading) (phrase string, found bool) {
	for i := range r.Text {
		if end := i + len(r.Food); r.Food != "" && end <= len(r.Text) && strings.EqualFold(r.Text[i:end], r.Food) {
			return r.Text[i:end], true
		}
	}
	return r.Food, false
}

// sameFood reports whether the line keeps its food and only its amount or state
// changes.
func (c *change) sameFood() bool {
	ws := c.newWords()
	return len(ws) == 1 && strings.Join(words(ws[0]), " ") == strings.Join(words(c.old.Food), " ")
}

// name is what notes call the changed food.
func (c *change) name() string {
	if c.old.Food != "" {
		return c.old.Food
	}
	return c.old.Text
}
