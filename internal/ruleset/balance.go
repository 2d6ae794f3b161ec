package ruleset

import (
	"fmt"

	"potwright/internal/composition"
	"potwright/internal/kitchen"
	"potwright/internal/measure"
	"potwright/internal/swap"
)

// balanceFile reads one function of a dish: its unit, its band and what foods
// bring of it.
func (r *swapReader) balanceFile(top value) {
	before := len(top.src.faults)
	m := top.mapping("function", "unit", "low", "high", "enough", "why", "brings")
	name := m.need("function").word("function", functionNames())
	f, ok := swap.ParseFunction(name)
	b := swap.Balance{
		Function: f,
		Unit:     m.need("unit").text(),
		Low:      m.need("low").number(0, 1),
		High:     m.get("high").number(1, 100),
		Enough:   m.get("enough").number(0, 1e6),
		Why:      m.need("why").text(),
	}
	for _, v := range m.need("brings").list() {
		b.Brings = append(b.Brings, r.brings(v))
	}
	if !ok {
		return
	}
	for _, other := range r.balances {
		if other.Function == f {
			m.get("function").fault(fmt.Sprintf("function %q has a file already", name), "one file for each")
			return
		}
	}
	if top.src.sound(before, kitchen.DishBalance, name, top.line()) {
		r.balances = append(r.balances, b)
	}
}

func (r *swapReader) brings(v value) swap.Brings {
	m := v.mapping("foods", "kinds", "not_kinds", "states", "not_states", "per_100g", "nutrient", "factor", "source")
	out := swap.Brings{
		Foods: r.foodNames(m.get("foods")), Kinds: m.get("kinds").words("kind", r.kinds),
		NotKinds: m.get("not_kinds").words("kind", r.kinds), States: m.get("states").words("state", r.states),
		NotStates: m.get("not_states").words("state", r.states), Source: m.need("source").text(),
	}
	switch {
	case m.has("per_100g") == m.has("nutrient"):
		v.fault("an amount is told twice or not at all", `either "per_100g" or "nutrient" with "factor"`)
	case m.has("per_100g"):
		out.Per100g = m.get("per_100g").number(0, 1e6)
	default:
		out.Nutrient = nutrient(m.get("nutrient"))
		out.Factor = m.need("factor").positive(1e6)
	}
	return out
}

// nutrient reads the key of a nutrient with its unit, such as "sodium_mg".
func nutrient(v value) composition.Nutrient {
	key, ok := v.scalar("a nutrient")
	if !ok {
		return 0
	}
	n, known := composition.ParseNutrient(key)
	if !known {
		v.faultNutrient(key)
	}
	return n
}

func (v value) faultNutrient(key string) {
	var keys []string
	for _, n := range composition.Nutrients() {
		keys = append(keys, n.Key())
		// "sodium" or "sodium_g" is meant for the one with the right unit.
		if stem, _, found := cutLast(key, '_'); n.Name() == key || found && n.Name() == stem {
			v.fault(fmt.Sprintf("unknown nutrient %q", key), fmt.Sprintf("%q", n.Key()))
			return
		}
	}
	v.faultWord("nutrient", key, keys)
}

func cutLast(s string, sep byte) (before, after string, found bool) {
	for i := len(s) - 1; i >= 0; i-- {
		if s[i] == sep {
			return s[:i], s[i+1:], true
		}
	}
	return s, "", false
}

func unitName(v value) string {
	s, ok := v.scalar("a unit")
	if !ok {
		return ""
	}
	u, known := measure.FindUnit(s)
	if !known {
		v.faultWord("unit", s, []string{"tsp", "tbsp", "cup", "fl oz", "ml", "l", "g", "kg", "oz", "lb", "each", "can", "clove", "slice", "stalk"})
	}
	return u.Name
}

func unitNames(v value) []string {
	var out []string
	for _, e := range v.list() {
		if u := unitName(e); u != "" {
			out = append(out, u)
		}
	}
	return out
}
