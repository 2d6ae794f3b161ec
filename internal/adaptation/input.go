package adaptation

import (
	"time"

	"potwright/internal/choice"
	"potwright/internal/household"
	"potwright/internal/nutrient"
	"potwright/internal/recipe"
	"potwright/internal/swap"
	"potwright/internal/taste"
)

// Input is what an adaptation is asked: a dish, the people at the table, what
// may be done and what they wish.
type Input struct {
	Recipe recipe.Recipe
	// Pot.Lines[i] belongs to Recipe.Lines[i].
	Pot nutrient.Pot
	// Household holds the members at the table.
	Household household.Household
	Needs     *household.Needs
	Book      *swap.Book
	Read      swap.Reader
	// Cook computes what a part of an option brings once it is cooked in place of
	// a line; nil where nothing is said of the cooking.
	Cook Cook
	// Heat tells what the method does to a line of the recipe; nil where nothing is
	// said of the cooking.
	Heat func(line int) household.Heat
	// Taste says how far salt may fall before it counts as change; nil where
	// nothing is said of it.
	Taste  *taste.Book
	Wishes Wishes
	Budget choice.Budget
	Now    func() time.Time
}

// Cook computes the panel of o.Lines[part], which is cooked in place of a line, or
// besides the lines where line is WholeDish.
// id tells the panel's own doubts from those of others.
type Cook func(id string, line int, o swap.Option, part int) nutrient.LinePanel

// DefaultBudget bounds one search: after it, about a second, the answer is "best
// found" with a bound. It is work and not time, so that no answer hangs on how busy
// the machine is.
const DefaultBudget = choice.Second
