package composition

import "sort"

// term is a word of names, synonyms and kinds with the foods that hold it.
type term struct {
	word  string
	posts []posting
}

// posting says that a food holds a word and how much that says.
type posting struct {
	food   int32
	weight float32
}

// Weights of a word by where it stands, for Search.
const (
	weightHead    = 6 // the word that says what the food is
	weightFirst   = 4 // before the first comma
	weightRest    = 2 // after it
	weightSynonym = 3
	weightKind    = 1
)

// addTerms files every word of every food, sorted by word.
func (ix *index) addTerms() {
	at := make(map[string]int, len(ix.known))
	for i, f := range ix.foods {
		add := func(words []string, weight float32) {
			for _, w := range words {
				n, ok := at[w]
				if !ok {
					n = len(ix.terms)
					at[w] = n
					ix.terms = append(ix.terms, term{word: w})
				}
				ix.terms[n].add(int32(i), weight)
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
	sort.Slice(ix.terms, func(a, b int) bool { return ix.terms[a].word < ix.terms[b].word })
}

// add keeps the heaviest weight of a food; foods come in order.
func (t *term) add(food int32, weight float32) {
	if n := len(t.posts); n > 0 && t.posts[n-1].food == food {
		t.posts[n-1].weight = max(t.posts[n-1].weight, weight)
		return
	}
	t.posts = append(t.posts, posting{food, weight})
}
