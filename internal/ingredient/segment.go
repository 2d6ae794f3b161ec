package ingredient

import (
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

// alternative reads a segment that starts with "or".
func (p *reader) alternative(s segment) bool {
	e, n := p.phraseAt(s.from, s.to)
	if e.tag != tagOr || s.from+n >= s.to {
		return false
	}
	from, to := s.from+n, s.to
	if p.is(from, "use") {
		from++
	}
	for s.paren && p.at+1 < len(p.list) && p.list[p.at+1].outer == s.outer {
		p.at++ // what follows in the parenthesis describes the alternative
		to = p.list[p.at].to
	}
	p.addAlternative(from, to)
	return true
}

// further reads a segment that is a further food of a line without an amount:
// "salt, pepper, and paprika", "salt (and pepper)".
func (p *reader) further(s segment) bool {
	if len(p.food) == 0 || p.depth >= maxDepth {
		return false
	}
	e, n := p.phraseAt(s.from, s.to)
	switch {
	case e.tag == tagAnd && s.from+n < s.to:
		right := p.nameWords(s.from+n, s.to)
		if len(right) == 0 || p.r.HasAmount && !p.hasSeasoning(right) {
			return false
		}
		p.together(s.from+n, s.to)
		return true
	case e.tag == tagRest:
		return false
	case p.r.HasAmount && !s.paren && p.namedOutright(s.from, s.to) && p.orFollows(s):
		p.addAlternative(s.from, s.to) // "peaches, pears, or apples"
		return true
	case p.r.HasAmount || s.paren || !p.namedOutright(s.from, s.to):
		return false
	}
	for k := p.at + 1; k < len(p.list); k++ {
		if e, _ := p.phraseAt(p.list[k].from, p.list[k].to); e.tag == tagAnd && !p.list[k].paren {
			p.together(s.from, s.to)
			return true
		}
	}
	return false
}

// namedOutright reports whether tokens from..to name a food by more than
// adjectives.
func (p *reader) namedOutright(from, to int) bool {
	for i := from; i < to; {
		e, n := p.phraseAt(i, to)
		if n == 0 {
			e, n = p.unlisted(i)
		}
		if e.tag == tagFood {
			return true
		}
		i += n
	}
	return false
}

// addAlternative reads tokens from..to as another food. One that turns out to
// be a preparation or a state only ("or frozen") is a note.
func (p *reader) addAlternative(from, to int) {
	if p.depth >= maxDepth || from >= to {
		return
	}
	other := &reader{source: p.source, from: from, to: to, depth: p.depth + 1, given: p.lineAmount()}
	other.line()
	if !other.named {
		if other.r.ToTaste {
			return
		}
		p.part("note", from, to)
		p.r.Notes = append(p.r.Notes, "also possible: "+p.written(from, to))
		return
	}
	if len(other.food) > maxQualifiers+1 {
		p.part("note", from, to)
		return
	}
	p.part("alternative", from, to)
	nested := other.r.Alternatives
	other.r.Alternatives = nil
	p.r.Alternatives = append(append(p.r.Alternatives, other.r), nested...)
}

// lineAmount is what an alternative without an amount of its own is given.
func (p *reader) lineAmount() *Reading {
	if !p.r.HasAmount {
		return p.given
	}
	return &p.r
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
	if p.is(next, "\"") {
		return s.from
	}
	return p.segmentUnit(s, q, next)
}

// widths are words behind inches that say no more than the number.
var widths = wordSet("size across diameter dia wide long rounds round in each")

// segmentUnit goes on after the number of a segment.
func (p *reader) segmentUnit(s segment, q measure.Quantity, next int) int {
	u, after, ok := p.unitAt(next)
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
	for p.is(after, "each") || p.is(after, "total") || p.is(after, "size") || p.is(after, "can") || p.is(after, "cans") {
		after++
	}
	p.extraAmount(Amount{q, u}, s.from, min(after, s.to))
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
		if next := p.amountWithin(i, s); next > i {
			i = next
			continue
		}
		e, n := p.phraseAt(i, s.to)
		if n == 0 {
			e, n = p.unlisted(i)
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
		default:
			p.file(e, i, n)
		}
		i += n
	}
	p.place(unknown, s, behind)
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
	if lean := leanShare(t.low); lean != "" {
		return entry{tagState, lean}, 1
	}
	if strings.HasSuffix(t.low, "%") || t.low == "fat" {
		return entry{tag: tagNoise}, 1
	}
	return entry{tag: tagFood}, 1
}

// leanShare reads "85%" as lean_85 and "7%" as lean_93 (the fat of ground meat).
func leanShare(low string) string {
	n, ok := strings.CutSuffix(low, "%")
	if !ok || len(n) > 2 {
		return ""
	}
	switch {
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

// rest files the remainder of a segment as an instruction, or as "plus more".
func (p *reader) rest(e entry, from, to int) {
	if e.tag == tagPlusMore || p.is(from, "plus") {
		p.r.PlusMore = true
		p.part("note", from, to)
		return
	}
	for i := from; i < to; i++ {
		if got, n := p.phraseAt(i, to); n > 0 && (got.tag == tagOptional || got.tag == tagUse) {
			p.file(got, i, n)
		}
	}
	p.r.Preparation = append(p.r.Preparation, p.written(from, to))
	p.part("preparation", from, to)
	if examples[p.tokens[from].low] {
		p.skipExamples()
	}
}

// examples start a list that only illustrates: "such as Braeburn, Empire, or
// Fuji".
var examples = wordSet("such like including e.g e.g. try recommended choose")

// skipExamples passes over the segments that go on with a list of examples: the
// rest of the parenthesis, or up to the "or" or "and" that closes the list.
func (p *reader) skipExamples() {
	group := p.list[p.at].group
	end := p.at
	for k := p.at + 1; k < len(p.list) && p.list[k].group == group; k++ {
		e, _ := p.phraseAt(p.list[k].from, p.list[k].to)
		if closes := e.tag == tagOr || e.tag == tagAnd; closes || group > 0 {
			end = k
			if closes {
				break
			}
		}
	}
	for ; p.at < end; p.at++ {
		p.part("note", p.list[p.at+1].from, p.list[p.at+1].to)
	}
}

// preparation takes a run of preparation words, adverbs and their joints as one
// phrase and returns how many tokens it took.
func (p *reader) preparation(i int, s segment) int {
	end := i
	for k := i; k < s.to; {
		e, n := p.phraseAt(k, s.to)
		prep := n > 0 && (e.tag == tagPrep || e.tag == tagAdverb)
		joint := n > 0 && (e.tag == tagAnd) && k+n < s.to && p.isPrep(k+n, s.to)
		if !prep && !joint {
			break
		}
		k += n
		if prep {
			end = k
		}
	}
	text := strings.ToLower(p.written(i, end))
	p.r.Preparation = append(p.r.Preparation, text)
	p.part("preparation", i, end)
	return end - i
}

func (p *reader) isPrep(i, to int) bool {
	e, n := p.phraseAt(i, to)
	return n > 0 && (e.tag == tagPrep || e.tag == tagAdverb)
}

// maxQualifiers is how many unlisted words behind a comma may still be part of
// the food's name ("cheese, cheddar").
const maxQualifiers = 4

// place puts the name words of a segment where they belong: the food's name,
// words before it, or a note.
func (p *reader) place(tokens []int, s segment, behind bool) {
	if len(tokens) == 0 {
		return
	}
	names := make([]string, 0, len(tokens))
	for _, i := range tokens {
		names = append(names, p.tokens[i].low)
	}
	switch {
	case !behind:
		p.food = append(p.food, names...)
		p.whole = append(p.whole, tokens...)
	case p.unitBehind(tokens):
	case len(tokens) <= maxQualifiers && (!s.paren || p.allAdjectives(tokens)):
		p.qualifiers = append(names, p.qualifiers...)
		p.whole = append(p.whole, tokens...)
	default:
		text := p.written(tokens[0], tokens[len(tokens)-1]+1)
		p.r.Preparation = append(p.r.Preparation, text)
		p.part("note", tokens[0], tokens[len(tokens)-1]+1)
	}
}

// unitBehind reads a unit that stands behind the food: "3 celery (stalks)",
// "1 nutmeg (dash)".
func (p *reader) unitBehind(tokens []int) bool {
	if len(tokens) != 1 || p.r.HasAmount && p.r.Amount.Unit.Name != "each" {
		return false
	}
	u, ok := measure.FindUnit(p.tokens[tokens[0]].low)
	if ok && !p.r.HasAmount && (u.Name == "dash" || u.Name == "pinch") {
		p.r.HasAmount, p.r.Amount.Quantity = true, measure.Exactly(measure.Whole(1))
	}
	if !ok || !p.r.HasAmount || !trailing[u.Name] && u.Name != "dash" && u.Name != "pinch" {
		return false
	}
	p.r.Amount.Unit = u
	p.part("unit", tokens[0], tokens[0]+1)
	return true
}

func (p *reader) allAdjectives(tokens []int) bool {
	for k := 0; k < len(tokens); {
		e, n := p.phraseAt(tokens[k], tokens[len(tokens)-1]+1)
		if n == 0 || e.tag != tagAdjective && (e.tag != tagFood || e.value == compound) {
			return false
		}
		k += n
	}
	return true
}
