package kitchen

import (
	"fmt"
	"sort"
	"strings"

	"potwright/internal/adaptation"
	"potwright/internal/composition"
	"potwright/internal/household"
	"potwright/internal/nutrient"
)

// Serving is a portion (share of one serving, >= 0) of a dish on a plate.
type Serving struct {
	Title    string
	Analysis Analysis
	Portion  float64
}

// MealPlate is all that one member eats at a meal, held against each limit and
// the plan as one sum.
type MealPlate struct {
	Member household.Member
	// Panel is the sum of the portions; things at the table are in it where the
	// member's own plate of that dish takes them.
	Panel nutrient.Panel
	// Findings are one for each side of a limit and one for the plan.
	// Finding.Shares are by dish, largest first: Share.Line is the dish's place.
	Findings []household.Finding
	// Fit is the worst finding; Fits is set where each holds at its own strictness.
	Fit  household.Fit
	Fits bool
}

// Meal sums the servings on a member's plate. What lines of one food share, such
// as the doubt about that food's composition, moves together across dishes;
// everything else of different dishes is independent. Avoidances and textures
// are no sums: Check tells them dish by dish.
func (k *Kitchen) Meal(h household.Household, m household.Member, servings []Serving) MealPlate {
	byDish := k.onPlate(h, m, servings)
	p := MealPlate{Member: m, Panel: sumOf(byDish), Fit: household.Inside, Fits: true}
	for _, b := range m.Bounds(h.PlateShare()) {
		a := household.Amount(p.Panel[b.Nutrient()])
		f := b.Finding(a)
		f.Shares = dishShares(servings, byDish, func(lp *nutrient.LinePanel) float64 { return lp.Panel[b.Nutrient()].Mid })
		p.add(f, b.Fits(a))
	}
	if m.Plan != nil {
		p.addPlan(h, servings, byDish)
	}
	return p
}

func (p *MealPlate) add(f household.Finding, fits bool) {
	p.Findings = append(p.Findings, f)
	p.Fit = household.Worse(p.Fit, f.Fit)
	p.Fits = p.Fits && fits
}

// addPlan holds the meal's sum against the plan: the cost is rounded once, for
// the meal, not dish by dish.
func (p *MealPlate) addPlan(h household.Household, servings []Serving, byDish [][]*nutrient.LinePanel) {
	plan := *p.Member.Plan
	costing := costingOf(byDish, plan)
	weigh := func(of nutrient.Panel) household.Amount {
		return plan.Weigh(func(n composition.Nutrient) household.Amount { return household.Amount(of[n]) })
	}
	sum := weigh(sumOf(costing))
	f, fits := p.Member.PlanFinding(sum, h.PlateShare())
	f.Shares = dishShares(servings, costing, func(lp *nutrient.LinePanel) float64 { return weigh(lp.Panel).Mid })
	p.add(f, fits)
}

// costingOf is dishes without the foods that are free in a plan.
func costingOf(byDish [][]*nutrient.LinePanel, plan household.Plan) [][]*nutrient.LinePanel {
	out := make([][]*nutrient.LinePanel, len(byDish))
	for i, lines := range byDish {
		for _, lp := range lines {
			out[i] = append(out[i], adaptation.Counted(lp, plan))
		}
	}
	return out
}

// Eaten is what a member has had of some servings, for household.Had: what stands
// on the plate beside a dish, or what the day has held before it. Adapt, Check and
// Meal then hold limits against what that leaves. It counts as independent of the
// dish, also where both hold the same food.
func (k *Kitchen) Eaten(h household.Household, m household.Member, servings []Serving) household.Eaten {
	byDish := k.onPlate(h, m, servings)
	e := household.Eaten{All: intake(sumOf(byDish))}
	if m.Plan != nil {
		e.Costing = intake(sumOf(costingOf(byDish, *m.Plan)))
	}
	return e
}

func intake(p nutrient.Panel) (out household.Intake) {
	for n := range p {
		out[n] = household.Amount(p[n])
	}
	return out
}

// onPlate are the lines of each dish as they are on the member's plate.
func (k *Kitchen) onPlate(h household.Household, m household.Member, servings []Serving) [][]*nutrient.LinePanel {
	byDish := make([][]*nutrient.LinePanel, len(servings))
	for i, s := range servings {
		if s.Portion > 0 && s.Analysis.Pot.Servings > 0 {
			byDish[i] = k.linesOn(h, m, i, s)
		}
	}
	return byDish
}

// linesOn is a dish's lines as they are on the member's plate.
func (k *Kitchen) linesOn(h household.Household, m household.Member, dish int, s Serving) []*nutrient.LinePanel {
	withTable := true
	for _, note := range adaptation.Lay(h, k.Needs, k.dish(s.Analysis)).Serve(m, s.Portion).AtTable {
		withTable = withTable && !strings.HasPrefix(note, "goes without")
	}
	var out []*nutrient.LinePanel
	for _, lp := range s.Analysis.Pot.Lines {
		if !lp.AtTable || withTable {
			out = append(out, portionOf(lp, dish, s.Portion/s.Analysis.Pot.Servings))
		}
	}
	return out
}

// portionOf is a share of a line: its amounts and doubts times share. Doubts of
// the line's own are told apart from those of other dishes; those of a food are
// the same in every dish.
func portionOf(lp nutrient.LinePanel, dish int, share float64) *nutrient.LinePanel {
	lp.ID = fmt.Sprintf("%d/%s", dish, lp.ID)
	lp.Grams, lp.Finished = lp.Grams.Scale(share), lp.Finished.Scale(share)
	lp.Panel = lp.Panel.Scale(share)
	doubts := make([]nutrient.Doubt, len(lp.Doubts))
	for i, d := range lp.Doubts {
		if d.Factor.Of != nutrient.OfContent {
			d.Factor.ID = fmt.Sprintf("%s@%d", d.Factor.ID, dish)
		}
		for n := range d.Down {
			d.Down[n] *= share
			d.Up[n] *= share
		}
		doubts[i] = d
	}
	lp.Doubts = doubts
	return &lp
}

func sumOf(byDish [][]*nutrient.LinePanel) nutrient.Panel {
	var all []*nutrient.LinePanel
	for _, lines := range byDish {
		all = append(all, lines...)
	}
	return nutrient.Together(all)
}

// dishShares is each dish's part of a sum, largest first; dishes that bring
// nothing are left out.
func dishShares(servings []Serving, byDish [][]*nutrient.LinePanel, of func(*nutrient.LinePanel) float64) []household.Share {
	brought := make([]float64, len(byDish))
	total := 0.0
	for i, lines := range byDish {
		for _, lp := range lines {
			brought[i] += of(lp)
		}
		total += max(0, brought[i])
	}
	var out []household.Share
	for i, x := range brought {
		if x > 0 && total > 0 {
			out = append(out, household.Share{Line: i, Share: x / total, Text: servings[i].Title})
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Share > out[j].Share })
	return out
}
