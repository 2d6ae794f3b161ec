package product

import (
	"fmt"
	"math"
	"strings"

	"potwright/internal/composition"
	"potwright/internal/label"
	"potwright/internal/spread"
)

// figures reads every line of the panel.
func (r *reader) figures() {
	known := map[string]bool{}
	any := false
	for _, f := range Fields() {
		known[f.Key] = true
		text := strings.TrimSpace(r.label.Figures[f.Key])
		if text == "" {
			continue
		}
		any = true
		if r.label.Panel == US && !f.OnUS {
			r.fault(f.Key, fmt.Sprintf("%s is not on a US panel", f.Name), "the other kind of panel, or nothing here")
			continue
		}
		fig, problem := readFigure(text, f)
		if problem != "" {
			r.fault(f.Key, problem, fmt.Sprintf("an amount in %s such as 5, 0.5 or <1", f.Unit))
			continue
		}
		r.take(f, fig)
	}
	for key := range r.label.Figures {
		if !known[key] {
			r.fault(key, fmt.Sprintf("%q is no line of a label", cut(key)), "a line such as sodium_mg")
		}
	}
	if !any {
		r.fault("figures", "no figure is typed", "at least one line of the panel")
	}
	if r.label.Panel != US {
		r.totalCarbohydrate()
	}
}

// take puts a figure among the amounts.
func (r *reader) take(f Field, fig figure) {
	n := f.Nutrient
	if fig.percent {
		r.takePercent(f, fig)
		return
	}
	if fig.below && fig.value == 0 {
		r.fault(f.Key, "nothing is less than 0", "an amount such as <5")
		return
	}
	a, doubt := fig.amount(f, r.label.Panel)
	if doubt != "" {
		r.warn(f.Key, doubt, "the figure as printed")
	}
	value := fig.value
	switch f.Key {
	case saltKey:
		if r.found.known[composition.Sodium] {
			r.fault(f.Key, "salt and sodium are both typed", "one of them")
			return
		}
		a, value = a.Scale(label.Sodium(1)), label.Sodium(value)
	case energyKJ:
		a = spread.Between(a.Low/kJPerKcal*(1-energyGap), a.Mid/kJPerKcal, a.High/kJPerKcal*(1+energyGap))
		value /= kJPerKcal
	case composition.Energy.Key():
		r.compareEnergies(a)
	}
	if r.label.Tolerance {
		t := label.Tolerated(r.label.Panel.rules(), n, value)
		a = spread.Between(min(a.Low, t.Low), a.Mid, max(a.High, t.High))
	}
	r.found.set(n, a, value)
}

// energyGap is how far kcal and kJ computed by the European factors differ from one
// another: 17/4, 37/9 and 29/7 kJ a kcal against 4.184 (Annex XIV).
const energyGap = 0.02

// compareEnergies holds the kcal against the kJ typed before it.
func (r *reader) compareEnergies(kcal spread.Range) {
	if kj := r.found.of[composition.Energy]; r.found.known[composition.Energy] && (kcal.Low > kj.High+1 || kcal.High < kj.Low-1) {
		r.warn(energyKJ, fmt.Sprintf("the kJ come to about %.0f kcal, which the kcal do not say", kj.Mid), "4.184 kJ for each kcal")
	}
}

// takePercent reads a share of the daily value.
func (r *reader) takePercent(f Field, fig figure) {
	if r.label.Panel != US || fig.below {
		r.fault(f.Key, "a percentage is only read on a US panel", "an amount in "+f.Unit)
		return
	}
	if _, ok := label.DailyPercent(f.Nutrient, 0); !ok {
		r.fault(f.Key, fmt.Sprintf("%s has no daily value to take a percentage of", f.Name), "an amount in "+f.Unit)
		return
	}
	a, ok := label.PrintedPercent(f.Nutrient, fig.value)
	if !ok {
		r.fault(f.Key, fmt.Sprintf("%s %% is not a percentage that a label prints", label.Figure(fig.value)), "steps of 1, or for vitamins and minerals of 2, 5 or 10")
		return
	}
	if fig.value == 0 {
		a.Mid = 0
	}
	r.found.set(f.Nutrient, a, a.Mid)
}

// totalCarbohydrate adds the fibre to a European panel's carbohydrate, which leaves
// it out (Regulation (EU) 1169/2011, Annex I): the table counts it in. Where the
// fibre is not printed it is at most what the energy leaves for it, at 2 kcal a gram
// (Annex XIV), and what the weight does.
func (r *reader) totalCarbohydrate() {
	c := composition.Carbohydrate
	if !r.found.known[c] {
		return
	}
	fibre, known := r.found.of[composition.Fibre], r.found.known[composition.Fibre]
	if !known {
		most, ok := r.mostFibre()
		if !ok {
			r.found.known[c] = false
			r.warn(c.Key(), "a European label's carbohydrate leaves out the fibre, so the total is not known", "the fibre or the energy and the protein and fat")
			return
		}
		fibre = spread.Between(0, most/2, most)
	}
	a := r.found.of[c]
	r.found.of[c] = spread.Between(a.Low+fibre.Low, a.Mid+fibre.Mid, a.High+fibre.High)
}

// mostFibre bounds the fibre of the panel's portion, in grams.
func (r *reader) mostFibre() (grams float64, ok bool) {
	f := &r.found
	for _, n := range []composition.Nutrient{composition.Energy, composition.Protein, composition.Fat, composition.Carbohydrate} {
		if !f.known[n] {
			return 0, false
		}
	}
	p, fat, c := f.of[composition.Protein].Low, f.of[composition.Fat].Low, f.of[composition.Carbohydrate].Low
	byEnergy := (f.of[composition.Energy].High - 4*p - 4*c - 9*fat) / 2
	byWeight := r.basis.High - p - fat - c
	return math.Max(0, math.Min(byEnergy, byWeight)), true
}

// contents fills the food per 100 g and gives the names of what was borrowed.
func (r *reader) contents(food *composition.Food) (borrowed []string) {
	for _, n := range composition.Nutrients() {
		if !r.found.known[n] {
			continue
		}
		a := r.found.of[n]
		if r.like != nil && r.found.typed[n] == 0 {
			a.Mid = r.zeroLike(n, a)
		}
		food.Nutrients[n] = bounded(n, spread.Between(100*a.Low/r.basis.High, 100*a.Mid/r.basis.Mid, 100*a.High/r.basis.Low))
	}
	if r.label.Borrow && r.like != nil {
		borrowed = r.borrow(food)
	}
	return borrowed
}

// zeroLike is the best estimate behind a printed zero: what the like food holds, as
// far as it would be printed as nothing.
func (r *reader) zeroLike(n composition.Nutrient, a spread.Range) float64 {
	like, ok := r.like.Per100g(n)
	if !ok {
		return a.Mid
	}
	return math.Min(like.Mid*r.basis.Mid/100, a.High)
}

// bounded is a content within what 100 g can hold.
func bounded(n composition.Nutrient, a spread.Range) composition.Content {
	most := mostIn100g(n)
	return composition.Content{Known: true, Bounded: true, Low: min(a.Low, most), Mid: min(a.Mid, most), High: min(a.High, most)}
}

// mostIn100g is the most of a nutrient that 100 g of anything holds: all of it, fat's
// 9.02 kcal a gram (USDA Agriculture Handbook 74), salt's sodium.
func mostIn100g(n composition.Nutrient) float64 {
	switch {
	case n == composition.Energy:
		return 902
	case n == composition.Sodium:
		return 40_000
	case n.Unit() == "g":
		return 100
	case n.Unit() == "mg":
		return 100_000
	default:
		return 1e8
	}
}

// borrowFactor is how far a figure borrowed from a like food may be off either way.
// A choice of ours.
const borrowFactor = 2

// wholes name, for a nutrient that is part of another, the whole.
var wholes = map[composition.Nutrient]composition.Nutrient{
	composition.SaturatedFat: composition.Fat, composition.TransFat: composition.Fat,
	composition.Sugars: composition.Carbohydrate, composition.AddedSugars: composition.Sugars, composition.Fibre: composition.Carbohydrate,
}

// borrow takes what is missing from the like food, from half to double, and never
// more than the whole it is part of.
func (r *reader) borrow(food *composition.Food) (names []string) {
	for _, n := range composition.Nutrients() {
		like, ok := r.like.Per100g(n)
		if food.Nutrients[n].Known || !ok {
			continue
		}
		a := spread.Between(like.Low/borrowFactor, like.Mid, like.High*borrowFactor)
		if whole, part := wholes[n]; part && food.Nutrients[whole].Known {
			most := food.Nutrients[whole].High
			a = spread.Range{Low: min(a.Low, most), Mid: min(a.Mid, most), High: min(a.High, most)}
		}
		food.Nutrients[n] = bounded(n, a)
		names = append(names, n.Name())
	}
	return names
}
