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
	word  string   // in the food's name; "" for any
	grams spread.Range
	say   string
}

var (
	tasting = []string{"to taste", "seasoning", "as needed", "serving", ""}
	pan     = []string{"greasing", "as needed", "to taste", ""}
	fats    = []string{"oil", "fat", "butter", "margarine", "animal_fat"}
)

var useDefaults = []useDefault{
	{word: "spray", grams: spread.Range{Low: 0.3, Mid: 1.5, High: 6}, say: "a few seconds of spray"},
	{kinds: []string{"herb_fresh", "citrus_peel"}, grams: spread.Range{Low: 0, Mid: 4, High: 15}, say: "a tablespoon, from none to a quarter of a cup"},
	{uses: tasting, kinds: []string{"salt"}, grams: spread.Range{Low: 0, Mid: 1.5, High: 6}, say: "a quarter of a teaspoon of salt, from none to a teaspoon"},
	{uses: tasting, kinds: []string{"spice", "herb_dried", "spice_blend_salted"}, grams: spread.Range{Low: 0, Mid: 0.5, High: 2}, say: "a quarter of a teaspoon, from none to a teaspoon"},
	{uses: tasting, kinds: []string{"leavening", "sweetener", "sugar", "syrup"}, grams: spread.Range{Low: 0, Mid: 4, High: 25}, say: "a teaspoon, from none to two tablespoons"},
	{uses: nil, kinds: []string{"herb_fresh", "herb", "citrus_peel"}, grams: spread.Range{Low: 0, Mid: 4, High: 15}, say: "a tablespoon, from none to a quarter of a cup"},
	{uses: []string{"frying"}, kinds: fats, grams: spread.Range{Low: 5, Mid: 15, High: 45}, say: "a tablespoon of fat taken up, from a teaspoon to three tablespoons"},
	{uses: pan, kinds: fats, grams: spread.Range{Low: 0.5, Mid: 4, High: 14}, say: "a teaspoon of fat, up to a tablespoon"},
	{uses: []string{"serving"}, kinds: fats, grams: spread.Range{Low: 1, Mid: 7, High: 27}, say: "half a tablespoon, from a little to two tablespoons"},
	{uses: []string{"dusting"}, kinds: nil, grams: spread.Range{Low: 1, Mid: 8, High: 30}, say: "a tablespoon, up to a quarter of a cup"},
	{uses: []string{"thickening"}, kinds: []string{"flour", "starch"}, grams: spread.Range{Low: 3, Mid: 8, High: 24}, say: "a tablespoon, from a teaspoon to three"},
	{uses: []string{"mixing"}, kinds: []string{"milk", "plant_milk", "cream", "yogurt", "broth"}, grams: spread.Range{Low: 5, Mid: 30, High: 120}, say: "two tablespoons, from a teaspoon to half a cup"},
	{uses: []string{"glazing"}, kinds: []string{"milk", "plant_milk", "cream", "egg"}, grams: spread.Range{Low: 2, Mid: 10, High: 30}, say: "two teaspoons, up to two tablespoons"},
	{uses: nil, kinds: []string{"hot_sauce", "condiment", "vinegar", "citrus_juice", "soy_sauce"}, grams: spread.Range{Low: 0, Mid: 5, High: 30}, say: "a teaspoon, from none to two tablespoons"},
	{uses: []string{"frying"}, kinds: nil, grams: spread.Range{Low: 5, Mid: 15, High: 45}, say: "a tablespoon taken up"},
	{uses: []string{"greasing"}, kinds: nil, grams: spread.Range{Low: 0.5, Mid: 4, High: 14}, say: "a teaspoon, up to a tablespoon"},
	{uses: []string{"serving", "to taste", "as needed", "seasoning"}, kinds: nil, grams: spread.Range{Low: 0, Mid: 20, High: 100}, say: "about 20 g, from none to 100 g"},
}

// offered is taken for an optional line without an amount.
var offered = spread.Range{Low: 0, Mid: 20, High: 100}

// byUse weighs a line without an amount by what it is for.
func (w *weigher) byUse() {
	r := w.reading
	for _, d := range useDefaults {
		if d.uses != nil && !slices.Contains(d.uses, r.UseOf) || d.kinds != nil && !w.hasAny(d.kinds) || !hasWord(w.food.Name, d.word) {
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
