package method

import (
	"strings"

	"potwright/internal/foodmatch"
	"potwright/internal/ingredient"
	"potwright/internal/swap"
)

// LineChange is an option taken on an ingredient line.
type LineChange struct {
	Line   int // index in Recipe.Lines, below 0 for what is put in besides the lines
	Option swap.Option
}

// change is what becomes of one food of a line.
type change struct {
	index      int // in the changes given
	line, part int
	option     swap.Option
	old        ingredient.Reading
	// fresh are the readings of what the steps say instead, or of the line with
	// less, and names what they call each; none where the food leaves the pot or a
	// step of the rule says it.
	fresh []ingredient.Reading
	names []string
	// leaves is set where the steps no longer say the food.
	leaves bool
	// made are the fresh foods that a step of the rule puts together; the first of
	// names then stands for all of them.
	made int
	// cooking is how the new food is cooked, said after it: ", breaking it up".
	cooking string
	// replaces is set where a rule's step stands in place of the clause that cooked
	// the old food.
	replaces bool
	// warms is set where a rule's step, in place of the old food's sentence, says
	// itself how the pot is heated.
	warms bool
	// named is set once a step has said all the fresh foods.
	named bool
	// oldKinds are the kinds of the changed food.
	oldKinds func(kind string) bool
	// use is where the method first cooks or adds the food.
	use use
}

// changesOf leaves out changes of no line and of lines that are not there.
func changesOf(b *book, given []LineChange) []change {
	var out []change
	for i, g := range given {
		if g.Line >= 0 && g.Line < len(b.lines) {
			c := newChange(b.lines[g.Line].Line, g)
			c.index = i
			c.name(b)
			out = append(out, c)
		}
	}
	return out
}

func newChange(m *foodmatch.Matched, g LineChange) change {
	c := change{line: g.Line, option: g.Option}
	fresh := freshCount(g.Option)
	c.part = changedPart(m, g.Option.Lines[fresh:])
	c.old = *readings(m)[c.part]
	c.oldKinds = kindsOf(*m, c.part)
	for _, l := range g.Option.Lines[:fresh] {
		c.fresh = append(c.fresh, l.Reading)
	}
	c.leaves = len(c.fresh) == 0
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
		case swap.Reduce, swap.Rinse, swap.Drain, swap.First, swap.Second:
			n = 1
		}
	}
	return min(n, len(o.Lines))
}

// changedPart is the food of a line that is not among those that stay.
func changedPart(m *foodmatch.Matched, stay []foodmatch.Matched) int {
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
	if len(c.fresh) != 1 || c.made > 0 {
		return false
	}
	if c.chooses() {
		return false
	}
	if r := c.option.Rule; r != nil && (r.Do != swap.Replace || c.sole() != nil && c.sole().Same) {
		return true
	}
	return strings.Join(words(c.fresh[0].Food), " ") == strings.Join(words(c.old.Food), " ")
}

// chooses reports whether one is taken of two foods that the line names.
func (c *change) chooses() bool {
	r := c.option.Rule
	return r != nil && (r.Do == swap.First || r.Do == swap.Second) && len(c.fresh) > 0
}

// sole is the rule's one ingredient, nil where it has more or none.
func (c *change) sole() *swap.Ingredient {
	if r := c.option.Rule; r != nil && len(r.With) == 1 {
		return &r.With[0]
	}
	return nil
}

// oldName is what marks call the changed food.
func (c *change) oldName() string {
	if c.old.Food != "" {
		return c.old.Food
	}
	return c.old.Text
}
