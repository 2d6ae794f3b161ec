package method

// isPowder reports whether a dried powder comes in place of something that was
// cooked until it was soft.
func (c *change) isPowder() bool {
	return len(c.fresh) == 1 && c.made == 0 && len(c.names) == 1 && head(c.names[0]) == "powder" && head(c.old.Food) != "powder"
}

// warmPowder fits a sentence that cooks a food by itself to the powder in its
// place, which burns: it is warmed half a minute, and not until it is soft.
func (s *sentence) warmPowder(c *change) {
	if !c.isPowder() {
		return
	}
	in, food, ok := s.cookClause(c)
	if !ok {
		return
	}
	verb, _ := s.governors(food, in)
	if h := heats[s.tokens[verb].norm]; h != Cook && h != Fry {
		return
	}
	word := "warm"
	if startsCapital(s.tokens[verb].text) {
		word = "Warm"
	}
	s.tokens[verb].text, s.tokens[verb].norm, s.changed = word, word, true
	for i := food; i < in.to; i++ {
		switch _, _, n := duration(s.tokens, i); {
		case s.tokens[i].norm == "until":
			from := i
			for from > food && s.tokens[from-1].text == "," {
				from--
			}
			s.cut(from, in.to)
			return
		case n > 0:
			t := token{space: s.tokens[i].space, text: "half a minute", word: true, fixed: true}
			s.tokens = append(s.tokens[:i:i], append([]token{t}, s.tokens[i+n:]...)...)
			in.to -= n - 1
		}
	}
}
