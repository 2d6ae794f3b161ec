// Package ingredient reads one ingredient line into its parts and writes one
// back.
package ingredient

import "potwright/internal/measure"

// Amount is a quantity of a unit.
type Amount struct {
	Quantity measure.Quantity
	Unit     measure.Unit
}

// Part says which columns of the line a part was read from: runes From..To,
// counting from 0, To excluded.
type Part struct {
	Name     string // quantity, unit, container, other, food, further, alternative, state, preparation, note
	From, To int
}

// Reading is what one ingredient line means. Text is kept as written.
type Reading struct {
	Text string
	// HasAmount is false for "salt to taste" and lines without a number.
	HasAmount bool
	Amount    Amount
	// Container is the size of each can or package: "1 (14.5 oz) can".
	HasContainer bool
	Container    Amount
	// Other holds further measures written on the line, "1 lb (about 3 medium)".
	Other []Amount
	// Size is small, medium, large, extra large, or "".
	Size string
	// Food is the food phrase in lower case: "chicken broth".
	Food string
	// States in the normal form of composition.Phrase.
	States []string
	// Preparation words as written: "finely chopped", "peeled".
	Preparation []string
	Optional    bool
	ToTaste     bool // "to taste", "as needed", "for greasing": UseOf says which
	UseOf       string
	PlusMore    bool // "plus more for serving"
	// Alternatives are the other foods of an "or"; each is a whole reading.
	Alternatives []Reading
	// Together are further foods on the same line, "salt and pepper to taste":
	// each a whole reading. Empty for a line with one food.
	Together []Reading
	Parts    []Part
	// Notes are the assumptions made, each a sentence for the cook.
	Notes []string
	// Confidence that the parts are right, 0..1.
	Confidence float64
}
