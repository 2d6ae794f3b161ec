package pages

import (
	"fmt"
	"net/http"
	"net/url"
	"strconv"
	"strings"

	"github.com/gin-gonic/gin"

	"potwright/internal/adaptation"
	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/recipe"
)

// tablePage is who eats tonight and what each dish means for them.
type tablePage struct {
	frame
	Seats []seat
	// Dishes are those served, and Besides those that may be.
	Dishes  []tick
	Besides dishChoice
	Served  []servedDish
	// Meal is every member's sum over the dishes; empty where one dish is served.
	Meal []mealView
	// Wrong is set where a portion could not be read.
	Wrong     bool
	HasPeople bool
	// Helpings are the portions dish by dish, where several are served.
	Helpings []dishPortions
	// Left is what is left of the day for those with a limit by the day.
	Left []leftView
	// Today holds the dishes against what the day leaves.
	Today tick
}

// seat is a member's place at tonight's table.
type seat struct {
	Here    tick
	Portion entry
}

// servedDish is one dish's verdicts.
type servedDish struct {
	Title, Link, AdaptLink string
	// LogLink writes the dish down for the day.
	LogLink string
	Verdict string
	Mark    household.Fit
	Plates  []plateView
	Hands   []string
	Unread  string
	// Common is the one size of portion that is inside everyone's limits.
	Common string
	// Oven says that the dish needs one where the kitchen has none, else "".
	Oven string
}

// plateView is one member's plate as a page tells it.
type plateView struct {
	Name, Portion, Verdict string
	Mark                   household.Fit
	Findings               []findingView
	AtTable                []string
	// Provided are what labels must say; Largest is the largest portion inside
	// every limit, "" where nothing bounds it.
	Provided []string
	Largest  string
	// Weight is what the portion weighs and fills; Costs where its cost in a plan
	// steps up.
	Weight, Costs string
	// Cautions are what the member was told to watch; they are no verdict.
	Cautions []cautionView
	// Dislikes are matters of taste.
	Dislikes []string
}

// cautionView is one caution of a plate.
type cautionView struct{ Title, Text, Say, Source string }

func cautionViews(cs []household.Caution) []cautionView {
	var out []cautionView
	for _, c := range cs {
		out = append(out, cautionView{c.Title, c.Text, c.Say, c.Source})
	}
	return out
}

// evening is who eats, read from an address: m for each member who does, pID
// for a portion other than usual.
type evening struct {
	seats []seat
	table household.Household
	wrong messages
	// today is set where what the day already holds counts.
	today bool
	// query repeats the choice in links; "" where it is the usual table.
	query string
}

// onTable is one dish that is served, with who eats how much of it.
type onTable struct {
	title    string
	table    household.Household
	version  recipe.Version
	analysis kitchen.Analysis
}

// readEvening reads who eats. Without a word about it everyone does.
func readEvening(h household.Household, f form) evening {
	e := evening{table: h}
	e.table.Members = nil
	asked := f.has("seated")
	q := url.Values{}
	for _, m := range h.Members {
		id := strconv.FormatInt(m.ID, 10)
		here := !asked || f.ticked("m", id)
		served, _, _ := m.Portions()
		usual := typedAmount(served)
		typed := f.text("p" + id)
		if typed == "" {
			typed = usual
		}
		field := "p" + id
		portion, ok := numberIn(&e.wrong, field, typed, bounds{Low: 0.05, High: household.MaxPortion, Example: "0.5"})
		e.seats = append(e.seats, seat{
			Here: tick{Name: "m", Value: id, Label: m.Name, On: here},
			Portion: entry{Name: field, Label: "Portion for " + m.Name, Unit: "servings", Value: typed,
				Wrong: e.wrong.For(field), Mode: "decimal"}})
		if here && ok {
			e.table.Members = append(e.table.Members, m.WithPortion(portion))
			q.Add("m", id)
			if typed != usual {
				q.Set(field, typed)
			}
		}
	}
	if e.today = f.ticked("today", "1"); e.today {
		q.Set("today", "1")
	}
	if asked || e.today {
		q.Set("seated", "1")
		e.query = q.Encode()
	}
	return e
}

func (s *Site) showTable(c *gin.Context) error {
	h, fr, err := s.household(c, "table", "Tonight’s table")
	if err != nil {
		return err
	}
	list, err := s.store.ListRecipes(c.Request.Context(), h.ID)
	if err != nil {
		return fmt.Errorf("list recipes of household %d: %w", h.ID, err)
	}
	f := queryForm(c)
	e, err := s.readTonight(c, h, f)
	if err != nil {
		return err
	}
	asked := map[int64]bool{}
	for _, typed := range f.all("dish") {
		if id, err := strconv.ParseInt(typed, 10, 64); err == nil {
			asked[id] = true
		}
	}
	newest := !f.has("dish") && !f.has("seated")
	p := tablePage{frame: fr, Seats: e.seats, HasPeople: len(h.Members) > 0, Today: todayTick(e)}
	chosen, besides, err := s.offerDishes(c, h.ID, list, func(r kitchen.RecipeSummary) bool {
		// Nothing chosen yet: the first dish of the list is shown.
		return newest && r.ID == list[0].ID || asked[r.ID]
	}, f.text("find"))
	if err != nil {
		return err
	}
	p.Besides = besides
	var served []onTable
	for _, r := range chosen {
		p.Dishes = append(p.Dishes, dishTick(r, true))
		if len(e.table.Members) == 0 {
			continue
		}
		dish, at, err := s.serve(c, &p, &e, r)
		if err != nil {
			return err
		}
		p.Served = append(p.Served, dish)
		served = append(served, at)
	}
	if len(served) < 2 {
		p.Helpings = nil
	}
	p.Meal = s.mealViews(e.table, served)
	if p.Left, err = s.leftAfter(c.Request.Context(), e.table, served); err != nil {
		return err
	}
	p.Caution, p.Wrong = len(p.Served) > 0, len(e.wrong) > 0
	return s.show(c, http.StatusOK, "table", p)
}

// serve checks one dish for those who eat of it.
func (s *Site) serve(c *gin.Context, p *tablePage, e *evening, r kitchen.RecipeSummary) (servedDish, onTable, error) {
	v, a, err := s.kitchen.Open(c.Request.Context(), e.table.ID, r.LatestID)
	if err != nil {
		return servedDish{}, onTable{}, fmt.Errorf("open version %d: %w", r.LatestID, err)
	}
	q, _ := url.ParseQuery(e.query)
	table, own := e.ofDish(queryForm(c), r, q)
	p.Helpings = append(p.Helpings, own)
	report, by := s.kitchen.Check(a, table), measuring{a.Measures, table.Equipment.NoScales}
	link := fmt.Sprintf("%s/recipes/%d", p.Base, r.ID)
	d := servedDish{Title: r.Title, Link: link, AdaptLink: link + "/adapt", Verdict: dishWords(report), Mark: report.Fit,
		Common: commonWords(by, a.Pot, report.Plates), Oven: ovenWords(table, a),
		Plates: s.words.plateViews(fmt.Sprintf("dish-%d", r.ID), by, report.Plates), Hands: handWords(report.Hands), Unread: unreadWords(a)}
	d.LogLink = fmt.Sprintf("%s/day/dish?version=%d", p.Base, r.LatestID)
	if e.query != "" {
		// Elsewhere a portion is one of this dish.
		for _, m := range e.table.Members {
			if x := q.Get(portionField(r.ID, m.ID)); x != "" && x != "0" {
				q.Set(fmt.Sprintf("p%d", m.ID), x)
			}
			q.Del(portionField(r.ID, m.ID))
		}
		d.LogLink += "&" + q.Encode()
		d.AdaptLink += "?" + q.Encode()
	}
	return d, onTable{r.Title, table, v, a}, nil
}

// handWords tells each load on the cook's hands and the easier way.
func handWords(notes []household.HandNote) []string {
	var out []string
	for _, n := range notes {
		text := n.Text
		if n.Easier != "" {
			text += strings.TrimSuffix(" Easier: "+n.Easier+" "+n.Effect.String(), " ")
		}
		out = append(out, text)
	}
	return out
}

// dishWords is a dish's verdict for the whole table.
func dishWords(r kitchen.Report) string {
	switch {
	case r.Fits && r.Fit == household.Inside:
		return "Suits everyone at the table."
	case r.Fits && r.Fit == household.Unknown:
		return "Suits everyone at the table as far as words can tell: test what is pointed out."
	case r.Fits:
		return "Suits everyone at the table, though it is close."
	case r.Fit == household.Unknown:
		return "Not everything is known."
	case r.Fit == household.Close:
		return "Too close to be sure for everyone."
	default:
		return "Does not suit everyone yet."
	}
}

func (v vocabulary) plateViews(id string, by measuring, plates []adaptation.Plate) []plateView {
	var out []plateView
	for i, p := range plates {
		out = append(out, plateView{Cautions: cautionViews(p.Cautions), Dislikes: p.Dislikes, Weight: by.dished(p.Dished), Costs: costWords(p), Name: p.Member.Name, Portion: portionWords(p.Portion), Verdict: plateWords(p), Provided: p.Provided, Largest: largestWords(p.Largest),
			Mark: p.Verdict.Fit, Findings: v.findingViews(fmt.Sprintf("%s-%d", id, i), p.Verdict.Findings), AtTable: p.AtTable})
	}
	return out
}
