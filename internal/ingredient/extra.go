package ingredient

import (
	"math"

	"potwright/internal/measure"
)

// moreAmounts reads what follows the unit: "(15 oz)", "14.5 ounce", "plus 2
// tablespoons", "/ 250 g".
func (p *reader) moreAmounts(i int) int {
	for i < p.to {
		next := p.plus(i)
		if next == i {
			next = p.parenAmount(i)
		}
		if next == i && p.r.Amount.Unit.Kind == measure.Pack && !p.r.HasContainer {
			if a, after, ok := p.measureAt(i); ok {
				p.setContainer(a, i, after)
				next = after
				if u, end, ok := p.unitAt(next); ok && u == p.r.Amount.Unit {
					next = end // "2 cans 11 ounce cans"
				}
			}
		}
		if next == i && p.is(i, "/") {
			if a, after, ok := p.measureAt(i + 1); ok {
				p.r.Other = append(p.r.Other, a)
				p.part("other", i+1, after)
				next = after
			}
		}
		if next == i {
			return i
		}
		i = next
	}
	return i
}

// plus adds "plus 2 tablespoons" to the amount, exactly.
func (p *reader) plus(i int) int {
	if !p.is(i, "plus") && !p.is(i, "+") && !p.is(i, "and") {
		sum, next := p.ounces(p.r.Amount, i)
		if next > i {
			p.r.Amount = sum
			p.part("quantity", i, next)
		}
		return next
	}
	a, next, ok := p.measureAt(i + 1)
	if !ok || a.Unit.Kind != p.r.Amount.Unit.Kind || a.Unit.Kind == measure.Count {
		return i
	}
	sum, ok := addAmounts(p.r.Amount, a)
	if !ok {
		return i
	}
	p.r.Amount = sum
	p.part("quantity", i+1, next)
	return next
}

// ounces adds the ounces of "1 pound 4 ounces" to the pounds before token i.
func (p *reader) ounces(pounds Amount, i int) (Amount, int) {
	if pounds.Unit.Name != "lb" {
		return pounds, i
	}
	at := i
	if p.is(at, ".") {
		at++
	}
	q, next, ok := p.quantityAt(at, false)
	if !ok {
		return pounds, i
	}
	if p.is(next, "-") {
		next++
	}
	u, next, ok := p.unitAt(next)
	if !ok || u.Name != "oz" {
		return pounds, i
	}
	sum, ok := addAmounts(pounds, Amount{q, u})
	if !ok {
		return pounds, i
	}
	return sum, next
}

// addAmounts sums two amounts in the unit of the first, where the units are in
// a simple ratio, as cups, tablespoons and teaspoons are.
func addAmounts(a, b Amount) (Amount, bool) {
	const steps = 768 // teaspoons in a gallon
	k := b.Unit.Size / a.Unit.Size
	num := math.Round(k * steps)
	if num < 1 || math.Abs(num/steps-k) > 1e-9*k {
		return a, false
	}
	added, ok := b.Quantity.Scale(measure.NewRatio(int64(num), steps))
	if !ok {
		return a, false
	}
	low, okLow := a.Quantity.Low.Plus(added.Low)
	high, okHigh := a.Quantity.High.Plus(added.High)
	a.Quantity.Low, a.Quantity.High = low, high
	return a, okLow && okHigh
}

// parenAmount reads a parenthesis that holds a measure and nothing else, right
// after the unit.
func (p *reader) parenAmount(i int) int {
	if !p.is(i, "(") {
		return i
	}
	k := i + 1
	for p.is(k, "about") || p.is(k, "approximately") || p.is(k, "each") || p.is(k, "approx.") || p.is(k, "or") {
		k++
	}
	a, next, ok := p.measureAt(k)
	if !ok {
		return i
	}
	for p.is(next, "each") || p.is(next, "size") || p.is(next, "total") {
		next++
	}
	if u, after, ok := p.unitAt(next); ok && u.Kind == measure.Pack {
		next = after
	}
	if !p.is(next, ")") {
		return i
	}
	p.extraAmount(a, i+1, next)
	return next + 1
}

// sizeOfEach reports whether a weight behind a counted thing is that of each:
// "4 chicken breasts (4 ounces each)", "8 yogurts (8 ounce)".
func (p *reader) sizeOfEach(a Amount, from, to int) bool {
	if p.r.Amount.Unit.Kind != measure.Count || a.Unit.Kind != measure.Mass {
		return false
	}
	for i := from; i < min(to+1, p.to); i++ {
		switch {
		case p.is(i, "each"):
			return true
		case p.is(i, "ounce") || p.is(i, "pound"):
			return a.Quantity.Low.Float() > 1
		}
	}
	return false
}

// ofTheSource reports whether a weight beside a volume is that of the package it
// is taken from: "1 1/2 cups sauce (half of a 24-oz jar)", "4 cups beans (2 cans,
// 15 ounces each)".
func (p *reader) ofTheSource(a Amount, from, to int) bool {
	if !p.r.HasAmount || p.r.Amount.Unit.Kind != measure.Volume || a.Unit.Kind != measure.Mass {
		return false
	}
	for i := from; i < min(to+1, p.to); i++ {
		u, _, ok := p.unitAt(i)
		if p.is(i, "each") || ok && u.Kind == measure.Pack {
			return true
		}
	}
	return false
}

// extraAmount files a further measure: the size of a pack, or another way of
// saying the amount.
func (p *reader) extraAmount(a Amount, from, to int) {
	pack := p.r.Amount.Unit.Kind == measure.Pack || p.sizeOfEach(a, from, to)
	switch {
	case p.ofTheSource(a, from, to):
		p.part("note", from, to)
	case !p.r.HasAmount:
		p.r.HasAmount, p.r.Amount = true, a
		p.part("quantity", from, to)
	case pack && !p.r.HasContainer && (a.Unit.Kind == measure.Mass || a.Unit.Kind == measure.Volume):
		p.sizeOrTotal(a, max(0, from-1), min(to+1, p.to))
	default:
		p.r.Other = append(p.r.Other, a)
		p.part("other", from, to)
	}
}
