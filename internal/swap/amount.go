package swap

import (
	"potwright/internal/composition"
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
		return ing.count(n*ing.Ratio, p.measures), ok
	}
	return "", false
}

// volume writes so many millilitres in the rule's unit, in metric where the line is
// metric, by weight where it is in grams and the new food's density is known, else in
// the household's spoons and cups.
func (ing *Ingredient) volume(ml float64, p part) string {
	if u, ok := measure.FindUnitIn(ing.Unit, p.measures); ok && u.Kind == measure.Volume && (u.Name != "cup" || ml >= leastCup*u.Size) {
		return measure.Format(measure.Nearest(ml, u), u)
	}
	if u := p.reading.Amount.Unit; p.reading.HasAmount && u.Kind == measure.Volume && u.IsMetric() {
		return measure.Format(measure.Nearest(ml, u), u)
	}
	if u := p.reading.Amount.Unit; p.reading.HasAmount && u.Kind == measure.Mass && u.IsMetric() && ml >= scaleFrom {
		if density, ok := gramsPerMillilitre(ing.foodOf(p)); ok {
			q, u := measure.Weighed(ml*density, u)
			return measure.Format(q, u)
		}
	}
	q, u := measure.Spoonfuls(ml, p.measures)
	return measure.Format(q, u)
}

// leastCup is the smallest cup that kitchens have, a quarter: less is spooned
// (common practice, no source).
const leastCup = 0.24

// scaleFrom is the volume, ml, from which a cook who weighs in grams weighs what
// comes instead too; less is measured by the spoon. A design choice.
const scaleFrom = 45

// weight writes so many grams in the rule's unit, else in the line's own unit of
// weight or that of its package, else in spoons and cups of the new food, else in grams.
func (ing *Ingredient) weight(grams float64, p part) (string, bool) {
	if grams <= 0 {
		return "", false
	}
	u, ok := measure.FindUnit(ing.Unit)
	if !ok && p.reading.HasAmount {
		u = p.reading.Amount.Unit
		if p.reading.HasContainer && u.Name == "package" {
			u = p.reading.Container.Unit
		}
	}
	if u.Kind == measure.Mass && u.Size > 0 {
		q, u := measure.Weighed(grams, u)
		return measure.Format(q, u), true
	}
	density, known := gramsPerMillilitre(ing.foodOf(p))
	if !known && u.Kind == measure.Volume {
		// A row without a volume of its own is close to the food it replaces.
		density, known = gramsPerMillilitre(p.item.Food)
	}
	if known {
		return ing.volume(grams/density, p), true
	}
	q, u := measure.Scales(grams)
	return measure.Format(q, u), true
}

func (ing *Ingredient) count(n float64, s measure.System) string {
	u, ok := measure.FindUnit(ing.Unit)
	if !ok {
		u = measure.Each()
	}
	if u.Kind == measure.Volume {
		q, spoon := measure.Spoonfuls(n*u.Size, s)
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
		return p.reading.Amount.Quantity.Mid() * u.In(p.measures).Size, true
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

// pieces is the number of usual pieces of a part: as counted, else its grams by
// the weight of one piece. A line that tells the size is weighed as well: a large
// onion is more than one.
func pieces(p part) (float64, bool) {
	counted := p.reading.HasAmount && p.reading.Amount.Unit.Kind == measure.Count
	if counted && (p.reading.Size == "" || p.reading.Size == usualSize(p.item.Food)) {
		return p.reading.Amount.Quantity.Mid(), true
	}
	for _, unit := range pieceUnits {
		if g := pieceGrams(p.item.Food, unit); g > 0 && p.item.Grams.Mid > 0 {
			return p.item.Grams.Mid / g, true
		}
	}
	return p.reading.Amount.Quantity.Mid(), counted
}

// usualSize is the size that recipes mean where they tell none: large for eggs
// (the egg of US recipes), medium for others.
func usualSize(f *composition.Food) string {
	if f.HasKind("egg") {
		return "large"
	}
	return "medium"
}

func pieceGrams(f *composition.Food, unit string) float64 {
	if unit == "medium" {
		unit = usualSize(f)
	}
	for _, m := range f.Measures {
		if m.Unit == unit && m.Amount > 0 && m.Grams > 0 {
			return m.Grams / m.Amount
		}
	}
	return 0
}
