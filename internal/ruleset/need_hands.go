package ruleset

import (
	"potwright/internal/household"
	"potwright/internal/kitchen"
)

func (r *needReader) handsFile(top value) {
	m := top.mapping("actions")
	seen := map[string]bool{}
	for _, v := range m.need("actions").list() {
		before := len(v.src.faults)
		if a := r.handAction(v, seen); v.src.sound(before, kitchen.HandLoad, a.ID, v.line()) {
			r.book.Actions = append(r.book.Actions, a)
		}
	}
}

func (r *needReader) handAction(v value, seen map[string]bool) household.HandAction {
	m := v.mapping("id", "title", "line", "kinds", "unless", "step", "not", "loads", "lifts", "easier", "source")
	a := household.HandAction{
		ID: r.id(m, seen), Title: m.need("title").text(),
		Line: household.Signs{Words: m.get("line").texts(), Kinds: m.get("kinds").words("kind", r.kinds),
			NotStates: m.get("unless").texts()},
		Step: m.get("step").texts(), NotIn: m.get("not").texts(), Loads: map[string]int{},
		Lifts: m.get("lifts").yes(), Easier: m.need("easier").text(), Source: m.need("source").text(),
	}
	loads := m.need("loads").mapping(household.Loads()...)
	for _, name := range loads.order() {
		a.Loads[name] = loads.get(name).whole(0, 3)
	}
	if len(a.Line.Words)+len(a.Line.Kinds)+len(a.Step) == 0 {
		v.fault("nothing to know it by", "line, kinds or step")
	}
	return a
}
