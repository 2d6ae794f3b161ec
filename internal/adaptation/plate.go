package adaptation

import (
	"fmt"
	"slices"
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
	// Heat tells what the method does to a line; nil where nothing is said of it.
	Heat func(line int) household.Heat
}

// Serve puts a portion (share of one serving, > 0) of the dish on a member's
// plate and judges it. What is offered at the table is taken only where the
// plate fits no worse with it.
func Serve(h household.Household, needs *household.Needs, d Dish, m household.Member, share float64) Plate {
	return serve(h, needs, d, m, share, true)
}

// Judge is Serve without what explains the plate: the shares of lines, cautions,
// the largest portion and what portions cost are left out.
func Judge(h household.Household, needs *household.Needs, d Dish, m household.Member, share float64) Plate {
	return serve(h, needs, d, m, share, false)
}

func serve(h household.Household, needs *household.Needs, d Dish, m household.Member, share float64, explained bool) Plate {
	bare := plate(h, needs, d, m, share, false, explained)
	if !hasTable(d.Pot) {
		return bare
	}
	full := plate(h, needs, d, m, share, true, explained)
	if full.Fits && household.Worse(full.Verdict.Fit, bare.Verdict.Fit) == bare.Verdict.Fit && !watches(h, m, d.Pot.Table) {
		full.AtTable = append(full.AtTable, tableNotes(d, "adds")...)
		return full
	}
	bare.AtTable = append(bare.AtTable, tableNotes(d, "leaves out")...)
	return bare
}

// watches reports whether the things at the table hold something that the
// member limits from above by more than a trace of the bound: then the plate
// goes without.
func watches(h household.Household, m household.Member, table nutrient.Panel) bool {
	for _, b := range m.Bounds(h.PlateShare()) {
		if b.Side == household.AtMost && table[b.Nutrient()].Mid > traceOfBound*b.Left() {
			return true
		}
	}
	return false
}

// traceOfBound is the share of a limit below which a thing at the table is not
// worth holding back. A design choice.
const traceOfBound = 0.01

func plate(h household.Household, needs *household.Needs, d Dish, m household.Member, share float64, withTable, explained bool) Plate {
	panel := d.Pot.Serving
	lines := platedLines(d.Pot.Lines, withTable)
	if withTable {
		panel = panel.Plus(d.Pot.Table)
	}
	p := Plate{Member: m, Portion: share, Panel: panel.Scale(share), Fits: true}
	for _, b := range m.Bounds(h.PlateShare()) {
		a := household.Amount(p.Panel[b.Nutrient()])
		f := b.Finding(a)
		if explained {
			f.Shares = sharesOf(d.Recipe, lines, func(lp *nutrient.LinePanel) float64 { return lp.Panel[b.Nutrient()].Mid })
		}
		p.add(f, b.Fits(a))
	}
	var costing nutrient.Panel
	if m.Plan != nil {
		costing = p.addPlan(h, d, lines, explained)
	}
	foods, steps := dishFoods(d, withTable), stepTexts(d.Recipe.Steps)
	p.addNeeds(needs, m, foods, steps)
	if explained {
		p.Dished = portion.Dished(d.Pot, share)
		p.Largest = portion.LargestInside(h, m, panel, costing)
		p.Dislikes = needs.Dislikes(m, foods)
		p.Cautions = needs.Cautions(m, household.PlateFoods{Foods: foods, Steps: steps,
			Amounts: func(n composition.Nutrient) household.Amount { return household.Amount(p.Panel[n]) }})
	}
	p.Verdict = household.NewVerdict(p.Verdict.Findings)
	return p
}

// platedLines are the lines of the pot, and what those at the table bring only
// where the plate takes it.
func platedLines(lines []nutrient.LinePanel, withTable bool) []nutrient.LinePanel {
	if withTable || !anyAtTable(lines) {
		return lines
	}
	out := slices.Clone(lines)
	for i := range out {
		if out[i].AtTable {
			out[i] = nutrient.LinePanel{ID: out[i].ID, AtTable: true}
		}
	}
	return out
}

func (p *Plate) add(f household.Finding, fits bool) {
	p.Verdict.Findings = append(p.Verdict.Findings, f)
	p.Fits = p.Fits && fits
}

// addPlan judges the plate by the member's allowance plan and returns the panel
// of one serving that it counts: without the foods that cost nothing.
func (p *Plate) addPlan(h household.Household, d Dish, lines []nutrient.LinePanel, explained bool) nutrient.Panel {
	plan := *p.Member.Plan
	costing, own := lines, false
	for i := range lines {
		if !hasFree(&lines[i], plan) {
			continue
		}
		if !own {
			costing, own = slices.Clone(lines), true
		}
		costing[i] = Counted(lines[i], plan)
	}
	serving := nutrient.Together(costing).Scale(1 / d.Pot.Servings)
	panel := serving.Scale(p.Portion)
	sum := plan.Weigh(func(n composition.Nutrient) household.Amount { return household.Amount(panel[n]) })
	f, fits := p.Member.PlanFinding(sum, h.PlateShare())
	if explained {
		f.Shares = sharesOf(d.Recipe, costing, func(lp *nutrient.LinePanel) float64 {
			return plan.Weigh(func(n composition.Nutrient) household.Amount { return household.Amount(lp.Panel[n]) }).Mid
		})
	}
	p.add(f, fits)
	if explained && sum.Unknown == 0 && p.Portion > 0 {
		_, _, most := p.Member.Portions()
		p.Costs = portion.Steps(plan, sum.Mid/p.Portion, 2*max(most, p.Portion))
	}
	return serving
}

// sharesOf is each line's part of a sum, largest first; lines that bring
// nothing are left out.
func sharesOf(rec recipe.Recipe, lines []nutrient.LinePanel, of func(*nutrient.LinePanel) float64) []household.Share {
	var total float64
	for i := range lines {
		total += max(0, of(&lines[i]))
	}
	var out []household.Share
	for i := range lines {
		if x := of(&lines[i]); x > 0 && total > 0 {
			out = append(out, household.Share{Line: i, Share: x / total, Text: rec.Lines[i].Reading.Text})
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Share > out[j].Share })
	return out
}

func hasTable(pot nutrient.Pot) bool { return anyAtTable(pot.Lines) }

func anyAtTable(lines []nutrient.LinePanel) bool {
	for i := range lines {
		if lines[i].AtTable {
			return true
		}
	}
	return false
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
