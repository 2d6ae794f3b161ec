package nutrient

import (
	"slices"

	"potwright/internal/composition"
	"potwright/internal/spread"
)

// Finish is what is known of the finished dish besides its lines.
type Finish struct {
	// Evaporated is the water, in grams, that the pot as a whole gives off while
	// it cooks; nil where the method does not tell.
	Evaporated *spread.Range
	// Grams and Millilitres are the cook's own weight and measure of the finished
	// dish; nil where there is none. They replace what is computed.
	Grams, Millilitres *spread.Range
}

// usualWaterLoss is the share of its water that a dish loses where nothing is
// told of its cooking. A design figure, no published rate for home pots: the
// method's times, or the cook's own weighing, replace it.
var usualWaterLoss = spread.Range{Low: 0, Mid: 0.10, High: 0.30}

// mostGivenOff is the share of its water that a pot may give off before the dish
// would be dry. A design figure.
const mostGivenOff = 0.7

// Densities in grams per millilitre of what food is made of, at serving heat:
// Choi and Okos 1986 (from memory) give 0.99 for water at 50 °C, 0.90 for fat and
// 1.3 to 1.6 for protein, fibre and carbohydrate.
const (
	waterDensity = 0.99
	fatDensity   = 0.90
	restDensity  = 1.45
)

// Air between the pieces of a dish in a measuring cup, as volume over true
// volume: a soup fills it, noodles and salads do not (USDA SR28: cooked macaroni
// 140 g a cup of 237 ml, rice 158 g, stews 245 to 256 g).
var (
	airOfSoup   = spread.Range{Low: 0.98, Mid: 1.00, High: 1.06}
	airOfPieces = spread.Range{Low: 1.00, Mid: 1.25, High: 1.75}
)

// soupShare is the share of poured foods in the weight from which a dish fills a
// cup like a soup. A design figure.
const soupShare = 0.4

// contents are sums over the lines of the finished dish, in grams.
type contents struct {
	grams              spread.Range
	loose              float64 // water that can boil away: not of foods with a yield of their own
	fat, solid, poured float64
}

func contentsOf(lines []LinePanel) (c contents) {
	for i := range lines {
		lp := &lines[i]
		if lp.AtTable || lp.Grams.Mid <= 0 {
			continue
		}
		c.grams = c.grams.Add(lp.Finished)
		water := min(lp.Panel[composition.Water].Mid, lp.Finished.Mid)
		if !lp.ownYield() {
			c.loose += water
		}
		// What is no water stays when water is driven off or taken up.
		dry := min(lp.Finished.Mid, max(0, lp.Grams.Mid*(1-lp.away())-lp.Panel[composition.Water].Mid))
		fat := min(dry, lp.Panel[composition.Fat].Mid)
		c.fat, c.solid = c.fat+fat, c.solid+dry-fat
		if lp.isPoured() {
			c.poured += lp.Finished.Mid
		}
	}
	return c
}

// Finished is the pot with its yield reckoned anew.
func (pot Pot) Finished(f Finish) Pot {
	pot.Finish = f
	c := contentsOf(pot.Lines)
	lost := usualWaterLoss.Scale(c.loose)
	if f.Evaporated != nil {
		most := mostGivenOff * c.loose
		lost = spread.Between(min(f.Evaporated.Low, most), min(f.Evaporated.Mid, most), min(f.Evaporated.High, most))
	}
	pot.YieldGrams = spread.Between(c.grams.Low-lost.High, c.grams.Mid-lost.Mid, c.grams.High-lost.Low)
	if f.Grams != nil {
		pot.YieldGrams = *f.Grams
	}
	perGram := c.millilitresPerGram(pot.YieldGrams.Mid)
	switch {
	case f.Millilitres == nil:
		pot.YieldMillilitres = pot.YieldGrams.Times(perGram)
	case f.Grams == nil && perGram.Mid > 0:
		pot.YieldMillilitres = *f.Millilitres
		pot.YieldGrams = f.Millilitres.Times(spread.Between(1/perGram.High, 1/perGram.Mid, 1/perGram.Low))
	default:
		pot.YieldMillilitres = *f.Millilitres
	}
	return pot
}

// millilitresPerGram of the finished dish, air between its pieces included.
func (c contents) millilitresPerGram(grams float64) spread.Range {
	if grams <= 0 {
		return spread.Range{}
	}
	water := max(0, grams-c.fat-c.solid)
	volume := water/waterDensity + c.fat/fatDensity + c.solid/restDensity
	air := airOfPieces
	if c.poured > soupShare*c.grams.Mid {
		air = airOfSoup
	}
	return air.Scale(volume / (water + c.fat + c.solid))
}

var pouredKinds = []string{"water", "broth", "soup", "milk", "plant_milk", "soy_milk", "coconut_milk", "cream",
	"tomato_product", "vegetable_juice", "fruit_juice", "wine", "beer"}

// isPoured reports whether the line's first food flows.
func (lp *LinePanel) isPoured() bool {
	if len(lp.Matched.Items) == 0 {
		return false
	}
	return slices.ContainsFunc(pouredKinds, lp.Matched.Items[0].Food.HasKind)
}

// ownYield reports whether the weight of the finished line is told by a yield of
// its own, water included.
func (lp *LinePanel) ownYield() bool {
	return len(lp.Cooked) > 0 && lp.Cooked[0].Gain != spread.Range{}
}

// away is the share of the line's first food that is thrown away.
func (lp *LinePanel) away() float64 {
	if len(lp.Cooked) == 0 {
		return 0
	}
	return lp.Cooked[0].Away.Mid
}
