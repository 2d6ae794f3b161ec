package method

import (
	"strings"

	"potwright/internal/recipe"
)

// ovenWords are verbs that are done in an oven, where they head a clause or follow one
// of beforeVerb.
var (
	ovenWords  = newSet(`bake roast broil preheat`)
	beforeVerb = newSet(`and then or to`)
)

// pansNamedOven are what stands before "oven" where no oven is meant: a cast-iron pot,
// a box on the counter.
var pansNamedOven = newSet(`dutch french microwave toaster`)

// NeedsOven is the first step, counted from 0, that needs an oven; ok is false where
// none does. "Dutch oven" is a pot, and baked beans are no step.
func NeedsOven(steps []recipe.Step) (step int, ok bool) {
	for i, s := range steps {
		tokens, _ := lex(s.Text)
		for _, sentence := range sentences(tokens) {
			for _, cl := range clauses(sentence.tokens) {
				if inOven(sentence.tokens[cl.from:cl.to]) {
					return i, true
				}
			}
		}
	}
	return 0, false
}

func inOven(tokens []token) bool {
	first := true
	for i, t := range tokens {
		if !t.word {
			continue
		}
		said := strings.ToLower(t.text)
		if ovenWords[said] && (first || beforeVerb[before(tokens, i)]) || said == "oven" && !pansNamedOven[before(tokens, i)] && after(tokens, i) != "mitt" {
			return true
		}
		first = false
	}
	return false
}
