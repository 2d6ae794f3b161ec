package foodmatch

import (
	"math"

	"potwright/internal/composition"
	"potwright/internal/measure"
)

// densities are grams per millilitre by kind, narrow kinds first, for foods
// without a measure of their own. Sources: ratios of grams to cups of that kind
// in USDA SR28; "from memory" where marked.
var densities = []struct {
	kind  string
	gPerM float64
}{
	{"oil", 0.92}, {"water", 1.00}, {"broth", 1.01}, {"wine", 0.99}, {"spirit", 0.94}, {"vinegar", 1.01},
	{"plant_milk", 1.02}, {"soy_milk", 1.03}, {"buttermilk", 1.03}, {"cream_soup", 1.06}, {"condensed_soup", 1.06},
	{"fruit_juice", 1.04}, {"citrus_juice", 1.03}, {"vegetable_juice", 1.03}, {"syrup", 1.36}, {"honey", 1.43},
	{"soy_sauce", 1.08}, {"hot_sauce", 1.0}, {"pasta_sauce", 1.08}, {"tomato_soup", 1.03}, {"soup", 1.03},
	{"mayonnaise", 0.93}, {"salad_dressing", 1.0}, {"sour_cream", 0.97}, {"yogurt", 1.04}, {"cottage_cheese", 0.95},
	{"cream_cheese", 0.98}, {"cream", 1.01}, {"margarine", 0.95}, {"butter", 0.96}, {"animal_fat", 0.87}, {"fat", 0.92},
	{"nut_butter", 1.08}, {"jam", 1.35}, {"sugar", 0.85}, {"sweetener", 0.85}, {"salt", 1.23}, {"leavening", 0.93},
	{"flour", 0.53}, {"starch", 0.54}, {"bread_crumbs", 0.46}, {"bread", 0.17}, {"dessert", 0.45}, {"bouillon", 0.80}, {"peanut", 0.62}, {"oats", 0.34}, {"rice", 0.78}, {"pasta", 0.45}, {"noodle", 0.35},
	{"cereal", 0.15}, {"dry_beans", 0.80}, {"canned_beans", 0.75}, {"legume", 0.75}, {"hard_cheese", 0.42}, {"cheese", 0.47},
	{"herb_fresh", 0.11}, {"herb_dried", 0.20}, {"herb", 0.16}, {"spice_blend_salted", 0.6}, {"spice", 0.45}, {"tree_nut", 0.48}, {"nut", 0.55}, {"seed", 0.60},
	{"chocolate", 0.70}, {"dried_fruit", 0.62}, {"berry", 0.62}, {"leafy_green", 0.18}, {"mushroom", 0.32}, {"tomato_product", 1.02}, {"tomato", 0.75},
	{"canned_fruit", 0.95}, {"fruit", 0.65}, {"cruciferous", 0.38}, {"potato", 0.63}, {"starchy_vegetable", 0.65}, {"canned_vegetable", 0.75},
	{"vegetable", 0.55}, {"chicken", 0.59}, {"poultry", 0.59}, {"beef", 0.60}, {"pork", 0.58}, {"fish", 0.62}, {"shellfish", 0.62}, {"meat", 0.59},
	{"sauce", 1.05}, {"gravy", 1.05}, {"condiment", 1.03}, {"milk", 1.03}, {"soft_drink", 1.04}, {"coffee", 1.0}, {"tea", 1.0}, {"alcohol", 0.99},
	{"baking_mix", 0.51}, {"gravy_mix", 0.6}, {"seasoning_mix", 0.6}, {"ice_cream", 0.60}, {"whipped_topping", 0.32}, {"tofu", 1.05}, {"egg", 1.03}, {"cracker", 0.30}, {"candy", 0.75}, {"snack", 0.12},
}

// usualDensity stands for a food of which nothing else is known.
const usualDensity = 0.65

// densityOf is grams per millilitre by the food's kind; name is "" where no
// kind is known.
func densityOf(f *composition.Food) (gPerML float64, name string) {
	for _, d := range densities {
		if f.HasKind(d.kind) && !(d.kind == "flour" && f.HasState("cooked")) {
			return d.gPerM, d.kind
		}
	}
	if f.Nutrients[composition.Water].Known && f.Nutrients[composition.Water].Mid > 85 {
		return 1.0, "water"
	}
	return usualDensity, ""
}

// GramsPerMillilitre is by the food's heaviest measure of volume, since a cup may also
// be whipped or sifted; 0 where the table has none.
func GramsPerMillilitre(f *composition.Food) float64 {
	most := 0.0
	for _, m := range f.Measures {
		if u, ok := measure.FindUnit(m.Unit); ok && u.Kind == measure.Volume && u.Size > 0 && m.Amount > 0 {
			most = math.Max(most, m.Grams/(m.Amount*u.Size))
		}
	}
	return most
}
