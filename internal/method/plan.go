package method

import (
	"strings"

	"potwright/internal/foodmatch"
	"potwright/internal/swap"
)

// plan finds where every changed food is used and where the words of its rule
// go. A rule's step that moves a food is left out where the dish has no place
// for it: then the new food stands where the old one stood.
func (w *writer) plan(c *change) {
	c.use = w.old.useOf(func(m *Mention) bool { return c.is(m) && !w.stays(m) })
	hidden := c.use.step < 0
	if hidden {
		c.use = w.old.meant(c.oldKinds)
	}
	for _, e := range c.edits() {
		switch e.Do {
		case "move":
			w.move(c, e)
		case "add":
			w.addText(c, e)
		}
	}
	if hidden && !c.sameFood() {
		w.unsaid(c)
	}
	for _, t := range c.option.AtTable {
		w.offered = append(w.offered, t)
		w.offeredBy = c.index
	}
}

// move takes foods out of their sentence and says them in one of the rule's.
func (w *writer) move(c *change, e swap.MethodEdit) {
	stove, oven := w.old.from(c.use)
	liquid := w.old.liquid()
	text := strings.ToLower(e.Text)
	at, u := e.At, c.use
	switch {
	case c.use.step < 0:
	case e.At == "end" && strings.Contains(text, "fold") && oven:
		if pan := w.old.pan(c.use); pan.step >= 0 {
			at, u = "ahead", pan
		}
	case e.At == "end" && strings.HasPrefix(text, "put "):
	case e.At == "end" && (oven || !stove) && !c.opts("put"):
		return // nothing to stir it into at the end: it goes in where it went
	case e.At == "start" && strings.Contains(text, "liquid"):
		if liquid.step < 0 || !liquid.before(c.use) {
			return
		}
		at, u = "with", liquid
	case e.At == "with" && !stove && simmers(text):
		if !oven {
			w.mark(c.use.step, c, "the new step needs heat, and the method has none after this one.")
		}
		return
	}
	if at == "with" && u == c.use && w.old.alone(c) {
		at = "ahead" // in place of its own clause, before what comes next
		c.warms = simmers(text)
	}
	w.added.put(e.Text, at, u, c.index)
	c.without(e.Text)
	if c.use.step < 0 && at != "start" && at != "end" && len(w.old.steps) > 0 {
		w.mark(-1, c, "the method does not mention the "+c.oldName()+", so this is said at the end: "+finished(e.Text))
	}
}

// opts reports whether one of the rule's own edits begins with a word.
func (c *change) opts(first string) bool {
	for _, e := range c.edits() {
		if strings.HasPrefix(strings.ToLower(e.Text), first+" ") {
			return true
		}
	}
	return false
}

func simmers(text string) bool {
	return strings.Contains(text, "simmer") || strings.Contains(text, "boil") || strings.Contains(text, "warm it through")
}

// addText adds a rule's step. One that only tells how the new food is cooked
// joins the sentence that cooks it.
func (w *writer) addText(c *change, e swap.MethodEdit) {
	if e.At == "before" && c.use.step >= 0 && c.cooking == "" {
		if rest, ok := c.cookedAs(e.Text); ok && w.old.steps[c.use.step][c.use.sentence].cooks(c) {
			c.cooking = rest
			c.withoutMore(rest)
			return
		}
	}
	if e.At == "before" || e.At == "start" {
		c.together(e.Text)
	}
	at := e.At
	if at == "before" && c.use.step >= 0 && startsCooking(e.Text) && (len(c.fresh) == 1 || grinds(e.Text)) && w.old.steps[c.use.step][c.use.sentence].cooks(c) {
		at = "after"
		if c.replaces = !grinds(e.Text); c.replaces {
			at = "with"
		}
	}
	if c.use.step < 0 && at == "before" {
		at = "start"
	}
	w.added.put(e.Text, at, c.use, c.index)
	if c.use.step < 0 && at != "start" && at != "end" && len(w.old.steps) > 0 {
		w.mark(-1, c, "the method does not mention the "+c.oldName()+", so this is said at the end: "+finished(e.Text))
	}
}

// unsaid deals with a food that no step names: nothing is to be done where a
// word such as "the seasonings" means the new food too.
func (w *writer) unsaid(c *change) {
	if len(w.old.steps) == 0 || c.leaves || len(c.names) == 0 {
		return
	}
	u := w.old.useOf(func(m *Mention) bool { return m.Ambiguous() && (m.Line == c.line || hasInt(m.Others, c.line)) })
	if u.step >= 0 && !w.unclearAt(u, c) {
		return
	}
	if u.step < 0 {
		u = w.old.meant(c.oldKinds)
	}
	var foods []string
	for i, n := range c.names {
		if c.told(i) || u.step >= 0 && (i == 0 && c.made > 0 || w.old.means(u, freshKinds(c, i))) {
			continue
		}
		foods = append(foods, n)
	}
	if len(foods) == 0 {
		return
	}
	if u.step < 0 {
		u = w.old.firstWork()
		w.mark(u.step, c, "the method does not mention the "+c.oldName()+"; see whether the "+join(foods)+" should go in here.")
	}
	w.added.put("Add the "+join(foods)+" as well.", "with", u, c.index)
}

// told reports whether a step of the rule names the i-th fresh food.
func (c *change) told(i int) bool {
	for _, e := range c.edits() {
		if e.Do == "add" && (c.made > 0 && i == 0 && e.At == "with" || c.sayIn(e.Text, i)) {
			return true
		}
	}
	return false
}

// unclearAt reports whether a mention in a sentence may mean the changed food
// and not what comes in its place.
func (w *writer) unclearAt(u use, c *change) bool {
	for _, t := range w.old.steps[u.step][u.sentence].tokens {
		if t.mention != nil && w.unclear(t.mention, c) {
			return true
		}
	}
	return false
}

func kindsOf(m foodmatch.Matched, part int) func(string) bool {
	return func(kind string) bool {
		return part < len(m.Items) && m.Items[part].Food != nil && m.Items[part].Food.HasKind(kind)
	}
}

// freshKinds are the kinds of the i-th fresh food.
func freshKinds(c *change, i int) func(string) bool {
	for _, l := range c.option.Lines {
		if i == 0 && c.made > 0 {
			return kindsOf(l, 0) // what is put together goes by its main food
		}
		if i < len(c.fresh) && l.Reading.Text == c.fresh[i].Text {
			return kindsOf(l, 0)
		}
	}
	return func(string) bool { return false }
}
