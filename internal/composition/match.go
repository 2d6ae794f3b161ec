package composition

import (
	"math"
	"slices"
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
// spelled like it.
func (t *Table) Match(p Phrase) []Candidate {
	core, states := takeStates(tokenize(p.Words))
	q := query{words: fewer(core), unit: p.Unit}
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
	hits := map[*Food]hit{}
	t.index.collect(&q, hits)
	if t.base != nil {
		t.base.index.collect(&q, hits)
	}
	return rank(hits)
}

// query is a phrase taken apart.
type query struct {
	words  []string
	states []string
	unit   string
}

// hit is what speaks for a food.
type hit struct {
	score float64
	sure  float64
	why   string
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

// collect looks up every set of the phrase's words: a name must be in the
// phrase whole, and what is left over must not be another food.
func (ix *index) collect(q *query, hits map[*Food]hit) {
	n := len(q.words)
	keys := make([]uint64, n)
	for i, w := range q.words {
		keys[i] = wordKey(w)
	}
	sums := make([]uint64, 1<<n)
	for set := 1; set < 1<<n; set++ {
		low := lowestBit(set)
		sums[set] = sums[set&(set-1)] + keys[low]
		if as := ix.aliases[sums[set]]; as != nil {
			ix.weigh(q, set, as, ix.meanings[sums[set]], hits)
		}
	}
}

func lowestBit(x int) int {
	i := 0
	for x&1 == 0 {
		x >>= 1
		i++
	}
	return i
}

// weigh scores the foods named by one set of the phrase's words.
func (ix *index) weigh(q *query, set int, as []alias, ms []meaning, hits map[*Food]hit) {
	points := named(q, set)
	for i := range as {
		a := &as[i]
		left, ok := ix.leftover(q, set, a)
		if !ok {
			continue
		}
		f := fit(q.states, a)
		if q.unit == "can" && a.food.HasState("canned") {
			f.asked += inCan
			f.unasked -= unasked("canned", a.food)
		}
		h := hit{score: points - left.cost + f.asked, sure: left.sure * f.sure, why: f.near}
		m := meant(q, ms, a.food)
		if m == nil || worst(q.states, m.states, a) > meaningUnless {
			h.score -= f.unasked + tailPoints(q, a)
		} else {
			h.score += meaningBonus*left.keeps + temperature*math.Log(m.weight)
			if m.why != "" {
				h.why = m.why
			}
		}
		if old, have := hits[a.food]; !have || h.score > old.score {
			hits[a.food] = h
		}
	}
}

// named is what the words of the set say for the food they name.
func named(q *query, set int) float64 {
	var points float64
	for i, w := range q.words {
		switch {
		case set&(1<<i) == 0:
		case weak[w]:
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
func (ix *index) leftover(q *query, set int, a *alias) (r rest, ok bool) {
	r = rest{sure: 1, keeps: 1}
	for i, w := range q.words {
		if set&(1<<i) != 0 {
			continue
		}
		r.words++
		switch {
		case slices.Contains(a.tail, w):
			r.cost -= tailFound
		case weak[w]:
			r.cost += weakLeft
		case tint[w]:
			r.cost += weakLeft
			r.keeps = min(r.keeps, 0.5)
		case ix.heads[w]:
			return r, false
		case ix.known[w] > 0:
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
