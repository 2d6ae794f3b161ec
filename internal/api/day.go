package api

import (
	"net/http"

	"potwright/internal/daybook"
	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/nutrient"
	"potwright/internal/spread"
)

func dayOperations() []operation {
	date := parameter{name: "date", about: "a day such as 2026-03-01; today where it is left out", schema: schema{"type": "string", "format": "date"}}
	const entry = ofHousehold + "/entries/:entry_id"
	return []operation{
		{method: http.MethodGet, path: ofHousehold + "/day", id: "findDay", summary: "What everyone eats on a day, and what that leaves of each bound", query: []parameter{date}, answer: dayAnswer{}, status: http.StatusOK, do: findDay},
		{method: http.MethodGet, path: ofHousehold + "/week", id: "findWeek", summary: "The seven days, Monday first, that a day is among", query: []parameter{date}, answer: weekAnswer{}, status: http.StatusOK, do: findWeek},
		{method: http.MethodPost, path: ofHousehold + "/day/dish", id: "logDish", summary: "Write down who eats how much of a saved version", body: logDishBody{}, answer: entryList{}, status: http.StatusCreated, changes: true, do: logDish},
		{method: http.MethodPost, path: ofHousehold + "/day/food", id: "logFood", summary: "Write down who eats how much of a food", body: logFoodBody{}, answer: entryList{}, status: http.StatusCreated, changes: true, do: logFood},
		{method: http.MethodGet, path: entry, id: "findEntry", summary: "One thing eaten or planned", answer: entryAnswer{}, status: http.StatusOK, do: findEntry},
		{method: http.MethodPut, path: entry, id: "moveEntry", summary: "Move an entry to another day or meal, or say that it was eaten", body: whenBody{}, answer: entryAnswer{}, status: http.StatusOK, changes: true, state: findEntry, do: moveEntry},
		{method: http.MethodDelete, path: entry, id: "deleteEntry", summary: "Strike an entry out", status: http.StatusNoContent, changes: true, state: findEntry, do: deleteEntry},
	}
}

// entryAnswer is one thing eaten or planned.
type entryAnswer struct {
	ID int64 `json:"id"`
	daybook.Entry
}

type entryList struct {
	Entries []entryAnswer `json:"entries"`
}

func entriesOf(es []daybook.Entry) []entryAnswer {
	out := []entryAnswer{}
	for _, e := range es {
		out = append(out, entryAnswer{e.ID, e})
	}
	return out
}

// standingDocument is how far what was eaten and is planned goes towards one bound.
// It is no verdict.
type standingDocument struct {
	// Meal is the meal it is about, "" for the whole day.
	Meal daybook.Meal `json:"meal,omitempty"`
	// Limit is the limit it comes from; nil for the allowance of the member's plan, in
	// whose unit the amounts then are.
	Limit *household.Limit `json:"limit,omitempty"`
	Unit  string           `json:"unit"`
	Side  string           `json:"side"`
	Bound float64          `json:"bound"`
	// Eaten is what was eaten alone, All with what is planned, Left the bound less that;
	// Unknown counts parts that come on top of All.
	Eaten   spread.Range `json:"eaten"`
	All     spread.Range `json:"all"`
	Left    spread.Range `json:"left"`
	Unknown int          `json:"unknown,omitempty"`
}

// memberDay is one member's day.
type memberDay struct {
	MemberID  int64              `json:"member"`
	Name      string             `json:"name"`
	Entries   []entryAnswer      `json:"entries"`
	Sum       nutrient.Panel     `json:"sum"`
	Standings []standingDocument `json:"standings"`
}

type dayAnswer struct {
	Date    daybook.Date `json:"date"`
	Members []memberDay  `json:"members"`
	Caution string       `json:"caution"`
}

type weekAnswer struct {
	Days []dayAnswer `json:"days"`
	// Planned are the recipes still planned, to shop for.
	Planned []int64 `json:"planned"`
}

// today is the household's calendar day.
func (r *request) today() daybook.Date { return daybook.DateOf(r.api.cfg.Now()) }

// date is the day asked for.
func (r *request) date() (daybook.Date, error) {
	asked := r.gin.Query("date")
	if asked == "" {
		return r.today(), nil
	}
	d, err := daybook.ParseDate(asked)
	if err != nil {
		return "", badRequest("%s", err)
	}
	return d, nil
}

func (r *request) dayAnswer(day daybook.Date, entries []daybook.Entry) dayAnswer {
	out := dayAnswer{Date: day, Members: []memberDay{}, Caution: kitchen.Caution}
	for _, m := range r.household.Members {
		mine := daybook.Of(entries, m.ID, day)
		d := memberDay{MemberID: m.ID, Name: m.Name, Entries: entriesOf(mine), Sum: daybook.Sum(mine), Standings: []standingDocument{}}
		for _, st := range daybook.Standings(m, mine) {
			s := standingDocument{Meal: st.Meal, Side: string(st.Side), Bound: st.Bound, Eaten: st.Eaten.Range, All: st.All.Range, Left: st.Left(), Unknown: st.All.Unknown}
			if st.Plan != nil {
				s.Unit = st.Plan.Unit
			} else {
				s.Limit, s.Unit = &st.Limit, st.Limit.Nutrient.Unit()
			}
			d.Standings = append(d.Standings, s)
		}
		out.Members = append(out.Members, d)
	}
	return out
}

func findDay(r *request) (any, error) {
	day, err := r.date()
	if err != nil {
		return nil, err
	}
	entries, err := r.store.ListEntries(r.ctx, r.household.ID, day, day)
	if err != nil {
		return nil, err
	}
	return r.dayAnswer(day, entries), nil
}

func findWeek(r *request) (any, error) {
	day, err := r.date()
	if err != nil {
		return nil, err
	}
	week := day.Week()
	entries, err := r.store.ListEntries(r.ctx, r.household.ID, week[0], week[daybook.DaysInWeek-1])
	if err != nil {
		return nil, err
	}
	out := weekAnswer{Planned: []int64{}}
	for _, d := range week {
		out.Days = append(out.Days, r.dayAnswer(d, entries))
	}
	seen := map[int64]bool{}
	for _, e := range entries {
		if e.State != daybook.Planned || e.VersionID == 0 {
			continue
		}
		v, err := r.store.FindVersion(r.ctx, r.household.ID, e.VersionID)
		if err != nil {
			return nil, err
		}
		if !seen[v.RecipeID] {
			seen[v.RecipeID] = true
			out.Planned = append(out.Planned, v.RecipeID)
		}
	}
	return out, nil
}

// whenBody is when something is eaten, and whether it was.
type whenBody struct {
	Date  daybook.Date  `json:"date,omitempty"`
	Meal  daybook.Meal  `json:"meal"`
	State daybook.State `json:"state,omitempty"`
}

// on puts an entry where the body says: today, and eaten, where it does not.
func (b whenBody) on(today daybook.Date, e daybook.Entry) daybook.Entry {
	e.Date, e.Meal, e.State = b.Date, b.Meal, b.State
	if e.Date == "" {
		e.Date = today
	}
	if e.State == "" {
		e.State = daybook.Eaten
		if e.Date > today {
			e.State = daybook.Planned
		}
	}
	return e
}

// helpingBody is how much one member takes: servings or grams, the member's usual
// portion where neither is given.
type helpingBody struct {
	MemberID int64   `json:"member"`
	Servings float64 `json:"servings,omitempty"`
	Grams    float64 `json:"grams,omitempty"`
}

// logDishBody is who eats of a version, and when.
type logDishBody struct {
	Version int64 `json:"version"`
	whenBody
	Helpings []helpingBody `json:"helpings"`
}

// mostGramsEaten is the largest weight taken for one plate; more is a slip of the pen.
const mostGramsEaten = 5000

// eater finds who takes a helping and looks at its amount.
func (r *request) eater(h helpingBody) (household.Member, error) {
	if h.Servings < 0 || h.Servings > household.MaxPortion || h.Grams < 0 || h.Grams > mostGramsEaten || h.Servings > 0 && h.Grams > 0 {
		return household.Member{}, unusable("helpings", "helping of member %d: expected servings up to %d or grams up to %d, and not both", h.MemberID, int(household.MaxPortion), mostGramsEaten)
	}
	return r.member(h.MemberID)
}

// of is the helping as a share of a serving of the dish, usual where no amount is
// given.
func (h helpingBody) of(a kitchen.Analysis, usual float64) (spread.Range, error) {
	switch {
	case h.Servings > 0:
		return spread.Exact(h.Servings), nil
	case h.Grams == 0:
		return spread.Exact(usual), nil
	}
	share, known := a.ShareOf(kitchen.ByGrams, h.Grams)
	if !known {
		return share, unusable("helpings", "what the finished dish weighs is not known; expected servings")
	}
	return share, nil
}

func (r *request) member(id int64) (household.Member, error) {
	for _, m := range r.household.Members {
		if m.ID == id {
			return m, nil
		}
	}
	return household.Member{}, unusable("member", "nobody of the household has the id %d; expected one of its members' ids", id)
}

func logDish(r *request) (any, error) {
	b := *r.body.(*logDishBody)
	v, a, err := r.kitchen.Open(r.ctx, r.household.ID, b.Version)
	if err != nil {
		return nil, err
	}
	var entries []daybook.Entry
	for _, h := range b.Helpings {
		m, err := r.eater(h)
		if err != nil {
			return nil, err
		}
		usual, _, _ := m.Portions()
		share, err := h.of(a, usual)
		if err != nil {
			return nil, err
		}
		e := r.kitchen.DishEntry(r.household, m, v, a, share)
		if h.Grams > 0 {
			e.Grams = spread.Exact(h.Grams)
		}
		entries = append(entries, b.on(r.today(), e))
	}
	return r.keepEntries(entries)
}

// logFoodBody is who eats of a food, and when: grams, or a count of one of the food's
// own measures.
type logFoodBody struct {
	Food string `json:"food"`
	whenBody
	Grams float64 `json:"grams,omitempty"`
	// Measure is the place of one of the food's measures, from 0; Count how many of it.
	Measure int     `json:"measure,omitempty"`
	Count   float64 `json:"count,omitempty"`
	Members []int64 `json:"members"`
}

func logFood(r *request) (any, error) {
	b := *r.body.(*logFoodBody)
	table, err := r.kitchen.Foods(r.ctx, r.household.ID)
	if err != nil {
		return nil, err
	}
	food, ok := table.ByID(b.Food)
	if !ok {
		return nil, unusable("food", "there is no food %q; expected an id such as sr:01001", b.Food)
	}
	grams := spread.Exact(b.Grams)
	switch {
	case (b.Grams > 0) == (b.Count > 0) || b.Grams < 0 || b.Grams > mostGramsEaten || b.Count < 0 || b.Count > mostGramsEaten:
		return nil, unusable("grams", "expected grams, or a count of a measure, above 0 and at most %d, and one of them", mostGramsEaten)
	case b.Count > 0 && (b.Measure < 0 || b.Measure >= len(food.Measures) || food.Measures[b.Measure].Amount <= 0):
		return nil, unusable("measure", "the food has no measure %d; expected 0 to %d", b.Measure, len(food.Measures)-1)
	case b.Count > 0:
		grams = kitchen.MeasuredGrams(food.Measures[b.Measure], b.Count)
	}
	var entries []daybook.Entry
	for _, id := range b.Members {
		m, err := r.member(id)
		if err != nil {
			return nil, err
		}
		entries = append(entries, b.on(r.today(), r.kitchen.FoodEntry(m, food, grams)))
	}
	return r.keepEntries(entries)
}

// keepEntries writes entries down.
func (r *request) keepEntries(entries []daybook.Entry) (any, error) {
	if len(entries) == 0 {
		return nil, unusable("members", "nobody eats; expected at least one member")
	}
	for _, e := range entries {
		if err := e.Check(); err != nil {
			return nil, unusable("", "%s", err)
		}
	}
	saved, err := r.store.AddEntries(r.ctx, r.household.ID, entries)
	if err != nil {
		return nil, err
	}
	return entryList{entriesOf(saved)}, nil
}

func findEntry(r *request) (any, error) {
	e, err := r.store.FindEntry(r.ctx, r.household.ID, r.id("entry_id"))
	return entryAnswer{e.ID, e}, err
}

// entryToChange is the entry that is asked for, with the mark that it must still bear.
func (r *request) entryToChange() (e daybook.Entry, over kitchen.Mark, err error) {
	if e, err = r.store.FindEntry(r.ctx, r.household.ID, r.id("entry_id")); err != nil {
		return e, over, err
	}
	over, err = r.over(e)
	return e, over, err
}

func moveEntry(r *request) (any, error) {
	e, over, err := r.entryToChange()
	if err != nil {
		return nil, err
	}
	e = r.body.(*whenBody).on(r.today(), e)
	if err := e.Check(); err != nil {
		return nil, unusable("", "%s", err)
	}
	return entryAnswer{e.ID, e}, r.store.ChangeEntry(r.ctx, r.household.ID, e, over)
}

func deleteEntry(r *request) (any, error) {
	e, over, err := r.entryToChange()
	if err != nil {
		return nil, err
	}
	return nil, r.store.DeleteEntry(r.ctx, r.household.ID, e.ID, over)
}
