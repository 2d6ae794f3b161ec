package method

import "strings"

// cookedAs is what a rule's step says after "Cook the chicken": how the new food
// is cooked. ok is false where it says more than that.
func (c *change) cookedAs(text string) (rest string, ok bool) {
	text, _, _ = strings.Cut(strings.TrimSuffix(strings.TrimSpace(text), "."), ";")
	tokens, _ := lex(text)
	if len(tokens) < 3 || strings.Contains(text, " before ") || len(c.names) == 0 {
		return "", false
	}
	if h := heats[tokens[0].norm]; h != Cook && h != Fry || tokens[1].norm != "the" {
		return "", false
	}
	if !saidIn(tokens[2].text, c.names[0]) && !isMeatWord(tokens[2].norm) || len(tokens) == 3 {
		return "", false
	}
	rest = render(tokens[3:])
	for i, t := range tokens[3:] {
		if verbs[t.norm] && i > 0 && (tokens[3+i-1].text == "," || isConjunction(tokens[3+i-1])) {
			return "", false
		}
	}
	return rest, true
}

// startsCooking reports whether a rule's step cooks something on the stove.
func startsCooking(text string) bool {
	ws := words(text)
	if len(ws) == 0 || strings.Contains(text, " before ") {
		return false
	}
	h := heats[ws[0]]
	return h == Cook || h == Fry || h == Boil || h == Simmer
}

// grinds reports whether a step makes cooked food smooth: then the food is
// cooked first, as the recipe says.
func grinds(text string) bool {
	return hasWord(text, "blend") || hasWord(text, "mash") || hasWord(text, "press")
}

func isMeatWord(w string) bool { return w == "meat" || w == "chicken" || w == "pork" || w == "beef" }

// cooks reports whether a sentence cooks the changed food by itself on the
// stove; other foods only after a preposition.
func (s *sentence) cooks(c *change) bool {
	_, _, ok := s.cookClause(c)
	return ok
}

func (s *sentence) cookClause(c *change) (in span, food int, ok bool) {
	for i, t := range s.tokens {
		if t.mention == nil || !c.is(t.mention) || t.mention.Ambiguous() {
			continue
		}
		cs, at := s.clauseAt(i)
		verb, prep := s.governors(i, cs[at])
		if verb < 0 || prep >= 0 || s.subordinate(i, cs[at]) >= 0 {
			continue
		}
		if h := heats[s.tokens[verb].norm]; h != Cook && h != Fry && h != Boil && h != Simmer {
			continue
		}
		np := nounPhrase(s.tokens, i, cs[at])
		if separatorAt(s.tokens, np.to, cs[at].to).found() || separatorBefore(s.tokens, np.from, cs[at].from).found() {
			continue
		}
		return cs[at], i, true
	}
	return span{}, 0, false
}

// cookNew says how the new food is cooked in place of how long the old one was
// done for: "until no longer pink".
func (s *sentence) cookNew(c *change) {
	in, food, ok := s.cookClause(c)
	if !ok {
		return
	}
	if c.replaces {
		cs, at := s.clauseAt(food)
		if next := at + 1; next < len(cs) && s.goesOnFrom(cs[next], c) {
			s.dropClause(cs, next) // "then drain" goes on from what is gone
			cs, at = s.clauseAt(food)
		}
		s.dropClause(cs, at)
		return
	}
	end := in.to
	for k := food; k < in.to; k++ {
		if s.tokens[k].norm == "until" && s.tokens[k].mention == nil {
			from := k
			for from > food && (s.tokens[from-1].text == "," || s.tokens[from-1].norm == "just") {
				from--
			}
			s.cut(from, in.to)
			end = from
			break
		}
	}
	t := token{space: "", text: c.cooking, word: true, fixed: true}
	s.tokens = append(s.tokens[:end:end], append([]token{t}, s.tokens[end:]...)...)
	s.changed = true
}

// goesOnFrom reports whether a clause only goes on with what the clause before it
// handled, and names no other food.
func (s *sentence) goesOnFrom(in span, c *change) bool {
	first := in.from
	for first+1 < in.to && (s.tokens[first].norm == "then" || isConjunction(s.tokens[first])) {
		first++
	}
	return following[s.tokens[first].norm] && s.speaksOnlyOf(in, c)
}
