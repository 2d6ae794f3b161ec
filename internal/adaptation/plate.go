package adaptation

import (
	"fmt"
	"sort"

	"potwright/internal/composition"
	"potwright/internal/household"
	"potwright/internal/nutrient"
	"potwright/internal/portion"
	"potwright/internal/recipe"
)

// Dish is a recipe and what is in its pot; Pot.Lines[i] belongs to
// Recipe.Lines[i].
type Dish struct {
	Recipe recipe.Recipe
	Pot    nutrient.Pot
	// Foods are those of each line as people's needs look at them, where they are known
	// already; empty where they are taken from the pot.
	Foods [][]household.LineFood
	// Heat tells what the method does to a line; nil where nothing is said of it.
	Heat func(line int) household.Heat
}

// Table is a household's table with a dish on it, of which plates are served. What
// every plate looks at is gathered once. It is not safe for concurrent use.
type Table struct {
	household household.Household
	needs     *household.Needs
	dish      Dish
	steps     []string
	// pot and all are what plates without and with the things at the table hold; the
	// same where there are none.
	pot, all helping
	offers   bool // something is offered at the table
}

// helping is what plates hold: lines by their place in the recipe, nil for one left
// at the table, and the foods in them.
type helping struct {
	lines []*nutrient.LinePanel
	foods []household.LineFood
}

// Lay puts a dish on a household's table.
func Lay(h household.Household, needs *household.Needs, d Dish) *Table {
	t := &Table{household: h, needs: needs, dish: d, steps: stepTexts(d.Recipe.Steps)}
	t.all = helpingOf(needs, d, true)
	t.pot = t.all
	for _, lp := range t.all.lines {
		t.offers = t.offers || lp.AtTable
	}
	if t.offers {
		t.pot = helpingOf(needs, d, false)
	}
	return t
}

func helpingOf(needs *household.Needs, d Dish, withTable bool) helping {
	out := helping{lines: make([]*nutrient.LinePanel, len(d.Pot.Lines)), foods: dishFoods(d, withTable)}
	for i := range d.Pot.Lines {
		if lp := &d.Pot.Lines[i]; withTable || !lp.AtTable {
			out.lines[i] = lp
		}
	}
	needs.Look(out.foods)
	return out
}

// Serve puts a portion (share of one serving, > 0) of the dish on a member's
// plate and judges it. What is offered at the table is taken only where the
// plate fits no worse with it.
func (t *Table) Serve(m household.Member, share float64) Plate {
	bare := t.plate(m, share, t.pot, t.dish.Pot.Serving)
	if !t.offers {
		return bare
	}
	full := t.plate(m, share, t.all, t.dish.Pot.Serving.Plus(t.dish.Pot.Table))
	offered := func(n composition.Nutrient) float64 { return t.dish.Pot.Table[n].Mid }
	if full.Fits && household.Worse(full.Verdict.Fit, bare.Verdict.Fit) == bare.Verdict.Fit && !watches(m, t.household.PlateShare(), offered) {
		full.AtTable = append(full.AtTable, tableNotes(t.dish, "adds")...)
		return full
	}
	bare.AtTable = append(bare.AtTable, tableNotes(t.dish, "leaves out")...)
	return bare
}

// watches reports whether the things at the table, of which a serving's share is
// given, hold something that the member limits from above by more than a trace of
// the bound: then the plate goes without.
func watches(m household.Member, plateShare float64, offered func(composition.Nutrient) float64) bool {
	for _, b := range m.Bounds(plateShare) {
		if b.Side == household.AtMost && offered(b.Nutrient()) > traceOfBound*b.Left() {
			return true
		}
	}
	return false
}

// traceOfBound is the share of a limit below which a thing at the table is not
// worth holding back. A design choice.
const traceOfBound = 0.01

// plate is a share of a serving on a member's plate, whose panel is given.
func (t *Table) plate(m household.Member, share float64, of helping, panel nutrient.Panel) Plate {
	p := Plate{Member: m, Portion: share, Panel: panel.Scale(share), Fits: true}
	for _, b := range m.Bounds(t.household.PlateShare()) {
		a := household.Amount(p.Panel[b.Nutrient()])
		f := b.Finding(a)
		f.Shares = sharesOf(t.dish.Recipe, of.lines, func(lp *nutrient.LinePanel) float64 { return lp.Panel[b.Nutrient()].Mid })
		p.add(f, b.Fits(a))
	}
	var costing nutrient.Panel
	if m.Plan != nil {
		costing = t.addPlan(&p, of.lines)
	}
	p.addNeeds(t.needs, m, of.foods, t.steps)
	p.Dished = portion.Dished(t.dish.Pot, share)
	p.Largest = portion.LargestInside(t.household, m, panel, costing)
	p.Dislikes = t.needs.Dislikes(m, of.foods)
	p.Cautions = t.needs.Cautions(m, household.PlateFoods{Foods: of.foods, Steps: t.steps,
		Amounts: func(n composition.Nutrient) household.Amount { return household.Amount(p.Panel[n]) }})
	p.Verdict = household.NewVerdict(p.Verdict.Findings)
	return p
}

func (p *Plate) add(f household.Finding, fits bool) {
	p.Verdict.Findings = append(p.Verdict.Findings, f)
	p.Fits = p.Fits && fits
}

// costing is what a plan counts of a dish: without the foods that are free in it.
type costing struct {
	lines   []*nutrient.LinePanel
	serving nutrient.Panel
}

func (t *Table) counted(plan household.Plan, lines []*nutrient.LinePanel) costing {
	c := costing{lines: make([]*nutrient.LinePanel, len(lines))}
	for i, lp := range lines {
		if lp != nil && !allFree(lp, plan) {
			c.lines[i] = Counted(lp, plan)
		}
	}
	c.serving = nutrient.Together(c.lines).Scale(1 / t.dish.Pot.Servings)
	return c
}

// addPlan judges the plate by the member's allowance plan and returns the panel
// of one serving that it counts.
func (t *Table) addPlan(p *Plate, lines []*nutrient.LinePanel) nutrient.Panel {
	plan := *p.Member.Plan
	c := t.counted(plan, lines)
	panel := c.serving.Scale(p.Portion)
	sum := plan.Weigh(func(n composition.Nutrient) household.Amount { return household.Amount(panel[n]) })
	f, fits := p.Member.PlanFinding(sum, t.household.PlateShare())
	f.Shares = sharesOf(t.dish.Recipe, c.lines, func(lp *nutrient.LinePanel) float64 {
		return plan.Weigh(func(n composition.Nutrient) household.Amount { return household.Amount(lp.Panel[n]) }).Mid
	})
	p.add(f, fits)
	if sum.Unknown == 0 && p.Portion > 0 {
		_, _, most := p.Member.Portions()
		p.Costs = portion.Steps(plan, sum.Mid/p.Portion, 2*max(most, p.Portion))
	}
	return c.serving
}

// sharesOf is each line's part of a sum, largest first; lines that bring
// nothing are left out.
func sharesOf(rec recipe.Recipe, lines []*nutrient.LinePanel, of func(*nutrient.LinePanel) float64) []household.Share {
	var total float64
	for _, lp := range lines {
		if lp != nil {
			total += max(0, of(lp))
		}
	}
	var out []household.Share
	for i, lp := range lines {
		if lp == nil {
			continue
		}
		if x := of(lp); x > 0 && total > 0 {
			out = append(out, household.Share{Line: i, Share: x / total, Text: rec.Lines[i].Reading.Text})
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Share > out[j].Share })
	return out
}

// tableNotes says what a plate does with the things at the table.
func tableNotes(d Dish, verb string) []string {
	var out []string
	for i, l := range d.Recipe.Lines {
		if !d.Pot.Lines[i].AtTable {
			continue
		}
		note := fmt.Sprintf("%s at the table: a share of %q", verb, l.Reading.Text)
		if verb == "leaves out" {
			note = fmt.Sprintf("goes without %q at the table", l.Reading.Text)
		}
		out = append(out, note)
	}
	return out
}
