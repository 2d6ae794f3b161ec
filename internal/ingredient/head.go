package ingredient

import (
	"strings"

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

// bareUnit reads "pinch of salt", "large clove of garlic" and "can of beans", lines
// with a unit and no number: one of it.
func (p *reader) bareUnit(start int) int {
	i := start
	for i < p.to && (spoonWords[p.tokens[i].low] || p.sizeAt(i) != "") {
		i++
	}
	one := measure.Exactly(measure.Whole(1))
	if p.isOneThing(start) {
		p.note(0.2, "no number is written; read as one")
		p.r.HasAmount, p.r.Amount = true, Amount{one, measure.Each()}
		return p.unit(start)
	}
	u, next, ok := p.unitAt(i)
	if i+1 >= p.to || !ok {
		return start
	}
	switch u.Name {
	case "dash", "pinch", "smidgen", "handful", "sprig":
	case "splash", "drizzle", "knob":
		one.About = true
	case "tsp", "tbsp", "cup":
		if p.tokens[next].kind != word || p.isCompound(i, next) {
			return start
		}
		p.note(0.2, "no number is written; read as one "+u.Name)
	default:
		if !p.meansOne(i, next, u) {
			return start
		}
		p.note(0.2, "no number is written; read as one "+u.Name)
	}
	p.r.HasAmount = true
	p.r.Amount = Amount{one, u}
	next = p.moreAmounts(p.unit(start))
	if p.is(next, "of") {
		next++
	}
	return next
}

// things are foods that a cook counts, in the singular.
var things = wordSet("onion shallot leek carrot parsnip turnip beetroot beet potato tomato cucumber zucchini courgette eggplant aubergine pepper cabbage cauliflower squash pumpkin avocado egg apple pear banana orange lemon lime mango")

// isOneThing reports whether a line begins with a size and a thing without a number:
// "small red onion, chopped".
func (p *reader) isOneThing(start int) bool {
	i := start
	for p.sizeAt(i) != "" {
		i++
	}
	end := i
	for end < p.to && end < i+3 && p.tokens[end].kind == word {
		end++
	}
	return i > start && end > i && things[p.tokens[end-1].low] && (end == p.to || p.tokens[end].kind == mark)
}

// aloneOne are units that, in the singular and without a number, mean one even where no
// "of" follows: "clove garlic". "Leaf lettuce" and "piece" need it.
var aloneOne = wordSet("bunch clove can tin jar package packet pack bag bottle carton slice stick stalk head tub")

// meansOne reports whether a unit without a number is one of it: in the singular, and
// before the food.
func (p *reader) meansOne(i, next int, u measure.Unit) bool {
	if next >= p.to || p.isCompound(i, next) || u.Kind != measure.Count && u.Kind != measure.Pack || strings.HasSuffix(p.tokens[i].low, "s") {
		return false
	}
	if p.is(next, "of") || p.is(next, "(") {
		return next+1 < p.to
	}
	return aloneOne[p.tokens[i].low] && p.tokens[next].kind == word
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
