package choice

// Problem is groups of options and the rows that bind them.
type Problem struct {
	Groups []Group
	Rows   []Row
	// Apart are sets of picks of which at most one may be chosen.
	Apart [][]Pick
}

// Group is one choice: exactly one of its options.
type Group struct{ Options []Option }

// Option costs Cost, compared level by level: all of level 0 first. Every
// option of a problem has the same number of levels.
type Option struct{ Cost []int64 }

// Pick is option Option of group Group.
type Pick struct{ Group, Option int }

// Row holds where
//
//	Σ Mid + sqrt( Σ_factor ( Σ Load )² ) <= Bound
//
// over the chosen options. Loads of the same factor add up before they are
// squared: they move together; different factors are independent. A row without
// loads is linear. An at-least row is given with its signs turned.
type Row struct {
	Name  string
	Bound float64
	Mid   [][]float64 // by group, option
	Loads [][][]Load  // by group, option; nil for a linear row
}

// Load is a half-width under a factor; it may be negative.
type Load struct {
	Factor int
	Half   float64
}

// Budget is how much a search may take: figures of the tableau and of the rows
// gone through, 0 for no bound. It counts work and not time, so that the same
// question has the same answer on any machine, however busy. It is looked at once
// a node, which takes well under a millisecond on problems of a kitchen's size.
type Budget int64

// Status of a solution.
type Status int

// Statuses.
const (
	Optimal    Status = iota // proved: nothing costs less
	Infeasible               // proved: nothing fits
	Stopped                  // the budget ran out; Chosen is the best found, nil if none
)

// Solution is the chosen option of each group.
type Solution struct {
	Status Status
	Chosen []int
	Cost   []int64
	// Bound is a proved lower bound on the first cost level: the cost itself where
	// Optimal, the largest int64 where Infeasible.
	Bound int64
	Nodes int
	Work  Budget // what it took
}

// Tolerance is how far a row may pass its bound, relative to the larger of 1
// and |Bound|, and still hold: it covers rounding of sums of doubles only.
const Tolerance = 1e-9
