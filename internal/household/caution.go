package household

import (
	"fmt"
	"slices"
	"strings"

	"potwright/internal/composition"
	"potwright/internal/diagnostic"
	"potwright/internal/label"
)

// Caution is something on a plate that a member was told to watch. It warns and
// refers; it is no verdict, and its absence says nothing.
type Caution struct {
	ID    string
	Title string
	// Sure is false where only a label, a thermometer or the cook can tell.
	Sure bool
	Text string // one sentence: what was found
	Say  string // what to do about it
	// Lines are indices of the ingredient lines it comes from.
	Lines  []int
	Source string
}

// Heat is what the method does to a line, as far as it tells.
type Heat int

// What a method may tell of a line's heat.
const (
	HeatNotTold Heat = iota
	HeatedThrough
	NotHeated
)

// PlateFoods is what cautions look at: the foods of a dish, its steps, and what
// one plate of it holds.
type PlateFoods struct {
	Foods []LineFood
	Steps []string
	// Amounts looks up what the plate holds; nil where it is not computed.
	Amounts Amounts
}

// Caution finds a caution of the book by id, title or another word for it.
func (n *Needs) Caution(key string) (CautionRule, bool) {
	id, ok := n.cautionNames[plainKey(key)]
	return n.cautions[id].rule, ok
}

// CautionRules lists the cautions of the book in the order written.
func (n *Needs) CautionRules() []CautionRule { return slices.Clone(n.book.Cautions) }

// cautionsOf are the cautions that hold for a member, each once: those ticked,
// those they include, and those of the member's age.
func (n *Needs) cautionsOf(m Member) []caution {
	var out []caution
	seen := map[string]bool{}
	var add func(id string)
	add = func(id string) {
		c, ok := n.cautions[id]
		if !ok || seen[id] {
			return
		}
		seen[id] = true
		out = append(out, c)
		for _, in := range c.rule.Includes {
			add(in)
		}
	}
	for _, key := range m.Cautions {
		add(n.cautionNames[plainKey(key)])
	}
	for _, r := range n.book.Cautions {
		if r.UnderAge > 0 && m.Age > 0 && m.Age < r.UnderAge {
			add(r.ID)
		}
	}
	return out
}

// Cautions are those that a plate raises for a member, in the order ticked. A
// word that no caution of the book answers to raises one that says so.
func (n *Needs) Cautions(m Member, p PlateFoods) []Caution {
	var out []Caution
	for _, key := range m.Cautions {
		if _, ok := n.cautionNames[plainKey(key)]; !ok {
			out = append(out, Caution{ID: key, Title: key, Text: fmt.Sprintf("The caution %q is not in the rulebook: nothing can be told about it.", key),
				Say: "Correct it among the member's cautions.", Source: "the household's own words"})
		}
	}
	watched := n.cautionsOf(m)
	if len(watched) == 0 {
		return out
	}
	method, seen := n.method(p.Steps), n.see(p.Foods)
	for _, c := range watched {
		out = append(out, c.onLines(seen, method)...)
		if found, ok := c.onPlate(seen, p.Amounts); ok {
			out = append(out, found)
		}
	}
	return out
}

// onLines are the surely and the maybe raised cautions of one rule, each with all
// of its lines.
func (c *caution) onLines(foods []seenLine, m method) []Caution {
	// Where an amount raises it, foods do so only for what is not computed.
	if c.rule.Amount != nil {
		return nil
	}
	found := map[bool]*Caution{}
	texts := map[bool][]string{}
	for i := range foods {
		l := &foods[i]
		why, sure, ok := c.raisedBy(l, m)
		if !ok {
			continue
		}
		f := found[sure]
		if f == nil {
			f = c.found(sure)
			found[sure] = f
		}
		if slices.Contains(f.Lines, l.Line) {
			continue
		}
		f.Lines = append(f.Lines, l.Line)
		text := fmt.Sprintf("%q", l.name())
		if why != "" {
			text += " (" + why + ")"
		}
		texts[sure] = append(texts[sure], text)
	}
	var out []Caution
	for _, sure := range []bool{true, false} {
		if f := found[sure]; f != nil {
			lead := "Look at "
			if !sure {
				lead = "May matter: "
			}
			f.Text = lead + strings.Join(texts[sure], "; ") + "."
			out = append(out, *f)
		}
	}
	return out
}

func (c *caution) found(sure bool) *Caution {
	return &Caution{ID: c.rule.ID, Title: c.rule.Title, Sure: sure, Say: c.rule.Say, Source: c.rule.Source}
}

// raisedBy reports whether a line raises the caution, and whether surely.
func (c *caution) raisedBy(l *seenLine, m method) (why string, sure, ok bool) {
	if !c.bySigns() {
		return "", false, false
	}
	why, sure, ok = c.shown(l)
	if !ok {
		return "", false, false
	}
	if _, gone := c.goneBy.find(l.said); gone || l.Food != nil && m.about(c.gone, l.head) {
		return "", false, false
	}
	if c.rule.Heat && !c.keeps(l, m) {
		switch l.Heat {
		case HeatedThrough:
			return "", false, false
		case HeatNotTold:
			return "the method does not tell whether it is heated through", false, true
		}
	}
	return why, sure, true
}

// keeps reports whether the words leave the caution although there is heat.
func (c *caution) keeps(l *seenLine, m method) bool {
	if _, ok := c.still.find(l.said); ok {
		return true
	}
	return l.Food != nil && m.about(c.stays, l.head)
}

// shown looks for the signs of the caution on a line: surely by its food or its
// words, maybe by what it may also mean or by a food that may hold it.
func (c *caution) shown(l *seenLine) (why string, sure, ok bool) {
	if _, found := c.signs.inText(l.said); found || c.signs.onFood(l.Food, l.foodName, l.said) {
		return "", true, true
	}
	for i := range c.carriers {
		s := &c.carriers[i]
		if _, found := s.inText(l.said); found && !s.excludes(l.Food) || s.onFood(l.Food, l.foodName, l.said) {
			return s.why, false, true
		}
	}
	for _, f := range l.Candidates {
		if _, found := c.signs.inFood(f, tokens(f.Name), l.said); found {
			return "it may mean " + f.Name, false, true
		}
	}
	return "", false, false
}

// onFood reports whether the food of a line shows the sign. Where the line's own
// words are those of a look-alike, the food was only the nearest in the table and
// is not trusted.
func (s *signs) onFood(f *composition.Food, name, line []string) bool {
	if s.not.in(line) {
		return false
	}
	_, ok := s.inFood(f, name, line)
	return ok
}

// onPlate raises a caution by how much the plate holds.
func (c *caution) onPlate(foods []seenLine, amounts Amounts) (Caution, bool) {
	a := c.rule.Amount
	if a == nil || amounts == nil {
		return Caution{}, false
	}
	out := *c.found(true)
	holds := amounts(a.Nutrient)
	for i := range foods {
		l := &foods[i]
		if _, _, ok := c.shown(l); ok && !slices.Contains(out.Lines, l.Line) {
			out.Lines = append(out.Lines, l.Line)
		}
	}
	switch {
	case holds.Mid >= a.AtLeast:
		out.Text = fmt.Sprintf("The plate holds about %s of %s.", label.Text(a.Nutrient, holds.Mid), a.Nutrient.Name())
	case holds.High >= a.AtLeast:
		out.Sure = false
		out.Text = fmt.Sprintf("The plate may hold as much as %s of %s.", label.Text(a.Nutrient, holds.High), a.Nutrient.Name())
	case holds.Unknown > 0 && len(out.Lines) > 0:
		out.Sure = false
		out.Text = fmt.Sprintf("Not all of the %s on the plate is known, and some lines may hold much of it.", a.Nutrient.Name())
	default:
		return Caution{}, false
	}
	return out, true
}

// SteadyCautions are those that a changed plate raises because it differs from
// the plate of the recipe before.
func (n *Needs) SteadyCautions(m Member, before, after Amounts) []Caution {
	var out []Caution
	for _, c := range n.cautionsOf(m) {
		s := c.rule.Steady
		if s == nil {
			continue
		}
		was, is := before(s.Nutrient), after(s.Nutrient)
		diff := is.Mid - was.Mid
		if diff < 0 {
			diff = -diff
		}
		if was.Unknown+is.Unknown > 0 || diff < s.AtLeast || diff*100 < s.Percent*was.Mid {
			continue
		}
		way := "more"
		if is.Mid < was.Mid {
			way = "less"
		}
		f := c.found(true)
		f.Text = fmt.Sprintf("The changed dish brings %s of %s to the plate, where it brought %s: %s than before.",
			label.Text(s.Nutrient, is.Mid), s.Nutrient.Name(), label.Text(s.Nutrient, was.Mid), way)
		out = append(out, *f)
	}
	return out
}

// Bars is what keeps foods out of what a swap brings in for one member, ready to be held
// against many.
type Bars struct {
	needs    *Needs
	disliked []Avoidance
	watched  []caution
}

// Bars makes what keeps foods out for a member ready.
func (n *Needs) Bars(m Member) Bars {
	only := func(c caution) bool { return c.rule.OnlyWarns }
	return Bars{needs: n, disliked: n.disliked(m), watched: slices.DeleteFunc(n.cautionsOf(m), only)}
}

// On are the bars that foods raise: what the member does not like, and by id the cautions
// that one of them surely raises.
func (b *Bars) On(foods []LineFood) []string {
	out := b.needs.dislikes(b.disliked, foods)
	if len(b.watched) == 0 {
		return out
	}
	seen := b.needs.see(foods)
	for i := range b.watched {
		for k := range seen {
			if _, sure, ok := b.watched[i].raisedBy(&seen[k], method{}); ok && sure {
				out = append(out, b.watched[i].rule.ID)
				break
			}
		}
	}
	return out
}

// nearestCaution says what a key might have been.
func (n *Needs) nearestCaution(key string) string {
	var ids []string
	for _, r := range n.book.Cautions {
		ids = append(ids, r.ID)
	}
	if near := diagnostic.Nearest(key, ids); near != "" {
		return fmt.Sprintf("%q", near)
	}
	return "one of " + strings.Join(ids, ", ")
}
