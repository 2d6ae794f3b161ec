package pages

import (
	"fmt"
	"strconv"

	"github.com/gin-gonic/gin"

	"potwright/internal/kitchen"
)

// dishChoice is what of a household's dishes may be ticked besides those that are.
type dishChoice struct {
	Rest []tick
	// More says how many fold out, and Open unfolds them from the start.
	More string
	Open bool
	// Find looks for dishes; without a name where all are listed.
	Find entry
}

const (
	// mostOffered is how many dishes are offered at once, and fewDishes how many
	// need no folding.
	mostOffered = 40
	fewDishes   = 8
)

// offerDishes is offer over all of a household's dishes and those that find finds.
func (s *Site) offerDishes(c *gin.Context, householdID int64, list []kitchen.RecipeSummary, ticked func(kitchen.RecipeSummary) bool, find string) (chosen []kitchen.RecipeSummary, besides dishChoice, err error) {
	among := list
	if find != "" {
		if among, _, err = s.store.FindRecipes(c.Request.Context(), householdID, kitchen.RecipeQuery{Words: find}); err != nil {
			return nil, besides, fmt.Errorf("find recipes of household %d: %w", householdID, err)
		}
	}
	chosen, besides = offer(list, among, ticked, find)
	return chosen, besides, nil
}

// offer parts dishes, newest first, into those ticked of the list and those offered
// besides: the newest among those found.
func offer(list, among []kitchen.RecipeSummary, ticked func(kitchen.RecipeSummary) bool, find string) (chosen []kitchen.RecipeSummary, besides dishChoice) {
	for _, r := range list {
		if ticked(r) {
			chosen = append(chosen, r)
		}
	}
	found := 0
	for _, r := range among {
		if ticked(r) {
			continue
		}
		if found++; found <= mostOffered {
			besides.Rest = append(besides.Rest, dishTick(r, false))
		}
	}
	switch {
	case find != "":
		besides.More = countWords(found, "dish has these words", "dishes have these words")
	case found > 0:
		besides.More = countWords(found, "more dish to choose from", "more dishes to choose from")
	}
	if found > mostOffered {
		besides.More += fmt.Sprintf("; the newest %d are listed", mostOffered)
	}
	if find != "" || found > mostOffered {
		besides.Find = entry{Name: "find", Label: "Look for a dish", Hint: "Words of its title, an ingredient, a tag; what is ticked stays.", Value: find, Mode: "search"}
	}
	besides.Open = find != "" || len(chosen) == 0 || found <= fewDishes
	return chosen, besides
}

// dishTick is the box of one dish.
func dishTick(r kitchen.RecipeSummary, on bool) tick {
	return tick{Name: "dish", Value: strconv.FormatInt(r.ID, 10), Label: r.Title, On: on}
}
