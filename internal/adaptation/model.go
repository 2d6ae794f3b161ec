package adaptation

import (
	"fmt"
	"slices"
	"strconv"

	"potwright/internal/choice"
	"potwright/internal/composition"
	"potwright/internal/foodmatch"
	"potwright/internal/household"
	"potwright/internal/nutrient"
	"potwright/internal/recipe"
	"potwright/internal/swap"
)

// model is the choice problem of a dish and the people at its table: a group
// for each line (keep it, or one of its options), for each addition (nothing, or
// so much of it) and for the taste with less salt, then one for each member's
// portion.
type model struct {
	in      Input
	options offer
	leeway
	cells     [][]cell // by line, then those of additions and of the taste
	additions []addition
	taste     int         // group of the taste with less salt, -1 where there is none
	portions  [][]float64 // by member: the shares of a serving to choose from
	asks      []ask
	problem   choice.Problem
	// balanceFrom and balanceTo bound the rows of the dish's balance, the end
	// excluded.
	balanceFrom, balanceTo int
	factors                map[nutrient.Factor]int
	// unkept are the reasons that take a line as it is out of the choice.
	unkept map[int][]reason
	// blocked are lines or members nothing can be done for, as sentences.
	blocked []string
}

// offer is all that the rulebook opens: by line, and for the dish as a whole by
// rule.
type offer struct {
	lines [][]swap.Option
	whole []swap.Option
	// before is what the dish brings as it is.
	before swap.Amounts
	method household.Method
	eaters []needy // by member of the household
	seen   sights
}

// leeway is what a search may let pass.
type leeway struct {
	// trustLabels lets a line stand that may hold what someone avoids: its label
	// tells. Without it such a line counts as holding it.
	trustLabels bool
	// spareHands takes lines that load the cook's hands out of the choice where
	// a swap spares them.
	spareHands bool
	// fullPlates counts a portion moved above any change to the dish.
	fullPlates bool
	// middle holds clinicians' limits at the middle of the range, as those of others.
	middle bool
}

// cell is one thing that may be done with a line; Option is nil for keeping it.
type cell struct {
	option *swap.Option
	*sight // what stands in the pot then
	// noticed is set, in the group of the taste, where people notice that salt is
	// gone.
	noticed bool
}

// reason is why something must change, and for whom.
type reason struct{ who, text string }

// Cost levels, compared in this order unless the wishes aim at another.
const (
	levelChange = iota // how much the dish and the portions change
	levelEffort        // work for the cook
	levelCount         // number of changed lines and additions
	levelRoom          // less of what is limited leaves more room
	levels      = iota
)

func newModel(in Input, options offer, l leeway) *model {
	m := &model{in: in, options: options, leeway: l,
		factors: map[nutrient.Factor]int{}, unkept: map[int][]reason{}}
	m.asks = asksOf(in.Household)
	for i := range m.asks {
		m.asks[i].strict = m.asks[i].strict && !l.middle
	}
	m.blocked = outOfReach(in.Household, m.asks)
	m.addLines()
	m.addAdditions()
	if len(m.blocked) > 0 {
		return m // there is nothing to search
	}
	m.addTaste()
	m.addPortions()
	m.addAskRows()
	m.addBalanceRows()
	m.addLostRows()
	m.addTasteRow()
	m.addCap()
	m.addApart()
	return m
}

// addLines makes a group of every line: what the wishes and hard needs leave.
func (m *model) addLines() {
	for i := range m.in.Pot.Lines {
		m.addCells(m.allowed(i))
	}
}

// addCells makes a group of things that may be done.
func (m *model) addCells(cells []cell) {
	g := choice.Group{Options: make([]choice.Option, len(cells))}
	for k, c := range cells {
		g.Options[k] = choice.Option{Cost: m.in.Wishes.Aim.ranked(m.cost(c))}
	}
	m.cells = append(m.cells, cells)
	m.problem.Groups = append(m.problem.Groups, g)
}

// cost of a cell by level.
func (m *model) cost(c cell) []int64 {
	cost := make([]int64, levels)
	if c.option != nil {
		cost[levelChange] = int64(c.option.Change)
		cost[levelEffort] = int64(c.option.Effort)
		cost[levelCount] = 1
	}
	if c.noticed {
		cost[levelChange] = int64(m.in.Taste.Fall.Counts)
	}
	for i := range m.asks {
		a := &m.asks[i]
		if !a.atLeast && a.bound > 0 {
			mid, _ := a.weigh(c.sight, m.in.Pot.Servings)
			cost[levelRoom] += int64(1000*mid/a.bound + 0.5)
		}
	}
	return cost
}

// portionSteps is how finely portions may move, in shares of a serving.
const portionSteps = 8

// portionCost is what a portion moved by a whole usual portion counts, on the
// scale of the rules' change (0..10): half a portion counts as much as another
// dish. A design choice.
const portionCost = 20

// aboveChanges is more than the changes of a whole dish come to.
const aboveChanges = 1000

func (m *model) addPortions() {
	for _, mem := range m.in.Household.Members {
		usual, least, most := mem.Portions()
		ps := []float64{usual}
		for k := 1; float64(k)/portionSteps <= most+1e-9; k++ {
			if p := float64(k) / portionSteps; p >= least-1e-9 && p != usual {
				ps = append(ps, p)
			}
		}
		g := choice.Group{}
		for _, p := range ps {
			cost := make([]int64, levels)
			moved := p - usual
			if moved < 0 {
				moved = -moved
			}
			cost[levelChange] = int64(portionCost*moved/usual + 0.999)
			if m.fullPlates {
				cost[levelChange] *= aboveChanges
			}
			g.Options = append(g.Options, choice.Option{Cost: m.in.Wishes.Aim.ranked(cost)})
		}
		m.portions = append(m.portions, ps)
		m.problem.Groups = append(m.problem.Groups, g)
	}
}

// addApart keeps out of one dish rules that exclude one another, and two foods in
// place of one.
func (m *model) addApart() {
	m.addAlike()
	sets := map[string][]choice.Pick{}
	var order []string
	for g, cells := range m.cells {
		for k, c := range cells {
			if c.option == nil || c.option.Rule.Together == "" {
				continue
			}
			name := c.option.Rule.Together
			if sets[name] == nil {
				order = append(order, name)
			}
			sets[name] = append(sets[name], choice.Pick{Group: g, Option: k})
		}
	}
	for _, name := range order {
		if len(sets[name]) > 1 {
			m.problem.Apart = append(m.problem.Apart, sets[name])
		}
	}
}

// mostAlike is with how many lines of the same food behind it a line is held together:
// a dish has one food on two or three lines, and one with it on a hundred is still
// answered. A design choice.
const mostAlike = 3

// addAlike has lines of one food replaced by one food: where both of two rules
// could replace both lines, a cook does not buy oat milk for the one and soy milk
// for the other.
func (m *model) addAlike() {
	for g := range m.in.Pot.Lines {
		alike := 0
		for other := g + 1; other < len(m.in.Pot.Lines) && alike < mostAlike; other++ {
			if !sameFood(m.in.Pot.Lines[g].Matched, m.in.Pot.Lines[other].Matched) {
				continue
			}
			alike++
			for k, c := range m.cells[g] {
				if picks := m.otherWays(c, g, other); len(picks) > 0 {
					m.problem.Apart = append(m.problem.Apart, append(picks, choice.Pick{Group: g, Option: k}))
				}
			}
		}
	}
}

// otherWays are the picks of another line of the same food that replace it by a
// rule other than the cell's, where either rule could serve both lines.
func (m *model) otherWays(c cell, g, other int) []choice.Pick {
	if !replaces(c) || !m.serves(other, c.option.Rule) {
		return nil
	}
	var out []choice.Pick
	for k, o := range m.cells[other] {
		if replaces(o) && o.option.Rule.ID != c.option.Rule.ID && m.serves(g, o.option.Rule) {
			out = append(out, choice.Pick{Group: other, Option: k})
		}
	}
	return out
}

func replaces(c cell) bool { return c.option != nil && c.option.Rule.Do == swap.Replace }

// serves reports whether a line may be changed by a rule.
func (m *model) serves(line int, rule *swap.Rule) bool {
	return slices.ContainsFunc(m.cells[line], func(c cell) bool { return c.option != nil && c.option.Rule.ID == rule.ID })
}

func sameFood(a, b *foodmatch.Matched) bool {
	return len(a.Items) == 1 && len(b.Items) == 1 && a.Items[0].Food != nil && a.Items[0].Food == b.Items[0].Food
}

// addCap holds the number of changed lines and additions to the wish.
func (m *model) addCap() {
	if m.in.Wishes.MaxChanges <= 0 {
		return
	}
	row := m.newRow(fmt.Sprintf("at most %d changes", m.in.Wishes.MaxChanges), float64(m.in.Wishes.MaxChanges))
	for g, cells := range m.cells {
		for k, c := range cells {
			if c.option != nil {
				row.Mid[g][k] = 1
			}
		}
	}
	m.problem.Rows = append(m.problem.Rows, row)
}

// newRow is an empty linear row over every group.
func (m *model) newRow(name string, bound float64) choice.Row {
	row := choice.Row{Name: name, Bound: bound, Mid: make([][]float64, len(m.problem.Groups))}
	all := 0
	for _, group := range m.problem.Groups {
		all += len(group.Options)
	}
	room := make([]float64, all)
	for g, group := range m.problem.Groups {
		n := len(group.Options)
		row.Mid[g], room = room[:n:n], room[n:]
	}
	return row
}

func (m *model) factor(name nutrient.Factor) int {
	id, ok := m.factors[name]
	if !ok {
		id = len(m.factors)
		m.factors[name] = id
	}
	return id
}

// panelsOf computes what an option puts into the pot in place of a line.
func (m *model) panelsOf(line int, o *swap.Option) []nutrient.LinePanel {
	panels := make([]nutrient.LinePanel, len(o.Lines))
	for k := range o.Lines {
		id := strconv.Itoa(line) + "/" + strconv.Itoa(k)
		if m.in.Cook != nil {
			panels[k] = m.in.Cook(id, line, *o, k)
		} else {
			panels[k] = nutrient.Line(id, &o.Lines[k], m.in.Pot.Servings)
		}
	}
	return panels
}

// optionsOf opens the rulebook for every line that may change and for the dish. A
// dish whose salt or acid keeps it from spoiling is left as it is.
func optionsOf(in Input) (options offer, refused string) {
	options.seen, options.before = sights{}, brings(in.Book, in.Pot.Lines)
	options.method = in.Needs.Method(stepTexts(in.Recipe.Steps))
	for _, mem := range in.Household.Members {
		options.eaters = append(options.eaters, needyOf(in.Needs, mem))
	}
	options.lines = make([][]swap.Option, len(in.Pot.Lines))
	if why, yes := in.Book.Refuses(in.Recipe); yes {
		return options, why
	}
	if in.Recipe.Endless() {
		return options, fmt.Sprintf("A recipe of more than %d ingredient lines or %d steps is left as it is: part it into dishes.", recipe.MaxLines, recipe.MaxSteps)
	}
	dish, titled := in.Pot.Matched(), composition.Words(in.Recipe.Title)
	for i, lp := range in.Pot.Lines {
		if !lp.AtTable {
			options.lines[i] = in.Book.Options(*lp.Matched, dish, in.Read)
			countNamed(titled, lp.Matched, options.lines[i])
			countMain(lp.Panel[composition.Energy].Mid/in.Pot.Total[composition.Energy].Mid, options.lines[i])
		}
	}
	options.whole = additionsOf(in)
	return options, ""
}

// byLine are all options by line, for people to pick from; additions stand under
// WholeDish.
func (o offer) byLine() map[int][]swap.Option {
	out := map[int][]swap.Option{}
	for i, os := range o.lines {
		if len(os) > 0 {
			out[i] = os
		}
	}
	if len(o.whole) > 0 {
		out[WholeDish] = o.whole
	}
	return out
}
