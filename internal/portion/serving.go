package portion

import (
	"potwright/internal/nutrient"
	"potwright/internal/spread"
)

// ShareOfGrams is the share of one serving that so many grams of the finished
// dish are; ok is false where its weight is not known.
func ShareOfGrams(pot nutrient.Pot, grams float64) (share spread.Range, ok bool) {
	return shareOf(pot.YieldGrams, pot.Servings, grams)
}

// ShareOfMillilitres is the same for a measure, such as a ladle or a cup.
func ShareOfMillilitres(pot nutrient.Pot, millilitres float64) (share spread.Range, ok bool) {
	return shareOf(pot.YieldMillilitres, pot.Servings, millilitres)
}

// shareOf is a part of the whole in servings. A dish that weighs more than
// thought makes the part a smaller share.
func shareOf(whole spread.Range, servings, part float64) (spread.Range, bool) {
	if whole.Low <= 0 || servings <= 0 || part < 0 {
		return spread.Range{}, false
	}
	return spread.Between(part*servings/whole.High, part*servings/whole.Mid, part*servings/whole.Low), true
}
