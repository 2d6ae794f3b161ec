package kitchen

import (
	"context"
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"math"
	"slices"

	"potwright/internal/adaptation"
	"potwright/internal/composition"
	"potwright/internal/cooking"
	"potwright/internal/household"
	"potwright/internal/method"
	"potwright/internal/nutrient"
	"potwright/internal/recipe"
	"potwright/internal/swap"
)

// Adapt finds the least change that suits every member given, rewrites the
// method, and recomputes the result from its own text: the answer's pot, plates
// and verdicts are those of that text, read afresh. A context that is done
// before the search starts ends it with the context's error. The answer may be shared
// with others: it is not to be changed.
func (k *Kitchen) Adapt(ctx context.Context, a Analysis, h household.Household, w adaptation.Wishes) (adaptation.Answer, error) {
	if err := ctx.Err(); err != nil {
		return adaptation.Answer{}, err
	}
	key, kept := k.answerKey(a, h, w)
	if kept {
		if ans, known := k.Memory.answers.Find(key); known {
			return ans, nil
		}
	}
	k = k.over(a.Table).Measuring(a.Measures)
	ans, err := k.search(a, h, w)
	if err != nil {
		return ans, err
	}
	k.season(a, &ans)
	if kept {
		k.Memory.answers.Put(key, ans)
	}
	return ans, nil
}

// answerKey tells what an answer rests on; false where it is not kept: the dish is no
// saved version. The rules are those of one run of the program.
func (k *Kitchen) answerKey(a Analysis, h household.Household, w adaptation.Wishes) (key sum, ok bool) {
	if k.Memory == nil || a.of.version == 0 {
		return key, false
	}
	had, ids := make([]*household.Had, len(h.Members)), make([]int64, len(h.Members))
	for i, m := range h.Members {
		had[i], ids[i] = m.Had, m.ID
	}
	text, err := json.Marshal(struct {
		Under       sum
		Version, ID int64
		Household   household.Household
		IDs         []int64
		Had         []*household.Had
		Wishes      adaptation.Wishes
		Certificate bool
	}{a.of.under, a.of.version, h.ID, h, ids, had, w, w.Certificate})
	return sha256.Sum256(text), err == nil
}

// search repeats the search with what the rewritten method taught, until the
// answer read afresh is the one chosen.
func (k *Kitchen) search(a Analysis, h household.Household, w adaptation.Wishes) (adaptation.Answer, error) {
	known := learnt{swapped: map[part]cooking.Line{}, kept: map[int]cooking.Line{}}
	var first []adaptation.Change
	for round := 1; ; round++ {
		ans, err := adaptation.Adapt(k.input(a, h, w, known))
		if err != nil {
			return ans, err
		}
		if len(ans.Changes) > 0 {
			k.rewrite(a, &ans)
		}
		if round == 1 {
			first = ans.Changes
		}
		fits, fresh, err := k.recheck(a, h, &ans)
		switch {
		case err != nil:
			return ans, err
		case fits && ans.Certificate != nil && round < mostRounds && known.learn(a, ans, fresh):
			// The proof is written for the dish as its own text cooks it.
		case fits || !ans.Fits:
			if !sameChanges(first, ans.Changes) && ans.Fits && ans.Proof == adaptation.Optimal {
				ans.Proof = adaptation.BestFound // least among dishes cooked as the last one was
			}
			return ans, nil
		case round == mostRounds || !known.learn(a, ans, fresh):
			misses(&ans)
			return ans, nil
		}
	}
}

func sameChanges(a, b []adaptation.Change) bool {
	return slices.EqualFunc(a, b, func(x, y adaptation.Change) bool { return x.Line == y.Line && x.Text() == y.Text() })
}

func (k *Kitchen) input(a Analysis, h household.Household, w adaptation.Wishes, known learnt) adaptation.Input {
	return adaptation.Input{
		Recipe: a.Recipe, Pot: k.foreseen(a, known.kept), Household: h, Needs: k.Needs, Book: k.Book, Cook: k.cook(a, known), Heat: heatOf(a.Plan), Taste: k.Taste,
		Read: k.reader(a), Wishes: w, Budget: adaptation.DefaultBudget, Now: k.Now,
	}
}

// curveBudget bounds the drawing of a curve, which is asked for while someone
// waits, to 0.4 s.
const curveBudget = 2 * adaptation.DefaultBudget / 5

// Tradeoff is the curve of change against a figure of one member's plate, the
// least change that suits everyone first; all is false where the budget ran out before
// its end. Figures are those of foods cooked as the original is. Point.Asked gives
// the wishes with which Adapt makes the dish of a point.
func (k *Kitchen) Tradeoff(ctx context.Context, a Analysis, h household.Household, w adaptation.Wishes, of adaptation.Figure) (points []adaptation.Point, all bool, err error) {
	if err := ctx.Err(); err != nil {
		return nil, false, err
	}
	k = k.over(a.Table).Measuring(a.Measures)
	in := k.input(a, h, w, learnt{})
	in.Budget = curveBudget
	return adaptation.Tradeoff(in, of)
}

// mostRounds bounds how often the search is repeated with what was learnt from
// the rewritten method.
const mostRounds = 3

// learnt is how the rewritten method treats the foods, where that was seen: those
// that a rule puts in a line's place, and lines that stay but are cooked in
// another company, such as more water.
type learnt struct {
	swapped map[part]cooking.Line
	kept    map[int]cooking.Line
}

// part is the n-th food that a rule puts in place of a line.
type part struct {
	line int
	rule string
	n    int
}

// cook computes options: cooked as the line they replace, or as was learnt.
func (k *Kitchen) cook(a Analysis, known learnt) adaptation.Cook {
	p := a.Plan
	return func(id string, line int, o swap.Option, n int) nutrient.LinePanel {
		as, ok := known.swapped[part{line, o.Rule.ID, n}]
		if !ok {
			as = p.Of(line)
		}
		return k.Cooking.Panel(id, cooking.Plan{Told: p.Told, Lines: []cooking.Line{as}}, 0, &o.Lines[n], a.Pot.Servings)
	}
}

// foreseen is the dish with its lines cooked as was learnt.
func (k *Kitchen) foreseen(a Analysis, kept map[int]cooking.Line) nutrient.Pot {
	if len(kept) == 0 {
		return a.Pot
	}
	lines := slices.Clone(a.Pot.Lines)
	for i, as := range kept {
		if i >= len(lines) || lines[i].AtTable {
			continue
		}
		lines[i] = k.Cooking.Panel(lineID(i), cooking.Plan{Told: a.Plan.Told, Lines: []cooking.Line{as}}, 0, lines[i].Matched, a.Pot.Servings)
	}
	return nutrient.Sum(lines, a.Pot.Servings).Finished(finishOf(a.Recipe, a.Plan))
}

// learn notes how the adapted recipe, read afresh, treats what changed; false
// where it is nothing new.
func (known learnt) learn(a Analysis, ans adaptation.Answer, fresh cooking.Plan) bool {
	changed := map[int]adaptation.Change{}
	for _, c := range ans.Changes {
		changed[c.Line] = c
	}
	news, at := false, 0
	note := func(c adaptation.Change, was cooking.Line) {
		for n := range c.Option.Lines {
			key := part{c.Line, c.Option.Rule.ID, n}
			old, seen := known.swapped[key]
			if !seen {
				old = was
			}
			now := fresh.Of(at)
			news = news || now != old
			known.swapped[key] = now
			at++
		}
	}
	added := adaptation.Added(ans.Changes)
	for i, l := range a.Recipe.Lines {
		if l.AtTable() { // what is added stands in front of it
			for _, c := range added {
				note(c, cooking.Line{})
			}
			added = nil
		}
		c, ok := changed[i]
		if !ok {
			old, seen := known.kept[i]
			if !seen {
				old = a.Plan.Of(i)
			}
			if now := fresh.Of(at); now != old {
				known.kept[i], news = now, true
			}
			at++
			continue
		}
		note(c, a.Plan.Of(i))
	}
	for _, c := range added {
		note(c, cooking.Line{})
	}
	return news
}

// misses says that the rewritten method, read afresh, takes the dish out of
// someone's limit although the search found it inside.
func misses(ans *adaptation.Answer) {
	ans.Fits, ans.Proof, ans.Certificate = false, adaptation.BestFound, nil
	ans.Conflicts = append(ans.Conflicts, "The rewritten method cooks a food in another way than the original, and with what that takes or leaves the dish is no longer inside every limit.")
}

func (k *Kitchen) rewrite(a Analysis, ans *adaptation.Answer) {
	var changes []method.LineChange
	for _, c := range ans.Changes {
		changes = append(changes, method.LineChange{Line: c.Line, Option: c.Option})
	}
	revision := method.Rewrite(a.Recipe, a.Pot.Matched(), changes)
	ans.Recipe.Steps = revision.Steps
	ans.Cautions = append(ans.Cautions, revision.Notes()...)
	for _, e := range revision.Edits {
		ans.Edits = append(ans.Edits, adaptation.StepEdit{Step: e.Step, Was: e.Was, Change: e.Change})
	}
	for _, m := range revision.Marks {
		ans.Marks = append(ans.Marks, adaptation.StepMark{Step: m.Step, Change: m.Change, Reason: m.Reason, Text: m.Text()})
	}
}

// recheckTolerance is how far, in mg, g or kcal per serving, the answer's text
// read afresh may differ from what was chosen: the last digits of sums only.
const recheckTolerance = 1e-6

// recheck reads the adapted recipe's text afresh and judges that: the answer's
// pot, plates and verdicts are those of the text. What goes into the pot must be
// what was chosen; a difference is a fault of the program, and is reported as
// one. What cooking takes is the rewritten method's, which the search could only
// foresee: fits tells whether the dish still suits everyone.
func (k *Kitchen) recheck(a Analysis, h household.Household, ans *adaptation.Answer) (fits bool, p cooking.Plan, err error) {
	fresh, err := k.read(recipe.ParseKept, recipe.Text(ans.Recipe), a.Remembered, ans.Recipe.Corrections(), a.lines, nil)
	if err != nil {
		return false, p, fmt.Errorf("read the adapted recipe afresh: %w", err)
	}
	got, chosen := fresh.Pot.Uncooked(), ans.Pot.Uncooked()
	for n, amount := range got {
		want := chosen[n]
		if math.Abs(amount.Mid-want.Mid) > recheckTolerance*math.Max(1, want.Mid) || amount.Unknown != want.Unknown {
			return false, p, fmt.Errorf("the adapted recipe read afresh differs: nutrient %d is %g a serving, was %g", n, amount.Mid, want.Mid)
		}
	}
	ans.Recipe, ans.Pot = fresh.Recipe, fresh.Pot
	table := adaptation.Lay(h, k.Needs, k.dish(fresh))
	fits = true
	for i, plate := range ans.Plates {
		ans.Plates[i] = table.Serve(plate.Member, plate.Portion)
		ans.Plates[i].Cautions = append(ans.Plates[i].Cautions, k.steady(a, ans.Plates[i])...)
		fits = fits && ans.Plates[i].Fits
	}
	return fits, fresh.Plan, nil
}

// steady are the cautions of a member for whom a change itself matters: the
// plate against a usual portion of the dish before.
func (k *Kitchen) steady(before Analysis, p adaptation.Plate) []household.Caution {
	usual, _, _ := p.Member.Portions()
	was := before.Pot.Serving.Scale(usual)
	return k.Needs.SteadyCautions(p.Member,
		func(n composition.Nutrient) household.Amount { return household.Amount(was[n]) },
		func(n composition.Nutrient) household.Amount { return household.Amount(p.Panel[n]) })
}
