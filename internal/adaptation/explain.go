package adaptation

import (
	"fmt"
)

// change explains one changed line: the rule's own reason, and the members and
// bounds that would break if this line alone went back.
func (m *model) change(g int, c cell, chosen []int) Change {
	ch := Change{Line: g, From: m.in.Recipe.Lines[g].Reading.Text, Option: *c.option, Why: []string{c.option.Rule.Why}}
	forWhom := newNames()
	for _, r := range m.unkept[g] {
		forWhom.add(r.who)
		ch.Why = append(ch.Why, r.text)
	}
	for _, a := range m.brokenWithout(g, chosen) {
		forWhom.add(m.in.Household.Members[a.member].Name)
		ch.Why = append(ch.Why, fmt.Sprintf("Needed for %s.", a.name))
	}
	if m.insistedRule(g) != "" {
		ch.Why = append(ch.Why, "Asked for.")
	}
	ch.For = forWhom.list
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

// names is a list without doubles, in the order of first mention.
type names struct {
	list []string
	seen map[string]bool
}

func newNames() *names { return &names{seen: map[string]bool{}} }

func (n *names) add(name string) {
	if name != "" && !n.seen[name] {
		n.seen[name] = true
		n.list = append(n.list, name)
	}
}
