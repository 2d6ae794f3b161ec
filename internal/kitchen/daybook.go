package kitchen

import (
	"potwright/internal/adaptation"
	"potwright/internal/composition"
	"potwright/internal/daybook"
	"potwright/internal/foodmatch"
	"potwright/internal/household"
	"potwright/internal/nutrient"
	"potwright/internal/portion"
	"potwright/internal/recipe"
	"potwright/internal/spread"
)

// DishEntry is a share of one serving of a saved version on a member's plate, with
// what it holds now. A share that has a range, as a weighed part of a pot has, widens
// the panel. Date, meal and state are left to the caller.
func (k *Kitchen) DishEntry(h household.Household, m household.Member, v recipe.Version, a Analysis, share spread.Range) daybook.Entry {
	byDish := k.onPlate(h, m, []Serving{{Title: a.Recipe.Title, Analysis: a, Portion: share.Mid}})
	e := daybook.Entry{MemberID: m.ID, VersionID: v.ID, Title: a.Recipe.Title, Portion: share.Mid,
		Grams: portion.Dished(a.Pot, share.Mid).Grams, Panel: widened(sumOf(byDish), share)}
	if m.Plan != nil {
		e.Counted = unlessSame(widened(sumOf(costingOf(byDish, *m.Plan)), share), e.Panel)
	}
	return e
}

// widened is a panel of a share's middle with the doubt about the share.
func widened(p nutrient.Panel, share spread.Range) nutrient.Panel {
	if share.Mid <= 0 {
		return p
	}
	for n := range p {
		p[n].Range = p[n].Range.Times(share.Scale(1 / share.Mid))
	}
	return p
}

func unlessSame(counted, all nutrient.Panel) *nutrient.Panel {
	if counted == all {
		return nil
	}
	return &counted
}

// FoodEntry is grams of a food on a member's plate. Date, meal and state are left to
// the caller.
func (k *Kitchen) FoodEntry(m household.Member, f *composition.Food, grams spread.Range) daybook.Entry {
	lp := nutrient.Line(f.ID, &foodmatch.Matched{State: foodmatch.Read, Items: []foodmatch.Item{{Food: f, Grams: grams}}}, 1)
	e := daybook.Entry{MemberID: m.ID, FoodID: f.ID, Title: f.Name, Grams: grams, Panel: lp.Panel}
	if m.Plan != nil {
		e.Counted = unlessSame(adaptation.Counted(&lp, *m.Plan).Panel, lp.Panel)
	}
	return e
}

// measureDoubt is the half-width, relative, of a household measure whose spread
// between cooks is not published: a design figure.
const measureDoubt = 0.1

// MeasuredGrams is the weight of so many of a food's household measures.
func MeasuredGrams(m composition.Measure, count float64) spread.Range {
	one := spread.Relative(m.Grams, measureDoubt)
	if m.SD > 0 {
		one = spread.FromSD(m.Grams, m.SD)
	}
	return one.Scale(count / m.Amount)
}
