package choice

import "time"

// meter holds what is left of a budget over one or several searches.
type meter struct {
	budget Budget
	now    func() time.Time
	start  time.Time
	nodes  int
	out    bool // the budget ran out
}

func newMeter(budget Budget, now func() time.Time) *meter {
	t := &meter{budget: budget, now: now}
	if now == nil {
		t.budget.Time = 0
	}
	if t.budget.Time > 0 {
		t.start = now()
	}
	return t
}

// spent counts a node and tells whether the budget has run out.
func (t *meter) spent() bool {
	if t.out {
		return true
	}
	if t.budget.Nodes > 0 && t.nodes >= t.budget.Nodes ||
		t.budget.Time > 0 && t.now().Sub(t.start) >= t.budget.Time {
		t.out = true
		return true
	}
	t.nodes++
	return false
}
