package pages

import (
	"fmt"
	"math"
	"net/http"
	"net/url"
	"strconv"
	"strings"

	"github.com/gin-gonic/gin"

	"potwright/internal/composition"
	"potwright/internal/daybook"
	"potwright/internal/household"
	"potwright/internal/nutrient"
)

// weekPage is seven days, Monday first: who eats what, and what it adds up to.
type weekPage struct {
	frame
	Self, Monday, Before, After string
	Names                       []string
	Days                        []weekDay
	Shown                       pick
	Nutrient                    string
	Charts                      []weekChart
	Dish                        pick
	Plan                        whenForm
	// Shopping is the address of a list for the dishes planned, "" where none is.
	Shopping string
}

// weekDay is a row of the week.
type weekDay struct {
	Name, Link string
	Members    []weekCell
}

// weekCell is what one member eats on one day: the entries, and the sum of the
// nutrient shown.
type weekCell struct {
	Who     string
	Entries []entryView
	Sum     string
}

func (s *Site) showWeek(c *gin.Context) error {
	h, fr, err := s.household(c, "day", "")
	if err != nil {
		return err
	}
	f := queryForm(c)
	week := s.dayOf(f).Week()
	entries, err := s.store.ListEntries(c.Request.Context(), h.ID, week[0], week[daybook.DaysInWeek-1])
	if err != nil {
		return err
	}
	n := dayNutrient(f, h)
	fr.Title, fr.Caution = "The week of "+week[0].Time().Format("2 January 2006"), true
	p := weekPage{frame: fr, Self: fr.Base + "/week", Monday: string(week[0]), Before: string(week[0].Plus(-daybook.DaysInWeek)),
		After: string(week[0].Plus(daybook.DaysInWeek)), Nutrient: strings.ToUpper(n.Name()[:1]) + n.Name()[1:], Shown: nutrientPick(n), Plan: s.whenForm(f)}
	p.Plan.Date.Options = nil
	for i, d := range week {
		p.Plan.Date.Options = append(p.Plan.Date.Options, option{string(d), dayWords(d), d == s.today() || i == 0})
	}
	p.Shown.Label = "Add up another nutrient"
	for _, m := range h.Members {
		p.Names = append(p.Names, m.Name)
	}
	for _, d := range week {
		p.Days = append(p.Days, newWeekDay(fr.Base, h, d, entries, n))
	}
	top := weekMost(h, n, week, entries)
	for i, m := range h.Members {
		p.Charts = append(p.Charts, newWeekChart(fmt.Sprintf("week-%d", i), m, n, week, entries, top))
	}
	if p.Dish, err = s.dishPick(c, h, "", ""); err != nil {
		return err
	}
	p.Shopping, err = s.shoppingFor(c, fr.Base, h.ID, entries)
	if err != nil {
		return err
	}
	return s.show(c, http.StatusOK, "week", p)
}

// dayNutrient is the nutrient added up: the one asked for, else the first that
// someone's day is limited in.
func dayNutrient(f form, h household.Household) composition.Nutrient {
	if !f.has("show") {
		for _, m := range h.Members {
			for _, l := range m.Limits {
				if l.Per == household.PerDay {
					return l.Nutrient
				}
			}
		}
	}
	return shownNutrient(f, h)
}

func newWeekDay(base string, h household.Household, d daybook.Date, entries []daybook.Entry, n composition.Nutrient) weekDay {
	row := weekDay{Name: d.Time().Format("Monday 2 January"), Link: fmt.Sprintf("%s/day?date=%s", base, d)}
	for _, m := range h.Members {
		mine := daybook.Of(entries, m.ID, d)
		cell := weekCell{Who: m.Name, Sum: sumWords(mine, n)}
		for _, meal := range daybook.Meals() {
			for _, e := range mine {
				if e.Meal == meal {
					v := newEntryView(base, e)
					v.State = mealName(meal) + ", " + v.State
					cell.Entries = append(cell.Entries, v)
				}
			}
		}
		row.Members = append(row.Members, cell)
	}
	return row
}

// sumWords is what entries hold of a nutrient; nothing written down is no nought.
func sumWords(entries []daybook.Entry, n composition.Nutrient) string {
	if len(entries) == 0 {
		return "nothing written down"
	}
	return amountWords(daybook.Sum(entries)[n], n.Unit())
}

// shoppingFor is the address of a shopping list for the dishes still planned, each for
// as many servings as all portions of it come to.
func (s *Site) shoppingFor(c *gin.Context, base string, householdID int64, entries []daybook.Entry) (string, error) {
	recipes, servings := map[int64]int64{}, map[int64]float64{}
	q := url.Values{}
	for _, e := range entries {
		if e.State != daybook.Planned || e.VersionID == 0 {
			continue
		}
		id, known := recipes[e.VersionID]
		if !known {
			v, err := s.store.FindVersion(c.Request.Context(), householdID, e.VersionID)
			if err != nil {
				return "", err
			}
			id = v.RecipeID
			recipes[e.VersionID] = id
		}
		if _, known := servings[id]; !known {
			q.Add("dish", strconv.FormatInt(id, 10))
		}
		servings[id] += e.Portion
	}
	if len(q) == 0 {
		return "", nil
	}
	for id, n := range servings {
		q.Set(servingsField(id), plain(bought(n)))
	}
	return base + "/shopping?" + q.Encode(), nil
}

// boughtStep is the part of a serving that a list is rounded up to.
const boughtStep = 0.25

// bought is how many servings are shopped for where so many are eaten.
func bought(servings float64) float64 {
	return max(boughtStep, math.Ceil(servings/boughtStep-1e-9)*boughtStep)
}

// Measures of the week's drawing, in its own units: as wide as the narrowest phone.
const (
	weekWidth  = 340.0
	weekTop    = 12.0
	weekFloor  = 172.0
	weekColumn = weekWidth / daybook.DaysInWeek
	weekBar    = 22.0
)

// weekChart is one member's week of one nutrient, drawn and told in words.
type weekChart struct {
	ID, Who, Title, Words string
	Bars                  []weekBarView
	// Limits are the heights of the day's limits.
	Limits []float64
	// Empty is set where nothing is written down.
	Empty bool
}

// weekBarView is one day's bar: eaten below, planned on top, and the range of both as
// an upright line.
type weekBarView struct {
	Day, Words               string
	X, Middle, Width         float64
	EatenY, EatenHeight      float64
	PlannedY, PlannedHeight  float64
	RangeLow, RangeHigh      float64
	HasRange, HasPlannedPart bool
}

// weekMost is the most that any day or limit of anyone comes to: everyone is drawn to
// one scale.
func weekMost(h household.Household, n composition.Nutrient, week [daybook.DaysInWeek]daybook.Date, entries []daybook.Entry) float64 {
	top := 0.0
	for _, m := range h.Members {
		limits, _ := dayLimits(m, n)
		for _, l := range limits {
			top = max(top, l)
		}
		for _, d := range week {
			top = max(top, daybook.Sum(daybook.Of(entries, m.ID, d))[n].High)
		}
	}
	return top
}

// newWeekChart draws a member's week; top (0 for nothing to draw) is the amount at
// its upper edge.
func newWeekChart(id string, m household.Member, n composition.Nutrient, week [daybook.DaysInWeek]daybook.Date, entries []daybook.Entry, top float64) weekChart {
	c := weekChart{ID: id, Who: m.Name, Empty: true}
	sums, happened := [daybook.DaysInWeek]nutrient.Amount{}, [daybook.DaysInWeek]float64{}
	for i, d := range week {
		mine := daybook.Of(entries, m.ID, d)
		c.Empty = c.Empty && len(mine) == 0
		sums[i] = daybook.Sum(mine)[n]
		for _, e := range mine {
			if e.State == daybook.Eaten {
				happened[i] += e.Panel[n].Mid
			}
		}
	}
	limits, told := dayLimits(m, n)
	c.Title = fmt.Sprintf("%s of %s, day by day", n.Name(), m.Name)
	c.Words = "The same figures stand in the table below." + told
	if top <= 0 {
		c.Empty = true
		return c
	}
	y := func(x float64) float64 { return rounded(weekFloor - (weekFloor-weekTop)*x/top) }
	for _, l := range limits {
		c.Limits = append(c.Limits, y(l))
	}
	for i, d := range week {
		a, x := sums[i], rounded(weekColumn*float64(i)+(weekColumn-weekBar)/2)
		b := weekBarView{Day: d.Time().Format("Mon"), X: x, Width: weekBar, Middle: x + weekBar/2, EatenY: y(happened[i]),
			PlannedY: y(a.Mid), RangeLow: y(a.Low), RangeHigh: y(a.High), HasRange: a.High > a.Low, HasPlannedPart: a.Mid > happened[i]}
		b.EatenHeight, b.PlannedHeight = rounded(weekFloor-b.EatenY), rounded(b.EatenY-b.PlannedY)
		c.Bars = append(c.Bars, b)
	}
	return c
}

// dayLimits are the figures of a member's limits by day on a nutrient, and the same
// in words.
func dayLimits(m household.Member, n composition.Nutrient) (figures []float64, told string) {
	for _, b := range m.Bounds(1) {
		if b.Limit.Per == household.PerDay && b.Nutrient() == n {
			figures = append(figures, b.Value)
			told += fmt.Sprintf(" The dashed line is the limit of %s %s a day.", b.Side, withUnit(typedAmount(b.Value), n.Unit()))
		}
	}
	return figures, told
}

// rounded keeps a drawing's figures short.
func rounded(x float64) float64 { return math.Round(x*10) / 10 }
