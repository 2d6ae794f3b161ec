package label

import (
	"math"

	"potwright/internal/composition"
	"potwright/internal/spread"
)

// Amount is a nutrient of a portion as a range. Open is set where a part is not
// known: the range is then a lower bound.
type Amount struct {
	spread.Range
	Open bool
}

// Portion is an amount of food and what it holds, each nutrient in its own unit.
type Portion struct {
	Grams   spread.Range
	Amounts [composition.NutrientCount]Amount
}

// Kind is what the US claim rules take a food for.
type Kind int

// Kinds of food. 21 CFR 101.13(l) and (m).
const (
	SingleFood Kind = iota
	MainDish
	Meal
)

// Sizes of the groups of 101.13(l) and (m), in grams: six and ten ounces, and the
// 40 g portion that counts.
const (
	mainDishGrams = 6 * 28.349523125
	mealGrams     = 10 * 28.349523125
	portionGrams  = 40
)

// KindOf tells a serving's kind from its weight in grams and the grams of each of
// the four food groups in it: grains; fruit and vegetables; milk foods; meat,
// fish, eggs, pulses and nuts. Sauces, gravies and condiments do not count. Whether
// the dish is put forward as a meal is left to the cook.
func KindOf(grams float64, groups [4]float64) Kind {
	portions, present := 0, 0
	for _, g := range groups {
		if n := int(g / portionGrams); n > 0 {
			portions += n
			present++
		}
	}
	switch {
	case present >= 2 && portions >= 3 && grams >= mealGrams:
		return Meal
	case present >= 2 && grams >= mainDishGrams:
		return MainDish
	default:
		return SingleFood
	}
}

// Subject is a food whose figures are held against the definitions of claims.
type Subject struct {
	Serving Portion // the serving as eaten
	Kind    Kind
	// Reference is the amount customarily consumed that the US rule goes by for a
	// single food (21 CFR 101.12(b)), in grams; 0 where it is not known.
	Reference float64
	// Salted and Sugared are set where an ingredient is salt or sugar, or commonly
	// understood to hold it: then "free" of it is not said.
	Salted, Sugared bool
}

// smallReference is the reference amount, in grams, up to which a claim must hold
// per 50 g too (21 CFR 101.61(b)(4)(i)(B) and its siblings).
const smallReference = 30

// in gives a nutrient in so many grams of the food.
func (p Portion) in(n composition.Nutrient, grams float64) Amount {
	a := p.Amounts[n]
	if p.Grams.Low <= 0 {
		return Amount{Open: true}
	}
	share := spread.Between(grams/p.Grams.High, grams/p.Grams.Mid, grams/p.Grams.Low)
	return Amount{Range: a.Range.Times(share), Open: a.Open}
}

// shareOfEnergy is the percentage of the energy that a nutrient brings, at so many
// kcal a gram.
func (p Portion) shareOfEnergy(n composition.Nutrient, perGram float64) Amount {
	a, e := p.Amounts[n], p.Amounts[composition.Energy]
	if e.Open || e.Low <= 0 {
		return Amount{Open: true}
	}
	k := 100 * perGram
	share := spread.Between(k*a.Low/e.High, k*a.Mid/e.Mid, k*a.High/e.Low)
	return Amount{Range: share, Open: a.Open}
}

// high is the upper end, beyond all bounds where a part is not known.
func (a Amount) high() float64 {
	if a.Open {
		return math.Inf(1)
	}
	return a.High
}
