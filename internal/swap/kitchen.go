package swap

import (
	"math"
	"strings"

	"potwright/internal/ingredient"
	"potwright/internal/measure"
)

// scaledAmount is the line's own amount times a ratio, in its own unit where a
// kitchen can measure that, with its container.
func scaledAmount(r ingredient.Reading, ratio float64) string {
	q, u := scaled(r.Amount, ratio)
	text := measure.Format(q, u)
	if r.HasContainer {
		number := measure.Format(q, measure.Each())
		text = number + " " + containerText(r) + " " + u.Written(q)
	}
	if r.Size != "" {
		text += " " + r.Size
	}
	return text
}

// containerText is the size of each can as it was written.
func containerText(r ingredient.Reading) string {
	runes := []rune(r.Text)
	for _, part := range r.Parts {
		if part.Name == "container" && part.From >= 0 && part.From < part.To && part.To <= len(runes) {
			text := string(runes[part.From:part.To])
			if text[0] == '(' && strings.HasSuffix(text, ")") {
				return text
			}
		}
	}
	return "(" + measure.Format(r.Container.Quantity, r.Container.Unit) + ")"
}

// spoons is the kitchen measure of so many millilitres: cups where they are
// near enough, else as many smaller spoons as one cares to count.
func spoons(ml float64) (measure.Quantity, measure.Unit) { return spoonsIn(ml, measure.US) }

// spoonsIn is spoons in the cups and spoons of a system.
func spoonsIn(ml float64, s measure.System) (measure.Quantity, measure.Unit) {
	q, u := measure.SpoonsIn(ml, s)
	for _, smaller := range [...]struct {
		name string
		most float64 // that one counts
	}{{"tbsp", 12.1}, {"tsp", 4.1}} {
		v, ok := measure.FindUnitIn(smaller.name, s)
		if !ok || near(q, u, ml) || ml > smaller.most*v.Size {
			continue
		}
		if n := measure.Nearest(ml, v); math.Abs(n.Mid()*v.Size-ml) < math.Abs(q.Mid()*u.Size-ml) {
			q, u = n, v
		}
	}
	return q, u
}

// offMeasure is how far, as a share, a kitchen measure may be off before
// smaller spoons are taken.
const offMeasure = 0.03

func scaled(a ingredient.Amount, ratio float64) (measure.Quantity, measure.Unit) {
	if ratio == 1 {
		return a.Quantity, a.Unit
	}
	size := a.Quantity.Mid() * ratio
	if a.Unit.Size > 0 {
		size *= a.Unit.Size
	}
	q := measure.Nearest(size, a.Unit)
	wholeSpoon := a.Unit.Name != "tbsp" || q.Low.Float() >= 1
	if a.Unit.Size == 0 || a.Unit.IsMetric() || wholeSpoon && near(q, a.Unit, size) {
		return q, a.Unit
	}
	switch a.Unit.Kind {
	case measure.Volume:
		return spoons(size)
	case measure.Mass:
		return weighed(size, a.Unit)
	}
	return q, a.Unit
}

// near reports whether a quantity of a unit is near enough to a size in
// millilitres or grams.
func near(q measure.Quantity, u measure.Unit, size float64) bool {
	return math.Abs(q.Mid()*u.Size-size) <= offMeasure*size
}

// weighed is so many grams in a unit, in ounces where that is too coarse, and in
// grams where ounces are.
func weighed(grams float64, u measure.Unit) (measure.Quantity, measure.Unit) {
	if q := measure.Nearest(grams, u); u.IsMetric() || near(q, u, grams) {
		return q, u
	}
	if oz, ok := measure.FindUnit("oz"); ok && grams >= oz.Size {
		return measure.Nearest(grams, oz), oz
	}
	return measure.Scales(grams)
}
