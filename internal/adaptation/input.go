package adaptation

import (
	"time"

	"potwright/internal/choice"
	"potwright/internal/household"
	"potwright/internal/nutrient"
	"potwright/internal/recipe"
	"potwright/internal/swap"
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
	Wishes    Wishes
	Budget    choice.Budget
	Now       func() time.Time
}

// DefaultBudget bounds one search: after it the answer is "best found".
var DefaultBudget = choice.Budget{Nodes: 200_000, Time: 2 * time.Second}
