package method

import (
	"slices"

	"potwright/internal/recipe"
)

// Clause is a part of a step in which one thing is done.
type Clause struct {
	// Step and Sentence count from 0; Sentence starts anew in every step.
	Step, Sentence int
	// Words in order, in lower case and singular; numbers and marks are left out.
	Words []string
	// Mentions are the lines it speaks of.
	Mentions []Mention
	// Heat is how it says that something cooks, "" where it does not.
	Heat Heat
	// Periods are the times it states.
	Periods []Period
	// Reserves is set where its step keeps a liquid back.
	Reserves bool
}

// Course is the method clause by clause, in order; lines are the names of every line.
func Course(steps []recipe.Step, lines []*Names) []Clause {
	b := newBook(lines)
	out := make([]Clause, 0, 4*len(steps))
	c := clock{heat: Cook}
	var tokens []token
	said := make([]string, 0, wordsIn(steps))
	for i, s := range steps {
		tokens, _ = lexInto(slices.Grow(tokens[:0], len(s.Text)/5+2), s.Text)
		b.mark(tokens)
		ws := wordsOf(tokens)
		c.slow = c.slow || hasRun(ws, "slow", "cooker")
		kept := reserves(ws)
		for k, sentence := range sentences(tokens) {
			for _, cl := range clauses(sentence.tokens) {
				from := len(c.out.Periods)
				part := sentence.tokens[cl.from:cl.to]
				c.clause(i, part)
				clause := newClause(part, c.slow, &said)
				clause.Step, clause.Sentence, clause.Periods, clause.Reserves = i, k, slices.Clip(c.out.Periods[from:]), kept
				out = append(out, clause)
			}
		}
	}
	return out
}

// beforeHeat are words after which heat is no verb: "over medium heat".
var beforeHeat = newSet(`the medium high low gentle moderate off over from of direct indirect`)

// wordsIn is about how many words steps have: of five letters and a space.
func wordsIn(steps []recipe.Step) int {
	n := 0
	for _, s := range steps {
		n += len(s.Text)/6 + 1
	}
	return n
}

// newClause reads a clause; its words are appended to those said before.
func newClause(tokens []token, slow bool, said *[]string) Clause {
	var out Clause
	from := len(*said)
	var last *Mention
	for i := range tokens {
		t := &tokens[i]
		if t.mention != nil && t.mention != last {
			last = t.mention
			out.Mentions = append(out.Mentions, *last)
		}
		if !t.word {
			continue
		}
		noun := t.norm == "heat" && len(*said) > from && beforeHeat[(*said)[len(*said)-1]]
		*said = append(*said, t.norm)
		h, ok := heatAt(tokens, i)
		switch {
		case !ok || noun || h == Rest || t.mention != nil && !t.mention.Doing:
		case slow:
			out.Heat = SlowCooker
		case out.Heat == "" || out.Heat == Cook:
			out.Heat = h
		}
	}
	out.Words = slices.Clip((*said)[from:])
	return out
}
