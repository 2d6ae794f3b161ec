package adaptation

import (
	"fmt"
	"math"
	"slices"

	"potwright/internal/foodmatch"
	"potwright/internal/household"
	"potwright/internal/recipe"
	"potwright/internal/swap"
)

// WholeDish stands for the line of a change that is put in besides the lines.
const WholeDish = -1

// addition is the group of what one rule may put in besides the lines: nothing
// first, or its options only where they were asked for.
type addition struct {
	group    int // in model.cells
	rule     *swap.Rule
	restores swap.Function
	asked    bool
}

// additionsOf opens the rules about the dish as a whole.
func additionsOf(in Input) []swap.Option {
	d := swap.Dish{Title: in.Recipe.Title, Steps: stepTexts(in.Recipe.Steps), Servings: in.Pot.Servings}
	d.Lines = make([]foodmatch.Matched, 0, len(in.Pot.Lines))
	for i := range in.Pot.Lines {
		if lp := &in.Pot.Lines[i]; !lp.AtTable {
			d.Lines = append(d.Lines, *lp.Matched)
			d.Measures = lp.Matched.Measures
		}
	}
	return in.Book.Additions(d, in.Read)
}

// addAdditions makes a group of every rule whose function the dish may lose.
func (m *model) addAdditions() {
	before := m.options.before
	options := m.options.whole
	for len(options) > 0 {
		rule := options[0].Rule
		n := slices.IndexFunc(options, func(o swap.Option) bool { return o.Rule.ID != rule.ID })
		if n < 0 {
			n = len(options)
		}
		m.addAddition(rule, options[:n], before)
		options = options[n:]
	}
	for _, p := range m.in.Wishes.Insist {
		if rule, ok := m.in.Book.Rule(p.Rule); ok && rule.Do == swap.Add && !slices.ContainsFunc(m.additions, func(a addition) bool { return a.rule.ID == p.Rule }) {
			m.blocked = append(m.blocked, fmt.Sprintf("The addition asked for (%s) can't be used in this dish.", p.Rule))
		}
	}
}

func (m *model) addAddition(rule *swap.Rule, options []swap.Option, before swap.Amounts) {
	f, _ := swap.ParseFunction(rule.Restores)
	asked := slices.ContainsFunc(m.in.Wishes.Insist, func(p Pick) bool { return p.Rule == rule.ID })
	if !asked && (m.in.Wishes.AddNoMore || rule.Manual || m.asksSpared(rule) || !m.mayLose(f, before)) {
		return
	}
	var cells []cell
	if !asked {
		cells = append(cells, cell{sight: &sight{}})
	}
	for k := range options {
		o := &options[k]
		if m.refused(WholeDish, *o) || asked && !slices.ContainsFunc(m.in.Wishes.Insist, func(p Pick) bool { return p.is(*o) }) {
			continue
		}
		if s := m.taken(WholeDish, o); len(m.against(s)) == 0 && !m.bringsIn(s, nil) {
			cells = append(cells, cell{option: o, sight: s})
		}
	}
	if len(cells) == 0 || !asked && len(cells) == 1 {
		return
	}
	m.additions = append(m.additions, addition{group: len(m.cells), rule: rule, restores: f, asked: asked})
	m.addCells(cells)
}

func (m *model) asksSpared(rule *swap.Rule) bool {
	return slices.ContainsFunc(rule.Asks, func(load string) bool { return slices.Contains(m.in.Household.Cook.Spare, load) })
}

// floor is the amount of a function below which the dish has lost it, and whether
// there is one: that of its band, for salt what people notice.
func (m *model) floor(f swap.Function, before swap.Amounts) (floor float64, bound bool) {
	if f == swap.Salt {
		if m.in.Taste == nil {
			return 0, false
		}
		return (1 - m.in.Taste.Fall.Unnoticed) * before[f], before[f] > 0
	}
	b := m.in.Book.Balances()[f]
	return b.Low * before[f], b.Low > 0 && before[f] > 0 && before[f]/m.in.Pot.Servings >= b.Enough
}

// lineSpan is the least and the most that lines can bring of a function.
func (m *model) lineSpan(f swap.Function) (least, most float64) {
	for _, cells := range m.cells[:len(m.in.Pot.Lines)] {
		low, high := math.Inf(1), math.Inf(-1)
		for _, c := range cells {
			low, high = min(low, c.brings[f]), max(high, c.brings[f])
		}
		least, most = least+low, most+high
	}
	return least, most
}

func (m *model) mayLose(f swap.Function, before swap.Amounts) bool {
	floor, bound := m.floor(f, before)
	least, _ := m.lineSpan(f)
	return bound && least < floor
}

// addLostRows keep an addition out unless what the lines bring of its function is
// below the floor: nothing is put in that nothing calls for.
func (m *model) addLostRows() {
	before := m.options.before
	for _, a := range m.additions {
		floor, _ := m.floor(a.restores, before)
		_, most := m.lineSpan(a.restores)
		if a.asked || most <= floor {
			continue
		}
		row := m.newRow(fmt.Sprintf("%s only where its %s is lost", a.rule.Title, a.restores), most)
		for g := range m.in.Pot.Lines {
			for k, c := range m.cells[g] {
				row.Mid[g][k] = c.brings[a.restores]
			}
		}
		for k, c := range m.cells[a.group] {
			if c.option != nil {
				row.Mid[a.group][k] = most - floor
			}
		}
		m.problem.Rows = append(m.problem.Rows, row)
	}
}

// addTaste makes the group that says whether people notice that salt is gone: a
// fall past what goes unnoticed counts as change, or something makes up for it.
func (m *model) addTaste() {
	before := m.options.before
	if !m.mayLose(swap.Salt, before) {
		m.taste = -1
		return
	}
	m.taste = len(m.cells)
	m.addCells([]cell{{sight: &sight{}}, {sight: &sight{}, noticed: true}})
}

// addTasteRow holds the salt of the lines to what goes unnoticed, unless it is
// noticed or made up for.
func (m *model) addTasteRow() {
	if m.taste < 0 {
		return
	}
	before := m.options.before
	floor, _ := m.floor(swap.Salt, before)
	row := m.newRow("the taste of the dish keeps up with less salt", -floor)
	for g := range m.in.Pot.Lines {
		for k, c := range m.cells[g] {
			row.Mid[g][k] = -c.brings[swap.Salt]
		}
	}
	row.Mid[m.taste][1] = -floor
	for _, a := range m.additions {
		if a.restores != swap.Salt {
			continue
		}
		for k, c := range m.cells[a.group] {
			if c.option != nil {
				row.Mid[a.group][k] = -floor
			}
		}
	}
	m.problem.Rows = append(m.problem.Rows, row)
}

// additionOf is the addition that a group is of; ok is false for a line and for
// the taste.
func (m *model) additionOf(g int) (a addition, ok bool) {
	i := slices.IndexFunc(m.additions, func(a addition) bool { return a.group == g })
	if i < 0 {
		return addition{}, false
	}
	return m.additions[i], true
}

// groupName is what a group is called in a proof.
func (m *model) groupName(g int) string {
	if g < len(m.in.Recipe.Lines) {
		return m.in.Recipe.Lines[g].Reading.Text
	}
	if a, ok := m.additionOf(g); ok {
		return a.rule.Title
	}
	return "The taste with less salt"
}

// lossOf is the share of a function that a line must lose to count as a reason for
// what makes up for it. A design choice.
const lossOf = 0.02

// lossFor are the members for whom lines lost some of a function.
func (m *model) lossFor(f swap.Function, chosen []int) []string {
	var out []string
	whole := m.options.before
	for g := range m.in.Pot.Lines {
		c := m.cells[g][chosen[g]]
		was := brings(m.in.Book, m.in.Pot.Lines[g:g+1])
		if c.option == nil || was[f]-c.brings[f] < lossOf*whole[f] {
			continue
		}
		for _, who := range m.change(g, c, chosen).For {
			out = appendNew(out, who)
		}
	}
	return out
}

// addedAt is where new lines stand in a recipe: after the lines of the pot, in
// front of those at the table.
func addedAt(lines []recipe.Line) int {
	if i := slices.IndexFunc(lines, recipe.Line.AtTable); i >= 0 {
		return i
	}
	return len(lines)
}

// sectionOf is the section that new lines at a place stand in.
func sectionOf(lines []recipe.Line, at int) string {
	if at == 0 {
		return ""
	}
	return lines[at-1].Section
}

// Added are the additions among changes, in order.
func Added(changes []Change) []Change {
	return slices.DeleteFunc(slices.Clone(changes), func(c Change) bool { return c.Line != WholeDish })
}

// heatOf is what the method does to a line; of an addition nothing is known.
func (m *model) heatOf(line int) household.Heat {
	if m.in.Heat == nil || line == WholeDish {
		return household.HeatNotTold
	}
	return m.in.Heat(line)
}
