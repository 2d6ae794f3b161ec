package recipe

import (
	"fmt"
	"slices"
	"strings"

	"potwright/internal/diagnostic"
	"potwright/internal/spread"
)

// Correction is what a person says a line means; it is an input to matching,
// never a patch on its result.
type Correction struct {
	// FoodID is the food, or "" to leave it to the match.
	FoodID string `json:"food_id,omitempty"`
	// Grams is the edible weight in the pot, or nil to leave it to the measure.
	Grams *spread.Range `json:"grams,omitempty"`
	// Skip leaves the line out of the sums ("not eaten").
	Skip bool `json:"skip,omitempty"`
}

// MostGrams on one line: more is a slip of the pen. A design choice.
const MostGrams = 1_000_000

// Check is a diagnostic.Fault, its field within the correction, where no weight is of this
// kind.
func (c Correction) Check() error {
	if c.Grams != nil && (!c.Grams.Valid() || c.Grams.High > MostGrams) {
		return diagnostic.Fault{Field: "grams", Problem: fmt.Sprintf("%v to %v to %v is no weight of a line", c.Grams.Low, c.Grams.Mid, c.Grams.High),
			Expected: fmt.Sprintf("low, mid and high grams in this order, from 0 to %d", MostGrams)}
	}
	return nil
}

// LineCorrection is a correction with the words of the ingredient line it was made for.
// It speaks of that line alone, however the text is read later: a number would come to
// mean another line where a line is read as a heading, or one is put in above.
type LineCorrection struct {
	// Words of the line as written; "" where they are not known any more.
	Words string `json:"words"`
	// Nth of the Of lines of these words it is, counted from 1; both 0 where they stand
	// once.
	Nth int `json:"nth,omitempty"`
	Of  int `json:"of,omitempty"`
	// At is the number, from 1, that the line had when no words were kept with
	// corrections and nothing tells which line that was; else 0.
	At int `json:"at,omitempty"`
	Correction
}

// Stray says of a correction that has no line what became of it.
func (c LineCorrection) Stray() string {
	switch {
	case c.Words == "":
		return fmt.Sprintf("The correction of what once was ingredient %d is not used: nothing tells any more which line that was.", c.At)
	case c.Nth > 0:
		return fmt.Sprintf("The correction made for “%s”, number %d of %d with these words, no longer has its line, so it is not used.", c.Words, c.Nth, c.Of)
	}
	return fmt.Sprintf("The correction made for “%s” no longer has its line, so it is not used.", c.Words)
}

// Strayed says of each stray what became of it.
func (r Recipe) Strayed() []string {
	var out []string
	for _, c := range r.Strays {
		out = append(out, c.Stray())
	}
	return out
}

// Correct ties each correction to the line it was made for. One whose words do not
// stand as often as they did, or whose line has another correction, is a stray.
func (r *Recipe) Correct(all []LineCorrection) {
	if len(all) == 0 {
		return
	}
	places := r.places()
	for _, c := range all {
		if i, ok := c.place(places); ok && r.Lines[i].Fix == nil {
			r.Lines[i].Fix = &c.Correction
		} else {
			r.Strays = append(r.Strays, c)
		}
	}
}

// Corrections are those of the lines, in their order, then the strays: what Correct ties
// to the same lines.
func (r Recipe) Corrections() []LineCorrection {
	if !slices.ContainsFunc(r.Lines, func(l Line) bool { return l.Fix != nil }) {
		return slices.Clone(r.Strays) // as with most recipes
	}
	var out []LineCorrection
	places := r.places()
	for i, l := range r.Lines {
		if l.Fix != nil {
			out = append(out, r.correctionOf(places, i, *l.Fix))
		}
	}
	return append(out, r.Strays...)
}

// places are the lines, counted from 0, by their words.
func (r Recipe) places() map[string][]int {
	out := make(map[string][]int, len(r.Lines))
	for i, l := range r.Lines {
		words := plainWords(l.Reading.Text)
		out[words] = append(out[words], i)
	}
	return out
}

// plainWords are words without their spacing.
func plainWords(text string) string { return strings.Join(strings.Fields(text), " ") }

func (c LineCorrection) place(places map[string][]int) (line int, ok bool) {
	at := places[plainWords(c.Words)]
	nth := max(c.Nth, 1)
	if c.Words == "" || len(at) != max(c.Of, 1) || nth > len(at) {
		return 0, false
	}
	return at[nth-1], true
}

func (r Recipe) correctionOf(places map[string][]int, line int, fix Correction) LineCorrection {
	out := LineCorrection{Words: r.Lines[line].Reading.Text, Correction: fix}
	if at := places[plainWords(out.Words)]; len(at) > 1 {
		out.Of = len(at)
		for n, i := range at {
			if i == line {
				out.Nth = n + 1
			}
		}
	}
	return out
}
