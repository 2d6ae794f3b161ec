package adaptation

import (
	"fmt"
	"slices"

	"potwright/internal/choice"
	"potwright/internal/household"
	"potwright/internal/nutrient"
	"potwright/internal/recipe"
)

// Adapt finds the least change that suits every member, in the order of the
// cost levels: change to the dish and to portions, work for the cook, number of
// changed lines, room under the limits; Wishes.Aim puts another first. The steps of Answer.Recipe are still
// those of the original: package method rewrites them.
//
// The error is for a malformed input only; a dish that suits nobody is an
// Answer with Fits false and Proof Infeasible.
func Adapt(in Input) (Answer, error) {
	start := in.Now()
	options, refused := optionsOf(in)
	ans, err := solve(in, options)
	if err != nil {
		return Answer{}, fmt.Errorf("adapt %q: %w", in.Recipe.Title, err)
	}
	if refused != "" {
		ans.Cautions = append(ans.Cautions, refused)
	}
	ans.Options = options.byLine()
	ans.Elapsed = in.Now().Sub(start)
	return ans, nil
}

// solve asks for everything first: no line that may hold what someone avoids,
// and the cook's hands spared. Where nothing suits everyone, the cook's hands
// give way, then labels are left to be read; plates and notes say so.
func solve(in Input, options offer) (Answer, error) {
	m, sol, err := firstModel(in, options)
	if err != nil {
		return Answer{}, err
	}
	ans, err := m.explain(sol)
	if err == nil && in.Wishes.Certificate && in.Wishes.Aim == LeastChange {
		err = m.certify(&ans, sol)
	}
	return ans, err
}

// firstModel is the model with the least leeway that something suits, else the
// last.
func firstModel(in Input, options offer) (m *model, sol choice.Solution, err error) {
	for _, l := range leeways(in.Household) {
		m = newModel(in, options, l)
		if sol, err = m.search(); err != nil || sol.Status != choice.Infeasible {
			return m, sol, err
		}
	}
	return m, sol, nil
}

// leeways are what a search may let pass, step by step; a step that changes
// nothing for this household is left out.
func leeways(h household.Household) []leeway {
	trust, spare := []bool{true}, []bool{false}
	if slices.ContainsFunc(h.Members, func(m household.Member) bool { return len(m.Avoid) > 0 }) {
		trust = []bool{false, true}
	}
	if len(h.Cook.Spare) > 0 {
		spare = []bool{true, false}
	}
	var out []leeway
	for _, t := range trust {
		for _, s := range spare {
			out = append(out, leeway{trustLabels: t, spareHands: s})
		}
	}
	return out
}

func (m *model) search() (choice.Solution, error) {
	if len(m.blocked) > 0 {
		return choice.Solution{Status: choice.Infeasible}, nil
	}
	return choice.Solve(m.problem, m.in.Budget)
}

func (m *model) explain(sol choice.Solution) (Answer, error) {
	if len(m.blocked) > 0 {
		ans := m.unchanged()
		ans.Fits, ans.Proof, ans.Conflicts = false, Infeasible, m.blocked
		ans.Nearest = m.withoutEach()
		return ans, nil
	}
	switch {
	case sol.Status == choice.Infeasible:
		return m.impossible(sol)
	case sol.Chosen == nil:
		ans := m.unchanged()
		ans.Proof, ans.Nodes = BestFound, sol.Nodes
		ans.Conflicts = []string{"The search was stopped before it found a dish that suits everyone, and before it could tell that there is none."}
		return ans, nil
	}
	ans := m.answer(sol.Chosen)
	ans.Nodes, ans.Cost = sol.Nodes, m.in.Wishes.Aim.byLevel(sol.Cost)
	ans.Labels = m.labels(sol.Chosen)
	ans.Proof = Optimal
	if len(ans.Changes) > 0 {
		ans.Alternatives = m.alternatives()
	}
	if sol.Status == choice.Stopped {
		ans.Proof = BestFound
		ans.Gap = int(sol.Cost[0] - sol.Bound)
	}
	return ans, nil
}

// answer is the dish that a choice makes.
func (m *model) answer(chosen []int) Answer {
	ans := Answer{Changes: m.changes(chosen)}
	dish := Dish{Recipe: m.in.Recipe}
	room := len(m.in.Recipe.Lines) + roomForMore
	dish.Recipe.Lines = make([]recipe.Line, 0, room)
	panels := make([]nutrient.LinePanel, 0, room)
	var table []recipe.Line
	var tablePanels []nutrient.LinePanel
	for g, line := range m.in.Recipe.Lines {
		c := m.cells[g][chosen[g]]
		if c.option == nil {
			dish.Recipe.Lines = append(dish.Recipe.Lines, line)
			panels = append(panels, m.in.Pot.Lines[g])
			continue
		}
		for _, matched := range c.option.Lines {
			dish.Recipe.Lines = append(dish.Recipe.Lines, recipe.Line{Section: line.Section, Reading: matched.Reading})
		}
		panels = append(panels, c.panels...)
		for k := range c.option.Table {
			matched := &c.option.Table[k]
			lp := nutrient.Line(fmt.Sprintf("%d/table/%d", g, k), matched, m.in.Pot.Servings)
			lp.AtTable = true
			table = append(table, recipe.Line{Section: recipe.TableSection, Reading: matched.Reading})
			tablePanels = append(tablePanels, lp)
		}
	}
	for _, a := range m.additions {
		c := m.cells[a.group][chosen[a.group]]
		if c.option == nil {
			continue
		}
		at := addedAt(dish.Recipe.Lines)
		section := sectionOf(dish.Recipe.Lines, at)
		for n, matched := range c.option.Lines {
			dish.Recipe.Lines = slices.Insert(dish.Recipe.Lines, at+n, recipe.Line{Section: section, Reading: matched.Reading})
			panels = slices.Insert(panels, at+n, c.panels[n])
		}
	}
	dish.Recipe.Lines = append(dish.Recipe.Lines, table...)
	dish.Pot = nutrient.Sum(append(panels, tablePanels...), m.in.Pot.Servings).Finished(m.in.Pot.Finish)
	m.finish(&ans, dish, m.chosenPortions(chosen))
	return ans
}

// roomForMore is for lines that swaps bring in besides those they take the place of: most
// bring in fewer.
const roomForMore = 3

// unchanged is the dish as it is, with everyone's usual portion.
func (m *model) unchanged() Answer {
	ans := Answer{}
	var portions []float64
	for _, mem := range m.in.Household.Members {
		usual, _, _ := mem.Portions()
		portions = append(portions, usual)
	}
	m.finish(&ans, Dish{Recipe: m.in.Recipe, Pot: m.in.Pot}, portions)
	return ans
}

func (m *model) finish(ans *Answer, d Dish, portions []float64) {
	ans.Recipe, ans.Pot = d.Recipe, d.Pot
	ans.Balance = balanceOf(m.in.Book, m.in.Pot, d.Pot)
	ans.Fits = true
	table := Lay(m.in.Household, m.in.Needs, d)
	ans.Plates = make([]Plate, 0, len(m.in.Household.Members))
	for i, mem := range m.in.Household.Members {
		p := table.Serve(mem, portions[i])
		ans.Plates = append(ans.Plates, p)
		ans.Fits = ans.Fits && p.Fits
	}
	for _, c := range ans.Changes {
		for _, caution := range c.Option.Rule.Cautions {
			ans.Cautions = appendNew(ans.Cautions, caution)
		}
	}
}

func (m *model) chosenPortions(chosen []int) []float64 {
	out := make([]float64, len(m.portions))
	for i, ps := range m.portions {
		out[i] = ps[chosen[len(m.cells)+i]]
	}
	return out
}

// followUp keeps the follow-up questions of an impossible dish short: 0.2 s each.
const followUp = choice.Second / 5
