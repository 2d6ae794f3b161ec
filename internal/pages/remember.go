package pages

import (
	"errors"
	"fmt"

	"github.com/gin-gonic/gin"

	"potwright/internal/foodmatch"
	"potwright/internal/kitchen"
	"potwright/internal/recipe"
)

// phrase is what a line's food is remembered by.
func (o opened) phrase(line int) string {
	phrase, _, _ := foodmatch.Remembered(o.analysis.Remembered, o.analysis.Recipe.Lines[line].Reading)
	return phrase
}

// remembered is what the household remembers of a line's words, empty where nothing.
func (o opened) remembered(line int) recipe.Correction { return o.analysis.Remembered[o.phrase(line)] }

// otherFood is what someone else remembers of the same words by now.
type otherFood struct {
	collision
	now kitchen.Mark
}

// remember keeps a food for a line's words; a weight belongs to this line alone. Where
// someone else chose another food for them since seen, nothing is saved, and both are
// given.
func (s *Site) remember(c *gin.Context, o opened, line int, foodID string, seen kitchen.Mark) (*otherFood, error) {
	ctx, mine := c.Request.Context(), recipe.Correction{FoodID: foodID}
	err := s.store.RememberChoice(ctx, o.household.ID, o.phrase(line), mine, seen)
	if !errors.Is(err, kitchen.ErrChanged) {
		return nil, err
	}
	choices, err := s.store.Choices(ctx, o.household.ID)
	if err != nil {
		return nil, fmt.Errorf("find what is remembered: %w", err)
	}
	theirs := choices[o.phrase(line)]
	if theirs == mine {
		return nil, nil
	}
	words := func(c recipe.Correction) []string {
		said := "“" + o.analysis.Recipe.Lines[line].Reading.Food + "” "
		food, known := o.analysis.Table.ByID(c.FoodID)
		switch {
		case c.Skip:
			return []string{said + "is left out of the sums"}
		case !known:
			return []string{said + "is left to the words of the line"}
		}
		return []string{said + "means " + food.Name}
	}
	self := fmt.Sprintf("%s/lines/%d", o.base, line+1)
	return &otherFood{*newCollision(self, words(theirs), words(mine)), kitchen.MarkOf(theirs)}, nil
}
