package api

import (
	"errors"
	"fmt"
	"maps"
	"slices"

	"potwright/internal/adaptation"
	"potwright/internal/composition"
	"potwright/internal/daybook"
	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/recipe"
)

// dishBody is a dish to look at: the text of a recipe, plain or the code of a web
// page, or a saved version; and who eats.
type dishBody struct {
	Text    string `json:"text,omitempty"`
	Version int64  `json:"version,omitempty"`
	correctionsBody
	eatersBody
}

// eatersBody is who eats, and how much of a serving.
type eatersBody struct {
	// Members are the names of those who eat; everyone where it is left out.
	Members []string `json:"members,omitempty"`
	// Portions are shares of a serving by name, where they are not the usual ones.
	Portions map[string]float64 `json:"portions,omitempty"`
	// Today counts what is written down for today, eaten and planned, in place of the
	// share of a day that one meal may use.
	Today bool `json:"today,omitempty"`
}

// adaptBody is a dish and what is asked of its adaptation.
type adaptBody struct {
	dishBody
	Wishes *adaptation.Wishes `json:"wishes,omitempty"`
}

// open reads the dish for the household.
func (r *request) open(b dishBody) (recipe.Version, kitchen.Analysis, error) {
	k, id := r.kitchen, r.household.ID
	switch {
	case (b.Text == "") == (b.Version == 0):
		return recipe.Version{}, kitchen.Analysis{}, unusable("version", "expected either text or version, and one of them")
	case b.Version != 0 && b.told():
		return recipe.Version{}, kitchen.Analysis{}, unusable("corrections", "corrections belong to a text; a version has its own")
	case b.Version != 0:
		return k.Open(r.ctx, id, b.Version)
	}
	text, lost, err := r.api.cfg.Formats.Markup(b.Text)
	if err != nil {
		return recipe.Version{}, kitchen.Analysis{}, unusable("text", "%s", err.Error())
	}
	corrections, err := b.of(text)
	if err != nil {
		return recipe.Version{}, kitchen.Analysis{}, err
	}
	a, err := k.ReadFor(r.ctx, id, text, corrections)
	a.Recipe.Notes = append(a.Recipe.Notes, lost...)
	return recipe.Version{}, a, err
}

// table is the household with those alone who eat.
func (r *request) table(b eatersBody) (household.Household, error) {
	h := r.household
	h.Members = nil
	for _, m := range r.household.Members {
		if portion, other := b.Portions[m.Name]; other {
			if !(portion > 0) || portion > household.MaxPortion {
				return h, unusable("portions."+m.Name, "%v of a serving; expected a share above 0 and at most %d", portion, int(household.MaxPortion))
			}
			m = m.WithPortion(portion)
		}
		if b.Members == nil || slices.Contains(b.Members, m.Name) {
			h.Members = append(h.Members, m)
		}
	}
	for _, name := range slices.Concat(b.Members, slices.Collect(maps.Keys(b.Portions))) {
		if !slices.ContainsFunc(h.Members, func(m household.Member) bool { return m.Name == name }) {
			return h, unusable("members", "nobody of the household is called %q", name)
		}
	}
	if !b.Today {
		return h, nil
	}
	today := r.today()
	entries, err := r.store.ListEntries(r.ctx, h.ID, today, today)
	for i, m := range h.Members {
		h.Members[i].Had = &household.Had{Day: daybook.Taken(entries, m.ID, today), Told: true}
	}
	return h, err
}

func analyse(r *request) (any, error) {
	_, a, err := r.open(*r.body.(*dishBody))
	if err != nil {
		return nil, err
	}
	return a.Document(), nil
}

// checked opens a dish and says what it means for everyone.
func (r *request) checked() (kitchen.Analysis, kitchen.Report, error) {
	b := *r.body.(*dishBody)
	_, a, err := r.open(b)
	if err != nil {
		return a, kitchen.Report{}, err
	}
	h, err := r.table(b.eatersBody)
	if err != nil {
		return a, kitchen.Report{}, err
	}
	return a, r.kitchen.Check(a, h), nil
}

func check(r *request) (any, error) {
	a, report, err := r.checked()
	if err != nil {
		return nil, err
	}
	return report.Document(a), nil
}

func report(r *request) (any, error) {
	a, report, err := r.checked()
	if err != nil {
		return nil, err
	}
	return report.Account(a), nil
}

// adapted adapts the dish of a body.
func (r *request) adapted(b adaptBody) (recipe.Version, adaptation.Answer, error) {
	v, a, err := r.open(b.dishBody)
	if err != nil {
		return v, adaptation.Answer{}, err
	}
	h, err := r.table(b.eatersBody)
	if err != nil {
		return v, adaptation.Answer{}, err
	}
	var w adaptation.Wishes
	if b.Wishes != nil {
		w = *b.Wishes
	}
	if err := checkWishes(w, len(a.Recipe.Lines)); err != nil {
		return v, adaptation.Answer{}, err
	}
	ans, err := r.kitchen.Adapt(r.ctx, a, h, w)
	return v, ans, err
}

// checkWishes refuses wishes that name what is not there.
func checkWishes(w adaptation.Wishes, lines int) error {
	if !w.Aim.Known() {
		return unusable("aim", "aim %q; expected nothing for the least change, or effort, or room", w.Aim)
	}
	if w.MaxChanges < 0 {
		return unusable("max_changes", "max_changes is %d; expected 0 for no cap, or more", w.MaxChanges)
	}
	at := slices.Clone(w.Lock)
	for _, p := range append(slices.Clone(w.Refuse), w.Insist...) {
		if p.Line != -1 {
			at = append(at, p.Line)
		}
	}
	for _, line := range at {
		if line < 0 || line >= lines {
			return unusable("lock", "there is no line %d; expected 0 to %d, counted from 0", line, lines-1)
		}
	}
	return nil
}

func adapt(r *request) (any, error) {
	_, ans, err := r.adapted(*r.body.(*adaptBody))
	if err != nil {
		return nil, err
	}
	return kitchen.AdaptDocumentOf(ans), nil
}

// tradeoffBody is a dish and the figure to weigh change against.
type tradeoffBody struct {
	adaptBody
	// Member is whose plate the figure is of.
	Member   string `json:"member"`
	Nutrient string `json:"nutrient,omitempty"`
	// Plan asks for the cost in the member's allowance plan in place of a nutrient.
	Plan bool `json:"plan,omitempty"`
	// More is set where more of it is wanted.
	More bool `json:"more,omitempty"`
}

// pointDocument is one point of the curve.
type pointDocument struct {
	Change int64   `json:"change"`
	Amount float64 `json:"amount"`
	// Changes are in words, Wishes what to ask of adapt to get this point.
	Changes []string          `json:"changes"`
	Wishes  adaptation.Wishes `json:"wishes"`
}

type tradeoffAnswer struct {
	Points []pointDocument `json:"points"`
	// All is false where its budget ran out before the end of the curve.
	All bool `json:"all"`
}

func tradeoff(r *request) (any, error) {
	b := *r.body.(*tradeoffBody)
	_, a, err := r.open(b.dishBody)
	if err != nil {
		return nil, err
	}
	h, err := r.table(b.eatersBody)
	if err != nil {
		return nil, err
	}
	of := adaptation.Figure{Plan: b.Plan, More: b.More}
	of.Member = slices.IndexFunc(h.Members, func(m household.Member) bool { return m.Name == b.Member })
	if of.Member < 0 {
		return nil, unusable("member", "nobody at the table is called %q", b.Member)
	}
	n, known := composition.ParseNutrient(b.Nutrient)
	if !known && !b.Plan {
		return nil, unusable("nutrient", "nutrient %q is not known; expected one such as sodium_mg, or plan", b.Nutrient)
	}
	of.Nutrient = n
	if b.Plan && h.Members[of.Member].Plan == nil {
		return nil, unusable("plan", "%s has no allowance plan", b.Member)
	}
	var w adaptation.Wishes
	if b.Wishes != nil {
		w = *b.Wishes
	}
	if err := checkWishes(w, len(a.Recipe.Lines)); err != nil {
		return nil, err
	}
	points, all, err := r.kitchen.Tradeoff(r.ctx, a, h, w, of)
	if err != nil {
		return nil, fmt.Errorf("draw the curve: %w", err)
	}
	out := tradeoffAnswer{Points: []pointDocument{}, All: all}
	for _, p := range points {
		d := pointDocument{Change: p.Change, Amount: p.Amount, Changes: []string{}, Wishes: p.Asked(len(a.Recipe.Lines))}
		for _, c := range p.Changes {
			d.Changes = append(d.Changes, c.Text())
		}
		out.Points = append(out.Points, d)
	}
	return out, nil
}

// sweptDocument is what a sweep says of one recipe.
type sweptDocument struct {
	Recipe   int64            `json:"recipe"`
	Title    string           `json:"title"`
	Standing kitchen.Standing `json:"standing"`
	Fit      household.Fit    `json:"fit,omitempty"`
	For      []string         `json:"for"`
	Swaps    []string         `json:"swaps"`
	Why      []string         `json:"why"`
}

type sweepAnswer struct {
	Recipes []sweptDocument `json:"recipes"`
	stretch
}

func sweep(r *request) (any, error) {
	q, err := r.queryOf()
	if err != nil {
		return nil, err
	}
	swaps := r.gin.Query("swaps")
	if swaps != "" && swaps != "true" && swaps != "false" {
		return nil, badRequest("swaps is %q; expected true or false", swaps)
	}
	list, all, err := r.store.FindRecipes(r.ctx, r.household.ID, q)
	if err != nil {
		return nil, err
	}
	out := sweepAnswer{Recipes: []sweptDocument{}, stretch: r.stretchOf(q.From, len(list), all)}
	for s, err := range r.kitchen.SweepOf(r.ctx, r.household.ID, list, kitchen.SweepOptions{Adapt: swaps == "true"}) {
		if err != nil {
			return nil, errors.Join(err, r.ctx.Err())
		}
		out.Recipes = append(out.Recipes, sweptDocument{s.Recipe.ID, s.Recipe.Title, s.Standing, s.Fit,
			append([]string{}, s.For...), append([]string{}, s.Swaps...), append([]string{}, s.Why...)})
	}
	return out, nil
}
