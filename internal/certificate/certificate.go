// Package certificate holds the proof of a choice in a form that can be checked
// without searching, and checks it. It shares no code with the search that found
// the choice: what it accepts rests on this package alone.
//
// # What a certificate says
//
// A problem (one option of every group, rows that must hold), a choice that
// keeps every row, and a proof that no other choice costs less at the first
// level; or no choice, and a proof that none keeps every row.
//
// # Why the proof can be believed
//
// The proof is a tree. Every node stands for the options still allowed in each
// group, at the root all of them. A branch parts the options of one group in
// two, so its two nodes together lose nothing. A step adds up some rows, each
// times a factor of at least 0. Any choice that keeps those rows costs at least
//
//	Σ_group min_option ( cost + Σ factor · row ) − Σ factor · bound,
//
// so a node where this is more than one less than the cost claimed (costs are
// whole numbers) is closed, and an option with which it would be is taken away.
// A row with a root of squares is used through weights of norm at most 1, since
// Σ weight · sum <= √Σ sum². Rounding is bounded and counted against the proof.
package certificate

// Certificate is a problem, the choice made and the proof that it is least.
type Certificate struct {
	Problem
	// Chosen is the option of each group; nil claims that no choice keeps the rows.
	Chosen []int `json:"chosen"`
	Proof  *Node `json:"proof"`
}

// Problem is groups of options and the rows that bind them.
type Problem struct {
	Groups []Group  `json:"groups"`
	Rows   []Row    `json:"rows"`
	Apart  [][]Pick `json:"apart,omitempty"` // of each set at most one may be chosen
}

// Group is one choice: exactly one of its options.
type Group struct {
	Name    string   `json:"name"`
	Options []Option `json:"options"`
}

// Option is one thing to choose. Cost is what it changes, a whole number.
type Option struct {
	Name string `json:"name"`
	Cost int64  `json:"cost"`
}

// Pick is option Option of group Group.
type Pick struct {
	Group  int `json:"group"`
	Option int `json:"option"`
}

// Row holds where Σ Mid + √ Σ_factor (Σ Half)² <= Bound over the chosen options,
// within Tolerance. An at-least limit has its signs turned.
type Row struct {
	Name  string      `json:"name"`
	Bound float64     `json:"bound"`
	Mid   [][]float64 `json:"mid"`             // by group, option
	Loads [][][]Load  `json:"loads,omitempty"` // by group, option; none in a linear row
	// Plate says what on a plate the row is about; nil for rows about the dish.
	Plate *Plate `json:"plate,omitempty"`
}

// Load is a half-width under a factor: loads of one factor move together.
type Load struct {
	Factor int     `json:"factor"`
	Half   float64 `json:"half"`
}

// Tolerance is how far a row may pass its bound, relative to the larger of 1
// and the bound's size: rounding of sums only.
const Tolerance = 1e-9

// Node is a part of the space of choices: its steps are taken in order, then it
// is closed, or parted by a branch.
type Node struct {
	Steps []Step `json:"steps,omitempty"`
	// Group is the group parted: In has its options named by First, Out the others.
	Group int   `json:"group,omitempty"`
	First []int `json:"first,omitempty"`
	In    *Node `json:"in,omitempty"` // nil where the node is closed
	Out   *Node `json:"out,omitempty"`
}

// Step adds up cuts, and the cost where Cost is set; without it the cuts alone
// are shown to clash.
type Step struct {
	Cost bool  `json:"cost,omitempty"`
	Cuts []Cut `json:"cuts,omitempty"`
}

// Cut is a row, or where Row is -1 an apart set, times a factor.
type Cut struct {
	Row    int     `json:"row"`
	Set    int     `json:"set,omitempty"`
	Factor float64 `json:"factor"`
	// Split takes the loads of a factor that all have one sign as independent,
	// which never makes the row larger.
	Split bool `json:"split,omitempty"`
	// Own are weights by group of the loads that only one group has, Shared
	// weights by factor of the others. Their squares add up to at most 1.
	Own    []Weight `json:"own,omitempty"`
	Shared []Weight `json:"shared,omitempty"`
}

// Weight is a number at a group or factor.
type Weight struct {
	At int     `json:"at"`
	Of float64 `json:"of"`
}
