package pages

import (
	"fmt"
	"slices"
	"strings"

	"github.com/gin-gonic/gin"

	"potwright/internal/kitchen"
	"potwright/internal/recipe"
)

// strayView is a correction that has no line any more.
type strayView struct {
	Mark string // which one it is
	Says string // what became of it
	// Meant is what it said of its line.
	Meant string
}

func strayViews(a kitchen.Analysis) (views []strayView) {
	for _, c := range a.Recipe.Strays {
		views = append(views, strayView{string(kitchen.MarkOf(c)), c.Stray(), meantWords(a, c.Correction)})
	}
	return views
}

// meantWords are what a correction says a line means.
func meantWords(a kitchen.Analysis, c recipe.Correction) string {
	var parts []string
	if c.FoodID != "" {
		name := "a food that is no longer in the table"
		if food, ok := a.Table.ByID(c.FoodID); ok {
			name = food.Name
		}
		parts = append(parts, name)
	}
	if c.Grams != nil {
		parts = append(parts, rangeWords(*c.Grams, "g"))
	}
	if c.Skip {
		parts = append(parts, "left out of the sums")
	}
	return strings.Join(parts, ", ")
}

// dropStray lets a correction that has no line any more go, in a new version.
func (s *Site) dropStray(c *gin.Context) error {
	f, err := readForm(c)
	if err != nil {
		return err
	}
	o, err := s.openFrom(c, f)
	if err != nil {
		return err
	}
	rec := o.analysis.Recipe
	i := slices.IndexFunc(rec.Strays, func(c recipe.LineCorrection) bool { return string(kitchen.MarkOf(c)) == f.text("stray") })
	if i < 0 {
		return kitchen.ErrNotFound
	}
	note := "Let the correction of “" + short(rec.Strays[i].Words, recipe.MostNote/2) + "” go"
	rec.Strays = slices.Delete(slices.Clone(rec.Strays), i, i+1)
	ctx := c.Request.Context()
	a, err := s.kitchen.Reread(ctx, o.household.ID, o.version.Text, rec.Corrections())
	if err != nil {
		return fmt.Errorf("read recipe without a stray correction: %w", err)
	}
	if _, err := s.kitchen.SaveEdit(ctx, o.household.ID, o.version, a, note); err != nil {
		return fmt.Errorf("let a correction go: %w", err)
	}
	return seeOther(c, o.base+"?done=stray")
}
