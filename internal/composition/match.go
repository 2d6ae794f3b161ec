package composition

import (
	"math"
	"math/bits"
	"slices"
	"strings"
)

// Limits of a match.
const (
	maxCandidates = 5
	maxWords      = 9    // of a phrase; beyond it the first are left out
	leastWeight   = 0.04 // candidates less likely are left out
)

// Points of a match. They were set by hand on the ingredient lines of published
// recipes; only their order and rough distance matter.
const (
	wordNamed     = 5.0 // for each word of the phrase that names the food
	weakNamed     = 0.2 // where that word is a weak one
	wholePhrase   = 4.0 // for a name that leaves no word over
	meaningBonus  = 4.0
	tailMissing   = 1.2 // for each word of a row's name, after the comma, not in the phrase
	tailFound     = 1.5
	weakLeft      = 0.3 // for a word of the phrase that says little: "large"
	unknownLeft   = 1.2 // for one that no food is called by
	knownLeft     = 2.2 // for one that some food is called by
	aliasState    = 3.0 // for a state of the name that the phrase does not tell
	nearEnough    = 0.5 // a state that costs no more tells another as well
	inCan         = 1.5 // for a canned row where the line counts cans
	leanPoint     = 0.3
	temperature   = 0.6  // of the weights: points of score that make a candidate e times as likely
	meaningUnless = 0.85 // a request that costs more, unmet, takes the bonus away
)

// Match lists the rows a phrase may mean, best first, with weights that say how
// likely each is. A name of the table in full is that row. It finds nothing for
// words that no food is called by, and never takes one word for another that is
// spelled like it. The list may be shared with others: it is not to be changed.
func (t *Table) Match(p Phrase) []Candidate {
	return t.matched.Of(phraseKey{p.Words, strings.Join(p.States, " "), p.Unit}, func() []Candidate { return t.match(p) })
}

func (t *Table) match(p Phrase) []Candidate {
	core, states := takeStates(tokenize(p.Words))
	q := query{words: fewer(core), unit: p.Unit, top: math.Inf(-1)}
	for _, s := range append(append([]string{}, p.States...), states...) {
		if !slices.Contains(q.states, s) {
			q.states = append(q.states, s)
		}
	}
	q.states = withoutVague(q.states)
	if f := t.named(p, &q); f != nil {
		return []Candidate{{Food: f, Weight: 1}}
	}
	if len(q.words) == 0 {
		return nil
	}
	var room [16]hit
	hits := hits(room[:0]) // most phrases have fewer
	hits = t.index.collect(&q, hits)
	if t.base != nil {
		hits = t.base.index.collect(&q, hits)
	}
	return rank(hits)
}

// query is a phrase taken apart.
type query struct {
	words  []string
	states []string
	unit   string
	top    float64 // the best score so far
}

// hit is what speaks for a food.
type hit struct {
	food  *Food
	score float64
	sure  float64
	near  string // the state that another stands in for
	why   string
}

// hits are the best for each food.
type hits []hit

// add keeps the better one of two for one food, the last where they are alike.
func (hs hits) add(h hit) hits {
	for i := range hs {
		if hs[i].food == h.food {
			if h.score >= hs[i].score {
				hs[i] = h
			}
			return hs
		}
	}
	return append(hs, h)
}

// fewer drops joining words and keeps at most maxWords, each once.
func fewer(words []string) []string {
	out := make([]string, 0, len(words))
	for _, w := range words {
		if !joining[w] && !slices.Contains(out, w) {
			out = append(out, w)
		}
	}
	for i := 0; i < len(out) && len(out) > maxWords; {
		if weak[out[i]] {
			out = append(out[:i], out[i+1:]...)
			continue
		}
		i++
	}
	if len(out) > maxWords {
		out = out[len(out)-maxWords:]
	}
	return out
}

// collect looks up every set of the phrase's words, the whole phrase first: a name must
// be in the phrase whole, and what is left over must not be another food.
func (ix *index) collect(q *query, hits hits) hits {
	n := len(q.words)
	var left [maxWords]leftWord
	var keys [maxWords]uint64
	for i, w := range q.words {
		left[i], keys[i] = ix.leftWord(w), wordKey(w)
	}
	var sums [1 << maxWords]uint64
	for set := 1; set < 1<<n; set++ {
		sums[set] = sums[set&(set-1)] + keys[bits.TrailingZeros(uint(set))]
	}
	for set := 1<<n - 1; set > 0; set-- {
		if as := ix.aliases[sums[set]]; as != nil {
			hits = ix.weigh(q, set, &left, as, ix.meanings[sums[set]], hits)
		}
	}
	return hits
}

// leftWord is what a word of a phrase says where a name leaves it over.
type leftWord uint8

const (
	strangeWord leftWord = iota // no food is called by it
	weakWord
	tintWord
	headWord  // it ends the name of another food
	knownWord // some food is called by it
)

func (ix *index) leftWord(w string) leftWord {
	switch {
	case weak[w]:
		return weakWord
	case tint[w]:
		return tintWord
	case ix.heads[w]:
		return headWord
	case ix.known[w] > 0:
		return knownWord
	}
	return strangeWord
}

// weigh scores the foods named by one set of the phrase's words.
func (ix *index) weigh(q *query, set int, left *[maxWords]leftWord, as []alias, ms []meaning, hits hits) hits {
	points, told := named(q, set, left), counting(q, ms)
	most := points + metState*float64(len(q.states))
	if q.unit == "can" {
		most += inCan + loudState
	}
	for i := len(as) - 1; i >= 0; i-- {
		a := &as[i]
		over, ok := leftover(q, set, left, a)
		if !ok {
			continue
		}
		m := meant(told, a.food)
		if m == nil && most-over.cost-tailPoints(q, a) < q.top-tooFar {
			continue
		}
		f := fit(q.states, a)
		if q.unit == "can" && a.food.HasState("canned") {
			f.asked += inCan
			f.unasked -= unasked("canned", a.food)
		}
		h := hit{food: a.food, score: points - over.cost + f.asked, sure: over.sure * f.sure, near: f.near}
		if m == nil || worst(q.states, m.states, a) > meaningUnless {
			h.score -= f.unasked + tailPoints(q, a)
		} else {
			h.score += meaningBonus*over.keeps + temperature*math.Log(m.weight)
			if m.why != "" {
				h.why = m.why
			}
		}
		q.top = max(q.top, h.score)
		hits = hits.add(h)
	}
	return hits
}

// tooFar is a score below the best from which a food is no candidate: its weight is less
// than leastWeight.
const tooFar = 2.0

// named is what the words of the set say for the food they name.
func named(q *query, set int, left *[maxWords]leftWord) float64 {
	var points float64
	for i := range q.words {
		switch {
		case set&(1<<i) == 0:
		case left[i] == weakWord:
			points += weakNamed
		default:
			points += wordNamed
		}
	}
	return points
}

// rest is what the words say that a name leaves over.
type rest struct {
	cost  float64
	words int     // how many are left
	sure  float64 // how sure the name still is, 0..1
	keeps float64 // the share of a meaning's bonus that stands
}

// leftover weighs the words of the phrase that the name does not hold. ok is
// false where they say that something else is meant: they hold the word for
// another kind of thing ("butter" in "butter beans").
func leftover(q *query, set int, left *[maxWords]leftWord, a *alias) (r rest, ok bool) {
	r = rest{sure: 1, keeps: 1}
	for i, w := range q.words {
		if set&(1<<i) != 0 {
			continue
		}
		r.words++
		if slices.Contains(a.tail, w) {
			r.cost -= tailFound
			continue
		}
		switch left[i] {
		case weakWord:
			r.cost += weakLeft
		case tintWord:
			r.cost += weakLeft
			r.keeps = min(r.keeps, 0.5)
		case headWord:
			return r, false
		case knownWord:
			r.cost += knownLeft
			r.sure *= 0.75
			r.keeps = min(r.keeps, 0.25)
		default:
			r.cost += unknownLeft
			r.sure *= 0.8
			r.keeps = min(r.keeps, 0.5)
		}
	}
	if r.words == 0 {
		r.cost = -wholePhrase
	}
	return r, true
}

// tailPoints is what the words cost that tell the row from its siblings and
// that the phrase does not hold.
func tailPoints(q *query, a *alias) float64 {
	var cost float64
	for _, w := range a.tail {
		if !slices.Contains(q.words, w) {
			cost += tailMissing
		}
	}
	return math.Min(cost, 4*tailMissing)
}
