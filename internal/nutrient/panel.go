// Package nutrient computes panels from matched lines: per line, for the pot
// and per serving, every amount a range and every unknown listed.
package nutrient

import (
	"potwright/internal/composition"
	"potwright/internal/foodmatch"
	"potwright/internal/spread"
)

// Panel is one amount per nutrient, in the nutrient's unit. What the amounts
// are of (a line, the pot, a serving, a plate) is said by the field that holds
// the panel.
type Panel [composition.NutrientCount]Amount

// Amount is a range and how many parts of it are unknown: where Unknown > 0
// the range covers the known parts only and is a lower bound.
type Amount struct {
	spread.Range
	Unknown int
}

// LinePanel is what one line brings to the pot.
type LinePanel struct {
	// ID tells this line's own doubts from those of others.
	ID string
	// Matched is the line; it may be shared and must not be changed. Nil only for
	// figures that are of no line.
	Matched *foodmatch.Matched
	// Servings are those of the whole dish.
	Servings float64
	// Grams of edible portion as they go in; Finished what is left of them in the
	// finished dish, water taken up or driven off included.
	Grams, Finished spread.Range
	// Cooked is what cooking took from each food, by item; nil where nothing.
	Cooked []Cooked
	Panel  Panel
	// Doubts are the independent sources of uncertainty of this line.
	Doubts []Doubt
	// AtTable lines are offered at the table: they are no part of the pot's sums.
	AtTable bool
}

// Doubt is one independent source of uncertainty: the half-widths it adds to
// each nutrient, below and above the middle. Doubts of one Factor in several
// lines move together (two lines of the same food); different factors are
// independent.
type Doubt struct {
	Factor   Factor
	Down, Up [composition.NutrientCount]float64
}

// Factor names a source of doubt.
type Factor struct {
	Of Doubted
	// ID is of the item in doubt ("3.0" is the first food of line 3), of the food for
	// OfContent ("sr:02047"), and whatever tells it apart for OfOther.
	ID string
}

// Doubted is what is in doubt.
type Doubted uint8

// What is in doubt of a line's food.
const (
	OfGrams   Doubted = iota // the weight
	OfContent                // the composition of the food
	OfMatch                  // which food it is
	OfCooking                // what cooking takes
	OfOther                  // something that is of no line

	ofItem = OfOther // so many are of an item
)

// Pot is the whole dish.
type Pot struct {
	Servings float64
	Lines    []LinePanel
	// Total is the pot, Serving is Total ÷ Servings; what is offered at the
	// table is in neither.
	Total, Serving Panel
	// Table is what one serving's share of the things at the table holds.
	Table Panel
	// Finish is what is known of the finished dish besides its lines.
	Finish Finish
	// YieldGrams and YieldMillilitres are the weight and volume of the finished
	// dish.
	YieldGrams, YieldMillilitres spread.Range
	// Unknown lists, by nutrient, the indices of the lines that leave it unknown.
	Unknown map[composition.Nutrient][]int
}

// Matched are the foods of the pot's lines, those at the table too, in order.
func (p Pot) Matched() []foodmatch.Matched {
	out := make([]foodmatch.Matched, len(p.Lines))
	for i := range p.Lines {
		out[i] = *p.Lines[i].Matched
	}
	return out
}
