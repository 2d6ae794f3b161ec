package choice

// Second is about how many figures one core goes through in a second: measured on a
// server of 2024 over the problems of BenchmarkSolve that take long.
const Second Budget = 400_000_000

// coneWork is how many figures the bounds of a cone are counted as, by column.
const coneWork = 4

// meter holds what is left of a budget over one or several searches.
type meter struct {
	budget Budget
	work   Budget
	nodes  int
	out    bool // the budget ran out
}

// spent counts a node and tells whether the budget has run out.
func (t *meter) spent() bool {
	if t.budget > 0 && t.work >= t.budget {
		t.out = true
	}
	if t.out {
		return true
	}
	t.nodes++
	return false
}

// charge counts figures that were gone through.
func (t *meter) charge(figures int) { t.work += Budget(figures) }
