package label

import (
	"strings"

	"potwright/internal/composition"
)

// customary is the amount customarily consumed of foods of a kind: grams, or
// millilitres where grams is 0; neither where it goes by the dish made of it or is
// not in the table below.
type customary struct {
	kind   string
	state  string // "" for any
	word   string // in the name; "" for any
	grams  float64
	millis float64
	what   string
}

// customaries are reference amounts of 21 CFR 101.12(b), table 2 (text of 2015; the
// changes of 2016, 81 FR 34000, from memory), narrow kinds first. Spoons and cups
// are those of labels: 5, 15 and 240 ml, 101.9(b)(5)(viii).
var customaries = []customary{
	{kind: "bouillon"}, // without amounts: goes by the dish made of it
	{kind: "soup_mix"},
	{kind: "condensed_soup"},
	{kind: "soup", state: "dried"},
	{kind: "candy"},
	{kind: "pie_crust"},
	{kind: "broth", grams: 245, what: "soups"},
	{kind: "soup", grams: 245, what: "soups"},
	{kind: "pasta_sauce", grams: 125, what: "major main entrée sauces"},
	{kind: "gravy_mix"},
	{kind: "gravy", millis: 60, what: "gravies, 1/4 cup"},
	{kind: "soy_sauce", millis: 15, what: "major condiments, 1 tablespoon"},
	{kind: "vinegar", millis: 15, what: "major condiments, 1 tablespoon"},
	{kind: "hot_sauce", millis: 5, what: "minor condiments, 1 teaspoon"},
	{kind: "cottage_cheese", grams: 110, what: "cottage cheese"},
	{kind: "cheese", word: "ricotta", grams: 55, what: "ricotta, as an ingredient"},
	{kind: "cheese", word: "grated", grams: 5, what: "hard cheese, grated"},
	{kind: "cheese", word: "topping", grams: 5, what: "hard cheese, grated"},
	{kind: "cheese", grams: 30, what: "cheese"},
	{kind: "greek_yogurt", grams: 170, what: "yogurt"},
	{kind: "yogurt", grams: 170, what: "yogurt"},
	{kind: "sour_cream", grams: 30, what: "sour cream"},
	{kind: "cream_soup"},
	{kind: "ice_cream"},
	{kind: "dry_milk"},
	{kind: "mayonnaise", grams: 15, what: "mayonnaise"},
	{kind: "salad_dressing", grams: 30, what: "dressings for salads"},
	{kind: "butter", millis: 15, what: "butter, 1 tablespoon"},
	{kind: "margarine", millis: 15, what: "margarine, 1 tablespoon"},
	{kind: "oil", millis: 15, what: "oils, 1 tablespoon"},
	{kind: "nut_butter", millis: 30, what: "nut butters, 2 tablespoons"},
	{kind: "peanut_butter", millis: 30, what: "nut butters, 2 tablespoons"},
	{kind: "jam", millis: 15, what: "jams, 1 tablespoon"},
	{kind: "plant_milk", state: "canned"},
	{kind: "plant_milk", millis: 240, what: "milk substitutes"},
	{kind: "tofu", grams: 85, what: "tofu"},
	{kind: "cracker", grams: 30, what: "crackers"},
	{kind: "bread_crumbs", grams: 30, what: "bread crumbs"},
	{kind: "dessert"},
	{kind: "bread", word: "tortilla", grams: 55, what: "tortillas"},
	{kind: "bread", word: "biscuit", grams: 55, what: "biscuits"},
	{kind: "bread", word: "croissant", grams: 55, what: "croissants"},
	{kind: "bread", word: "bagel", grams: 110, what: "bagels"},
	{kind: "bread", word: "muffin", grams: 110, what: "muffins"},
	{kind: "bread", grams: 50, what: "breads"},
	{kind: "flour", grams: 30, what: "flours"},
	{kind: "starch", grams: 10, what: "starches"},
	{kind: "pasta", state: "cooked", grams: 140, what: "pastas, prepared"},
	{kind: "pasta", grams: 55, what: "pastas, dry"},
	{kind: "rice", state: "cooked", grams: 140, what: "grains, prepared"},
	{kind: "rice", grams: 45, what: "grains, dry"},
	{kind: "canned_beans", grams: 130, what: "beans, canned in liquid"},
	{kind: "dry_beans", grams: 35, what: "beans, dry"},
	{kind: "tomato_product", word: "paste", grams: 30, what: "tomato paste"},
	{kind: "tomato_product", word: "sauce", grams: 60, what: "tomato sauce"},
	{kind: "tomato_product", word: "puree", grams: 60, what: "tomato purée"},
	{kind: "canned_vegetable", word: "juice", millis: 240, what: "vegetable juice"},
	{kind: "canned_vegetable", grams: 130, what: "vegetables, canned in liquid"},
	{kind: "vegetable_juice", millis: 240, what: "vegetable juice"},
	{kind: "pickle", grams: 30, what: "pickles"},
	{kind: "canned_fish", grams: 85, what: "fish, canned"},
	{kind: "bacon", grams: 15, what: "bacon"},
	{kind: "deli_meat", grams: 55, what: "luncheon meats"},
	{kind: "tree_nut", grams: 30, what: "nuts"},
	{kind: "peanut", grams: 30, what: "nuts"},
	{kind: "seed", grams: 30, what: "seeds"},
	{kind: "dried_fruit", grams: 40, what: "dried fruits"},
	{kind: "canned_fruit", grams: 140, what: "fruits, canned"},
	{kind: "milk", state: "dried"},
	{kind: "milk", word: "dry"},
	{kind: "milk", word: "evaporated", millis: 30, what: "evaporated milk"},
	{kind: "milk", word: "condensed", millis: 30, what: "condensed milk"},
	{kind: "milk", millis: 240, what: "milk"},
}

// Reference finds the amount customarily consumed of a food by its kinds, in grams,
// and the category it stands for. It is false where the table does not tell; a
// volume needs a measure of the food by volume.
func Reference(f *composition.Food, gramsPerMillilitre float64) (grams float64, what string, ok bool) {
	for _, c := range customaries {
		if !f.HasKind(c.kind) || c.state != "" && !f.HasState(c.state) || !strings.Contains(f.Name, c.word) {
			continue
		}
		if c.grams > 0 {
			return c.grams, c.what, true
		}
		grams = c.millis * gramsPerMillilitre
		return grams, c.what, grams > 0
	}
	return 0, "", false
}
