package kitchen

import (
	"context"
	"fmt"
	"math"

	"potwright/internal/adaptation"
	"potwright/internal/foodmatch"
	"potwright/internal/household"
	"potwright/internal/method"
	"potwright/internal/recipe"
)

// Adapt finds the least change that suits every member given, rewrites the
// method, and recomputes the result from its own text: the answer's pot, plates
// and verdicts are those of that text, read afresh. A context that is done
// before the search starts ends it with the context's error.
func (k *Kitchen) Adapt(ctx context.Context, a Analysis, h household.Household, w adaptation.Wishes) (adaptation.Answer, error) {
	if err := ctx.Err(); err != nil {
		return adaptation.Answer{}, err
	}
	ans, err := adaptation.Adapt(adaptation.Input{
		Recipe: a.Recipe, Pot: a.Pot, Household: h, Needs: k.Needs, Book: k.Book,
		Read: k.reader(a.Remembered), Wishes: w, Budget: adaptation.DefaultBudget, Now: k.Now,
	})
	if err != nil {
		return ans, err
	}
	if len(ans.Changes) > 0 {
		k.rewrite(a, &ans)
	}
	if err := k.recheck(a, h, &ans); err != nil {
		return ans, err
	}
	return ans, nil
}

func (k *Kitchen) rewrite(a Analysis, ans *adaptation.Answer) {
	var changes []method.LineChange
	for _, c := range ans.Changes {
		changes = append(changes, method.LineChange{Line: c.Line, Option: c.Option})
	}
	matched := make([]foodmatch.Matched, len(a.Pot.Lines))
	for i, lp := range a.Pot.Lines {
		matched[i] = lp.Matched
	}
	steps, notes := method.Rewrite(a.Recipe, matched, changes)
	ans.Recipe.Steps = steps
	ans.Cautions = append(ans.Cautions, notes...)
}

// recheckTolerance is how far, in mg, g or kcal per serving, the answer's text
// read afresh may differ from what was chosen: the last digits of sums only.
const recheckTolerance = 1e-6

// recheck reads the adapted recipe's text afresh and judges that. A difference
// is a fault of the program, and is reported as one.
func (k *Kitchen) recheck(a Analysis, h household.Household, ans *adaptation.Answer) error {
	fresh, err := k.Read(recipe.Text(ans.Recipe), a.Remembered, fixesOf(ans.Recipe))
	if err != nil {
		return fmt.Errorf("read the adapted recipe afresh: %w", err)
	}
	for n, amount := range fresh.Pot.Serving {
		want := ans.Pot.Serving[n]
		if math.Abs(amount.Mid-want.Mid) > recheckTolerance*math.Max(1, want.Mid) || amount.Unknown != want.Unknown {
			return fmt.Errorf("the adapted recipe read afresh differs: nutrient %d is %g a serving, was %g", n, amount.Mid, want.Mid)
		}
	}
	ans.Recipe, ans.Pot = fresh.Recipe, fresh.Pot
	dish := adaptation.Dish{Recipe: fresh.Recipe, Pot: fresh.Pot}
	fits := true
	for i, p := range ans.Plates {
		ans.Plates[i] = adaptation.Serve(h, k.Needs, dish, p.Member, p.Portion)
		fits = fits && ans.Plates[i].Fits
	}
	if ans.Fits && !fits {
		return fmt.Errorf("the adapted recipe read afresh no longer suits everyone")
	}
	return nil
}

// fixesOf collects the corrections of a recipe's lines.
func fixesOf(rec recipe.Recipe) map[int]recipe.Correction {
	fixes := map[int]recipe.Correction{}
	for i, l := range rec.Lines {
		if l.Fix != nil {
			fixes[i] = *l.Fix
		}
	}
	return fixes
}
