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
	return new(Reader).Course(steps, lines)
}

// Reader reads methods one after the other, each in the room that the one before took.
// The zero value is ready; it is not safe for concurrent use.
type Reader struct {
	book      book
	clock     clock
	clauses   []Clause
	tokens    []token // of a step
	sentences []sentence
	spans     []span   // of a sentence
	words     []string // of a step
	// said are the words of all clauses, spoken what they speak of.
	said   []string
	spoken []Mention
}

// Course is Course; what it gives is good until the next method is read.
func (r *Reader) Course(steps []recipe.Step, lines []*Names) []Clause {
	r.book.open(lines)
	r.clock = clock{heat: Cook, out: Cooking{Periods: r.clock.out.Periods[:0]}}
	r.clauses = slices.Grow(r.clauses[:0], 4*len(steps))
	r.said, r.spoken = slices.Grow(r.said[:0], wordsIn(steps)), r.spoken[:0]
	for i, s := range steps {
		r.step(i, s.Text)
	}
	return r.clauses
}

func (r *Reader) step(i int, text string) {
	r.tokens, _ = lexInto(slices.Grow(r.tokens[:0], len(text)/5+2), text)
	r.book.mentions = r.book.mentions[:0] // those of the step before were copied
	r.book.mark(r.tokens)
	r.words = appendWords(r.words[:0], r.tokens)
	r.clock.slow = r.clock.slow || hasRun(r.words, "slow", "cooker")
	kept := reserves(r.words)
	r.sentences = appendSentences(r.sentences[:0], r.tokens)
	for k, s := range r.sentences {
		r.spans = appendClauses(r.spans[:0], s.tokens)
		for _, cl := range r.spans {
			from := len(r.clock.out.Periods)
			part := s.tokens[cl.from:cl.to]
			r.clock.clause(i, part)
			clause := r.clause(part)
			clause.Step, clause.Sentence, clause.Reserves = i, k, kept
			if periods := r.clock.out.Periods[from:]; len(periods) > 0 {
				clause.Periods = slices.Clip(periods)
			}
			r.clauses = append(r.clauses, clause)
		}
	}
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

// clause reads a clause.
func (r *Reader) clause(tokens []token) Clause {
	var out Clause
	said, spoken := len(r.said), len(r.spoken)
	var last *Mention
	for i := range tokens {
		t := &tokens[i]
		if t.mention != nil && t.mention != last {
			last = t.mention
			r.spoken = append(r.spoken, *last)
		}
		if !t.word {
			continue
		}
		noun := t.norm == "heat" && len(r.said) > said && beforeHeat[r.said[len(r.said)-1]]
		r.said = append(r.said, t.norm)
		h, ok := heatAt(tokens, i)
		switch {
		case !ok || noun || h == Rest || t.mention != nil && !t.mention.Doing:
		case r.clock.slow:
			out.Heat = SlowCooker
		case out.Heat == "" || out.Heat == Cook:
			out.Heat = h
		}
	}
	out.Words = slices.Clip(r.said[said:])
	if last != nil {
		out.Mentions = slices.Clip(r.spoken[spoken:])
	}
	return out
}
