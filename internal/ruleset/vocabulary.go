package ruleset

import (
	"sort"

	"potwright/internal/composition"
)

// vocabulary is the words that files may use for foods, kinds and states: those
// of the food table.
type vocabulary struct {
	foods         []string
	byName        map[string]*composition.Food
	kinds, states []string
	kindsAndFoods []string
}

func newVocabulary(foods []*composition.Food) *vocabulary {
	v := &vocabulary{byName: make(map[string]*composition.Food, len(foods))}
	kinds, states := map[string]bool{}, map[string]bool{}
	for _, f := range foods {
		v.byName[f.Name] = f
		for _, k := range f.Kinds {
			kinds[k] = true
		}
		for _, s := range f.States {
			states[s] = true
		}
	}
	for name := range v.byName {
		v.foods = append(v.foods, name)
	}
	sort.Strings(v.foods)
	v.kinds, v.states = sortedKeys(kinds), sortedKeys(states)
	v.kindsAndFoods = append(append([]string(nil), v.kinds...), v.foods...)
	return v
}

func sortedKeys(m map[string]bool) []string {
	out := make([]string, 0, len(m))
	for k := range m {
		out = append(out, k)
	}
	sort.Strings(out)
	return out
}

// food reads the name of a table row; nil, with a fault, where there is none.
func (v *vocabulary) food(at value) *composition.Food {
	name := at.text()
	if name == "" {
		return nil
	}
	f, ok := v.byName[name]
	if !ok {
		at.faultWord("food", name, v.foods)
	}
	return f
}

func (v *vocabulary) foodNames(at value) []string {
	var out []string
	for _, e := range at.list() {
		if f := v.food(e); f != nil {
			out = append(out, f.Name)
		}
	}
	return out
}
