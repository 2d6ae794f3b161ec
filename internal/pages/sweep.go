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
	// Progress is how far a search for swaps is, Sums what it has found; Stop is where
	// it is stopped, GoOn where it goes on: "" where there is nothing to stop, or it has
	// not been.
	Progress, Stop, GoOn string
	Sums                 []string
}

// sweepRow is one recipe of a sweep.
type sweepRow struct {
	Link, Title, Verdict string
	// Adapt is where swaps are looked for, "" where none are needed or they were.
	Adapt      string
	Mark       household.Fit
	Swaps, Why []string
}

// sweptRows is how many recipes one page of a sweep checks: each takes milliseconds.
const sweptRows = 20

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
	if p.Swaps && p.HasPeople {
		return s.showSearch(c, h, p, list)
	}
	// Anything that is no place in the list is its beginning.
	from, err := strconv.Atoi(c.Query("from"))
	if err != nil || from < 0 || from >= len(list) {
		from = 0
	}
	p.links(from, sweptRows, len(list))
	if !p.HasPeople {
		return s.show(c, http.StatusOK, "sweep", p)
	}
	o := kitchen.SweepOptions{From: from, Most: sweptRows}
	for swept, err := range s.kitchen.Sweep(c.Request.Context(), h.ID, o) {
		if err != nil {
			return fmt.Errorf("sweep household %d: %w", h.ID, err)
		}
		p.Rows = append(p.Rows, newSweepRow(fr.Base, swept))
	}
	p.Caution = len(p.Rows) > 0
	return s.show(c, http.StatusOK, "sweep", p)
}

func newSweepRow(base string, swept kitchen.Swept) sweepRow {
	row := sweepRow{Link: fmt.Sprintf("%s/recipes/%d", base, swept.Recipe.ID), Title: swept.Recipe.Title,
		Verdict: sweptWords(swept), Mark: swept.Fit, Swaps: swept.Swaps, Why: swept.Why}
	if swept.Standing == kitchen.SuitsAfter {
		row.Mark = household.Close // not as it is, but within reach
	}
	if swept.Standing == kitchen.Differs || swept.Standing == kitchen.SuitsAfter {
		row.Adapt = row.Link + "/adapt"
	}
	return row
}

// refreshAfter is after how many seconds a page asks how far the search is.
const refreshAfter = "3"

// showSearch shows how far the search for swaps is and what it has found. The page
// asks again by itself, also without scripts, until the search ends or is stopped.
func (s *Site) showSearch(c *gin.Context, h household.Household, p sweepPage, list []kitchen.RecipeSummary) error {
	run := s.sweepFor(h, list, c.Query("on") == "1")
	run.wait(c.Request.Context())
	got, err := run.progress()
	if err != nil {
		return fmt.Errorf("sweep household %d: %w", h.ID, err)
	}
	p.Other, p.Caution = p.Base+"/sweep", len(got.found) > 0
	p.Progress = fmt.Sprintf("%d of %s looked at.", len(got.found), countWords(got.all, "recipe", "recipes"))
	switch {
	case got.going:
		c.Header("Refresh", refreshAfter+"; url="+p.Base+"/sweep?swaps=1")
		p.Stop = p.Base + "/sweep/stop"
	case got.stopped:
		p.Progress += " It was stopped."
		p.GoOn = p.Base + "/sweep?swaps=1&on=1"
	}
	sums := map[kitchen.Standing]int{}
	for _, swept := range got.found {
		sums[swept.Standing]++
		p.Rows = append(p.Rows, newSweepRow(p.Base, swept))
	}
	for _, of := range []struct {
		standing  kitchen.Standing
		one, many string
	}{{kitchen.Suits, "suits everyone as it is", "suit everyone as they are"}, {kitchen.SuitsAfter, "suits with swaps", "suit with swaps"},
		{kitchen.Unsuitable, "has no swaps that suit everyone", "have no swaps that suit everyone"}, {kitchen.Unread, "could not be read", "could not be read"}} {
		if n := sums[of.standing]; n > 0 {
			p.Sums = append(p.Sums, countWords(n, of.one, of.many)+".")
		}
	}
	return s.show(c, http.StatusOK, "sweep", p)
}

func (s *Site) endSweep(c *gin.Context) error {
	h, fr, err := s.household(c, "people", "")
	if err != nil {
		return err
	}
	s.stopSweep(h.ID)
	return seeOther(c, fr.Base+"/sweep?swaps=1")
}

// links sets where this stretch stands and what is beside it.
func (p *sweepPage) links(from, most, all int) {
	at := func(from int) string { return fmt.Sprintf("%s/sweep?from=%d", p.Base, from) }
	p.Stretch = fmt.Sprintf("Recipes %d to %d of %d.", from+1, min(from+most, all), all)
	if from > 0 {
		p.Earlier = at(max(0, from-most))
	}
	if from+most < all {
		p.Later = at(from + most)
	}
	p.Other = p.Base + "/sweep?swaps=1"
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
