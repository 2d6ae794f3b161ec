package pages

import (
	"context"
	"fmt"
	"net/http"
	"strings"

	"github.com/gin-gonic/gin"

	"potwright/internal/household"
	"potwright/internal/kitchen"
)

// recipesPage lists the household's recipes.
type recipesPage struct {
	frame
	Recipes []recipeRow
}

// recipeRow is one recipe of the list; Verdict is "" where it was not looked at.
type recipeRow struct {
	Link, Title, Versions, Saved, Verdict string
	Mark                                  household.Fit
}

// checkedRows is how many recipes of a list are checked on the spot: each is
// read afresh, which takes a few milliseconds.
const checkedRows = 20

func (s *Site) listRecipes(c *gin.Context) error {
	h, fr, err := s.household(c, "recipes", "Recipes")
	if err != nil {
		return err
	}
	list, err := s.store.ListRecipes(c.Request.Context(), h.ID)
	if err != nil {
		return fmt.Errorf("list recipes of household %d: %w", h.ID, err)
	}
	p := recipesPage{frame: fr}
	p.Caution = len(list) > 0 && len(h.Members) > 0
	for i, r := range list {
		row := recipeRow{Link: fmt.Sprintf("%s/recipes/%d", fr.Base, r.ID), Title: r.Title,
			Versions: countWords(r.Versions, "version", "versions"), Saved: r.SavedAt.Format("2 January 2006")}
		if i < checkedRows && len(h.Members) > 0 {
			if row.Mark, row.Verdict, err = s.glance(c.Request.Context(), h, r); err != nil {
				return err
			}
		}
		p.Recipes = append(p.Recipes, row)
	}
	return s.show(c, http.StatusOK, "recipes", p)
}

// glance is the worst verdict of a recipe for everyone, in words.
func (s *Site) glance(ctx context.Context, h household.Household, r kitchen.RecipeSummary) (household.Fit, string, error) {
	_, a, err := s.kitchen.Open(ctx, h.ID, r.LatestID)
	if err != nil {
		return "", "", fmt.Errorf("open version %d: %w", r.LatestID, err)
	}
	report := s.kitchen.Check(a, h)
	if report.Fits {
		return report.Fit, "suits everyone", nil
	}
	var suits []string
	for _, p := range report.Plates {
		if p.Fits && len(p.Provided) == 0 {
			suits = append(suits, p.Member.Name)
		}
	}
	if len(suits) == 0 {
		return report.Fit, "suits nobody as it is", nil
	}
	return report.Fit, "suits " + strings.Join(suits, ", ") + " as it is", nil
}
