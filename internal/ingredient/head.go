package ingredient

import (
	"math"
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

// unitAt reads a unit of up to three words at token i.
func (p *reader) unitAt(i int) (u measure.Unit, next int, ok bool) {
	for n := min(3, p.to-i); n > 0; n-- {
		if n > 1 && !p.couldJoin(i, n) {
			continue
		}
		spelling := p.spelling(i, n)
		if got, found := measure.FindUnit(spelling); found {
			return got, i + n, true
		}
	}
	return u, i, false
}

// couldJoin reports whether tokens i.. may be a unit of several words: only
// those of fluid ounces are.
func (p *reader) couldJoin(i, n int) bool {
	switch p.tokens[i].low {
	case "fl", "fl.", "fluid", "us":
	default:
		return false
	}
	for k := i; k < i+n; k++ {
		if p.tokens[k].kind != word {
			return false
		}
	}
	return true
}

func (p *reader) spelling(i, n int) string {
	if n == 1 {
		t := p.tokens[i]
		if t.kind == number {
			return ""
		}
		return p.plain[t.at:t.end] // case tells T from t
	}
	return strings.ReplaceAll(p.plain[p.tokens[i].at:p.tokens[i+n-1].end], "  ", " ")
}

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
	return Amount{q, u}, next, true
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
	p.r.Amount = Amount{measure.Exactly(measure.Whole(1)), u}
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

// spoonWords may stand between number and unit without changing it much.
var spoonWords = wordSet("heaping heaped rounded scant generous level packed good full slightly lightly firmly thin thick whole standard regular fresh")

// unit reads the unit, with a size or a word like "heaping" before it.
func (p *reader) unit(i int) int {
	k, size := i, ""
	for k < p.to && k < i+3 {
		if s := p.sizeAt(k); s != "" {
			size = s
		} else if !spoonWords[p.tokens[k].low] {
			break
		}
		k++
	}
	u, next, ok := p.unitAt(k)
	if !ok || p.isCompound(k, next) {
		return p.inches(i)
	}
	if k > i && size == "" {
		p.spoonful(i, k)
	}
	p.r.Amount.Unit = u
	if size != "" {
		p.r.Size = size
		p.part("size", i, k)
	}
	p.part("unit", k, next)
	if u.Name == "inch" && (p.is(next, "piece") || p.is(next, "knob")) {
		next++ // a "1-inch piece of ginger"
	}
	p.massThenPack(k)
	next = p.packAfterMass(next)
	return next
}

// spoonful notes what stands before the unit: a heaping spoon is not exact, a
// packed cup is a preparation.
func (p *reader) spoonful(from, to int) {
	for i := from; i < to; i++ {
		switch w := p.tokens[i].low; w {
		case "heaping", "heaped", "rounded", "scant", "generous", "good":
			p.r.Amount.Quantity.About = true
		case "packed", "thin", "thick":
			p.r.Preparation = append(p.r.Preparation, w)
		case "fresh":
			p.addState("fresh")
		}
	}
	p.part("preparation", from, to)
}

// isCompound reports whether the unit word begins a food's name: "stick
// margarine", "leaf lettuce", "head cheese".
func (p *reader) isCompound(i, next int) bool {
	e, n := p.phraseAt(i, p.to)
	return n > next-i && e.value == compound
}

// inches reads `6"` and "6 inch" after a count as a size of the thing counted:
// `4 6" tortillas`.
func (p *reader) inches(i int) int {
	q, next, ok := p.quantityAt(i, false)
	if !ok {
		return i
	}
	if p.is(next, "-") {
		next++
	}
	if !p.is(next, "\"") && !p.is(next, "inch") && !p.is(next, "inches") && !p.is(next, "in.") {
		return i
	}
	p.r.Other = append(p.r.Other, Amount{q, inch()})
	p.part("size", i, next+1)
	return p.unit(next + 1)
}

// parenInches reads "(1-inch)" between number and unit.
func (p *reader) parenInches(i int) int {
	if !p.is(i, "(") {
		return i
	}
	q, next, ok := p.quantityAt(i+1, false)
	if !ok {
		return i
	}
	if p.is(next, "-") {
		next++
	}
	if (p.is(next, "\"") || p.is(next, "inch") || p.is(next, "inches")) && p.is(next+1, ")") {
		p.r.Other = append(p.r.Other, Amount{q, inch()})
		p.part("size", i+1, next+1)
		return next + 2
	}
	return i
}

func inch() measure.Unit {
	u, _ := measure.FindUnit("inch")
	return u
}

// massThenPack turns "14.5 oz can" without a number into one can of that size.
func (p *reader) massThenPack(unit int) {
	a := p.r.Amount
	if a.Unit.Kind != measure.Mass || p.r.HasContainer {
		return
	}
	k := unit + 1
	if p.sizeAt(k) != "" {
		k++
	}
	pack, next, ok := p.unitAt(k)
	if !ok || pack.Kind != measure.Pack || p.isCompound(k, next) {
		return
	}
	p.r.HasContainer, p.r.Container = true, a
	p.r.Amount = Amount{measure.Exactly(measure.Whole(1)), pack}
	p.note(0.05, "read as one "+pack.Name+" of "+measure.Format(a.Quantity, a.Unit))
}

// packAfterMass skips the pack word that massThenPack has read.
func (p *reader) packAfterMass(i int) int {
	u := p.r.Amount.Unit
	if u.Kind != measure.Pack || !p.r.HasContainer {
		return i
	}
	k := i
	if p.sizeAt(k) != "" {
		k++
	}
	if got, next, ok := p.unitAt(k); ok && got == u {
		return next
	}
	return i
}

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
		return i
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
