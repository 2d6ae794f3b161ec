package household

import (
	"fmt"
	"slices"

	"potwright/internal/composition"
	"potwright/internal/label"
)

// Vessel is a pot or dish that is lifted full.
type Vessel struct {
	ID    string
	Title string
	// Words of the method that name it; one without is taken by what it holds.
	Words []string
	// HoldsKg is the most that a cook puts into it, Kg its own weight, both kg.
	HoldsKg, Kg float64
	Source      string
}

type vessel struct {
	Vessel
	words phrases
}

// Boil is how much water foods are boiled in that is poured off again.
type Boil struct {
	ID    string
	Kinds []string
	// Water is kg for each kg of the food.
	Water  float64
	Source string
}

// load is what a cook lifts at a step, kg; the zero load is unknown.
type load struct{ inPot, pot float64 }

func (l load) total() float64 { return l.inPot + l.pot }

// String such as "about 7.3 kg (5.9 kg of food and liquid, 1.4 kg the vessel)".
func (l load) String() string {
	return fmt.Sprintf("about %s kg (%s kg of food and liquid, %s kg the vessel)", kilos(l.total()), kilos(l.inPot), kilos(l.pot))
}

func kilos(x float64) string { return label.Figure(label.Nearest(x, 0.1)) }

// lifted is what is lifted at step i: where the step drains what was boiled, that
// food with its water, else the whole dish of contentsKg; and the vessel with it.
func (n *Needs) lifted(a handAction, lines []LineFood, steps [][]string, i int, contentsKg float64) load {
	l := load{inPot: contentsKg}
	if a.Drains {
		if boiled := n.boiled(lines, steps[i]); boiled > 0 {
			l.inPot = boiled
		}
	}
	if l.inPot > 0 {
		l.pot = n.vesselFor(steps[:i+1], l.inPot)
	}
	return l
}

// boiled is the weight of the foods that a step drains, with the water that they
// were boiled in, kg; 0 where it names none.
func (n *Needs) boiled(lines []LineFood, step []string) float64 {
	sum := 0.0
	for _, l := range lines {
		if l.Food == nil || l.Grams <= 0 || !namedIn(step, headWords(l.Food.Name), l.Food) {
			continue
		}
		for _, b := range n.book.Boils {
			if slices.ContainsFunc(b.Kinds, l.Food.HasKind) {
				sum += l.Grams / 1000 * (1 + b.Water)
				break
			}
		}
	}
	return sum
}

// namedIn reports whether a step names a food, by the last word at the head of its
// name or by its kind: "drain the pasta" means the penne.
func namedIn(step, head []string, f *composition.Food) bool {
	return sharesNoun(step, head) || slices.ContainsFunc(step, f.HasKind)
}

// vesselFor is the weight of the vessel that the method named last, else of the
// smallest that holds so much; 0 where there is none.
func (n *Needs) vesselFor(steps [][]string, contentsKg float64) float64 {
	for i := len(steps) - 1; i >= 0; i-- {
		for _, v := range n.vessels {
			if _, ok := v.words.find(steps[i]); ok {
				return v.Kg
			}
		}
	}
	best := vessel{}
	for _, v := range n.vessels {
		switch {
		case len(v.Words) > 0:
		case best.Kg == 0, best.HoldsKg < contentsKg && v.HoldsKg > best.HoldsKg,
			v.HoldsKg >= contentsKg && v.HoldsKg < best.HoldsKg:
			best = v
		}
	}
	return best.Kg
}

// Effect is what an easier way does to the dish and to the purse.
type Effect struct {
	Nutrients, Yield string
	Cost             CostClass
}

// CostClass is how the price of a way compares with that of the usual one.
type CostClass string

// Cost classes. Nobody's prices are known, so there are no figures.
const (
	Cheaper  CostClass = "cheaper"
	SameCost CostClass = "the same"
	Dearer   CostClass = "dearer"
)

// CostClasses lists them from the cheapest up.
func CostClasses() []string { return []string{string(Cheaper), string(SameCost), string(Dearer)} }

// String such as "Nutrients: the same. Yield: the same. Cost: dearer."
func (e Effect) String() string {
	if e.Cost == "" {
		return ""
	}
	return fmt.Sprintf("Nutrients: %s. Yield: %s. Cost: %s.", e.Nutrients, e.Yield, e.Cost)
}
