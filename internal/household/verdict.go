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
	// Need is the avoidance or texture feature, "" for limits and plans.
	Need string
	// Remedy is what can be done about it, "" where nothing is known.
	Remedy string
	// ByPlate is true where Remedy is done to this member's portion alone and is
	// enough.
	ByPlate bool
}

// Share is one line's part in a finding.
type Share struct {
	Line  int     // index of the ingredient line
	Share float64 // 0..1 of the amount
	Text  string  // the ingredient line as written
}

// fitOrder ranks fits from good to bad. Unknown stands between Close and Over:
// what is known to be over is worse than what can't be told.
func fitOrder(f Fit) int {
	switch f {
	case Inside:
		return 0
	case Close:
		return 1
	case Unknown:
		return 2
	default:
		return 3
	}
}

// Worse is the worse of two fits: inside, close, unknown, over.
func Worse(a, b Fit) Fit {
	if fitOrder(b) > fitOrder(a) {
		return b
	}
	return a
}

// NewVerdict sums findings up: its fit is the worst of theirs, inside where
// there are none.
func NewVerdict(findings []Finding) Verdict {
	v := Verdict{Fit: Inside, Findings: findings}
	for _, f := range findings {
		v.Fit = Worse(v.Fit, f.Fit)
	}
	return v
}
