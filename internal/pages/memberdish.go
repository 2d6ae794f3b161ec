package pages

import (
	"fmt"
	"strconv"

	"github.com/gin-gonic/gin"

	"potwright/internal/household"
	"potwright/internal/kitchen"
)

// memberDish is what a usual portion of a saved dish means for one member.
type memberDish struct {
	Dish  pick
	Title string
	Plate []plateView
}

// memberDish looks at the dish that the address names, the one saved last where it
// names none; nil where nothing is saved.
func (s *Site) memberDish(c *gin.Context, h household.Household, m household.Member) (*memberDish, error) {
	list, err := s.store.ListRecipes(c.Request.Context(), h.ID)
	if err != nil {
		return nil, fmt.Errorf("list recipes of household %d: %w", h.ID, err)
	}
	if len(list) == 0 {
		return nil, nil
	}
	v := &memberDish{Dish: pick{Name: "dish", Label: "Another dish"}}
	shown := list[0]
	for _, r := range list {
		id := strconv.FormatInt(r.ID, 10)
		on := id == c.Query("dish")
		if on {
			shown = r
		}
		v.Dish.Options = append(v.Dish.Options, option{id, r.Title, on})
	}
	_, a, err := s.kitchen.Open(c.Request.Context(), h.ID, shown.LatestID)
	if err != nil {
		return nil, fmt.Errorf("open version %d: %w", shown.LatestID, err)
	}
	h.Members = []household.Member{m}
	v.Title, v.Plate = shown.Title, s.platesOf(a, h)
	return v, nil
}

// platesOf are the usual portions of a dish, as a page tells them.
func (s *Site) platesOf(a kitchen.Analysis, h household.Household) []plateView {
	return s.words.plateViews("usual", measuring{a.Measures, h.Equipment.NoScales}, s.kitchen.Check(a, h).Plates)
}
