package composition

import (
	"cmp"
	"math"
	"slices"
	"sort"
	"strings"
)

// Search lists foods that hold every word of the query in name, synonyms or
// kinds, best first; the last word may be a beginning. An empty query or a
// limit below 1 finds nothing.
func (t *Table) Search(query string, limit int) []*Food {
	if t.base != nil {
		return t.searchOwn(query, limit)
	}
	found := t.index.search(query, limit)
	if more := limit - len(found); more > 0 && t.beside != nil {
		found = append(found, t.beside.search(query, more)...)
	}
	return found
}

func (ix *index) search(query string, limit int) []*Food {
	words := tokenize(query)
	if len(words) == 0 || limit < 1 {
		return nil
	}
	ix.termsOnce.Do(ix.addTerms)
	total := make([]float32, len(ix.foods))
	found := make([]float32, len(ix.foods))
	for i, w := range words {
		clear(found)
		ix.post(found, w, i == len(words)-1 && !strings.HasSuffix(query, " "))
		for food := range total {
			switch {
			case found[food] == 0 || i > 0 && total[food] == 0:
				total[food] = 0
			default:
				total[food] += found[food]
			}
		}
	}
	ix.favour(total, words)
	return ix.best(total, limit)
}

// favour lifts the rows that the query, taken as a phrase, stands for.
func (ix *index) favour(total []float32, words []string) {
	core, _ := takeStates(words)
	for _, m := range ix.meanings[setKey(fewer(core))] {
		if len(m.states) == 0 && len(m.units) == 0 && total[m.at] > 0 {
			total[m.at] += meantBonus * float32(m.weight)
		}
	}
}

// meantBonus is more than any word of a name brings.
const meantBonus = 60

// post writes what is found for a word, or for every word that begins with it:
// a whole word counts full, a beginning in part.
func (ix *index) post(found []float32, word string, prefix bool) {
	from := sort.Search(len(ix.terms), func(i int) bool { return ix.terms[i].word >= word })
	for _, t := range ix.terms[from:] {
		if !strings.HasPrefix(t.word, word) || !prefix && t.word != word {
			break
		}
		rare := float32(math.Log(float64(1+len(ix.foods))/float64(1+len(t.posts))) + 1)
		if t.word != word {
			rare *= 0.5 * float32(len(word)) / float32(len(t.word))
		}
		for _, p := range t.posts {
			found[p.food] = max(found[p.food], p.weight*rare)
		}
	}
}

// scored is a food found and how well.
type scored struct {
	food  *Food
	score float32
}

// best orders by score, then alphabetically: rows that phrases stand for come
// first among equals, then short names.
func (ix *index) best(total []float32, limit int) []*Food {
	var hits []scored
	for i, s := range total {
		if s > 0 {
			f := ix.foods[i]
			hits = append(hits, scored{f, s + 2*float32(min(len(f.Defaults), 3)) - 0.05*float32(len(f.Name))})
		}
	}
	slices.SortFunc(hits, func(a, b scored) int {
		if c := cmp.Compare(b.score, a.score); c != 0 {
			return c
		}
		return cmp.Compare(a.food.Name, b.food.Name)
	})
	hits = hits[:min(limit, len(hits))]
	out := make([]*Food, len(hits))
	for i, h := range hits {
		out[i] = h.food
	}
	return out
}
