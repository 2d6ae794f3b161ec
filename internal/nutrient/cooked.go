package nutrient

import (
	"math"

	"potwright/internal/composition"
	"potwright/internal/spread"
)

// Cooked is what cooking takes from one food of a line before it is eaten. The
// zero value takes nothing and changes no weight.
type Cooked struct {
	// Away is the share of the food itself that is thrown away, 0..1: a marinade
	// that is discarded, salt poured off with the cooking water.
	Away spread.Range
	// Lost is what of that which is not thrown away is lost; nil for nothing. It may be
	// shared with other foods and is not to be changed: Lose does.
	Lost *Losses
	// Gain is what each gram that is not thrown away weighs more (or, below 0,
	// less) in the finished dish, in grams: water taken up or driven off.
	// Low <= Mid <= High, all above -1.
	Gain spread.Range
}

// Losses are the share of each nutrient, 0..1, that is lost. Energy has no share of its
// own: it goes with the fat and the alcohol.
type Losses [composition.NutrientCount]spread.Range

// Lose sets the share of some nutrients that is lost.
func (c *Cooked) Lose(share spread.Range, of ...composition.Nutrient) {
	if c.Lost == nil && share == (spread.Range{}) {
		return
	}
	lost := new(Losses)
	if c.Lost != nil {
		*lost = *c.Lost
	}
	for _, n := range of {
		lost[n] = share
	}
	c.Lost = lost
}

// Energy of what is lost, in kcal a gram, by the general factors of
// 21 CFR 101.9(c)(1)(i)(B); alcohol by USDA Handbook 74 (6.93).
const (
	kcalOfFat     = 9
	kcalOfAlcohol = 7
)

// eaten is the share of the food that is not thrown away.
func (c *Cooked) eaten() spread.Range {
	return spread.Between(1-c.Away.High, 1-c.Away.Mid, 1-c.Away.Low)
}

// keptEnergy is the same for energy, of a food that holds so much energy, fat
// and alcohol in 100 g.
func (c *Cooked) keptEnergy(kcal, fat, alcohol float64) spread.Range {
	if kcal <= 0 {
		return spread.Exact(1 - c.Away.Mid)
	}
	of := func(away, fatLost, alcoholLost float64) float64 {
		return math.Max(0, (1-away)*(1-(kcalOfFat*fat*fatLost+kcalOfAlcohol*alcohol*alcoholLost)/kcal))
	}
	var f, a spread.Range
	if c.Lost != nil {
		f, a = c.Lost[composition.Fat], c.Lost[composition.Alcohol]
	}
	return spread.Between(of(c.Away.High, f.High, a.High), of(c.Away.Mid, f.Mid, a.Mid), of(c.Away.Low, f.Low, a.Low))
}

// Kept is the share of every nutrient of a food that is eaten, 0..1.
func (c *Cooked) Kept(f *composition.Food) (kept [composition.NutrientCount]spread.Range) {
	eaten := c.eaten()
	for n := range kept {
		kept[n] = eaten
	}
	if c.Lost != nil {
		for n, lost := range c.Lost {
			if lost != (spread.Range{}) {
				kept[n] = spread.Between(eaten.Low*(1-lost.High), eaten.Mid*(1-lost.Mid), eaten.High*(1-lost.Low))
			}
		}
	}
	mid := func(n composition.Nutrient) float64 { return f.Nutrients[n].Mid } // unknown is 0: nothing is taken off
	kept[composition.Energy] = c.keptEnergy(mid(composition.Energy), mid(composition.Fat), mid(composition.Alcohol))
	return kept
}

// finished is the weight in the finished dish of so much of the food, in grams.
func (c *Cooked) finished(grams spread.Range) spread.Range {
	return grams.Times(c.eaten()).Times(spread.Between(1+c.Gain.Low, 1+c.Gain.Mid, 1+c.Gain.High))
}
