package adaptation

import (
	"fmt"
	"math"
	"slices"

	"potwright/internal/choice"
	"potwright/internal/label"
)

// impossible answers why nothing suits everyone: the bounds that clash, the
// least each can be brought to, and what can still be done.
func (m *model) impossible(sol choice.Solution) (Answer, error) {
	ans := m.unchanged()
	ans.Fits, ans.Proof, ans.Nodes = false, Infeasible, sol.Nodes
	rows, status, err := choice.Conflict(m.problem, followUp, m.in.Now)
	if err != nil {
		return Answer{}, err
	}
	if status == choice.Stopped {
		rows = allRows(m.problem)
	}
	for _, r := range rows {
		ans.Conflicts = append(ans.Conflicts, m.conflictText(r))
		if r < len(m.asks) && m.asks[r].plan == nil {
			a := m.asks[r]
			ans.Reachable = append(ans.Reachable, Reach{Member: m.in.Household.Members[a.member].Name, Limit: a.limit, Amount: m.reach(r)})
		}
	}
	ans.Nearest = m.nearest(rows)
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
	word := "the least that can be reached"
	if a.atLeast {
		word = "the most that can be reached"
	}
	return fmt.Sprintf("%s (%s: %s)", a.name, word, m.amountText(a, m.reach(r)))
}

func (m *model) amountText(a ask, x float64) string {
	if a.plan != nil {
		return a.plan.Units(a.plan.Price(x))
	}
	return label.Text(a.limit.Nutrient, x)
}

// reach is the amount on the plate that the options of every line, taken by
// themselves, and the best accepted portion bring an ask to, at the middle of
// the range; at the far end for a strict ask it is more.
func (m *model) reach(r int) float64 {
	a, row := m.asks[r], m.problem.Rows[r]
	var sum float64
	for g := range m.cells {
		best := math.Inf(1)
		for k := range row.Mid[g] {
			best = math.Min(best, row.Mid[g][k])
		}
		sum += best
	}
	portion := m.portions[a.member][0]
	for _, p := range m.portions[a.member] {
		if a.atLeast && p > portion || !a.atLeast && p < portion {
			portion = p
		}
	}
	return math.Abs(sum) * portion
}

// nearest are things that can still be done when nothing suits everyone.
func (m *model) nearest(rows []int) []string {
	var out []string
	for _, r := range rows {
		if r >= len(m.asks) || m.asks[r].atLeast || m.asks[r].plan != nil {
			continue
		}
		out = append(out, m.smallerPortion(r)...)
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
		sol, err := newModel(in, m.options, m.leeway).search()
		if err == nil && sol.Chosen != nil {
			out = append(out, fmt.Sprintf("Everyone but %s can share this dish; cook %s's plate apart, or choose another dish for %s.", mem.Name, mem.Name, mem.Name))
		}
	}
	return out
}

// smallerPortion is the portion at which one ask could be met by itself.
func (m *model) smallerPortion(r int) []string {
	a := m.asks[r]
	mem := m.in.Household.Members[a.member]
	_, least, _ := mem.Portions()
	x := m.reach(r)
	if x <= a.bound {
		return nil
	}
	p := math.Floor(least*a.bound/x*20) / 20
	if p < 0.1 {
		return nil
	}
	return []string{fmt.Sprintf("A portion of about %s of a serving would bring %s within this limit, with every swap taken.", label.Figure(p), mem.Name)}
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
	sol, err := choice.Solve(p, followUp, m.in.Now)
	return err == nil && sol.Chosen != nil
}
