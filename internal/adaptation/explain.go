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
// bounds that would break if this line alone went back; where none would, what the
// dish would lose or gain too much of beside the other changes.
func (m *model) change(g int, c cell, chosen []int) Change {
	if a, ok := m.additionOf(g); ok {
		return m.added(a, c, chosen)
	}
	ch := Change{Line: g, From: m.in.Recipe.Lines[g].Reading.Text, Option: *c.option, Why: []string{c.option.Rule.Why}}
	for _, r := range m.unkept[g] {
		ch.For = appendNew(ch.For, r.who)
		ch.Why = append(ch.Why, r.text)
	}
	back, ok := m.wentBack(g, chosen)
	if ok {
		for _, a := range m.brokenBy(back) {
			ch.For = appendNew(ch.For, m.in.Household.Members[a.member].Name)
			ch.Why = append(ch.Why, fmt.Sprintf("Needed for %s.", a.name))
		}
	}
	if m.insistedOn(g) != nil {
		ch.Why = append(ch.Why, "Asked for.")
	}
	if ok && len(ch.For) == 0 {
		for _, name := range m.unbalancedBy(back) {
			ch.Why = append(ch.Why, fmt.Sprintf("Needed beside the other changes: %s.", name))
		}
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

// wentBack is a choice with line g alone as it was; ok is false where it can't be.
func (m *model) wentBack(g int, chosen []int) (back []int, ok bool) {
	keep := slices.IndexFunc(m.cells[g], func(c cell) bool { return c.option == nil })
	if keep < 0 {
		return nil, false
	}
	back = slices.Clone(chosen)
	back[g] = keep
	return back, true
}

// brokenBy are the asks that a choice fails.
func (m *model) brokenBy(chosen []int) []ask {
	var out []ask
	for i, a := range m.asks {
		if !m.problem.Rows[i].Holds(chosen) {
			out = append(out, a)
		}
	}
	return out
}

// unbalancedBy are the bounds of the dish's balance that a choice fails, in words.
func (m *model) unbalancedBy(chosen []int) []string {
	var out []string
	for _, row := range m.problem.Rows[m.balanceFrom:m.balanceTo] {
		if !row.Holds(chosen) {
			out = append(out, row.Name)
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
