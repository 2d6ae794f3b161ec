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
