package shopping

import (
	"math"
	"slices"
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
// else volume or weight as bought, and beside it the cook's own measures where they add up.
func amount(g *gathered, w Weights) string {
	var parts []string
	counted, whole := together(g.measured)
	if counted != "" {
		parts = append(parts, counted)
	}
	if !whole {
		if much := inShop(g, w, counted != ""); much != "" {
			if counted != "" {
				much = "about " + much
			}
			parts = append(parts, much)
		}
	}
	if g.loose && len(g.measured) > 0 {
		parts = append(parts, "and more to taste")
	}
	return strings.Join(parts, ", ")
}

// inShop is the volume of what is poured, else the weight as bought; told is set where
// the cook's own measure stands beside it, which is enough for a few spoons.
func inShop(g *gathered, w Weights, told bool) string {
	if told && g.pouredOff {
		return "" // what is taken up would be less than the measure beside it
	}
	ml, ok := poured(g)
	switch {
	case !ok:
		return weightText(asBought(g), w)
	case told && ml <= spoonfuls:
		return ""
	}
	return volumeText(ml, w)
}

// asBought is the middle weight with peel, bone and shell, grams.
func asBought(g *gathered) float64 {
	if g.item.Food == nil {
		return 0
	}
	eaten := 1 - g.item.Food.Refuse
	// Cooks measure nuts without their shells, and so they are sold.
	if eaten <= 0 || g.item.Food.HasKind("nut") || g.item.Food.HasKind("tree_nut") || g.item.Food.HasKind("seed") {
		return g.weighed.Mid
	}
	return g.weighed.Mid / eaten
}

// together adds amounts that can be added, ranges by their upper end, so that
// nobody comes home with too little, and joins the rest with "and"; whole is set
// where a shop needs no weight besides.
func together(rs []ingredient.Reading) (text string, whole bool) {
	var sums []sum
	for _, r := range rs {
		if !slices.ContainsFunc(sums, func(s sum) bool { return s.like(r) }) {
			sums = append(sums, sum{first: r})
		}
		for i := range sums {
			if sums[i].like(r) {
				sums[i].add(r)
				break
			}
		}
	}
	var texts []string
	whole = len(sums) > 0
	for _, s := range sums {
		whole = whole && s.first.Amount.Unit.Kind == measure.Pack && s.first.HasContainer
		switch s.first.Amount.Unit.Kind {
		case measure.Mass:
			if len(sums) == 1 {
				return "", false // weighed besides, as bought
			}
			texts = append(texts, measure.Format(measure.Sized(s.total*s.first.Amount.Unit.Size, s.first.Amount.Unit)))
		case measure.Volume:
			texts = append(texts, measure.Format(measure.Sized(s.total*s.first.Amount.Unit.Size, s.first.Amount.Unit)))
		default:
			texts = append(texts, counted(s.total, s.first))
		}
	}
	return strings.Join(texts, " and "), whole
}

// sum is amounts of one kind added up, in the unit of the first.
type sum struct {
	first ingredient.Reading
	total float64
}

// like reports whether an amount can be added: any two volumes, any two weights,
// else the same pieces or packs of the same size.
func (s sum) like(r ingredient.Reading) bool {
	u, v := s.first.Amount.Unit, r.Amount.Unit
	if u.Kind != v.Kind {
		return false
	}
	if u.Size > 0 && v.Size > 0 {
		return true
	}
	return u.Name == v.Name && s.first.Size == r.Size && samePack(s.first, r)
}

// add counts in the larger of the units: three spoons and a cup are cups.
func (s *sum) add(r ingredient.Reading) {
	n, u, v := r.Amount.Quantity.High.Float(), s.first.Amount.Unit, r.Amount.Unit
	switch {
	case u.Size <= 0 || v.Size <= 0:
	case v.Size > u.Size:
		s.total *= u.Size / v.Size
		s.first = r
	default:
		n *= v.Size / u.Size
	}
	s.total += n
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

// nearStep is the part of a step of the scales that is not rounded up for. A
// design choice.
const nearStep = 0.1

// weightText is a weight as a shop shows it, rounded up; "" under half a gram.
func weightText(grams float64, w Weights) string {
	up := func(x, step float64) string { return label.Figure(math.Max(1, math.Ceil(x/step-nearStep)) * step) }
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
