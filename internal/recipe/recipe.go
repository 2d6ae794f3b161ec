// Package recipe is a recipe as a person wrote it, its reading, and its
// versions.
package recipe

import (
	"time"

	"potwright/internal/ingredient"
	"potwright/internal/spread"
)

// Recipe is a recipe with its words kept.
type Recipe struct {
	Title string
	// Servings is how many the recipe says it serves; ServingsAssumed is set,
	// with the reason in Notes, where it does not say.
	Servings        float64
	ServingsAssumed bool
	// YieldText is what the recipe says it makes, as written.
	YieldText string
	// MakesGrams and MakesMillilitres are the weight and the measure of the
	// finished dish where the recipe says them; nil where it does not.
	MakesGrams, MakesMillilitres *spread.Range

	Lines []Line
	Steps []Step
	Notes []string
	// Strays are corrections that have no line here.
	Strays []LineCorrection
	// Text is the whole input as pasted.
	Text string
}

// Line is one ingredient line.
type Line struct {
	// Section is the heading the line stands under, or "".
	Section string
	Reading ingredient.Reading
	// Fix is the person's correction of this line, or nil.
	Fix *Correction
	// SourceLine counts lines of the pasted text from 1; 0 for a line that was
	// not pasted.
	SourceLine int
}

// MostServings of a recipe: more is a slip of the pen. A design choice.
const MostServings = 1000

// Step is one step of the method.
type Step struct {
	Section string
	Text    string
}

// Change is one change that led to a version, for people to read.
type Change struct {
	// Line is the index of the ingredient line in the parent version, or -1.
	Line int      `json:"line"`
	From string   `json:"from"`
	To   []string `json:"to"`
	// RuleID of the swap rule, or "" for a person's own edit.
	RuleID string   `json:"rule"`
	Why    []string `json:"why"`
	For    []string `json:"for"`
}

// Written is what a version is read from.
type Written struct {
	Text        string
	Corrections []LineCorrection
}

// MostNote is the most characters of a note. A design choice.
const MostNote = 500

// Version is a saved state of a recipe. Versions are never overwritten.
type Version struct {
	ID       int64
	RecipeID int64
	ParentID int64 // 0 for the first
	Number   int   // 1, 2, 3 … within the recipe
	SavedAt  time.Time
	Note     string // at most MostNote characters
	// Text is the recipe as plain text, which read afresh gives this version.
	Text string
	// Corrections are those of its lines, in their order, then its strays.
	Corrections []LineCorrection
	Changes     []Change
	// PanelJSON is the panel as computed when saved.
	PanelJSON string
	// PlatesJSON is what each member gets, as decided when saved; "" if none.
	PlatesJSON string
}
