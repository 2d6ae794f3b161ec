package ingredient

import (
	"potwright/internal/measure"
)

// quantityAt reads a quantity at token i; next is the token after it. Number
// words count only where words is true.
func (p *reader) quantityAt(i int, words bool) (q measure.Quantity, next int, ok bool) {
	if i >= p.to {
		return q, i, false
	}
	t := p.tokens[i]
	if !words && t.kind != number && t.low != "." {
		return q, i, false
	}
	if t.kind == mark && t.low != "." && t.low != "~" {
		return q, i, false
	}
	q, n, ok := measure.ScanQuantity(p.plain[t.at:p.endOf()])
	if !ok {
		return q, i, false
	}
	next = i
	for next < p.to && p.tokens[next].at < t.at+n {
		next++
	}
	return q, next, true
}

func (p *reader) endOf() int { return p.tokens[p.to-1].end }

// measureAt reads a number with a unit of mass or volume, "14.5-ounce".
func (p *reader) measureAt(i int) (a Amount, next int, ok bool) {
	q, next, ok := p.quantityAt(i, false)
	if !ok {
		return a, i, false
	}
	if p.is(next, "-") {
		next++
	}
	u, next, ok := p.unitAt(next)
	if !ok || (u.Kind != measure.Mass && u.Kind != measure.Volume) {
		return a, i, false
	}
	a, next = p.ounces(Amount{q, u}, next)
	return a, next, true
}

// head reads the amount at the start of the line and returns the token after it.
func (p *reader) head(i int) int {
	i = p.juiceOf(i)
	q, next, ok := p.quantityAt(i, true)
	if !ok {
		return p.bareUnit(i)
	}
	p.part("quantity", i, next)
	p.r.HasAmount = true
	p.r.Amount = Amount{q, measure.Each()}
	next = p.dropJoint(next)
	if a, after, ok := p.containerFirst(next); ok {
		p.sizeOrTotal(a, next, after)
		next = after
	}
	next = p.parenInches(next)
	next = p.unit(next)
	next = p.moreAmounts(next)
	if p.is(next, "of") {
		next++
	}
	return next
}

// bareUnit reads "pinch of salt" and "juice" lines without a number.
func (p *reader) bareUnit(start int) int {
	i := start
	for i < p.to && spoonWords[p.tokens[i].low] {
		i++
	}
	if i+1 >= p.to {
		return start
	}
	u, next, ok := p.unitAt(i)
	if !ok {
		return start
	}
	switch u.Name {
	case "dash", "pinch", "smidgen", "handful", "sprig":
	case "splash", "drizzle", "knob":
		p.r.Amount.Quantity.About = true
	case "tsp", "tbsp", "cup":
		if p.tokens[next].kind != word || p.isCompound(i, next) {
			return start
		}
		p.note(0.2, "no number is written; read as one "+u.Name)
	default:
		return start
	}
	p.part("unit", i, next)
	p.r.HasAmount = true
	one := measure.Exactly(measure.Whole(1))
	one.About = p.r.Amount.Quantity.About
	p.r.Amount = Amount{one, u}
	p.spoonful(start, i)
	if p.is(next, "of") {
		next++
	}
	return next
}

// dropJoint skips the hyphen of "1 - 14 oz can", "x" of "2 x 400 g" and "of".
func (p *reader) dropJoint(i int) int {
	if i+1 < p.to && (p.is(i, "-") || p.is(i, "x") || p.is(i, "×") || p.is(i, "of")) {
		return i + 1
	}
	return i
}

// containerFirst reads the size of a can between number and unit: "(14.5 oz)"
// or "14.5-ounce".
func (p *reader) containerFirst(i int) (a Amount, next int, ok bool) {
	for p.sizeAt(i) != "" {
		i++
	}
	paren := p.is(i, "(")
	if paren {
		i++
	}
	for paren && i < p.to && (p.is(i, "about") || p.is(i, "approximately") || p.is(i, "each") || p.is(i, "approx.")) {
		i++
	}
	a, next, ok = p.measureAt(i)
	if !ok || !paren {
		return a, next, ok
	}
	for next < p.to && !p.is(next, ")") {
		if !p.is(next, "each") && !p.is(next, "size") {
			return a, i, false
		}
		next++
	}
	return a, next + 1, next < p.to
}

// sizeAt is the size word at token i, or "".
func (p *reader) sizeAt(i int) string {
	if i >= p.to || p.tokens[i].kind != word {
		return ""
	}
	if e, _ := p.phraseAt(i, min(i+1, p.to)); e.tag == tagSize {
		return e.value
	}
	return ""
}

// sizeOrTotal tells "2 (15 oz) cans" from "2 (about 30 oz) cans": with "about"
// and without "each" the weight is that of all of them.
func (p *reader) sizeOrTotal(a Amount, from, to int) {
	about, each := false, false
	for i := from; i < to; i++ {
		about = about || p.is(i, "about") || p.is(i, "approximately") || p.is(i, "total")
		each = each || p.is(i, "each")
	}
	if about && !each && p.r.Amount.Quantity.Low != measure.Whole(1) {
		p.r.Other = append(p.r.Other, a)
		p.part("other", from, to)
		return
	}
	p.setContainer(a, from, to)
}

func (p *reader) setContainer(a Amount, from, to int) {
	p.r.HasContainer, p.r.Container = true, a
	p.part("container", from, to)
}
