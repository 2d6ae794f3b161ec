package ruleset

import (
	"potwright/internal/household"
	"potwright/internal/kitchen"
)

func (r *needReader) handsFile(top value) {
	m := top.mapping("actions", "vessels", "boils")
	seen := map[string]bool{}
	for _, v := range r.part(m, "vessels").list() {
		before := len(v.src.faults)
		if x := r.vessel(v, seen); v.src.sound(before, kitchen.HandLoad, x.ID, v.line()) {
			r.book.Vessels = append(r.book.Vessels, x)
		}
	}
	for _, v := range r.part(m, "boils").list() {
		before := len(v.src.faults)
		if x := r.boil(v, seen); v.src.sound(before, kitchen.HandLoad, x.ID, v.line()) {
			r.book.Boils = append(r.book.Boils, x)
		}
	}
	for _, v := range r.part(m, "actions").list() {
		before := len(v.src.faults)
		if a := r.handAction(v, seen); v.src.sound(before, kitchen.HandLoad, a.ID, v.line()) {
			r.book.Actions = append(r.book.Actions, a)
		}
	}
}

func (r *needReader) handAction(v value, seen map[string]bool) household.HandAction {
	m := v.mapping("id", "title", "line", "kinds", "unless", "step", "not", "loads", "lifts", "drains", "easier", "effect", "source")
	a := household.HandAction{
		ID: r.id(m, seen), Title: m.need("title").text(),
		Line: household.Signs{Words: m.get("line").texts(), Kinds: m.get("kinds").words("kind", r.kinds),
			NotStates: m.get("unless").texts()},
		Step: m.get("step").texts(), NotIn: m.get("not").texts(), Loads: map[string]int{},
		Lifts: m.get("lifts").yes(), Drains: m.get("drains").yes(), Easier: m.need("easier").text(),
		Effect: effect(m.need("effect")), Source: m.need("source").text(),
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

// effect reads what an easier way does to the dish and to the purse.
func effect(v value) household.Effect {
	m := v.mapping("nutrients", "yield", "cost")
	if v.absent() {
		return household.Effect{}
	}
	return household.Effect{Nutrients: m.need("nutrients").text(), Yield: m.need("yield").text(),
		Cost: household.CostClass(m.need("cost").word("cost class", household.CostClasses()))}
}

// heaviest bounds the weight of a pot and of what it holds, kg.
const heaviest = 30

func (r *needReader) vessel(v value, seen map[string]bool) household.Vessel {
	m := v.mapping("id", "title", "words", "holds_kg", "kg", "source")
	out := household.Vessel{ID: r.id(m, seen), Title: m.need("title").text(), Words: m.get("words").texts(),
		HoldsKg: m.get("holds_kg").positive(heaviest), Kg: m.need("kg").positive(heaviest), Source: m.need("source").text()}
	if !m.has("words") && !m.has("holds_kg") {
		v.fault("nothing tells when it is taken", "words, or holds_kg")
	}
	return out
}

func (r *needReader) boil(v value, seen map[string]bool) household.Boil {
	m := v.mapping("id", "kinds", "water", "source")
	return household.Boil{ID: r.id(m, seen), Kinds: m.need("kinds").words("kind", r.kinds),
		Water: m.need("water").positive(heaviest), Source: m.need("source").text()}
}
