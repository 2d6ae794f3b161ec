package certificate

import (
	"fmt"
	"math"
)

// Report is what a check went through.
type Report struct {
	Cost   int64 // of the choice, at the first level
	Nodes  int
	Closed []Case // in the order of the tree
}

// Case is a closed part of the space of choices.
type Case struct {
	Path []Pick // what the branches before it left as the only option of a group
	// Bound is a proved lower bound on the cost there; +Inf where nothing is left
	// or the rows clash.
	Bound float64
}

// Check verifies a certificate from its own figures. The error says the first
// thing that does not stand: the problem's shape, a row that the choice breaks,
// or a part of the proof that proves nothing.
func Check(c Certificate) (Report, error) {
	if err := c.checkShape(); err != nil {
		return Report{}, err
	}
	w := &walk{p: &c.Problem, target: math.Inf(1), kinds: make([]sides, len(c.Rows))}
	if c.Chosen != nil {
		if err := c.CheckChosen(c.Chosen); err != nil {
			return Report{}, err
		}
		w.report.Cost = c.cost(c.Chosen)
		w.target = float64(w.report.Cost - 1)
	}
	for r := range c.Rows {
		w.kinds[r] = sidesOf(c.Rows[r])
	}
	allowed := make([][]bool, len(c.Groups))
	for g := range allowed {
		allowed[g] = make([]bool, len(c.Groups[g].Options))
		for o := range allowed[g] {
			allowed[g][o] = true
		}
	}
	err := w.node(c.Proof, allowed, nil)
	return w.report, err
}

// mostCost keeps sums of costs exact.
const mostCost = 1 << 40

func (p *Problem) checkShape() error {
	for g, group := range p.Groups {
		for o, option := range group.Options {
			if option.Cost > mostCost || option.Cost < -mostCost {
				return fmt.Errorf("group %d, option %d: costs %d, expected a size of at most 2^40", g, o, option.Cost)
			}
		}
	}
	for r, row := range p.Rows {
		if len(row.Mid) != len(p.Groups) || row.Loads != nil && len(row.Loads) != len(p.Groups) {
			return fmt.Errorf("row %d (%s): expected figures for %d groups", r, row.Name, len(p.Groups))
		}
		for g, mid := range row.Mid {
			if len(mid) != len(p.Groups[g].Options) || row.Loads != nil && row.Loads[g] != nil && len(row.Loads[g]) != len(mid) {
				return fmt.Errorf("row %d (%s), group %d: expected figures for %d options", r, row.Name, g, len(p.Groups[g].Options))
			}
		}
	}
	for s, set := range p.Apart {
		for _, k := range set {
			if k.Group < 0 || k.Group >= len(p.Groups) || k.Option < 0 || k.Option >= len(p.Groups[k.Group].Options) {
				return fmt.Errorf("apart set %d: there is no option %d of group %d", s, k.Option, k.Group)
			}
		}
	}
	return nil
}

// CheckChosen verifies that a choice is one option of every group and keeps
// every row and apart set.
func (p *Problem) CheckChosen(chosen []int) error {
	if len(chosen) != len(p.Groups) {
		return fmt.Errorf("the choice has %d groups, expected %d", len(chosen), len(p.Groups))
	}
	for g, o := range chosen {
		if o < 0 || o >= len(p.Groups[g].Options) {
			return fmt.Errorf("group %d (%s): there is no option %d", g, p.Groups[g].Name, o)
		}
	}
	for r, row := range p.Rows {
		if v := row.Value(chosen); !(v <= row.ceiling()) {
			return fmt.Errorf("row %d (%s): comes to %g, expected at most %g", r, row.Name, v, row.Bound)
		}
	}
	for s, set := range p.Apart {
		taken := map[Pick]bool{}
		for _, k := range set {
			if chosen[k.Group] == k.Option {
				taken[k] = true
			}
		}
		if len(taken) > 1 {
			return fmt.Errorf("apart set %d: %d of it are chosen, expected at most one", s, len(taken))
		}
	}
	return nil
}

func (p *Problem) cost(chosen []int) int64 {
	var sum int64
	for g, o := range chosen {
		sum += p.Groups[g].Options[o].Cost
	}
	return sum
}

func (r Row) ceiling() float64 { return r.Bound + Tolerance*math.Max(1, math.Abs(r.Bound)) }

// Value is the left side of a row for chosen options.
func (r Row) Value(chosen []int) float64 {
	var mid float64
	var order []int
	sums := map[int]float64{}
	for g, o := range chosen {
		mid += r.Mid[g][o]
		for _, l := range r.loads(g, o) {
			if _, seen := sums[l.Factor]; !seen {
				order = append(order, l.Factor)
			}
			sums[l.Factor] += l.Half
		}
	}
	var squares float64
	for _, f := range order {
		squares += sums[f] * sums[f]
	}
	return mid + math.Sqrt(squares)
}

func (r Row) loads(g, o int) []Load {
	if r.Loads == nil || r.Loads[g] == nil {
		return nil
	}
	return r.Loads[g][o]
}
