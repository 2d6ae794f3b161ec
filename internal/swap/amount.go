package swap

import (
	"math"

	"potwright/internal/composition"
	"potwright/internal/ingredient"
	"potwright/internal/measure"
)

// amount is the new amount as text; "" stands for "to taste".
func (ing *Ingredient) amount(p part) (string, bool) {
	if ing.By == ByLine && !p.reading.HasAmount {
		return "", p.reading.ToTaste
	}
	switch ing.By {
	case ByLine:
		return scaledAmount(p.reading, ing.Ratio), true
	case ByVolume:
		ml, ok := millilitres(p)
		return ing.volume(ml*ing.Ratio, p), ok
	case ByWeight:
		return ing.weight(p.item.Grams.Mid*ing.Ratio, p)
	case ByPiece:
		n, ok := pieces(p)
		return ing.count(n * ing.Ratio), ok
	}
	return "", false
}

// volume writes so many millilitres in the rule's unit, in metric where the
// line is metric, else in US spoons and cups.
func (ing *Ingredient) volume(ml float64, p part) string {
	if u, ok := measure.FindUnit(ing.Unit); ok && u.Kind == measure.Volume {
		return measure.Format(measure.Nearest(ml, u), u)
	}
	if u := p.reading.Amount.Unit; p.reading.HasAmount && u.Kind == measure.Volume && u.IsMetric() {
		return measure.Format(measure.Nearest(ml, u), u)
	}
	q, u := spoons(ml)
	return measure.Format(q, u)
}

// weight writes so many grams in the rule's unit, else in the line's own unit of
// weight, else in spoons and cups of the new food, else in grams.
func (ing *Ingredient) weight(grams float64, p part) (string, bool) {
	if grams <= 0 {
		return "", false
	}
	u, ok := measure.FindUnit(ing.Unit)
	if !ok && p.reading.HasAmount {
		u = p.reading.Amount.Unit
	}
	if u.Kind == measure.Mass && u.Size > 0 {
		return measure.Format(measure.Nearest(grams, u), u), true
	}
	if density, known := gramsPerMillilitre(ing.Row); known {
		return ing.volume(grams/density, p), true
	}
	q, u := measure.Scales(grams)
	return measure.Format(q, u), true
}

func (ing *Ingredient) count(n float64) string {
	u, ok := measure.FindUnit(ing.Unit)
	if !ok {
		u = measure.Each()
	}
	if u.Kind == measure.Volume {
		q, spoon := spoons(n * u.Size)
		return measure.Format(q, spoon)
	}
	if u.Kind == measure.Mass {
		return measure.Format(measure.Nearest(n*u.Size, u), u)
	}
	return measure.Format(measure.Nearest(n, u), u)
}

// millilitres is the volume of a part: as written, else its grams by the
// household measures of its food.
func millilitres(p part) (float64, bool) {
	if u := p.reading.Amount.Unit; p.reading.HasAmount && u.Kind == measure.Volume && u.Size > 0 {
		return p.reading.Amount.Quantity.Mid() * u.Size, true
	}
	density, ok := gramsPerMillilitre(p.item.Food)
	if !ok || p.item.Grams.Mid <= 0 {
		return 0, false
	}
	return p.item.Grams.Mid / density, true
}

// gramsPerMillilitre is from the first household measure of a food that is a
// volume, one without a qualifier before others.
func gramsPerMillilitre(f *composition.Food) (float64, bool) {
	if f == nil {
		return 0, false
	}
	best, found := 0.0, false
	for _, m := range f.Measures {
		u, ok := measure.FindUnit(m.Unit)
		if !ok || u.Kind != measure.Volume || m.Amount <= 0 || m.Grams <= 0 {
			continue
		}
		if m.Qualifier == "" {
			return m.Grams / (m.Amount * u.Size), true
		}
		if !found {
			best, found = m.Grams/(m.Amount*u.Size), true
		}
	}
	return best, found
}

// pieceUnits are measures that are one piece of a food, the usual one first.
var pieceUnits = [...]string{"clove", "stalk", "medium", "large", "each", "slice", "piece"}

// pieces is the number of pieces of a part: as counted, else its grams by the
// weight of one piece.
func pieces(p part) (float64, bool) {
	if p.reading.HasAmount && p.reading.Amount.Unit.Kind == measure.Count {
		return p.reading.Amount.Quantity.Mid(), true
	}
	for _, unit := range pieceUnits {
		for _, m := range p.item.Food.Measures {
			if m.Unit == unit && m.Amount > 0 && m.Grams > 0 && p.item.Grams.Mid > 0 {
				return p.item.Grams.Mid / (m.Grams / m.Amount), true
			}
		}
	}
	return 0, false
}

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
			if text := string(runes[part.From:part.To]); text[0] == '(' {
				return text
			}
		}
	}
	return "(" + measure.Format(r.Container.Quantity, r.Container.Unit) + ")"
}

// spoons is the kitchen measure of so many millilitres: cups where they are
// near enough, else as many smaller spoons as one cares to count.
func spoons(ml float64) (measure.Quantity, measure.Unit) {
	q, u := measure.Spoons(ml)
	for _, name := range [...]string{"tbsp", "tsp"} {
		smaller, ok := measure.FindUnit(name)
		if !ok || near(q, u, ml) || ml > mostSpoons*smaller.Size {
			continue
		}
		if n := measure.Nearest(ml, smaller); math.Abs(n.Mid()*smaller.Size-ml) < math.Abs(q.Mid()*u.Size-ml) {
			q, u = n, smaller
		}
	}
	return q, u
}

// mostSpoons is how many spoons of a size one counts before taking a cup.
const mostSpoons = 12.1

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
	if a.Unit.Size == 0 || a.Unit.IsMetric() || near(q, a.Unit, size) {
		return q, a.Unit
	}
	switch a.Unit.Kind {
	case measure.Volume:
		return spoons(size)
	case measure.Mass:
		return scales(size)
	}
	return q, a.Unit
}

// near reports whether a quantity of a unit is near enough to a size in
// millilitres or grams.
func near(q measure.Quantity, u measure.Unit, size float64) bool {
	return math.Abs(q.Mid()*u.Size-size) <= offMeasure*size
}

// scales is the weight nearest to so many grams in ounces, or in grams where
// quarters of an ounce are too coarse.
func scales(grams float64) (measure.Quantity, measure.Unit) {
	if oz, ok := measure.FindUnit("oz"); ok {
		if q := measure.Nearest(grams, oz); near(q, oz, grams) {
			return q, oz
		}
	}
	return measure.Scales(grams)
}
