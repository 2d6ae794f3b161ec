package adaptation

import (
	"fmt"
	"math"

	"potwright/internal/household"
	"potwright/internal/label"
	"potwright/internal/nutrient"
)

// Unsettled is a clinician's limit that the plate is inside at the middle of its
// range while the far end is not, and what would settle it.
type Unsettled struct {
	Member string
	Limit  household.Limit
	// Line is the index in the answer's recipe of what to measure, -1 where nothing
	// stands out.
	Line int
	// Measure says what to measure; Settles is set where knowing that alone would
	// bring the whole range inside, should the middle prove right.
	Measure string
	Settles bool
}

// Text is the limit and the measurement in a sentence.
func (u Unsettled) Text() string {
	text := fmt.Sprintf("%s: the range of %s is too wide to be sure of the clinician's limit.", u.Member, u.Limit.Nutrient.Name())
	switch {
	case u.Line < 0:
		return text + " No single measurement stands out."
	case u.Settles:
		return text + " One thing would settle it: " + u.Measure + "."
	}
	return text + " What would narrow it most: " + u.Measure + "."
}

// atTheMiddle gives an impossible answer the dish that holds at the middle of
// every range, where there is one: then it is only the width of a range that
// keeps a clinician's limit from being met.
func (m *model) atTheMiddle(ans *Answer) {
	strict := false
	for _, a := range m.asks {
		strict = strict || a.strict
	}
	if !strict || m.middle {
		return
	}
	in := m.in
	in.Budget = followUp
	l := m.leeway
	l.middle = true
	loose := newModel(in, m.options, l)
	sol, err := loose.search()
	if err != nil || sol.Chosen == nil {
		return
	}
	mid := loose.answer(sol.Chosen)
	ans.Changes, ans.Plates, ans.Recipe, ans.Pot, ans.Balance = mid.Changes, mid.Plates, mid.Recipe, mid.Pot, mid.Balance
	ans.Cautions = append(ans.Cautions, mid.Cautions...)
	ans.Cost = m.in.Wishes.Aim.byLevel(sol.Cost)
	ans.Unsettled = unsettled(m.in.Household, mid)
	nearest := []string{"At the middle of every range the dish suits everyone, with the changes given; it is not sure at the far end."}
	for _, u := range ans.Unsettled {
		nearest = append(nearest, u.Text())
	}
	ans.Nearest = append(nearest, ans.Nearest...)
}

// unsettled are the strict limits of an answer that hold at the middle only.
func unsettled(h household.Household, ans Answer) []Unsettled {
	var out []Unsettled
	for _, p := range ans.Plates {
		for _, b := range p.Member.Bounds(h.PlateShare()) {
			a := household.Amount(p.Panel[b.Nutrient()])
			if b.Limit.Strict() && b.Judge(a) == household.Close {
				out = append(out, settling(p, b, ans.Pot))
			}
		}
	}
	return out
}

// settling finds what makes the range of a plate wide, and whether knowing it
// would be enough.
func settling(p Plate, b household.Bound, pot nutrient.Pot) Unsettled {
	u := Unsettled{Member: p.Member.Name, Limit: b.Limit, Line: -1}
	sources := nutrient.Narrow(pot, b.Nutrient())
	if len(sources) == 0 {
		return u
	}
	s := sources[0]
	u.Line, u.Measure = s.Line, s.Text
	a := p.Panel[b.Nutrient()]
	left := math.Sqrt(max(0, 1-s.Share))
	a.Low, a.High = a.Mid-left*a.Down(), a.Mid+left*a.Up()
	u.Settles = b.Judge(household.Amount(a)) == household.Inside
	u.Measure += fmt.Sprintf(" (%s %% of the doubt)", label.Figure(math.Round(100*s.Share)))
	return u
}
