package adaptation

import (
	"slices"

	"potwright/internal/composition"
	"potwright/internal/household"
	"potwright/internal/nutrient"
)

// Gist is all of a dish that it takes to judge whether it suits everyone at a table:
// what a serving holds, and what it means for the needs that are no limits. It is
// small, so that it may be kept, and holds whatever people's limits, portions and
// allowances are.
type Gist struct {
	pot scoop
	// all is with the things at the table; nil where there are none. offered is what
	// they bring to a serving, at the middle.
	all     *scoop
	offered *[composition.NutrientCount]float64
}

// scoop is a serving without or with the things at the table.
type scoop struct {
	panel  nutrient.Panel
	eaters []eater // by member
}

// eater is what a serving means for one member, besides limits.
type eater struct {
	// counts is what of a serving the member's plan counts; nil where that is all of
	// the pot's, or there is no plan.
	counts *nutrient.Panel
	needs  Judgement
}

// Judgement is whether a plate suits a member, as Serve would say.
type Judgement struct {
	// Fit is the worst of the findings; Fits is Plate.Fits.
	Fit  household.Fit
	Fits bool
	// Against are the findings that are not inside, a sentence each, Provided is what
	// a label has to tell first.
	Against, Provided []string
}

// Suits reports whether nothing is in the way of the plate, no label either.
func (j Judgement) Suits() bool { return j.Fits && len(j.Provided) == 0 }

// WithoutLimits is a household with all that a gist of a dish for it rests on, and no
// more.
func WithoutLimits(h household.Household) household.Household {
	out := household.Household{Members: make([]household.Member, len(h.Members))}
	for i, m := range h.Members {
		out.Members[i] = household.Member{Age: m.Age, Avoid: m.Avoid, Texture: m.Texture}
		if m.Plan != nil {
			out.Members[i].Plan = &household.Plan{Free: m.Plan.Free}
		}
	}
	return out
}

// GistOf is the gist of a dish for a household.
func GistOf(h household.Household, needs *household.Needs, d Dish) Gist {
	t := Lay(WithoutLimits(h), needs, d)
	g := Gist{pot: t.scoop(t.pot, d.Pot.Serving)}
	if t.offers {
		all := t.scoop(t.all, d.Pot.Serving.Plus(d.Pot.Table))
		g.all, g.offered = &all, new([composition.NutrientCount]float64)
		for n, a := range d.Pot.Table {
			g.offered[n] = a.Mid
		}
	}
	return g
}

func (t *Table) scoop(of helping, serving nutrient.Panel) scoop {
	s := scoop{panel: serving, eaters: make([]eater, len(t.household.Members))}
	for i, m := range t.household.Members {
		s.eaters[i].needs = t.judgeNeeds(m, of)
		apart := func(lp *nutrient.LinePanel) bool { return lp != nil && (lp.AtTable || hasFree(lp, *m.Plan)) }
		if m.Plan != nil && slices.ContainsFunc(of.lines, apart) {
			counts := t.counted(*m.Plan, of.lines).serving
			s.eaters[i].counts = &counts
		}
	}
	return s
}

// judgeNeeds judges what is no limit.
func (t *Table) judgeNeeds(m household.Member, of helping) Judgement {
	p := Plate{Fits: true}
	p.addNeeds(t.needs, m, of.foods, t.steps)
	out := Judgement{Fit: household.NewVerdict(p.Verdict.Findings).Fit, Fits: p.Fits, Provided: p.Provided}
	for _, f := range p.Verdict.Findings {
		if f.Fit != household.Inside {
			out.Against = append(out.Against, f.Text)
		}
	}
	return out
}

// Judge judges a portion (share of one serving, > 0) of the dish for one member, by
// the place in the household that the gist was made for, whose limits, portions and
// allowances may be others since.
func (g Gist) Judge(h household.Household, member int, share float64) Judgement {
	m := h.Members[member]
	bare := g.pot.judge(h, member, share)
	if g.all == nil {
		return bare
	}
	full := g.all.judge(h, member, share)
	if full.Fits && household.Worse(full.Fit, bare.Fit) == bare.Fit && !watches(m, h.PlateShare(), func(n composition.Nutrient) float64 { return g.offered[n] }) {
		return full
	}
	return bare
}

func (s *scoop) judge(h household.Household, member int, share float64) Judgement {
	m, e := h.Members[member], &s.eaters[member]
	out := Judgement{Fit: e.needs.Fit, Fits: e.needs.Fits, Provided: e.needs.Provided}
	note := func(f household.Finding, fits bool) {
		out.Fit, out.Fits = household.Worse(out.Fit, f.Fit), out.Fits && fits
		if f.Fit != household.Inside {
			out.Against = append(out.Against, f.Text)
		}
	}
	of := func(p *nutrient.Panel) household.Amounts {
		return func(n composition.Nutrient) household.Amount {
			return household.Amount{Range: p[n].Range.Scale(share), Unknown: p[n].Unknown}
		}
	}
	for _, b := range m.Bounds(h.PlateShare()) {
		if a := of(&s.panel)(b.Nutrient()); b.Judge(a) != household.Inside {
			note(b.Finding(a), b.Fits(a))
		}
	}
	if m.Plan != nil {
		counts := e.counts
		if counts == nil {
			counts = &s.panel
		}
		note(m.PlanFinding(m.Plan.Weigh(of(counts)), h.PlateShare()))
	}
	out.Against = append(out.Against, e.needs.Against...)
	return out
}
