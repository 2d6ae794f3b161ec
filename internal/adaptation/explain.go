package adaptation

import (
	"fmt"
	"slices"
)

// changes are the changed lines and additions of a choice, explained.
func (m *model) changes(chosen []int) []Change {
	var out []Change
	for g, cells := range m.cells {
		if c := cells[chosen[g]]; c.option != nil {
			out = append(out, m.change(g, c, chosen))
		}
	}
	return out
}

// change explains one changed line: the rule's own reason, and the members and
// bounds that would break if this line alone went back.
func (m *model) change(g int, c cell, chosen []int) Change {
	if a, ok := m.additionOf(g); ok {
		return m.added(a, c, chosen)
	}
	ch := Change{Line: g, From: m.in.Recipe.Lines[g].Reading.Text, Option: *c.option, Why: []string{c.option.Rule.Why}}
	for _, r := range m.unkept[g] {
		ch.For = appendNew(ch.For, r.who)
		ch.Why = append(ch.Why, r.text)
	}
	for _, a := range m.brokenWithout(g, chosen) {
		ch.For = appendNew(ch.For, m.in.Household.Members[a.member].Name)
		ch.Why = append(ch.Why, fmt.Sprintf("Needed for %s.", a.name))
	}
	if m.insistedOn(g) != nil {
		ch.Why = append(ch.Why, "Asked for.")
	}
	return ch
}

// added explains an addition: what it makes up for, and for whom that went.
func (m *model) added(a addition, c cell, chosen []int) Change {
	ch := Change{Line: WholeDish, Option: *c.option, Why: []string{c.option.Rule.Why}, For: m.lossFor(a.restores, chosen)}
	if a.asked {
		ch.Why = append(ch.Why, "Asked for.")
	} else {
		ch.Why = append(ch.Why, fmt.Sprintf("It makes up for the %s that the changes take.", a.restores))
	}
	return ch
}

// brokenWithout are the asks that fail when line g alone goes back to what it
// was, the other choices left as they are.
func (m *model) brokenWithout(g int, chosen []int) []ask {
	keep := -1
	for k, c := range m.cells[g] {
		if c.option == nil {
			keep = k
		}
	}
	if keep < 0 {
		return nil
	}
	back := append([]int(nil), chosen...)
	back[g] = keep
	var out []ask
	for i, a := range m.asks {
		if !m.problem.Rows[i].Holds(back) {
			out = append(out, a)
		}
	}
	return out
}

// appendNew appends a word that is not empty and not there yet.
func appendNew(list []string, word string) []string {
	if word == "" || slices.Contains(list, word) {
		return list
	}
	return append(list, word)
}
