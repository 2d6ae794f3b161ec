package product

import (
	"fmt"
	"slices"

	"potwright/internal/composition"
	"potwright/internal/label"
)

// check holds the figures against one another.
func (r *reader) check() {
	r.partAndWhole(composition.SaturatedFat, composition.Fat)
	r.partAndWhole(composition.TransFat, composition.Fat)
	r.partAndWhole(composition.Sugars, composition.Carbohydrate)
	r.partAndWhole(composition.AddedSugars, composition.Sugars)
	r.partAndWhole(composition.Fibre, composition.Carbohydrate)
	r.weight()
	r.energy()
}

// partAndWhole faults a part that is more than its whole in every reading of their
// rounding.
func (r *reader) partAndWhole(part, whole composition.Nutrient) {
	f := &r.found
	if f.known[part] && f.known[whole] && f.typed[part] > f.typed[whole] && f.of[part].Low >= f.of[whole].High {
		r.fault(part.Key(), fmt.Sprintf("%s is more than %s, of which it is a part", part.Name(), whole.Name()),
			fmt.Sprintf("at most %s %s", label.Figure(f.typed[whole]), whole.Unit()))
	}
}

// weight faults figures that are more than their portion weighs.
func (r *reader) weight() {
	var sum float64
	for _, n := range []composition.Nutrient{composition.Protein, composition.Fat, composition.Carbohydrate} {
		if r.found.known[n] {
			sum += r.found.of[n].Low
		}
	}
	if sum > r.basis.High {
		r.fault("figures", fmt.Sprintf("protein, fat and carbohydrate come to %s g or more, in %s g of food", label.Figure(label.Nearest(sum, 0.1)), label.Figure(label.Nearest(r.basis.Mid, 0.1))),
			"less than the portion weighs")
	}
	for _, f := range Fields() {
		if n := f.Nutrient; r.found.known[n] && r.found.of[n].Low > mostIn100g(n)*r.basis.High/100*1.005 {
			r.fault(f.Key, fmt.Sprintf("%s is more than %s g of anything can hold", n.Name(), label.Figure(label.Nearest(r.basis.Mid, 0.1))), "the figure as printed")
			return
		}
	}
}

// energyDoubt is how far the energy may be off what protein, carbohydrate and fat
// come to before it is worth a word. A choice of ours: labels may use the factors of
// each food, and fibre counts for less.
const energyDoubt = 0.2

// energy warns where the energy is not what the general factors give: 4, 4 and 9
// kcal a gram, 21 CFR 101.9(c)(1)(i)(B).
func (r *reader) energy() {
	f := &r.found
	for _, n := range []composition.Nutrient{composition.Energy, composition.Protein, composition.Fat, composition.Carbohydrate} {
		if !f.known[n] {
			return
		}
	}
	if r.like != nil && slices.ContainsFunc(r.like.Kinds, func(k string) bool {
		return k == "alcohol" || k == "wine" || k == "beer" || k == "spirit" || k == "sweetener"
	}) {
		return
	}
	p, fat, c, e := f.of[composition.Protein], f.of[composition.Fat], f.of[composition.Carbohydrate], f.of[composition.Energy]
	fibre := 0.0
	if f.known[composition.Fibre] {
		fibre = f.of[composition.Fibre].High
	}
	low, high := 4*p.Low+9*fat.Low+4*max(0, c.Low-fibre), 4*p.High+9*fat.High+4*c.High
	if e.High < low*(1-energyDoubt) || e.Low > high*(1+energyDoubt)+5 {
		r.warn(composition.Energy.Key(), fmt.Sprintf("protein, fat and carbohydrate come to about %.0f kcal, the label to %s", 4*p.Mid+9*fat.Mid+4*c.Mid, label.Figure(f.typed[composition.Energy])),
			"about the same, by 4, 9 and 4 kcal a gram")
	}
}
