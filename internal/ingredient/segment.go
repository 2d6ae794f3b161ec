package ingredient

import (
	"strconv"
	"strings"

	"potwright/internal/measure"
)

// segment reads one segment: the food's own, or one of those behind it.
func (p *reader) segment(s segment) {
	for s.from < s.to && p.tokens[s.from].kind == mark {
		s.from++
	}
	for s.from < s.to && p.tokens[s.to-1].kind == mark && p.tokens[s.to-1].low != "\"" {
		s.to--
	}
	if s.from >= s.to {
		return
	}
	if s.from > p.from && (p.alternative(s) || p.further(s)) {
		return
	}
	if next := p.segmentAmount(s); next > s.from {
		s.from = next
		if s.from >= s.to {
			return
		}
	}
	p.words(s)
}

// segmentAmount reads a measure at the start of a segment behind the first:
// "10 ounces", "about 3 medium", "1 package". It returns the token after it.
func (p *reader) segmentAmount(s segment) int {
	if s.from == p.from && p.r.HasAmount {
		return s.from
	}
	i := s.from
	for i < s.to && (p.tokens[i].low == "about" || p.tokens[i].low == "approximately" || p.tokens[i].low == "approx." || p.tokens[i].low == "each" || p.tokens[i].low == "around") {
		i++
	}
	end := p.to
	p.to = s.to
	defer func() { p.to = end }()
	q, next, ok := p.quantityAt(i, false)
	if !ok && p.is(i, "a") {
		q, next, ok = p.quantityAt(i, true)
	}
	if !ok {
		return s.from
	}
	if p.is(next, "-") {
		next++
	}
	return p.segmentUnit(s, q, next)
}

// widths are words behind inches that say no more than the number.
var widths = wordSet("size across diameter dia wide long rounds round in each")

// segmentUnit goes on after the number of a segment.
func (p *reader) segmentUnit(s segment, q measure.Quantity, next int) int {
	u, after, ok := p.unitAt(next)
	if p.is(next, "\"") {
		u, after, ok = inch(), next+1, true
	}
	if ok && u.Name == "inch" {
		for after < s.to && widths[p.tokens[after].low] {
			after++
		}
		if after < s.to {
			return s.from // "1 inch pieces" is how it is cut
		}
	}
	size := p.sizeAt(next)
	switch {
	case ok:
	case size != "" && next+1 >= s.to:
		u, after = measure.Each(), next+1
		p.r.Other = append(p.r.Other, Amount{q, u})
		p.part("other", s.from, after)
		if p.r.Size == "" {
			p.r.Size = size
		}
		return after
	case next >= s.to && s.paren:
		u, after = measure.Each(), next
	default:
		return s.from
	}
	a := Amount{q, u}
	if after < s.to {
		a, after = p.ounces(a, after)
	}
	for p.is(after, "each") || p.is(after, "total") || p.is(after, "size") || p.is(after, "can") || p.is(after, "cans") {
		after++
	}
	p.extraAmount(a, s.from, min(after, s.to))
	return min(after, s.to)
}

// words tags the words of a segment and files them.
func (p *reader) words(s segment) {
	// Where the food is known, the segment describes it.
	behind := p.named || s.paren && len(p.food) > 0
	if behind && (p.choiceOfSorts(s) || p.listOfSorts(s)) {
		return
	}
	var unknown []int
	for i := s.from; i < s.to; {
		if after := p.joint(i); after > i && !behind && p.namedBefore(s.from, i) && p.depth < maxDepth && p.ownAmount(after, s.to) {
			p.place(unknown, s, behind)
			p.together(after, s.to)
			return
		}
		if next := p.amountWithin(i, s); next > i {
			i = next
			continue
		}
		if (i > s.from || p.named) && p.another(i, s.to) {
			p.place(unknown, s, behind)
			p.rest(entry{tag: tagRest}, i, s.to)
			return
		}
		e, n := p.phraseAt(i, s.to)
		if n == 0 {
			e, n = p.unlisted(i)
		}
		if e.tag == tagRest && i > s.from && leading[p.tokens[i].low] {
			e, n = entry{tag: tagFood}, 1 // "pork loin chop", "egg substitute"
		}
		switch e.tag {
		case tagOr:
			if p.or(i, i+n, s, behind) {
				p.place(unknown, s, behind)
				return
			}
		case tagAnd:
			if p.and(i, i+n, s, behind) {
				p.place(unknown, s, behind)
				return
			}
		case tagRest, tagPlusMore:
			if len(unknown) > 0 || i > s.from || behind || len(p.food) > 0 || e.tag == tagPlusMore {
				p.place(unknown, s, behind)
				p.rest(e, i, s.to)
				return
			}
			unknown = append(unknown, i)
		case tagFood, tagAdjective:
			unknown = append(unknown, span(i, n)...)
			if !behind && e.tag == tagFood {
				p.named = true
			}
		case tagPrep, tagAdverb:
			n = p.preparation(i, s)
		case tagOptional:
			if p.wholeLine(i, n, s, behind) {
				p.file(e, i, n)
			} else {
				p.part("note", i, i+n)
			}
		default:
			p.file(e, i, n)
		}
		i += n
	}
	p.place(unknown, s, behind)
}

// refinements are preparations that a cook may leave out while the food stays.
var refinements = wordSet("peeled seeded skinned toasted deveined pared pitted stemmed trimmed roasted melted warmed")

// wholeLine reports whether "optional" or "if desired" at token i is of the line
// and not of a preparation ("toasted if desired", "peeled, if desired") or of
// another food ("optional almond milk").
func (p *reader) wholeLine(i, n int, s segment, behind bool) bool {
	if i > s.from {
		if e, got := p.phraseAt(i-1, i); got > 0 && e.tag == tagPrep {
			return false
		}
	}
	if i == s.from && i > p.from+1 && p.is(i, "if") && refinements[p.tokens[i-2].low] {
		return false
	}
	return !(behind && i == s.from && i+n < s.to && p.namedOutright(i+n, s.to))
}

// amountWithin reads an amount inside a segment: "part-skim 15 ounces" and
// "water plus 2 tablespoons". It returns the token after it, or i.
func (p *reader) amountWithin(i int, s segment) int {
	if p.tokens[i].kind != number {
		if next := p.plus(i); next > i && next <= s.to && p.r.HasAmount {
			return next
		}
		return i
	}
	a, next, ok := p.measureAt(i)
	if !ok || next > s.to || i == s.from {
		return i
	}
	p.extraAmount(a, i, next)
	return next
}

// another reports whether a measure of something else follows, which the food is
// worked with: "beaten with 1 tbsp water", "softened in 1/4 cup cold water".
func (p *reader) another(i, to int) bool {
	return i+1 < to && (p.is(i, "with") || p.is(i, "in")) && p.tokens[i+1].kind == number
}

func span(i, n int) []int {
	list := make([]int, n)
	for k := range list {
		list[k] = i + k
	}
	return list
}

// unlisted tags a token that is in no list: a word is food, a mark is nothing.
func (p *reader) unlisted(i int) (entry, int) {
	t := p.tokens[i]
	if t.kind != word {
		return entry{tag: tagNoise}, 1
	}
	if lean := leanShare(t.low, p.is(i+1, "fat")); lean != "" && !p.is(i-1, "-") {
		return entry{tagState, lean}, 1
	}
	afterShare := i > 0 && (strings.HasSuffix(p.tokens[i-1].low, "%") || p.tokens[i-1].kind == number)
	if strings.HasSuffix(t.low, "%") || t.low == "fat" && afterShare {
		return entry{tag: tagNoise}, 1
	}
	return entry{tag: tagFood}, 1
}

// leading are verbs that open an instruction only at the start of a segment;
// later they are nouns.
var leading = wordSet("chop slice dice mince peel grate substitute use add combine drain rinse remove save reserve discard note like try")

// leanShare reads "85%" as lean_85, "7%" and "20% fat" as lean_93 and lean_80 (the fat of
// ground meat).
func leanShare(low string, fat bool) string {
	n, ok := strings.CutSuffix(low, "%")
	if !ok || len(n) > 2 {
		return ""
	}
	switch {
	case fat && len(n) == 2 && n >= "10" && n <= "30":
		share, _ := strconv.Atoi(n)
		return "lean_" + strconv.Itoa(100-share)
	case len(n) == 2 && n >= "70" && n <= "99":
		return "lean_" + n
	case len(n) == 1 && n >= "3" && n <= "9":
		return "lean_9" + string('0'+10-(n[0]-'0'))
	}
	return ""
}

// file records a tag that stands for itself.
func (p *reader) file(e entry, i, n int) {
	switch e.tag {
	case tagState:
		for _, state := range strings.Split(e.value, ", ") {
			p.addState(state)
		}
		p.part("state", i, i+n)
	case tagSize:
		if p.r.Size == "" {
			p.r.Size = e.value
			p.part("size", i, i+n)
		}
	case tagOptional:
		p.r.Optional = true
		p.part("note", i, i+n)
	case tagUse:
		p.use(e.value)
		p.part("note", i, i+n)
	case tagNoise:
		p.eachOf = p.eachOf || p.tokens[i].low == "each"
	}
}

func (p *reader) addState(state string) {
	for _, have := range p.r.States {
		if have == state {
			return
		}
	}
	p.r.States = append(p.r.States, state)
}

// use records "to taste" and the like. With an amount written it only says what
// the food is for.
func (p *reader) use(value string) {
	p.r.UseOf = value
	p.r.ToTaste = !p.r.HasAmount
}
