package label

import (
	"fmt"
	"slices"

	"potwright/internal/composition"
)

// Judgement is how an amount, with its range, stands to a numeric definition.
type Judgement string

// Judgements.
const (
	Meets   Judgement = "meets"         // over the whole range
	MayMeet Judgement = "may meet"      // over a part of the range
	DoesNot Judgement = "does not meet" // nowhere in the range
	Unknown Judgement = "unknown"
)

// Claim is a term with a numeric definition in a regulation.
type Claim struct {
	Term    string // such as "low sodium"
	Section string // such as "21 CFR 101.61(b)(4)"
	// Memory is set where the figures were written down from memory and not read
	// in the regulation.
	Memory bool
}

// Judged is a claim held against a food.
type Judged struct {
	Claim
	Judgement Judgement
	Why       string // what stands in the way, or a caution; "" for nothing
}

// Sentence says it: `meets the numeric definition of "low sodium" (21 CFR
// 101.61(b)(4))`. It is no claim: a home figure is not a label.
func (j Judged) Sentence() string {
	if j.Judgement == Unknown {
		return fmt.Sprintf("cannot be held against the numeric definition of %q (%s)", j.Term, j.Section)
	}
	return fmt.Sprintf("%s the numeric definition of %q (%s)", j.Judgement, j.Term, j.Section)
}

// per is what a bound holds for.
type per int

const (
	perReference  per = iota // the reference amount, and 50 g where that is small
	perServing               // the serving as eaten
	perBoth                  // reference amount and serving, never 50 g
	perHundred               // 100 g
	shareOfEnergy            // percent of the energy
	plainReference
)

// test is one bound of a definition, in the nutrient's unit.
type test struct {
	n    composition.Nutrient
	per  per
	most float64 // the upper bound; 0 for none
	// under is set where the upper bound itself is too much.
	under bool
	least float64 // the lower bound; 0 for none
	// perGram is kcal a gram, for shareOfEnergy.
	perGram float64
}

// definition is a claim's tests for some kinds of food.
type definition struct {
	Claim
	kinds []Kind // nil for all
	tests []test
	// barred gives a reason why the words may not be used whatever the figures.
	barred func(Subject) string
	// capped is why figures alone can never settle it, or "".
	capped string
}

// Claims holds the food against every definition for its kind, in the order of
// the regulations. Whether words such as "no salt added" hold cannot be told from
// figures and is left out.
func Claims(s Subject) []Judged {
	out := make([]Judged, 0, len(definitions()))
	for _, d := range definitions() {
		if d.suits(s.Kind) {
			out = append(out, d.judge(s))
		}
	}
	return out
}

func (d definition) suits(k Kind) bool {
	for _, have := range d.kinds {
		if have == k {
			return true
		}
	}
	return d.kinds == nil
}

func (d definition) judge(s Subject) Judged {
	j := Judged{Claim: d.Claim, Judgement: Meets}
	for _, t := range d.tests {
		got, why := t.judge(s)
		if worse(got, j.Judgement) {
			j.Judgement, j.Why = got, why
		}
	}
	if d.barred != nil && j.Judgement != Unknown {
		if why := d.barred(s); why != "" {
			j.Judgement, j.Why = DoesNot, why
		}
	}
	if d.capped != "" && j.Judgement == Meets {
		j.Judgement, j.Why = MayMeet, d.capped
	}
	return j
}

// rank is how much a judgement stands in the way.
func (j Judgement) rank() int { return slices.Index([]Judgement{Meets, MayMeet, Unknown, DoesNot}, j) }

// worse orders judgements: one test that fails settles it, then one that cannot be
// told.
func worse(a, b Judgement) bool {
	return a.rank() > b.rank()
}

// judge holds one bound against the food.
func (t test) judge(s Subject) (Judgement, string) {
	amounts, ok := t.amounts(s)
	if !ok {
		return Unknown, "the amount customarily consumed that the rule goes by is not known for this food"
	}
	worst, why := Meets, ""
	for _, a := range amounts {
		if got := t.hold(a); worse(got, worst) {
			worst, why = got, ""
			if got == Unknown {
				why = "a part of the " + t.n.Name() + " is not known"
			}
		}
	}
	return worst, why
}

// amounts are what the bound is held against.
func (t test) amounts(s Subject) ([]Amount, bool) {
	p := s.Serving
	switch t.per {
	case perServing:
		return []Amount{p.Amounts[t.n]}, true
	case perHundred:
		return []Amount{p.in(t.n, 100)}, p.Grams.Low > 0
	case shareOfEnergy:
		return []Amount{p.shareOfEnergy(t.n, t.perGram)}, true
	}
	if s.Reference <= 0 || p.Grams.Low <= 0 {
		return nil, false
	}
	out := []Amount{p.in(t.n, s.Reference)}
	switch {
	case t.per == perBoth:
		out = append(out, p.Amounts[t.n])
	case t.per == perReference && s.Reference <= smallReference+slack:
		out = append(out, p.in(t.n, 50))
	}
	return out, true
}

// hold judges one amount by its whole range. The last digits of a sum never
// decide.
func (t test) hold(a Amount) Judgement {
	edge := slack * (1 + t.most + t.least)
	over := func(x float64) bool {
		return t.most > 0 && (x > t.most+edge || t.under && x > t.most-edge)
	}
	short := func(x float64) bool { return t.least > 0 && x < t.least-edge }
	switch {
	case over(a.Low) || short(a.high()):
		return DoesNot
	case a.Open && !(t.most == 0 && !short(a.Low)):
		return Unknown
	case over(a.High) || short(a.Low):
		return MayMeet
	default:
		return Meets
	}
}
