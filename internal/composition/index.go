package composition

import (
	"strings"
	"sync"
)

// alias is one name of a food. Names are filed by the set of their words, in no
// order.
type alias struct {
	food *Food
	// states the name tells: the phrase must tell them where the row lacks them.
	states []string
	// tail are the words after the comma of the food's name, which tell it from
	// its siblings.
	tail []string
}

// meaning is a default: a phrase that stands for a food unless more is said.
type meaning struct {
	food   *Food
	at     int // of the food in the table
	states []string
	units  []string
	weight float64
	why    string
}

// index finds foods by the sets of words that name them.
type index struct {
	foods    []*Food
	aliases  map[uint64][]alias
	meanings map[uint64][]meaning
	// known are the words of names; heads those that end one.
	known map[string]int
	heads map[string]bool
	// terms are the words for Search, made when it is first asked.
	terms     []term
	termsOnce sync.Once
}

func newIndex(foods []*Food) *index {
	ix := &index{
		foods:    foods,
		aliases:  make(map[uint64][]alias, 3*len(foods)),
		meanings: map[uint64][]meaning{},
		known:    make(map[string]int, len(foods)),
		heads:    map[string]bool{},
	}
	for i, f := range foods {
		ix.addFood(i, f)
	}
	return ix
}

func (ix *index) addFood(at int, f *Food) {
	seen := make(map[uint64]bool, 2+len(f.Synonyms))
	tail := tailWords(f.Name)
	ix.addAlias(f, f.Name, tail, seen)
	for _, name := range f.Synonyms {
		ix.addAlias(f, name, tail, seen)
	}
	for _, d := range f.Defaults {
		core, states := takeStates(tokenize(d.Phrase))
		core = fewer(core)
		if len(core) == 0 {
			continue
		}
		ix.know(core)
		m := meaning{food: f, at: at, states: states, units: d.Units, weight: d.Weight, why: d.Why}
		k := setKey(core)
		ix.meanings[k] = append(ix.meanings[k], m)
		if told := k ^ setKey(states)*3; !seen[told] {
			seen[told] = true
			ix.aliases[k] = append(ix.aliases[k], alias{food: f, states: states, tail: tail})
		}
	}
}

// addAlias files the words before the first comma as one name and all words as
// another.
func (ix *index) addAlias(f *Food, name string, tail []string, seen map[uint64]bool) {
	first, _ := cutComma(name)
	texts := []string{first, name}
	if first == name {
		texts = texts[:1]
	}
	for _, text := range texts {
		core, states := takeStates(tokenize(text))
		core = fewer(core)
		if len(core) == 0 {
			continue
		}
		k := setKey(core)
		told := k ^ setKey(states)*3
		if seen[told] {
			continue
		}
		seen[told] = true
		ix.know(core)
		if text == first {
			ix.heads[core[len(core)-1]] = true
		}
		ix.aliases[k] = append(ix.aliases[k], alias{food: f, states: states, tail: tail})
	}
}

func (ix *index) know(words []string) {
	for _, w := range words {
		ix.known[w]++
	}
}

// cutComma parts a name at its first comma.
func cutComma(name string) (first, rest string) {
	for i := 0; i < len(name); i++ {
		if name[i] == ',' {
			return name[:i], name[i+1:]
		}
	}
	return name, ""
}

// tailWords are the words of a name after the comma that tell no state.
func tailWords(name string) []string {
	_, rest := cutComma(name)
	rest, _, _ = strings.Cut(rest, "without ")
	core, _ := takeStates(tokenize(rest))
	return fewer(core)
}

// setKey is a number for a set of words, the same in any order.
func setKey(words []string) uint64 {
	var k uint64
	for i, w := range words {
		if !containsBefore(words, i) {
			k += wordKey(w)
		}
	}
	return k
}

func containsBefore(words []string, i int) bool {
	for _, w := range words[:i] {
		if w == words[i] {
			return true
		}
	}
	return false
}

// wordKey is the FNV-1a hash of a word, stirred so that sums spread.
func wordKey(w string) uint64 {
	h := uint64(14695981039346656037)
	for i := 0; i < len(w); i++ {
		h = (h ^ uint64(w[i])) * 1099511628211
	}
	h ^= h >> 29
	h *= 0xbf58476d1ce4e5b9
	return h ^ h>>32
}
