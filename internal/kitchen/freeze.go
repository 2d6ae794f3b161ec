package kitchen

import (
	"potwright/internal/daybook"
	"potwright/internal/keeping"
	"potwright/internal/measure"
	"potwright/internal/portion"
	"potwright/internal/recipe"
	"potwright/internal/spread"
)

// Dividing is what a dish is divided by.
type Dividing string

// Ways to divide a dish. A cup is one of the household's.
const (
	ByServings Dividing = "servings"
	ByGrams    Dividing = "grams"
	ByCups     Dividing = "cups"
)

// Dividings lists the ways to divide a dish.
func Dividings() []Dividing { return []Dividing{ByServings, ByGrams, ByCups} }

// ShareOf is the share of a serving that so much of the finished dish is; ok is false
// where the dish's weight or measure is not known.
func (a Analysis) ShareOf(by Dividing, size float64) (share spread.Range, ok bool) {
	switch by {
	case ByGrams:
		return portion.ShareOfGrams(a.Pot, size)
	case ByCups:
		cup, found := measure.FindUnitIn("cup", a.Measures)
		if !found {
			return spread.Range{}, false
		}
		return portion.ShareOfMillilitres(a.Pot, size*cup.Size)
	}
	return spread.Exact(size), true
}

// Keeps are the last days of a dish by the shorter end of the advice on keeping; ""
// where none is known. Unfrozen is set where the advice gives no time in the freezer.
type Keeps struct {
	Chilled, Frozen daybook.Date
	Unfrozen        bool
}

// daysAMonth is a month on a label, short of most.
const daysAMonth = 30

// KeepsFrom counts the last days from the day the dish was made.
func (a Analysis) KeepsFrom(made daybook.Date) Keeps {
	for _, x := range a.Keeping() {
		if x.Topic != keeping.Storing || x.Fridge == nil {
			continue
		}
		k := Keeps{Chilled: made.Plus(int(x.Fridge.Least)), Unfrozen: x.Freezer == nil}
		if x.Freezer != nil {
			k.Frozen = made.Plus(int(x.Freezer.Least * daysAMonth))
		}
		return k
	}
	return Keeps{}
}

// Container is one of a share of a serving of a version, put in the freezer on a day.
func (a Analysis) Container(v recipe.Version, title string, share spread.Range, frozen daybook.Date) daybook.Container {
	return daybook.Container{VersionID: v.ID, Title: title, Portion: share.Mid, Grams: portion.Dished(a.Pot, share.Mid).Grams,
		Frozen: frozen, BestBy: a.KeepsFrom(frozen).Frozen}
}
