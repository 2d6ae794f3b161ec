package method

// gone says which mentions are taken out.
type gone func(*Mention) bool

// remove takes every mention that is gone out of the sentence, with what makes
// no sense without it.
func (s *sentence) remove(is gone) {
	for range len(s.tokens) + 1 {
		i := s.first(is)
		if i < 0 {
			return
		}
		s.removeAt(i, is)
	}
	if s.first(is) >= 0 {
		s.clear()
	}
}

func (s *sentence) first(is gone) int {
	for i, t := range s.tokens {
		if t.mention != nil && is(t.mention) {
			return i
		}
	}
	return -1
}

func (s *sentence) removeAt(i int, is gone) {
	cs, at := s.clauseAt(i)
	c := cs[at]
	if s.tokens[i].mention.Doing {
		s.undo(i, cs, at)
		return
	}
	np := nounPhrase(s.tokens, i, c)
	if np.to < c.to && s.tokens[np.to].mention == nil && mixtures[s.tokens[np.to].norm] {
		s.cut(s.mentionSpan(i)) // "the onion mixture"
		return
	}
	np.to = withLiquid(s.tokens, np.to, c.to)
	if k := np.to; k+1 < c.to && s.tokens[k].text == "," && s.tokens[k+1].norm == "then" && !separatorBefore(s.tokens, np.from, c.from).found() {
		s.cut(np.from, k+2) // "beat in the egg, then the banana"
		return
	}
	before, after := separatorBefore(s.tokens, np.from, c.from), separatorAt(s.tokens, np.to, c.to)
	switch {
	case before.found() && after.found():
		s.removeInner(np, before, after, c)
	case before.found():
		s.removeLast(np, before, c)
	case after.found():
		s.removeFirst(np, after, c)
	default:
		s.removeSole(np, cs, at, is)
	}
}

func (s *sentence) mentionSpan(i int) (from, to int) {
	m := s.tokens[i].mention
	from, to = i, i
	for to < len(s.tokens) && s.tokens[to].mention == m {
		to++
	}
	return from, to
}

// undo takes "salt the water" out, and puts "grease" for "butter" and "oil".
func (s *sentence) undo(i int, cs []span, at int) {
	if instead := doings[s.tokens[i].norm]; instead != "" {
		s.put(i, i+1, s.begun(i, instead))
		return
	}
	s.nameObject(i, cs, at)
	s.dropClause(cs, at)
}

// nameObject says what "it" is in the next clause: in "salt the water, then boil
// the rice in it" the water.
func (s *sentence) nameObject(i int, cs []span, at int) {
	if at+1 == len(cs) {
		return
	}
	object := i + 1
	for object < cs[at].to && (determiners[s.tokens[object].norm] || adjectives[s.tokens[object].norm]) {
		object++
	}
	if object >= cs[at].to || object == i+1 || s.tokens[object].mention != nil {
		return
	}
	next := cs[at+1]
	for k := next.from; k < next.to; k++ {
		if norm := s.tokens[k].norm; norm == "it" || norm == "them" {
			s.put(k, k+1, render(s.tokens[i+1 : object+1])[len(s.tokens[i+1].space):])
			return
		}
	}
}

// removeInner takes an item out between two others.
func (s *sentence) removeInner(np span, before, after separator, c span) {
	if before.and && !after.and { // "onion and salt, then": the last of its list
		s.cut(before.from, np.to)
		s.joinLast(before.from, c)
		return
	}
	if after.comma && after.and && !s.moreInList(before.from, c) {
		s.cut(after.from, after.from+1) // two are left: no comma before "and"
	}
	s.cut(before.from, np.to)
}

// removeLast takes the last item out; the one before it gets the "and".
func (s *sentence) removeLast(np span, before separator, c span) {
	s.cut(before.from, np.to)
	if before.and {
		s.joinLast(before.from, c)
	}
	if k := before.from - 1; !separatorBefore(s.tokens, nounPhrase(s.tokens, k, span{c.from, before.from}).from, c.from).found() {
		s.agree(before.from, isPlural(s.tokens[k].text))
	}
}

// joinLast puts "and" in place of the last comma of the list that ends at i.
func (s *sentence) joinLast(i int, c span) {
	k := s.listComma(i, c)
	if k < 0 {
		return
	}
	s.put(k, k+1, "and")
	s.tokens[k].space = " "
}

// listComma is the comma before the last item of a list that ends at token i,
// or -1. A verb, a preposition or "and" in between means there is no such list.
func (s *sentence) listComma(i int, c span) int {
	for k := min(i, len(s.tokens)) - 1; k > c.from; k-- {
		t := s.tokens[k]
		switch {
		case t.text == "," && s.tokens[k+1].norm == "then":
			return -1
		case t.text == ",":
			return k
		case isConjunction(t), t.mention == nil && (verbs[t.norm] || prepositions[t.norm] && t.norm != "of"):
			return -1
		}
	}
	return -1
}

// moreInList reports whether a comma parts two further items before token i.
func (s *sentence) moreInList(i int, c span) bool { return s.listComma(i, c) >= 0 }

// removeFirst takes the first item out. "the" stays for the next one where that
// has no word of its own.
func (s *sentence) removeFirst(np span, after separator, c span) {
	from := np.from
	next := s.tokens[after.to]
	if s.tokens[from].norm == "the" && !determiners[next.norm] && !next.num && !quantifiers[next.norm] && from+1 <= np.to {
		from++
	}
	s.cut(from, after.to)
	s.plainPair(from, c)
}

// plainPair takes the comma out of "thyme, and bay" where these two are all that
// is left of a list that starts at token i.
func (s *sentence) plainPair(i int, c span) {
	for k := i + 1; k+1 < min(c.to, len(s.tokens)); k++ {
		t := s.tokens[k]
		switch {
		case t.text == "," && isConjunction(s.tokens[k+1]):
			s.cut(k, k+1)
			return
		case t.text == ",", isConjunction(t), t.mention == nil && (verbs[t.norm] || prepositions[t.norm] && t.norm != "of"):
			return
		}
	}
}

// removeSole takes out an item that stands alone, with what leads to it: its
// preposition, its "until …" or its whole clause.
func (s *sentence) removeSole(np span, cs []span, at int, is gone) {
	c := cs[at]
	if sub := s.subordinate(np.from, c); sub >= 0 {
		s.dropFrom(sub, cs, at)
		return
	}
	verb, prep := s.governors(np.from, c)
	switch {
	case verb < 0:
		s.dropClause(cs, at)
	case prep < 0 && s.withOther(np, c, is) && !garnishers[s.tokens[verb].norm]:
		s.cut(np.from, np.to+1) // "brown the beef with the onion"
	case prep < 0 || s.needs(verb, prep):
		s.dropClause(cs, at)
	default:
		s.dropPreposition(prep, np, c)
	}
}

// governors are the verb that starts the clause and the preposition directly
// before a noun phrase, -1 where there is none.
func (s *sentence) governors(i int, c span) (verb, prep int) {
	verb, prep = -1, -1
	for k := c.from; k < i; k++ {
		if t := s.tokens[k]; t.mention == nil && verbs[t.norm] {
			verb = k
			break
		}
	}
	if i > c.from && prepositions[s.tokens[i-1].norm] {
		prep = i - 1
	}
	return verb, prep
}

// needs reports whether the verb says nothing without the phrase after prep:
// "stir in the cream", "season the chicken with salt".
func (s *sentence) needs(verb, prep int) bool {
	norm := s.tokens[verb].norm
	return garnishers[norm] || (prep == verb+1 && !intransitive[norm])
}

// dropPreposition takes "in the butter" out, and "on top" after it.
func (s *sentence) dropPreposition(prep int, np, c span) {
	to := np.to
	if to+1 < c.to && s.tokens[to].norm == "on" && s.tokens[to+1].norm == "top" {
		to += 2
	}
	s.cut(prep, to)
}

// withOther reports whether "with" and a food that stays follow.
func (s *sentence) withOther(np, c span, is gone) bool {
	if np.to >= c.to || s.tokens[np.to].norm != "with" {
		return false
	}
	for _, t := range s.tokens[np.to:c.to] {
		if t.mention != nil {
			return !is(t.mention)
		}
	}
	return false
}

// subordinate is where the "until …" that holds token i starts, or -1.
func (s *sentence) subordinate(i int, c span) int {
	for k := i - 1; k >= c.from; k-- {
		if t := s.tokens[k]; t.mention == nil && subordinators[t.norm] {
			return k
		}
	}
	return -1
}

// dropFrom takes a subordinate clause out. One that leads the sentence goes as
// far as its comma.
func (s *sentence) dropFrom(from int, cs []span, at int) {
	c := cs[at]
	if from == c.from {
		s.dropClause(cs, at)
		return
	}
	if from > 0 && s.tokens[from-1].text == "," {
		from--
	}
	for from > c.from && (s.tokens[from-1].norm == "just" || s.tokens[from-1].norm == "about") {
		from--
	}
	s.cut(from, c.to)
}

// dropClause takes a clause out with the words that join it, and the clauses
// after it that say "it" or "them" of what is gone.
func (s *sentence) dropClause(cs []span, at int) {
	for at > 0 && cs[at-1].to-cs[at-1].from == 1 {
		at-- // "peel and chop the onion": the verb has no object of its own
	}
	last := at
	for last+1 < len(cs) && s.speaksOfIt(cs[last+1]) {
		last++
	}
	switch {
	case at == 0 && last+1 == len(cs):
		s.clear()
	case at == 0:
		next := cs[last+1].from
		if s.tokens[next].norm == "then" && next+1 < len(s.tokens) {
			next++
		}
		s.cut(0, next)
	default:
		joint := s.tokens[cs[at-1].to:cs[at].from]
		hadAnd := false
		for _, t := range joint {
			hadAnd = hadAnd || isConjunction(t)
		}
		s.cut(cs[at-1].to, cs[last].to)
		if hadAnd && last+1 == len(cs) && at > 1 {
			s.joinClauses(cs[at-2].to, cs[at-1].from)
		}
	}
}

// joinClauses puts "and" where a comma alone joins what are now the last two.
func (s *sentence) joinClauses(from, to int) {
	if to-from == 1 && s.tokens[from].text == "," {
		s.put(from, to, "and")
		s.tokens[from].space = " "
	}
}

func (s *sentence) speaksOfIt(c span) bool {
	for _, t := range s.tokens[c.from:c.to] {
		if t.mention != nil {
			return false
		}
		if t.norm == "it" || t.norm == "them" || t.norm == "they" {
			return true
		}
	}
	return false
}
