package pages

import (
	"context"
	"fmt"
	"net/url"
	"slices"
	"strconv"

	"potwright/internal/daybook"
	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/spread"
)

// dishPortions are the portions of one dish, a row for everyone who eats.
type dishPortions struct {
	Title    string
	Portions []entry
}

// portionField is the name of the field for a member's portion of one dish.
func portionField(recipeID, memberID int64) string { return fmt.Sprintf("d%dp%d", recipeID, memberID) }

// ofDish is who eats of one dish: those of the evening with their portion of it, without
// those who take none. Other than the usual portions are kept in q for links.
func (e *evening) ofDish(f form, r kitchen.RecipeSummary, q url.Values) (household.Household, dishPortions) {
	table, own := e.table, dishPortions{Title: r.Title}
	table.Members = nil
	for _, m := range e.table.Members {
		field := portionField(r.ID, m.ID)
		typed := f.text(field)
		x, ok := numberIn(&e.wrong, field, typed, bounds{High: household.MaxPortion, Example: "0.5"})
		own.Portions = append(own.Portions, entry{Name: field, Label: m.Name, Unit: "servings", Value: typed, Wrong: e.wrong.For(field), Mode: "decimal"})
		switch {
		case typed == "":
			table.Members = append(table.Members, m)
		case ok && x > 0:
			table.Members = append(table.Members, m.WithPortion(x))
		}
		if ok {
			q.Set(field, plain(x))
		}
	}
	return table, own
}

// portionAt is a member's portion at a table; 0 for one who is not there.
func portionAt(table household.Household, memberID int64) float64 {
	for _, m := range table.Members {
		if m.ID == memberID {
			portion, _, _ := m.Portions()
			return portion
		}
	}
	return 0
}

// leftView is what is left of a member's day after tonight.
type leftView struct {
	Name      string
	Standings []standingView
}

// leftAfter tells everyone with a limit by the day what is left of it: what is written
// down for today, and tonight's dishes on top.
func (s *Site) leftAfter(ctx context.Context, table household.Household, dishes []onTable) ([]leftView, error) {
	byDay := func(m household.Member) bool { return len(daybook.Standings(m, nil)) > 0 }
	if !slices.ContainsFunc(table.Members, byDay) {
		return nil, nil
	}
	today := s.today()
	entries, err := s.store.ListEntries(ctx, table.ID, today, today)
	var out []leftView
	for i, m := range table.Members {
		if !byDay(m) {
			continue
		}
		mine := daybook.Of(entries, m.ID, today)
		for _, d := range dishes {
			share := portionAt(d.table, m.ID)
			if share == 0 {
				continue
			}
			// It is planned here and nowhere written down.
			dish := s.kitchen.DishEntry(table, m, d.version, d.analysis, spread.Exact(share))
			dish.Date, dish.Meal, dish.State = today, daybook.Evening, daybook.Planned
			mine = append(mine, dish)
		}
		v := leftView{Name: m.Name}
		for j, st := range daybook.Standings(m, mine) {
			if st.Meal == "" {
				v.Standings = append(v.Standings, newStandingView("left-"+strconv.Itoa(i)+"-"+strconv.Itoa(j), st))
			}
		}
		if len(v.Standings) > 0 {
			out = append(out, v)
		}
	}
	return out, err
}
