package composition

import (
	"sort"
	"strings"
)

// alias is one name of a food: the words that name it, in no order, and the
// states the name tells.
type alias struct {
	food   *Food
	key    uint64   // of the set of words
	head   string   // the word that says what kind of thing it is: the last
	words  int      // how many
	extra  int      // words after the first comma of a name: told from siblings by them
	states []string // a phrase must tell them, where the row does not have them
	tail   []string // the words after the comma
}

// meaning is a default: a phrase that stands for a food unless more is said.
type meaning struct {
	food   *Food
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
	terms []term
}

func newIndex(foods []*Food) *index {
	ix := &index{
		foods:    foods,
		aliases:  map[uint64][]alias{},
		meanings: map[uint64][]meaning{},
		known:    map[string]int{},
		heads:    map[string]bool{},
	}
	for _, f := range foods {
		ix.addFood(f)
	}
	ix.addTerms()
	return ix
}

func (ix *index) addFood(f *Food) {
	seen := map[uint64]bool{}
	for _, name := range append([]string{f.Name}, f.Synonyms...) {
		ix.addAlias(f, name, seen)
	}
	for _, d := range f.Defaults {
		core, states := takeStates(tokenize(d.Phrase))
		core = fewer(core)
		if len(core) == 0 {
			continue
		}
		ix.know(core)
		m := meaning{food: f, states: states, units: d.Units, weight: d.Weight, why: d.Why}
		k := setKey(core)
		ix.meanings[k] = append(ix.meanings[k], m)
		if !seen[k] {
			seen[k] = true
			ix.aliases[k] = append(ix.aliases[k], alias{food: f, key: k, head: core[len(core)-1], words: len(core),
				states: states, tail: tailWords(f.Name)})
		}
	}
}

// addAlias files the words before the first comma as one name and all words as
// another.
func (ix *index) addAlias(f *Food, name string, seen map[uint64]bool) {
	first, _ := cutComma(name)
	tail := tailWords(f.Name)
	for _, text := range []string{first, name} {
		core, states := takeStates(tokenize(text))
		core = fewer(core)
		if len(core) == 0 {
			continue
		}
		k := setKey(core)
		if seen[k] {
			continue
		}
		seen[k] = true
		ix.know(core)
		head, _ := takeStates(tokenize(first))
		if head = fewer(head); len(head) == 0 {
			head = core
		}
		a := alias{food: f, key: k, head: head[len(head)-1], words: len(core), states: states, tail: tail}
		a.extra = len(core) - len(head)
		ix.heads[a.head] = true
		ix.aliases[k] = append(ix.aliases[k], a)
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

// term is a word of the search index.
type term struct {
	word  string
	posts []posting
}

// posting says that a food holds a word and how much that says.
type posting struct {
	food   int
	weight float64
}

// Weights of a word by where it stands, for Search.
const (
	weightHead    = 6 // the word that says what the food is
	weightFirst   = 4 // before the first comma
	weightRest    = 2 // after it
	weightSynonym = 3
	weightKind    = 1
)

func (ix *index) addTerms() {
	byWord := map[string]map[int]float64{}
	for i, f := range ix.foods {
		add := func(words []string, weight float64) {
			for _, w := range words {
				if byWord[w] == nil {
					byWord[w] = map[int]float64{}
				}
				byWord[w][i] = max(byWord[w][i], weight)
			}
		}
		first, rest := cutComma(f.Name)
		words := tokenize(first)
		add(words, weightFirst)
		if len(words) > 0 {
			add(words[len(words)-1:], weightHead)
		}
		add(tokenize(rest), weightRest)
		for _, s := range f.Synonyms {
			add(tokenize(s), weightSynonym)
		}
		for _, k := range f.Kinds {
			add(tokenize(k), weightKind)
		}
	}
	for w, posts := range byWord {
		t := term{word: w}
		for i, weight := range posts {
			t.posts = append(t.posts, posting{i, weight})
		}
		sort.Slice(t.posts, func(a, b int) bool { return t.posts[a].food < t.posts[b].food })
		ix.terms = append(ix.terms, t)
	}
	sort.Slice(ix.terms, func(a, b int) bool { return ix.terms[a].word < ix.terms[b].word })
}
