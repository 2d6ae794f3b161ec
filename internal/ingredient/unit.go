package ingredient

import (
	"strings"

	"potwright/internal/measure"
)

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
	if u.Name == "inch" || u.Name == "cm" || u.Name == "knob" {
		next = p.pieceOf(next)
	}
	p.part("unit", k, next)
	p.massThenPack(k)
	next = p.packAfterMass(next)
	return next
}

// pieceOf is the token behind the "piece" of "thumb-sized piece" and "1-inch piece".
func (p *reader) pieceOf(i int) int {
	if p.is(i, "size") || p.is(i, "sized") {
		i++
	}
	if p.is(i, "piece") || p.is(i, "knob") || p.is(i, "chunk") {
		i++
	}
	return i
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
		case "whole":
			p.wholeUnit = true
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
	p.part("unit", k, next)
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
