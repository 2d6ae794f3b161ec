package method

import (
	"slices"
	"strings"
)

// sentence is a sentence of a step with the mark that ends it. A semicolon ends
// one too: what stands on its two sides is done in turn.
type sentence struct {
	tokens []token
	// mark are the last tokens: ".", "!", ";" with closing brackets or quotes.
	mark []token
	// changed is set by whatever changes the tokens.
	changed bool
	// large is set where the sentence started with a capital or a number.
	large bool
}

// abbreviations whose full stop does not end a sentence, in normal form.
var abbreviations = newSet(`min hr oz tbsp tsp approx lb in no pkg about deg sec ea inc vs etc`)

// longest is where a sentence that has no end is ended, in tokens, so that the
// work on a step grows with its length only.
const longest = 300

func sentences(tokens []token) []sentence { return appendSentences(nil, tokens) }

func appendSentences(out []sentence, tokens []token) []sentence {
	start := 0
	for i := 0; i < len(tokens); i++ {
		if !endsSentence(tokens, i) {
			if i-start >= longest && tokens[i].mention == nil {
				out = append(out, newSentence(tokens[start:i], nil))
				start = i
			}
			continue
		}
		end := i + 1
		for end < len(tokens) && tokens[end].space == "" && strings.ContainsAny(tokens[end].text, ".!?)\"”’") {
			end++
		}
		out = append(out, newSentence(tokens[start:i], tokens[i:end]))
		start, i = end, end-1
	}
	if start < len(tokens) {
		out = append(out, newSentence(tokens[start:], nil))
	}
	return out
}

// newSentence takes its tokens over from those of the step.
func newSentence(body, mark []token) sentence {
	s := sentence{tokens: slices.Clip(body), mark: slices.Clip(mark)}
	s.large = len(body) > 0 && !startsLower(body[0].text)
	return s
}

func endsSentence(tokens []token, i int) bool {
	switch tokens[i].text {
	case "!", "?", ";":
		return true
	case ".":
	default:
		return false
	}
	if i+1 == len(tokens) {
		return true
	}
	next := tokens[i+1]
	if next.space == "" && !strings.ContainsAny(next.text, ")\"”’") {
		return false
	}
	return i == 0 || !abbreviations[tokens[i-1].norm] || startsCapital(next.text)
}

// clauses cuts a sentence before every verb of cooking that follows a comma,
// "and" or "then". What stands before the first verb ("In a large pot,") belongs
// to the first clause, unless it is a clause of its own ("Once soft,").
func clauses(tokens []token) []span { return appendClauses(nil, tokens) }

func appendClauses(out []span, tokens []token) []span {
	first := len(out)
	out = append(out, span{0, len(tokens)})
	for i := 1; i < len(tokens); i++ {
		if !startsClause(tokens, i) {
			continue
		}
		joint := jointBefore(tokens, i)
		last := &out[len(out)-1]
		if joint == i || joint <= last.from {
			continue
		}
		if len(out) == first+1 && !leads(tokens) {
			continue // a phrase in front of the first verb
		}
		last.to = joint
		out = append(out, span{i, len(tokens)})
	}
	return out
}

// leads reports whether a sentence starts with a clause: a verb, a mention or a
// subordinate clause.
func leads(tokens []token) bool {
	for _, t := range tokens {
		if t.word {
			first := t.norm
			if prepositions[first] || strings.HasSuffix(first, "ly") || first == "meanwhile" || first == "then" || first == "next" {
				return hasVerb(tokens, len(tokens))
			}
			return true
		}
	}
	return false
}

// hasVerb looks for a verb before the first comma of a sentence that starts
// with a preposition or an adverb: "Gently stir in the rice, cover".
func hasVerb(tokens []token, end int) bool {
	for _, t := range tokens[:end] {
		if t.text == "," {
			return false
		}
		if t.mention == nil && verbs[t.norm] {
			return true
		}
	}
	return false
}

func startsClause(tokens []token, i int) bool {
	t := tokens[i]
	if !t.word || t.fixed || t.mention != nil && !t.mention.Doing {
		return false
	}
	if strings.HasSuffix(t.norm, "ly") || t.norm == "just" || t.norm == "then" {
		return i+1 < len(tokens) && verbs[tokens[i+1].norm] && tokens[i+1].mention == nil && jointBefore(tokens, i) < i
	}
	if t.mention != nil {
		return true
	}
	return verbs[t.norm] && jointBefore(tokens, i) < i
}

// jointBefore is where the words that join the clause at i to the one before it
// start: ", and then".
func jointBefore(tokens []token, i int) int {
	for i > 0 {
		t := tokens[i-1]
		if t.text != "," && t.text != ":" && t.text != "–" && t.text != "—" && t.norm != "and" && t.norm != "then" && t.norm != "or" && t.norm != "but" && t.text != "&" {
			return i
		}
		i--
	}
	return i
}

// clauseAt is the clause that token i is in.
func (s *sentence) clauseAt(i int) (cs []span, at int) {
	cs = clauses(s.tokens)
	for k, c := range cs {
		if i >= c.from && i < c.to {
			return cs, k
		}
	}
	return cs, 0
}

// cut takes tokens out. What then comes first takes the space of what did.
func (s *sentence) cut(from, to int) {
	if from >= to {
		return
	}
	if from == 0 && to < len(s.tokens) {
		s.tokens[to].space = s.tokens[0].space
	}
	s.tokens = append(s.tokens[:from:from], s.tokens[to:]...)
	s.changed = true
}

// put writes text in place of tokens.
func (s *sentence) put(from, to int, text string) {
	space := " "
	if from < len(s.tokens) && from < to {
		space = s.tokens[from].space
	}
	t := token{space: space, text: text, norm: normal(text), word: true, fixed: true}
	rest := append([]token{t}, s.tokens[to:]...)
	s.tokens = append(s.tokens[:from:from], rest...)
	s.changed = true
}

// clear empties the sentence.
func (s *sentence) clear() {
	s.tokens = nil
	s.changed = true
}

// empty reports whether nothing but marks is left.
func (s *sentence) empty() bool {
	for _, t := range s.tokens {
		if t.word || t.num {
			return false
		}
	}
	return true
}
