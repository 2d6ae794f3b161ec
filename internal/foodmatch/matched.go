// Package foodmatch turns the reading of an ingredient line into a food of the
// table and the grams of it that go into the pot.
package foodmatch

import (
	"potwright/internal/composition"
	"potwright/internal/ingredient"
	"potwright/internal/measure"
	"potwright/internal/spread"
)

// State is how far a line was understood.
type State string

// States of a line.
const (
	Read    State = "read"    // food and grams follow from the words
	Assumed State = "assumed" // something was assumed; Notes say what
	Unread  State = "unread"  // no food or no grams: its nutrients are unknown
	Skipped State = "skipped" // left out: optional, or the person said so
)

// Matched is a line with its food and grams.
type Matched struct {
	Reading ingredient.Reading
	State   State
	// Items are the foods of the line, usually one; "salt and pepper" has two.
	Items []Item
	Notes []string
	// Measures is whose cups and spoons the line was measured in.
	Measures measure.System
	// Confidence that food and grams are right, 0..1.
	Confidence float64
}

// Item is one food of a line.
type Item struct {
	Food *composition.Food
	// Grams of edible portion that go into the pot.
	Grams spread.Range
	// Candidates are the foods the phrase may mean, best first, Food included.
	Candidates []composition.Candidate
	// GramsFrom says what the weight rests on: "written weight", "measure of
	// this food", "usual size", "default for to taste", …
	GramsFrom string
	// PouredOff is set where the words say that most of it is thrown away, and the
	// grams are already those taken up.
	PouredOff bool
}
