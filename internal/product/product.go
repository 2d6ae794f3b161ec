// Package product is a food of a household's own pantry, typed in from its
// package label: read into a food of the table whose contents are ranges no
// narrower than the rounding of the label.
package product

import (
	"strconv"
	"time"

	"potwright/internal/composition"
	"potwright/internal/label"
)

// Product is a label as a household saved it.
type Product struct {
	ID      int64     `json:"id"`
	SavedAt time.Time `json:"saved_at"`
	Label   Label     `json:"label"`
}

// FoodID is the id of the product's food: "own:7".
func (p Product) FoodID() string { return composition.OwnPrefix + strconv.FormatInt(p.ID, 10) }

// Panel is how a label states its figures.
type Panel string

// Panels.
const (
	US       Panel = "us"    // per serving, 21 CFR 101.9
	EU       Panel = "eu"    // per 100 g, Regulation (EU) 1169/2011
	EULiquid Panel = "eu_ml" // per 100 ml, the same
)

// rules are the rounding rules of the panel.
func (p Panel) rules() label.Rules {
	if p == US {
		return label.US
	}
	return label.EU
}

// Label is a package label as typed; Read makes sense of it. It is kept in these
// words, so that what was typed can always be shown and changed.
type Label struct {
	// Name is what the household calls it: "canned tomatoes, no salt added".
	Name string `json:"name"`
	// LikeID is the id of the food of the table that it is like: what kind of food
	// it is, for rules, and how it weighs by volume. May be "".
	LikeID string `json:"like,omitempty"`
	// Borrow is set where what the label does not say may be taken from that food,
	// with a wide range.
	Borrow bool  `json:"borrow,omitempty"`
	Panel  Panel `json:"panel"`
	// Serving is the serving size: "1/2 cup (120 g)", "30 g", "240 mL".
	Serving string `json:"serving,omitempty"`
	// Servings is how many a container holds: "3.5", "about 2".
	Servings string `json:"servings,omitempty"`
	// Container is what it comes in, one of Containers; "" for a package.
	Container string `json:"container,omitempty"`
	// Net is the net weight of the container: "425 g", "15 oz (425 g)".
	Net string `json:"net,omitempty"`
	// Ingredients is the list of ingredients as printed; "" where it was not typed.
	Ingredients string `json:"ingredients,omitempty"`
	// Figures are the amounts as printed, by the key of a Field: "140", "<5",
	// "less than 1 g", "10 %" of the daily value. One that is not there, or empty,
	// is unknown.
	Figures map[string]string `json:"figures,omitempty"`
	// Tolerance is set where the ranges should hold all that the law lets a label be
	// off by, not its rounding alone.
	Tolerance bool `json:"tolerance,omitempty"`
}

// Containers are what a product may come in, the plain package first.
func Containers() []string {
	return []string{"package", "can", "jar", "carton", "bottle", "bag", "box", "container"}
}

// Field is a line of a label's panel.
type Field struct {
	// Key is that of the nutrient, or "energy_kj" and "salt_g".
	Key, Name string
	// Unit is the unit a figure without one is taken in.
	Unit     string
	Nutrient composition.Nutrient
	// OnUS and OnEU are set where such a panel has the line; Main where it always
	// has.
	OnUS, OnEU, Main bool
}

// Keys of the two lines that only European panels have.
const (
	energyKJ = "energy_kj"
	saltKey  = "salt_g"
)

// Fields lists the lines of a panel in the order of 21 CFR 101.9(c), those of
// European panels beside their like.
func Fields() []Field {
	line := func(n composition.Nutrient, us, eu, main bool) Field {
		return Field{Key: n.Key(), Name: n.Name(), Unit: n.Unit(), Nutrient: n, OnUS: us, OnEU: eu, Main: main}
	}
	return []Field{
		{Key: energyKJ, Name: "energy in kJ", Unit: "kJ", Nutrient: composition.Energy, OnEU: true, Main: true},
		line(composition.Energy, true, true, true),
		line(composition.Fat, true, true, true),
		line(composition.SaturatedFat, true, true, true),
		line(composition.TransFat, true, false, true),
		line(composition.Cholesterol, true, false, true),
		line(composition.Sodium, true, true, true),
		{Key: saltKey, Name: "salt", Unit: "g", Nutrient: composition.Sodium, OnEU: true, Main: true},
		line(composition.Carbohydrate, true, true, true),
		line(composition.Fibre, true, true, true),
		line(composition.Sugars, true, true, true),
		line(composition.AddedSugars, true, false, true),
		line(composition.Protein, true, true, true),
		line(composition.VitaminD, true, true, false),
		line(composition.Calcium, true, true, false),
		line(composition.Iron, true, true, false),
		line(composition.Potassium, true, true, false),
		line(composition.Phosphorus, true, true, false),
		line(composition.Magnesium, true, true, false),
		line(composition.VitaminC, true, true, false),
		line(composition.VitaminK, true, true, false),
	}
}
