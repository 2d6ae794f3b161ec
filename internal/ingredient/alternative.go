package ingredient

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

// further reads a segment that is a further food of the line: one with an amount of
// its own, "1 tsp cinnamon, 1/4 tsp nutmeg", or one of a line without, "salt, pepper,
// and paprika", "salt (and pepper)".
func (p *reader) further(s segment) bool {
	if len(p.food) == 0 || p.depth >= maxDepth {
		return false
	}
	if after := p.joint(s.from); !s.paren && p.ownAmount(after, s.to) || after == s.from && p.eachOf && p.namedOutright(s.from, s.to) {
		p.together(after, s.to)
		return true
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
	case p.hasSeasoning(p.nameWords(s.from, s.to)) && seasonings[p.food[len(p.food)-1]] || p.listEnds(s):
		p.together(s.from, s.to)
		return true
	}
	for k := p.at + 1; k < len(p.list); k++ {
		if e, _ := p.phraseAt(p.list[k].from, p.list[k].to); e.tag == tagAnd && !p.list[k].paren {
			p.together(s.from, s.to)
			return true
		}
	}
	return false
}

// joint is the token behind an "and" or a "plus" at token i, else i.
func (p *reader) joint(i int) int {
	if p.is(i, "plus") || p.is(i, "+") || p.is(i, "and") || p.is(i, "&") {
		return i + 1
	}
	return i
}

// ownAmount reports whether tokens from..to are a food with an amount of its own in a
// line whose food has one: "1/4 tsp nutmeg", "2 stock cubes". "3 inches long", "2 cups
// chopped" and "about 3 medium" describe the food before.
func (p *reader) ownAmount(from, to int) bool {
	return p.r.HasAmount && p.amountOfFood(from, to)
}

// amountOfFood reports whether tokens from..to are an amount and the food that it is of.
func (p *reader) amountOfFood(from, to int) bool {
	_, i, ok := p.quantityAt(from, false)
	if !ok || i >= to || p.is(i, "-") || p.is(i, "\"") {
		return false
	}
	for i < to && p.sizeAt(i) != "" {
		i++
	}
	if u, next, ok := p.unitAt(i); ok {
		if u.Name == "inch" || next >= to {
			return false
		}
		i = next
	}
	if p.is(i, "of") {
		i++
	}
	if p.is(i, "for") || p.is(i, "to") || p.is(i, "more") || p.is(i, "extra") {
		return false // "1 tbsp for the dish"
	}
	names := p.nameWords(i, to)
	return len(names) > 0 && len(names) <= maxQualifiers && names[0] <= i+2 && p.namedOutright(i, to) && !notFoods[p.tokens[names[len(names)-1]].low]
}

// notFoods are nouns behind an amount that tell how the food before is cut or counted.
var notFoods = wordSet(`inches inch cm mm degrees minutes minute hours hour servings serving portions total each long wide
thick thickness diameter size lengths length times days parts batches layers`)

// listEnds reports whether a segment closes a list of foods: "sour cream, scallions
// and tortilla chips".
func (p *reader) listEnds(s segment) bool {
	if p.at+1 < len(p.list) && !p.list[p.at+1].paren {
		return false
	}
	for i := s.from + 1; i+1 < s.to; i++ {
		if e, n := p.phraseAt(i, s.to); e.tag == tagAnd && i+n < s.to {
			return p.namedOutright(s.from, i) && p.namedOutright(i+n, s.to)
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
	end := from
	for ; end < to && !p.is(end, "if"); end++ { // "or yogurt if you prefer"
		if p.is(end, "it") || p.is(end, "them") {
			end = from // "or drop it down to 1/4 cup" names nothing
			break
		}
	}
	to = end
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
