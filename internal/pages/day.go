package pages

import (
	"fmt"
	"net/http"
	"strings"
	"time"

	"github.com/gin-gonic/gin"

	"potwright/internal/daybook"
	"potwright/internal/household"
	"potwright/internal/nutrient"
	"potwright/internal/spread"
)

// registerDays registers the pages of the household h, and those of one recipe.
func (s *Site) registerDays(h, r *gin.RouterGroup) {
	h.GET("/day", s.do(s.showDay))
	h.GET("/day/dish", s.do(s.showLogDish))
	h.POST("/day/dish", s.do(s.logDish))
	h.GET("/day/food", s.do(s.showLogFood))
	h.POST("/day/food", s.do(s.logFood))
	h.GET("/day/entries/:eid", s.do(s.showEntry))
	h.POST("/day/entries/:eid", s.do(s.changeEntry))
	h.GET("/week", s.do(s.showWeek))
	h.GET("/freezer", s.do(s.showFreezer))
	h.GET("/freezer/:cid", s.do(s.showTakeOut))
	h.POST("/freezer/:cid", s.do(s.takeOut))
	r.POST("/portions", s.do(s.putInFreezer))
	r.GET("/made", s.do(s.showMade))
	r.POST("/made", s.do(s.saveMade))
	r.POST("/made/:made/remove", s.do(s.removeMade))
}

// dayPage is what everyone eats on one day, and what that leaves.
type dayPage struct {
	frame
	Self, Date, Before, After string
	Week                      string
	Another                   entry
	People                    []personDay
}

// personDay is one member's day.
type personDay struct {
	Name      string
	Standings []standingView
	Meals     []mealEntries
}

// mealEntries is what one member eats at one meal.
type mealEntries struct {
	Name    string
	Entries []entryView
}

// entryView is one thing eaten or planned.
type entryView struct {
	Title, Link, Amount, State, Change string
	Planned                            bool
}

// standingView is how far a day or a meal goes towards one bound. It is no verdict:
// nothing is called good or bad, and nothing is coloured.
type standingView struct {
	What, Text, Left string
	HasBar           bool
	Bar              bar
}

// today is the household's calendar day.
func (s *Site) today() daybook.Date { return daybook.DateOf(s.now()) }

// dayOf is the day an address or a form names, today where it names none.
func (s *Site) dayOf(f form) daybook.Date {
	if d, ok := readDay(f.text("date")); ok {
		return d
	}
	return s.today()
}

// readDay reads a day in one of the ways people write it.
func readDay(typed string) (daybook.Date, bool) {
	for _, layout := range dateForms {
		if t, err := time.Parse(layout, typed); err == nil && t.Year() > 0 {
			return daybook.DateOf(t), true
		}
	}
	return "", false
}

// dayWords writes a day: "Sunday 1 March 2026".
func dayWords(d daybook.Date) string { return d.Time().Format("Monday 2 January 2006") }

func mealName(m daybook.Meal) string {
	switch m {
	case daybook.Morning:
		return "in the morning"
	case daybook.Midday:
		return "at midday"
	case daybook.Evening:
		return "in the evening"
	default:
		return "between meals"
	}
}

func stateName(st daybook.State) string {
	if st == daybook.Planned {
		return "planned"
	}
	return "eaten"
}

func (s *Site) showDay(c *gin.Context) error {
	h, fr, err := s.household(c, "day", "")
	if err != nil {
		return err
	}
	day := s.dayOf(queryForm(c))
	entries, err := s.store.ListEntries(c.Request.Context(), h.ID, day, day)
	if err != nil {
		return err
	}
	fr.Title, fr.Caution = dayWords(day), true
	p := dayPage{frame: fr, Self: fr.Base + "/day", Date: string(day), Before: string(day.Plus(-1)), After: string(day.Plus(1)),
		Week:    fmt.Sprintf("%s/week?date=%s", fr.Base, day.Week()[0]),
		Another: entry{Name: "date", Label: "Another day", Hint: "Such as 2 March 2026."}}
	for i, m := range h.Members {
		p.People = append(p.People, newPersonDay(fr.Base, fmt.Sprintf("day-%d", i), m, daybook.Of(entries, m.ID, day)))
	}
	return s.show(c, http.StatusOK, "day", p)
}

func newPersonDay(base, id string, m household.Member, entries []daybook.Entry) personDay {
	p := personDay{Name: m.Name}
	for i, st := range daybook.Standings(m, entries) {
		p.Standings = append(p.Standings, newStandingView(fmt.Sprintf("%s-%d", id, i), st))
	}
	for _, meal := range daybook.Meals() {
		group := mealEntries{Name: mealName(meal)}
		for _, e := range entries {
			if e.Meal == meal {
				group.Entries = append(group.Entries, newEntryView(base, e))
			}
		}
		if len(group.Entries) > 0 {
			p.Meals = append(p.Meals, group)
		}
	}
	return p
}

func newEntryView(base string, e daybook.Entry) entryView {
	return entryView{Title: e.Title, Amount: entryAmount(e), State: stateName(e.State), Planned: e.State == daybook.Planned,
		Change: fmt.Sprintf("%s/day/entries/%d", base, e.ID)}
}

// entryAmount says how much of it: "half a serving, about 210 g".
func entryAmount(e daybook.Entry) string {
	var parts []string
	if e.VersionID != 0 {
		parts = append(parts, portionWords(e.Portion))
	}
	if e.Grams.Mid > 0 {
		parts = append(parts, rangeWords(e.Grams, "g"))
	}
	return strings.Join(parts, ", ")
}

// newStandingView tells a standing in plain words.
func newStandingView(id string, st daybook.Standing) standingView {
	v := standingView{What: "allowance"}
	say := func(r spread.Range, unknown int) string { return planAmount(st, r, unknown) }
	bound := ""
	if st.Plan != nil {
		bound = fmt.Sprintf("of %s a %s", st.Plan.Units(st.Bound), st.Plan.Per)
	} else {
		n := st.Limit.Nutrient
		v.What = n.Name()
		say = func(r spread.Range, unknown int) string {
			return amountWords(nutrient.Amount{Range: r, Unknown: unknown}, n.Unit())
		}
		bound = fmt.Sprintf("of %s %s a %s, %s", st.Side, withUnit(typedAmount(st.Bound), n.Unit()), st.Limit.Per, setByWords(st.Limit.SetBy))
	}
	if st.Meal != "" {
		v.What += " " + mealName(st.Meal)
	}
	eaten := "nothing yet"
	if st.Eaten != (household.Amount{}) {
		eaten = say(st.Eaten.Range, st.Eaten.Unknown)
	}
	v.Text = "Eaten: " + eaten
	if st.Eaten != st.All {
		v.Text += "; with what is planned: " + say(st.All.Range, st.All.Unknown)
	}
	v.Text += ", " + bound + "."
	v.Left = leftWords(st, func(r spread.Range) string { return say(r, 0) })
	limit := st.Limit
	f := household.Finding{Amount: st.All.Range, Bound: st.Bound}
	if st.Plan == nil {
		f.Limit = &limit
	}
	v.Bar, v.HasBar = newBar(id, v.What, f, v.Text+" "+v.Left)
	v.Bar.PastSpan = 0 // what is beyond a limit is told, not painted
	return v
}

// planAmount writes units of a plan with their range.
func planAmount(st daybook.Standing, r spread.Range, unknown int) string {
	text := st.Plan.Units(r.Mid)
	if low, high := figure(r.Low), figure(r.High); low != high {
		text = fmt.Sprintf("about %s (%s to %s)", text, low, high)
	}
	if unknown > 0 {
		return "at least " + strings.TrimPrefix(text, "about ")
	}
	return text
}

// leftWords says what is left of a bound, or still to come towards it. say writes an
// amount.
func leftWords(st daybook.Standing, say func(spread.Range) string) string {
	left := st.Left()
	shown := spread.Between(left.Low, left.Mid, left.High)
	unknown := ""
	if st.All.Unknown > 0 {
		unknown = " " + countWords(st.All.Unknown, "part is not known and comes", "parts are not known and come") + " on top."
	}
	switch {
	case st.Side == household.AtLeast && left.Mid <= 0:
		return "That much is reached." + unknown
	case st.Side == household.AtLeast:
		return "Still to come: " + say(shown) + "." + unknown
	case left.Mid < 0:
		return "Nothing is left of it: it comes to " + say(spread.Between(-left.High, -left.Mid, -left.Low)) + " more." + unknown
	case st.All.Unknown > 0:
		return "Left: at most " + strings.TrimPrefix(say(shown), "about ") + "." + unknown
	default:
		return "Left: " + say(shown) + "."
	}
}
