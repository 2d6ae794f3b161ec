package adaptation

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"potwright/internal/choice"
	"potwright/internal/label"
)

// impossible answers why nothing suits everyone: the bounds that clash, the
// least each can be brought to, and what can still be done.
func (m *model) impossible(sol choice.Solution) (Answer, error) {
	ans := m.unchanged()
	ans.Fits, ans.Proof, ans.Nodes = false, Infeasible, sol.Nodes
	rows, status, err := choice.Conflict(m.problem, followUp)
	if err != nil {
		return Answer{}, err
	}
	if status == choice.Stopped {
		rows = allRows(m.problem)
	}
	for _, r := range rows {
		ans.Conflicts = append(ans.Conflicts, m.conflictText(r))
		if r >= len(m.asks) || m.asks[r].plan != nil {
			continue
		}
		if amount, ok := m.reach(r); ok {
			a := m.asks[r]
			ans.Reachable = append(ans.Reachable, Reach{Member: m.in.Household.Members[a.member].Name, Limit: a.limit, Amount: amount})
		}
	}
	ans.Nearest = m.nearest(rows)
	m.atTheMiddle(&ans)
	return ans, nil
}

func allRows(p choice.Problem) []int {
	rows := make([]int, len(p.Rows))
	for i := range rows {
		rows[i] = i
	}
	return rows
}

// conflictText is a row of the conflict with what it can be brought to by itself.
func (m *model) conflictText(r int) string {
	if r >= len(m.asks) {
		return m.problem.Rows[r].Name
	}
	a := m.asks[r]
	amount, ok := m.reach(r)
	if !ok {
		return a.name
	}
	word, end := "the least that can be reached", "high"
	if a.atLeast {
		word, end = "the most that can be reached", "low"
	}
	text := fmt.Sprintf("%s (%s: %s", a.name, word, m.amountText(a, amount))
	if a.strict {
		text += " at the " + end + " end of its range"
	}
	return text + ")"
}

func (m *model) amountText(a ask, x float64) string {
	if a.plan != nil {
		return a.plan.Units(a.plan.Price(x))
	}
	return label.Text(a.limit.Nutrient, x)
}

// reach is the amount on the plate that one ask can be brought to by itself, by
// the options of every line and the best accepted portion: for a strict ask the
// far end of the range, which is what its bound is held against, else the
// middle. ok is false where the search was stopped before it could tell.
func (m *model) reach(r int) (amount float64, ok bool) {
	a := m.asks[r]
	serving := m.askRow(a)
	for g := len(m.cells); g < len(serving.Mid); g++ {
		serving.Mid[g] = make([]float64, len(serving.Mid[g]))
		if serving.Loads != nil {
			serving.Loads[g] = nil
		}
	}
	p := m.problem
	p.Rows = []choice.Row{serving}
	least, sol, err := choice.Extreme(p, 0, followUp)
	if err != nil || sol.Status != choice.Optimal {
		return 0, false
	}
	if a.atLeast {
		return max(0, -least) * slices.Max(m.portions[a.member]), true
	}
	return least * slices.Min(m.portions[a.member]), true
}

// nearest are things that can still be done when nothing suits everyone.
func (m *model) nearest(rows []int) []string {
	clash := slices.DeleteFunc(slices.Clone(rows), func(r int) bool { return r >= len(m.asks) || m.asks[r].atLeast })
	out := m.smallerPortions(clash)
	if len(out) == 0 {
		for _, r := range clash {
			out = append(out, m.smallerPortion(r)...)
		}
	}
	out = append(out, m.withoutEach()...)
	if m.feasible(func(r int) bool { return r < m.balanceFrom || r >= m.balanceTo }) {
		out = append(out, "It can be done if the dish may lose some of what holds it together (its body, creaminess or liquid): ask for the swaps one by one.")
	}
	if m.in.Wishes.MaxChanges > 0 || len(m.in.Wishes.Lock) > 0 || len(m.in.Wishes.Refuse) > 0 {
		out = append(out, "Locked lines, refused swaps and the cap on changes count here too: taking one back may free it.")
	}
	return out
}

// withoutEach names the members without whom the others can share the dish.
func (m *model) withoutEach() []string {
	var out []string
	for i, mem := range m.in.Household.Members {
		in := m.in
		in.Budget = followUp
		in.Household.Members = slices.Delete(slices.Clone(in.Household.Members), i, i+1)
		if len(in.Household.Members) == 0 {
			continue
		}
		options := m.options
		options.eaters = slices.Delete(slices.Clone(options.eaters), i, i+1)
		sol, err := newModel(in, options, m.leeway).search()
		if err == nil && sol.Chosen != nil {
			out = append(out, fmt.Sprintf("Everyone but %s can share this dish; cook %s's plate apart, or choose another dish for %s.", mem.Name, mem.Name, mem.Name))
		}
	}
	return out
}

// smallest is the least share of a serving that is proposed for a meal. A design
// choice.
const smallest = 0.25

// smallerPortions are portions below what members accept with which the dish can be
// adapted for everyone: of those whose asks clash, else of anyone.
func (m *model) smallerPortions(clash []int) []string {
	if len(clash) == 0 {
		return nil
	}
	var clashing, all []int
	for i := range m.in.Household.Members {
		all = append(all, i)
		if slices.ContainsFunc(clash, func(r int) bool { return m.asks[r].member == i }) {
			clashing = append(clashing, i)
		}
	}
	if out := m.withLess(clashing); len(out) > 0 || len(clashing) == len(all) {
		return out
	}
	return m.withLess(all)
}

// withLess is the least that some members must accept below their portions for the
// dish to suit everyone, as a sentence.
func (m *model) withLess(members []int) []string {
	in := m.in
	in.Budget = followUp
	in.Household.Members = slices.Clone(in.Household.Members)
	for _, i := range members {
		_, least, _ := in.Household.Members[i].Portions()
		in.Household.Members[i].PortionMin = min(least, smallest)
	}
	l := m.leeway
	l.fullPlates = true
	less := newModel(in, m.options, l)
	sol, err := less.search()
	if err != nil || sol.Chosen == nil {
		return nil
	}
	var parts []string
	for _, i := range members {
		_, least, _ := m.in.Household.Members[i].Portions()
		if p := less.portions[i][sol.Chosen[len(less.cells)+i]]; p < least {
			parts = append(parts, fmt.Sprintf("%s of a serving for %s", label.Figure(p), in.Household.Members[i].Name))
		}
	}
	return []string{fmt.Sprintf("With %s the dish can be adapted for everyone.", strings.Join(parts, " and "))}
}

// smallerPortion is the portion at which one ask could be met by itself.
func (m *model) smallerPortion(r int) []string {
	a := m.asks[r]
	mem := m.in.Household.Members[a.member]
	_, least, _ := mem.Portions()
	x, ok := m.reach(r)
	if !ok || x <= a.left() {
		return nil
	}
	p := math.Floor(least*a.left()/x*20) / 20
	if p < 0.1 {
		return nil
	}
	return []string{fmt.Sprintf("A portion of about %s of a serving would bring %s within this limit alone, with every swap taken.", label.Figure(p), mem.Name)}
}

// feasible reports whether the rows that keep lets through can hold together; a
// search that is stopped counts as no.
func (m *model) feasible(keep func(row int) bool) bool {
	p := m.problem
	p.Rows = nil
	for r, row := range m.problem.Rows {
		if keep(r) {
			p.Rows = append(p.Rows, row)
		}
	}
	if len(p.Rows) == len(m.problem.Rows) {
		return false
	}
	sol, err := choice.Solve(p, followUp)
	return err == nil && sol.Chosen != nil
}
