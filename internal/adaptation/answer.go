// Package adaptation finds the least change to a dish that suits everyone at
// the table, with a proof, or says why there is none.
package adaptation

import (
	"strings"
	"time"

	"potwright/internal/certificate"
	"potwright/internal/composition"
	"potwright/internal/household"
	"potwright/internal/nutrient"
	"potwright/internal/portion"
	"potwright/internal/recipe"
	"potwright/internal/swap"
)

// Proof is how sure an answer is the best.
type Proof string

// Proofs.
const (
	Optimal    Proof = "optimal"    // nothing allowed changes the dish less
	Infeasible Proof = "infeasible" // nothing allowed suits everyone
	BestFound  Proof = "best found" // the search was stopped; Gap says how much less might do
)

// Wishes are what a person asks of an adaptation.
type Wishes struct {
	Lock []int `json:"lock,omitempty"` // lines that must stay as they are
	// Refuse are options not wanted: rule id by line, Line -1 for every line and
	// for additions.
	Refuse []Pick `json:"refuse,omitempty"`
	// Insist are options that must be taken.
	Insist []Pick `json:"insist,omitempty"`
	// AddNoMore leaves out additions that are not insisted on.
	AddNoMore bool `json:"add_no_more,omitempty"`
	// MaxChanges caps the number of changed lines and additions; 0 means no cap.
	MaxChanges int `json:"max_changes,omitempty"`
	// Aim is what the answer is best at; "" for the least change.
	Aim Aim `json:"aim,omitempty"`
	// Certificate asks for the proof in writing; there is one for the least change
	// only.
	Certificate bool `json:"-"`
}

// Pick is a rule on a line.
type Pick struct {
	Line int    `json:"line"`
	Rule string `json:"rule"`
	// Share is, of a rule that may keep or add several shares, the one meant; 0
	// stands for any.
	Share float64 `json:"share,omitempty"`
}

// is reports whether an option is one that is meant.
func (p Pick) is(o swap.Option) bool {
	return p.Rule == o.Rule.ID && (p.Share == 0 || p.Share == o.Share)
}

// Change is one line changed, or something put in besides the lines.
type Change struct {
	Line   int    // WholeDish for an addition
	From   string // "" for an addition
	Option swap.Option
	// Why are reasons for people; For are the members it is for.
	Why, For []string
}

// To is the new lines in one text, "" where the line leaves the dish.
func (c Change) To() string { return strings.Join(c.Lines(), "; ") }

// Text is the change in one line: what was, and what is now.
func (c Change) Text() string {
	to := c.To()
	switch {
	case c.Line == WholeDish:
		return "added: " + to
	case to == "":
		return c.From + ": left out"
	}
	return c.From + ": " + to
}

// Lines are the new lines as text; what is offered at the table says so.
func (c Change) Lines() []string {
	to := append([]string{}, c.Option.Text...)
	for _, text := range c.Option.AtTable {
		to = append(to, "at the table: "+text)
	}
	return to
}

// Plate is what one member gets.
type Plate struct {
	Member  household.Member
	Portion float64 // share of one serving
	// AtTable is what is added at the table or done to this plate, as sentences.
	AtTable []string
	Panel   nutrient.Panel
	Verdict household.Verdict
	// Fits is set where every limit and need holds at its strictness: the whole
	// range for a clinician's limit, the middle for others; where Provided is not
	// empty it holds only if the labels named there say so.
	Fits     bool
	Provided []string
	// Cautions are what the member was told to watch and the plate raises; they are
	// no part of the verdict.
	Cautions []household.Caution
	// Dislikes are what the member does not like on the plate; they are no part of the
	// verdict either.
	Dislikes []string
	// Largest is the largest portion that stays inside every limit from above.
	Largest portion.Largest
	// Dished is what the portion weighs and fills, without things at the table.
	Dished portion.Amount
	// Costs are the costs of portions in the member's allowance plan, from nothing
	// up to twice what they accept; nil without a plan or where a part is unknown.
	Costs []portion.Step
}

// StepEdit ties a step to a change.
type StepEdit struct {
	// Step is the index in the adapted recipe's steps, -1 for a step that is gone;
	// Was that in the original's, -1 for a new one.
	Step, Was int
	// Change is the index in Answer.Changes.
	Change int
}

// StepMark is a step that could not be fitted to a change for certain.
type StepMark struct {
	// Step is the index in the adapted recipe's steps, -1 where it is about the
	// whole method.
	Step int
	// Change is the index in Answer.Changes.
	Change int
	// Reason is a sentence for the cook who has the step before them; Text says the
	// same with the step named, and stands among the answer's cautions.
	Reason, Text string
}

// Balance is one function of the dish before and after, as a share of before
// (1 = kept); Known is false where the dish had none.
type Balance struct {
	Function      string
	Before, After float64 // in the function's own unit
	Unit          string
}

// Reach is the least (or most, for an at-least limit) that one member's limit
// can be brought to: at the far end of the range for a clinician's limit, which
// is held against it, at the middle for others.
type Reach struct {
	Member string
	Limit  household.Limit
	Amount float64
}

// Answer is the adapted dish, or why there is none.
type Answer struct {
	Fits  bool
	Proof Proof
	// Gap is how much less, on the level that Wishes.Aim puts first, might do.
	Gap int
	// Cost is what the answer costs by level, in this order: change to the dish
	// and portions, work for the cook, changes, use of the limits (in
	// thousandths, less is more room). Nil where nothing was chosen.
	Cost    []int64
	Elapsed time.Duration
	Nodes   int
	Changes []Change
	Plates  []Plate
	// Recipe is the adapted recipe with its method rewritten.
	Recipe recipe.Recipe
	// Edits tie the steps of Recipe that are new or altered, and those that are
	// gone, to the changes they come from.
	Edits []StepEdit
	// Marks are the places in the method that the cook should look at.
	Marks   []StepMark
	Pot     nutrient.Pot
	Balance []Balance
	// Conflicts, where nothing fits: the limits and needs that clash, as
	// sentences, and the least each can reach.
	Conflicts []string
	Reachable []Reach
	// Unsettled, where nothing fits because a range is too wide, are the clinicians'
	// limits that hold at the middle only; the recipe, changes and plates are then
	// those of the least change that holds at the middle.
	Unsettled []Unsettled
	// Nearest, where nothing fits, are things that can still be done.
	Nearest  []string
	Cautions []string
	// Alternatives are the next best ways that really differ.
	Alternatives []Alternative
	// Labels are the highest label figures for packaged lines.
	Labels []LabelCeiling
	// Certificate is the proof in writing, where it was asked for and Proof is
	// Optimal or Infeasible; nil where the limits are not what stands in the way.
	Certificate *certificate.Certificate
	// Options are all options that were considered, by line, for the page;
	// additions under WholeDish.
	Options map[int][]swap.Option
}

// LabelCeiling is the highest figure on a package that keeps everyone inside.
type LabelCeiling struct {
	Line     int // index of the line in the answer's recipe
	Nutrient composition.Nutrient
	AtMost   float64 // in the nutrient's unit, per Per, rounded down to a label's step
	Per      string
	Text     string // one sentence for the shopping list
}
