package cooking

import (
	"math"

	"potwright/internal/composition"
	"potwright/internal/nutrient"
	"potwright/internal/spread"
)

// precooked are states of rows whose figures are those of the cooked food.
var precooked = []string{"cooked", "canned", "roasted", "boiled", "baked", "braised", "fried", "grilled", "broiled", "steamed", "simmered", "toasted", "scrambled", "poached", "prepared", "ready_to_serve", "condensed", "pickled", "smoked"}

// Cooked is what a treatment takes from a food.
func (b *Book) Cooked(p Plan, l Line, f *composition.Food) nutrient.Cooked {
	var c nutrient.Cooked
	c.Away = l.Away
	h := b.of(f)
	b.retain(&c, p, l, h)
	b.alcoholOf(&c, p, l, f)
	b.yieldOf(&c, l, f, h.yields)
	return c
}

// retain takes the nutrients that heat and water take.
func (b *Book) retain(c *nutrient.Cooked, p Plan, l Line, h *holding) {
	switch {
	case h.factor == nil:
	case !p.Told:
		c.Lost = h.vitamins
	case l.Sure:
		c.Lost = b.retention(h.factor, l).sure
	default:
		c.Lost = b.retention(h.factor, l).perhaps
	}
}

// retention is the row for a treatment: the food's own, or that of the treatment
// that is most like it.
func (b *Book) retention(x *Factor, l Line) lost {
	for t := l.Treatment; t != ""; t = like[t] {
		codes := x.Codes[t]
		for i, c := range codes {
			if c.Minutes == 0 || i == len(codes)-1 || l.High > 0 && (l.Low+l.High)/2 <= c.Minutes {
				return b.lost[c.Code]
			}
		}
	}
	return lost{}
}

// heatLabile are the vitamins that a cook's unknown heat may take.
var heatLabile = []composition.Nutrient{composition.VitaminC, composition.Folate}

// anyVitamin is the loss of vitamins where nothing is told of the cooking: from
// none to that of the treatment that takes most.
func (b *Book) anyVitamin(x *Factor) *nutrient.Losses {
	var out nutrient.Losses
	for _, codes := range x.Codes {
		for _, c := range codes {
			r, ok := b.retentions[c.Code]
			for _, n := range heatLabile {
				if ok && r.Known[n] {
					out[n].High = math.Max(out[n].High, 1-r.Percent[n]/100)
				}
			}
		}
	}
	return someOf(out)
}

// alcoholOf takes the alcohol that goes.
func (b *Book) alcoholOf(c *nutrient.Cooked, p Plan, l Line, f *composition.Food) {
	n := composition.Alcohol
	if a := f.Nutrients[n]; !a.Known || a.Mid <= 0 {
		return
	}
	if !p.Told {
		c.Lose(spread.Between(0, 0, 1-b.alcohol.after(math.Inf(1))), n)
		return
	}
	kept := spread.Exact(1)
	switch {
	case l.Heated():
		// Times are told roughly, and a pan is wide or narrow: half to one and a half.
		kept = spread.Between(b.alcohol.after(1.5*l.High), b.alcohol.after((l.Low+l.High)/2), b.alcohol.after(l.Low/2))
		if l.High == 0 {
			kept.Low = b.alcohol.after(unsaidHeat)
		}
	case l.Flamed:
		kept = spread.Relative(b.alcohol.Flamed, 0.1)
	case l.Overnight:
		kept = spread.Relative(b.alcohol.Overnight, 0.1)
	}
	lost := spread.Between(1-kept.High, 1-kept.Mid, 1-kept.Low)
	if !l.Sure {
		lost = spread.Between(0, 0, lost.High)
	}
	c.Lose(lost, n)
}

// unsaidHeat is how many minutes heat without a time may last. A design figure.
const unsaidHeat = 30

// after is the share of alcohol that stays after so many minutes of heat, on
// straight lines between the steps and never below the last.
func (a Alcohol) after(minutes float64) float64 {
	if len(a.Steps) == 0 {
		return 1
	}
	for i := 1; i < len(a.Steps); i++ {
		from, to := a.Steps[i-1], a.Steps[i]
		if minutes <= to.Minutes {
			return from.Kept + (to.Kept-from.Kept)*(minutes-from.Minutes)/(to.Minutes-from.Minutes)
		}
	}
	return a.Steps[len(a.Steps)-1].Kept
}

// yieldOf sets what the food weighs, and takes the fat that is left behind.
func (b *Book) yieldOf(c *nutrient.Cooked, l Line, f *composition.Food, yields []*Yield) {
	for _, y := range yields {
		// What was browned and had its fat poured off lost it, whatever comes after.
		if !y.treats(l.Treatment) && !(l.FatDrained && y.treats(Fried)) {
			continue
		}
		if y.Water && !l.TakesUp {
			return
		}
		if !(l.Sure || y.Water) {
			c.Gain = spread.Range{Low: min(0, y.Weight.Low-1), High: max(0, y.Weight.High-1)}
			return
		}
		c.Gain = spread.Range{Low: y.Weight.Low - 1, Mid: y.Weight.Mid - 1, High: y.Weight.High - 1}
		b.fatOf(c, l, y, f)
		return
	}
}

func (y *Yield) treats(t Treatment) bool {
	for _, x := range y.Treatments {
		if x == t || x == like[t] {
			return true
		}
	}
	return false
}

// fatOf takes the fat that runs off; the fat that stays in the pan is eaten
// unless the method pours it off.
func (b *Book) fatOf(c *nutrient.Cooked, l Line, y *Yield, f *composition.Food) {
	fat := f.Nutrients[composition.Fat]
	if !l.FatDrained || !fat.Known || fat.Mid <= 0 || y.Fat.High <= 0 {
		return
	}
	share := y.Fat.Scale(1 / fat.Mid)
	lost := spread.Between(min(1, share.Low), min(1, share.Mid), min(1, share.High))
	if !l.FatSure {
		lost = spread.Between(0, 0, lost.High)
	}
	c.Lose(lost, composition.Fat, composition.SaturatedFat, composition.TransFat)
}
