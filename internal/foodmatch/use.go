package foodmatch

import (
	"slices"

	"potwright/internal/spread"
)

// useDefault is what a use without an amount stands for, in grams for the whole
// dish. All are common practice, no source, and wide on purpose.
type useDefault struct {
	uses  []string // of the reading; nil for any
	kinds []string // of the food; nil for any
	grams spread.Range
	say   string
}

var (
	tasting = []string{"to taste", "seasoning", "as needed", "serving", ""}
	pan     = []string{"greasing", "as needed", "to taste", ""}
	fats    = []string{"oil", "fat", "butter", "margarine", "animal_fat"}
)

var useDefaults = []useDefault{
	{tasting, []string{"salt"}, spread.Range{Low: 0, Mid: 1.5, High: 6}, "a quarter of a teaspoon of salt, from none to a teaspoon"},
	{tasting, []string{"spice", "herb_dried", "spice_blend_salted"}, spread.Range{Low: 0, Mid: 0.5, High: 2}, "a quarter of a teaspoon, from none to a teaspoon"},
	{tasting, []string{"leavening", "sweetener", "sugar", "syrup"}, spread.Range{Low: 0, Mid: 4, High: 25}, "a teaspoon, from none to two tablespoons"},
	{nil, []string{"herb_fresh", "herb", "citrus_peel"}, spread.Range{Low: 0, Mid: 4, High: 15}, "a tablespoon, from none to a quarter of a cup"},
	{[]string{"frying"}, fats, spread.Range{Low: 5, Mid: 15, High: 45}, "a tablespoon of fat taken up, from a teaspoon to three tablespoons"},
	{pan, fats, spread.Range{Low: 0.5, Mid: 4, High: 14}, "a teaspoon of fat, up to a tablespoon"},
	{[]string{"dusting"}, nil, spread.Range{Low: 1, Mid: 8, High: 30}, "a tablespoon, up to a quarter of a cup"},
	{nil, []string{"hot_sauce", "condiment", "vinegar", "citrus_juice", "soy_sauce"}, spread.Range{Low: 0, Mid: 5, High: 30}, "a teaspoon, from none to two tablespoons"},
	{[]string{"frying"}, nil, spread.Range{Low: 5, Mid: 15, High: 45}, "a tablespoon taken up"},
	{[]string{"greasing"}, nil, spread.Range{Low: 0.5, Mid: 4, High: 14}, "a teaspoon, up to a tablespoon"},
	{[]string{"serving", "to taste", "as needed", "seasoning"}, nil, spread.Range{Low: 0, Mid: 20, High: 100}, "about 20 g, from none to 100 g"},
}

// offered is taken for an optional line without an amount.
var offered = spread.Range{Low: 0, Mid: 20, High: 100}

// byUse weighs a line without an amount by what it is for.
func (w *weigher) byUse() {
	r := w.reading
	for _, d := range useDefaults {
		if d.uses != nil && !slices.Contains(d.uses, r.UseOf) || d.kinds != nil && !w.hasAny(d.kinds) {
			continue
		}
		w.set(d.grams, "default for "+useName(r.UseOf))
		w.assume(0.5, "no amount is written; taken as %s", d.say)
		return
	}
	if w.food.HasKind("water") {
		w.set(spread.Between(0, 120, 1000), "default for water")
		w.assume(0.5, "no amount is written; half a cup of water is taken")
		return
	}
	if r.Optional || w.hasAny([]string{"sauce", "cheese", "leafy_green", "salad_dressing", "non_starchy_vegetable", "allium", "fruit", "vegetable", "nut", "seed", "cracker", "bread"}) {
		w.set(offered, "default for no amount")
		w.assume(0.3, "no amount is written; about 20 g is taken, from none to 100 g")
	}
}

func useName(use string) string {
	if use == "" {
		return "no amount"
	}
	return use
}

func (w *weigher) hasAny(kinds []string) bool {
	for _, k := range kinds {
		if w.food.HasKind(k) {
			return true
		}
	}
	return false
}
