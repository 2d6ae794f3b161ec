package composition

import (
	"math"
	"sort"
	"strings"
)

// Search lists foods that hold every word of the query in name, synonyms or
// kinds, best first; the last word may be a beginning. An empty query or a
// limit below 1 finds nothing.
func (t *Table) Search(query string, limit int) []*Food {
	words := tokenize(query)
	if len(words) == 0 || limit < 1 {
		return nil
	}
	scores := map[int]float64{}
	for i, w := range words {
		found := t.index.postings(w, i == len(words)-1 && !strings.HasSuffix(query, " "))
		if i == 0 {
			scores = found
			continue
		}
		for food := range scores {
			if s, ok := found[food]; ok {
				scores[food] += s
			} else {
				delete(scores, food)
			}
		}
	}
	return t.index.best(scores, limit)
}

// postings sums what is found for a word, or for every word that begins with
// it: a whole word counts full, a beginning in part.
func (ix *index) postings(word string, prefix bool) map[int]float64 {
	out := map[int]float64{}
	from := sort.Search(len(ix.terms), func(i int) bool { return ix.terms[i].word >= word })
	for _, t := range ix.terms[from:] {
		if !strings.HasPrefix(t.word, word) || !prefix && t.word != word {
			break
		}
		rare := math.Log(float64(1+len(ix.foods))/float64(1+len(t.posts))) + 1
		if t.word != word {
			rare *= 0.5 * float64(len(word)) / float64(len(t.word))
		}
		for _, p := range t.posts {
			out[p.food] = max(out[p.food], p.weight*rare)
		}
	}
	return out
}

// best orders by score, then shorter and alphabetically first names.
func (ix *index) best(scores map[int]float64, limit int) []*Food {
	hits := make([]int, 0, len(scores))
	for i := range scores {
		f := ix.foods[i]
		scores[i] += 2*float64(len(f.Defaults)) - 0.05*float64(len(f.Name))
		hits = append(hits, i)
	}
	sort.Slice(hits, func(a, b int) bool {
		x, y := hits[a], hits[b]
		if scores[x] != scores[y] {
			return scores[x] > scores[y]
		}
		return ix.foods[x].Name < ix.foods[y].Name
	})
	out := make([]*Food, 0, min(limit, len(hits)))
	for _, i := range hits[:min(limit, len(hits))] {
		out = append(out, ix.foods[i])
	}
	return out
}
