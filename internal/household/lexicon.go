package household

// phraseSet is one of the sets of phrases of a lexicon.
type phraseSet int

// lexicon looks for many sets of phrases at once: one pass over a text's words
// tells which of them it holds.
type lexicon struct {
	sets    int
	byFirst map[string][]ofSet
}

// ofSet is a phrase and the set that it belongs to.
type ofSet struct {
	phrase
	set phraseSet
}

// add takes in a set.
func (x *lexicon) add(ps phrases) phraseSet {
	set := phraseSet(x.sets)
	x.sets++
	if x.byFirst == nil {
		x.byFirst = map[string][]ofSet{}
	}
	for first, list := range ps.byFirst {
		for _, p := range list {
			x.byFirst[first] = append(x.byFirst[first], ofSet{p, set})
		}
	}
	return set
}

// shown tells of each set whether phrases.find would find it in the words.
func (x *lexicon) shown(words []string) []bool {
	out := make([]bool, x.sets)
	for i, w := range words {
		if i > 0 && denies(words[i-1]) {
			continue
		}
		for _, p := range x.byFirst[w] {
			if len(p.words) <= len(words)-i && same(p.words, words[i:]) {
				out[p.set] = true
			}
		}
	}
	return out
}
