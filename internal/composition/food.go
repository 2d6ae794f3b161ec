// Package composition is the food table: nutrients per 100 g edible portion,
// household measures, refuse, groups and states, with search and match.
package composition

import "potwright/internal/spread"

// Content is how much of one nutrient 100 g of the edible portion holds, in the
// nutrient's unit. An unknown content is never zero.
type Content struct {
	Known bool
	// Mid is the best estimate.
	Mid float64
	// SD is the standard deviation between samples (one purchase to the next)
	// where the source gives one or it follows from the standard error and N;
	// 0 where unknown: then Spread uses the food group's usual spread.
	SD float64
	// N is the number of samples behind Mid; 0 where unknown or calculated.
	N int
	// Other is a second published value that differs by over 5 % (HasOther).
	Other    float64
	HasOther bool
	// Bounded is set where the content is known to lie between Low and High,
	// Low <= Mid <= High, as a package label's figure bounds it: no spread between
	// samples is added.
	Bounded   bool
	Low, High float64
}

// Measure is a household measure of a food: Grams is the mean weight of
// Amount Units with standard deviation SD (0 where unknown).
type Measure struct {
	// Amount of the unit that weighs Grams, usually 1.
	Amount float64
	// Unit in singular, normal form: cup, tbsp, tsp, fl oz, slice, clove, stalk,
	// piece, can, large, medium, small, ... ; what the thing itself is ("onion")
	// is written "each".
	Unit string
	// Qualifier says which: "chopped", "sliced", "large", "drained", ...
	Qualifier string
	Grams     float64
	SD        float64
	N         int
}

// Default is a phrase that means a row although it does not name it outright:
// "milk" means whole milk.
type Default struct {
	// Phrase in lower case; words after a comma are states: "corn, canned".
	Phrase string
	// Units it holds for ("tsp", "cup"); empty for any.
	Units []string
	// Weight is how likely, 0..1, against the other rows the phrase may mean.
	Weight float64
	// Why is the reason, for people; "" where the phrase is plain usage.
	Why string
}

// Food is a row of the table. All amounts are for 100 g of the edible portion.
type Food struct {
	// ID is stable: "sr:01001" for a row of USDA SR28 (NDB number), "pw:…" for
	// a row of our own derived from others, "own:…" for a household's product.
	ID string
	// Name is our own short name, unique in the table, such as
	// "butter, salted" or "kidney beans, canned, drained".
	Name string
	// Source names where the figures come from.
	Source string
	// Group is the food group.
	Group Group
	// Refuse is the share of the weight as bought that is not eaten, 0..1
	// (peel, bone, shell).
	Refuse float64
	// States are the words that tell this row from its siblings: raw, cooked,
	// canned, drained, rinsed, frozen, dried, unsalted, salted, low_sodium, ...
	States []string
	// Kinds are what the food is, from wide to narrow: "broth", "cheese",
	// "non_starchy_vegetable", "cured_meat", ... Rules match on them.
	Kinds []string
	// Synonyms are other names cooks use.
	Synonyms []string
	// Ingredients is the list printed on the package of a household's product, ""
	// where it is not known or the food is of the table.
	Ingredients string
	// Imported is set for a food that stands beside the table: where it has no kinds,
	// nobody has said what it is made of.
	Imported bool
	// Defaults are the phrases that mean this row unless more is said.
	Defaults  []Default
	Measures  []Measure
	Nutrients [NutrientCount]Content
}

// Group is a food group of the table, by the source's own number
// (USDA SR28 FD_GROUP, such as 0100 Dairy and Egg Products).
type Group string

// HasKind reports whether the food is of the kind.
func (f *Food) HasKind(kind string) bool { return contains(f.Kinds, kind) }

// HasState reports whether the row is of the state.
func (f *Food) HasState(state string) bool { return contains(f.States, state) }

func contains(words []string, w string) bool {
	for _, x := range words {
		if x == w {
			return true
		}
	}
	return false
}

// Per100g is the content of one nutrient in 100 g as a central 90 % range of
// what one purchase may hold, or as the bounds it is known to lie in; ok is false
// where it is unknown.
func (f *Food) Per100g(n Nutrient) (r spread.Range, ok bool) {
	c := &f.Nutrients[n]
	if !c.Known {
		return spread.Range{}, false
	}
	if c.Bounded {
		return spread.Between(c.Low, c.Mid, c.High), true
	}
	sd := c.SD
	if sd == 0 {
		sd = c.Mid * usualSpread(f, n)
	}
	r = spread.FromSD(c.Mid, sd)
	if c.HasOther {
		r = spread.Between(min(r.Low, c.Other), r.Mid, max(r.High, c.Other))
	}
	return r, true
}
