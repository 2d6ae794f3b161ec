package household

import (
	"potwright/internal/spread"
)

// Fit is how an amount stands against a limit.
type Fit string

// Fits, from good to bad. Unknown is never inside.
const (
	Inside  Fit = "inside"
	Close   Fit = "close" // the middle is inside, the high end is not
	Over    Fit = "over"
	Unknown Fit = "unknown"
)

// Verdict is what a portion means for one member.
type Verdict struct {
	Fit      Fit // the worst of the findings
	Findings []Finding
}

// Finding is one limit or need against what is on the plate.
type Finding struct {
	// Kind is "limit", "plan", "avoid" or "texture".
	Kind  string
	Limit *Limit // for "limit"
	// Amount on the plate, in the limit's unit or in units of the plan.
	Amount spread.Range
	// Bound it is held against on this plate (a day's limit times the meal share).
	Bound  float64
	Fit    Fit
	Text   string  // one sentence for people
	Shares []Share // who brings it, largest first
}

// Share is one line's part in a finding.
type Share struct {
	Line  int     // index of the ingredient line
	Share float64 // 0..1 of the amount
	Text  string  // the ingredient line as written
}
