package pages

import (
	"fmt"
	"net/http"
	"strconv"
	"strings"

	"github.com/gin-gonic/gin"

	"potwright/internal/household"
	"potwright/internal/kitchen"
)

// sweepPage says of a stretch of the recipes whether they suit the people as
// they are now.
type sweepPage struct {
	frame
	Rows      []sweepRow
	HasPeople bool
	// Stretch says which recipes are shown out of how many.
	Stretch string
	// Earlier, Later and Other are links: the stretches beside this one, and this
	// one with swaps looked for or not; "" where there is none.
	Earlier, Later, Other string
	// Swaps is set where swaps are looked for.
	Swaps bool
}

// sweepRow is one recipe of a sweep.
type sweepRow struct {
	Link, Title, Verdict string
	Mark                 household.Fit
	Swaps, Why           []string
}

// Recipes on one page of a sweep: a check takes milliseconds, a search for swaps
// up to seconds.
const (
	sweptRows  = 20
	searchRows = 5
)

func (s *Site) showSweep(c *gin.Context) error {
	h, fr, err := s.household(c, "people", "What suits whom now")
	if err != nil {
		return err
	}
	list, err := s.store.ListRecipes(c.Request.Context(), h.ID)
	if err != nil {
		return fmt.Errorf("list recipes of household %d: %w", h.ID, err)
	}
	p := sweepPage{frame: fr, HasPeople: len(h.Members) > 0, Swaps: c.Query("swaps") == "1"}
	most := sweptRows
	if p.Swaps {
		most = searchRows
	}
	// Anything that is no place in the list is its beginning.
	from, err := strconv.Atoi(c.Query("from"))
	if err != nil || from < 0 || from >= len(list) {
		from = 0
	}
	p.links(from, most, len(list))
	if !p.HasPeople {
		return s.show(c, http.StatusOK, "sweep", p)
	}
	o := kitchen.SweepOptions{From: from, Most: most, Adapt: p.Swaps}
	for swept, err := range s.kitchen.Sweep(c.Request.Context(), h.ID, o) {
		if err != nil {
			return fmt.Errorf("sweep household %d: %w", h.ID, err)
		}
		p.Rows = append(p.Rows, sweepRow{Link: fmt.Sprintf("%s/recipes/%d", fr.Base, swept.Recipe.ID), Title: swept.Recipe.Title,
			Verdict: sweptWords(swept), Mark: swept.Fit, Swaps: swept.Swaps, Why: swept.Why})
	}
	p.Caution = len(p.Rows) > 0
	return s.show(c, http.StatusOK, "sweep", p)
}

// links sets where this stretch stands and what is beside it.
func (p *sweepPage) links(from, most, all int) {
	at := func(from int, swaps bool) string {
		link := fmt.Sprintf("%s/sweep?from=%d", p.Base, from)
		if swaps {
			link += "&swaps=1"
		}
		return link
	}
	p.Stretch = fmt.Sprintf("Recipes %d to %d of %d.", from+1, min(from+most, all), all)
	if from > 0 {
		p.Earlier = at(max(0, from-most), p.Swaps)
	}
	if from+most < all {
		p.Later = at(from+most, p.Swaps)
	}
	p.Other = at(from, !p.Swaps)
}

// sweptWords is what a sweep found of a recipe, in words.
func sweptWords(s kitchen.Swept) string {
	switch s.Standing {
	case kitchen.Suits:
		return "Suits everyone as it is."
	case kitchen.SuitsAfter:
		return "Suits everyone with " + countWords(len(s.Swaps), "swap", "swaps") + "."
	case kitchen.Unsuitable:
		return "No swaps were found that suit everyone."
	case kitchen.Unread:
		return "The text could not be read."
	default:
		return "Not yet for " + strings.Join(s.For, ", ") + "."
	}
}
