package shopping

import (
	"math"
	"strings"

	"potwright/internal/ingredient"
	"potwright/internal/label"
	"potwright/internal/measure"
)

// Weights is how a shop weighs.
type Weights int

// Weights: grams and kilograms, or ounces and pounds.
const (
	Grams Weights = iota
	Pounds
)

// WeightsOf are those that go with a household's measures.
func WeightsOf(s measure.System) Weights {
	if s == measure.US {
		return Pounds
	}
	return Grams
}

// amount is the item's amount as a shop counts it: packs of one size, pieces,
// else weight as bought, and beside it the cook's own measures where they add up.
func amount(g *gathered, w Weights) string {
	var parts []string
	counted, whole := together(g.measured)
	if counted != "" {
		parts = append(parts, counted)
	}
	if !whole {
		if weight := weightText(asBought(g), w); weight != "" {
			if counted != "" {
				weight = "about " + weight
			}
			parts = append(parts, weight)
		}
	}
	if g.loose && len(g.measured) > 0 {
		parts = append(parts, "and more to taste")
	}
	return strings.Join(parts, ", ")
}

// asBought is the middle weight with peel, bone and shell, grams.
func asBought(g *gathered) float64 {
	if g.item.Food == nil {
		return 0
	}
	eaten := 1 - g.item.Food.Refuse
	if eaten <= 0 {
		return g.weighed.Mid
	}
	return g.weighed.Mid / eaten
}

// together adds amounts that are of one kind, ranges by their upper end, so that
// nobody comes home with too little; whole is set where a shop needs no weight
// besides. "" where they are of several kinds.
func together(rs []ingredient.Reading) (text string, whole bool) {
	if len(rs) == 0 {
		return "", false
	}
	first := rs[0]
	total, size := 0.0, first.Amount.Unit.Size
	for _, r := range rs {
		u := r.Amount.Unit
		if u.Kind != first.Amount.Unit.Kind || !samePack(r, first) || u.Size == 0 && (u.Name != first.Amount.Unit.Name || r.Size != first.Size) {
			return "", false
		}
		n := r.Amount.Quantity.High.Float()
		if u.Size > 0 && size > 0 {
			n *= u.Size / size
		}
		total += n
	}
	u := first.Amount.Unit
	switch u.Kind {
	case measure.Mass:
		return "", false // weighed below, as bought
	case measure.Volume:
		q, in := measure.Sized(total*size, u)
		return measure.Format(q, in), false
	default:
		return counted(total, first), u.Kind == measure.Pack && first.HasContainer
	}
}

func samePack(a, b ingredient.Reading) bool {
	if a.HasContainer != b.HasContainer {
		return false
	}
	return !a.HasContainer || a.Container.Unit.Name == b.Container.Unit.Name && a.Container.Quantity == b.Container.Quantity
}

// counted is so many pieces or packs, in whole ones: a shop sells no half onion.
func counted(total float64, r ingredient.Reading) string {
	n := int64(math.Ceil(total - 1e-9))
	text := measure.Format(measure.Exactly(measure.Whole(n)), r.Amount.Unit)
	if r.HasContainer {
		text += " of " + measure.Format(r.Container.Quantity, r.Container.Unit)
	}
	if r.Size != "" {
		text += " " + r.Size
	}
	return text
}

// Weights of the shop's scales: 1 oz and 1 lb are exact by the international
// pound of 1959.
const (
	gramsPerOunce = 28.349523125
	gramsPerPound = 453.59237
)

// weightText is a weight as a shop shows it, rounded up; "" under half a gram.
func weightText(grams float64, w Weights) string {
	up := func(x, step float64) string { return label.Figure(math.Ceil(x/step-1e-6) * step) }
	switch {
	case grams < 0.5:
		return ""
	case w == Grams && grams >= 1000:
		return up(grams/1000, 0.1) + " kg"
	case w == Grams && grams >= 100:
		return up(grams, 10) + " g"
	case w == Grams || grams < gramsPerOunce/2:
		return up(grams, 1) + " g"
	case grams >= gramsPerPound:
		return up(grams/gramsPerPound, 0.25) + " lb"
	default:
		return up(grams/gramsPerOunce, 0.5) + " oz"
	}
}
