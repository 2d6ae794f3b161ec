package method

import (
	"math"
	"strings"

	"potwright/internal/ingredient"
	"potwright/internal/measure"
)

// stated is an amount that a step states: tokens from..to.
type stated struct {
	quantity measure.Quantity
	unit     measure.Unit
	from, to int
}

// amountBefore is the amount that a noun phrase which starts at or after token
// low and whose food starts at token food states, such as "1/2 cup of the".
func amountBefore(tokens []token, low, food int) (stated, bool) {
	from := food
	for from > low && food-from < 8 && belongsBefore(tokens, from) {
		from--
	}
	for k := from; k < food; k++ {
		if !tokens[k].num {
			continue
		}
		text := render(tokens[k:food])[len(tokens[k].space):]
		q, n, ok := measure.ScanQuantity(text)
		if !ok {
			return stated{}, false
		}
		a := stated{quantity: q, unit: measure.Each(), from: k}
		for a.to = k; a.to < food && n > 0; a.to++ {
			n -= len(tokens[a.to].text)
			if a.to+1 < food {
				n -= len(tokens[a.to+1].space)
			}
		}
		a.takeUnit(tokens, food)
		return a, true
	}
	return stated{}, false
}

func (a *stated) takeUnit(tokens []token, food int) {
	for _, length := range []int{2, 1} {
		if a.to+length > food {
			continue
		}
		u, ok := measure.FindUnit(strings.TrimSpace(render(tokens[a.to : a.to+length])))
		if ok {
			a.unit, a.to = u, a.to+length
			return
		}
	}
}

// share is what part of a line's amount the stated one is; ok is false where the
// two can't be compared.
func (a stated) share(r ingredient.Reading) (float64, bool) {
	if !r.HasAmount {
		return 0, false
	}
	whole, part := r.Amount.Quantity.Mid(), a.quantity.Mid()
	if r.Amount.Unit.Name != a.unit.Name && !(a.unit.Name == measure.Each().Name && r.Amount.Unit.Name == "slice") {
		if r.Amount.Unit.Kind != a.unit.Kind || r.Amount.Unit.Size <= 0 || a.unit.Size <= 0 {
			return 0, false
		}
		whole, part = whole*r.Amount.Unit.Size, part*a.unit.Size
	}
	if whole <= 0 || part <= 0 {
		return 0, false
	}
	return part / whole, true
}

// offWhole is how far, as a share, a part may be from the whole line and still
// be written as the line is.
const offWhole = 0.01

// partOf writes a share of a line's amount, in a unit that a kitchen measures.
func partOf(r ingredient.Reading, share float64) (string, bool) {
	if !r.HasAmount || r.HasContainer {
		return "", false
	}
	q, u := r.Amount.Quantity, r.Amount.Unit
	if share > 1-offWhole && share < 1+offWhole {
		return measure.Format(q, u), true
	}
	size := q.Mid() * share
	if u.Size > 0 {
		size *= u.Size
	}
	if u.Kind == measure.Volume && !u.IsMetric() {
		q, u = spoons(size)
	} else {
		q = measure.Nearest(size, u)
	}
	got := q.Mid()
	if u.Size > 0 {
		got *= u.Size
	}
	if got <= 0 || math.Abs(got-size) > offPart*size {
		return "", false
	}
	return measure.Format(q, u), true
}

// offPart is how far, as a share, a part may be rounded; a quarter of a can for
// an eighth is not said. A design choice.
const offPart = 0.15

// offMeasure is how far, as a share, cups may be off before spoons are taken: a
// design choice, so that parts still add up to about the line.
const offMeasure = 0.05

// spoons is a volume in cups and spoons.
func spoons(millilitres float64) (measure.Quantity, measure.Unit) {
	q, u := measure.Spoons(millilitres)
	tbsp, ok := measure.FindUnit("tbsp")
	if ok && u.Name == "cup" && millilitres < 16*tbsp.Size && math.Abs(q.Mid()*u.Size-millilitres) > offMeasure*millilitres {
		return measure.Nearest(millilitres, tbsp), tbsp
	}
	return q, u
}
