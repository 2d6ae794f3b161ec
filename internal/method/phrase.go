package method

import "strings"

// belongsBefore reports whether the token before i belongs to the noun phrase
// that goes on at i. Before a determiner only "half", "all", "rest of" and the
// like may stand: so "brown the beef" keeps its verb.
func belongsBefore(tokens []token, i int) bool {
	if i == 0 {
		return false
	}
	t := tokens[i-1]
	if t.mention != nil || t.fixed {
		return false
	}
	here := tokens[i].norm
	afterThe := determiners[here] && here != "all" && here != "both"
	switch {
	case t.norm == "of":
		return i > 1 && (isQuantity(tokens[i-2]) || isUnit(tokens[i-2]))
	case t.num:
		return !afterThe
	case isHyphen(t):
		return i > 1 && (belongsBefore(tokens, i-1) || tokens[i-2].num) && !afterThe
	case !t.word:
		return false
	case quantifiers[t.norm]:
		return true
	case determiners[t.norm]:
		return here != "of"
	case afterThe:
		return false
	case here == "of" || isUnit(t):
		return isUnit(t) || isQuantity(t)
	}
	return adjectives[t.norm] || (strings.HasSuffix(t.norm, "ed") && len(t.norm) > 4 && !verbs[t.norm])
}

func isQuantity(t token) bool { return t.num || quantifiers[t.norm] || determiners[t.norm] }

// unitWords are the units that steps state amounts in, in normal form.
var unitWords = newSet(`cup tablespoon teaspoon tbsp tsp ounce oz pound lb gram g kg ml litre liter l pint quart can
jar package clove slice stalk pinch dash handful sprig piece stick bunch drop`)

func isUnit(t token) bool { return t.word && unitWords[t.norm] }

// span is a run of tokens, to excluded.
type span struct{ from, to int }

// nounPhrase is the noun phrase around the mention at token i, inside a clause.
func nounPhrase(tokens []token, i int, c span) span {
	np := span{i, i}
	for np.to < c.to && tokens[np.to].mention == tokens[i].mention && tokens[np.to].mention != nil {
		np.to++
	}
	for np.from > c.from && tokens[np.from-1].mention == tokens[i].mention {
		np.from--
	}
	for np.from > c.from && belongsBefore(tokens, np.from) {
		np.from--
	}
	for np.to < c.to && pieces[tokens[np.to].norm] {
		np.to++
	}
	np.to = afterwards(tokens, np.to, c.to)
	return np
}

// afterwards takes in what follows a food and speaks of it alone: something in
// brackets, "to taste", "as needed".
func afterwards(tokens []token, i, end int) int {
	if i < end && tokens[i].text == "(" {
		for k := i + 1; k < end; k++ {
			if tokens[k].text == ")" {
				i = k + 1
				break
			}
		}
	}
	k := i
	if k < end && tokens[k].text == "," {
		k++
	}
	if k+1 < end && (tokens[k].norm == "to" && tokens[k+1].norm == "taste" ||
		tokens[k].norm == "as" && (tokens[k+1].norm == "needed" || tokens[k+1].norm == "desired" || tokens[k+1].norm == "wanted")) {
		return k + 2
	}
	return i
}

// separator is what parts two items of a list: a comma, "and", or both.
type separator struct {
	span
	comma, and bool
}

func (s separator) found() bool { return s.to > s.from }

// separatorAt is the separator that starts at token i.
func separatorAt(tokens []token, i, end int) separator {
	s := separator{span: span{i, i}}
	if s.to < end && tokens[s.to].text == "," {
		s.comma = true
		s.to++
	}
	if s.to < end && isConjunction(tokens[s.to]) {
		s.and = true
		s.to++
	}
	if s.to == end {
		return separator{span: span{i, i}}
	}
	if !s.and && !isItem(tokens, s.to) {
		return separator{span: span{i, i}}
	}
	if _, _, n := duration(tokens, s.to); n > 0 {
		return separator{span: span{i, i}} // "add the spinach, 5 minutes"
	}
	return s
}

// isItem reports whether a further item of a list may start at token i: not
// "stirring", "until soft", "in turns".
func isItem(tokens []token, i int) bool {
	t := tokens[i]
	if t.mention != nil {
		return true
	}
	participle := strings.HasSuffix(t.norm, "ing") && len(t.norm) > 5 && t.norm != "seasoning" && t.norm != "dressing" &&
		t.norm != "remaining" && t.norm != "topping" && t.norm != "filling"
	return !participle && !prepositions[t.norm] && !subordinators[t.norm]
}

// withLiquid takes in "with its juice" behind a food.
func withLiquid(tokens []token, i, end int) int {
	k := i + 1
	if k >= end || tokens[i].norm != "with" {
		return i
	}
	if determiners[tokens[k].norm] {
		k++
	}
	if k < end && tokens[k].mention == nil && (tokens[k].norm == "juice" || tokens[k].norm == "liquid" || tokens[k].norm == "syrup") {
		return k + 1
	}
	return i
}

// separatorBefore is the separator that ends before token i.
func separatorBefore(tokens []token, i, start int) separator {
	s := separator{span: span{i, i}}
	if s.from > start && isConjunction(tokens[s.from-1]) {
		s.and = true
		s.from--
	}
	if s.from > start && tokens[s.from-1].text == "," {
		s.comma = true
		s.from--
	}
	if s.from == start {
		return separator{span: span{i, i}}
	}
	return s
}

func isConjunction(t token) bool { return conjunctions[t.norm] || t.text == "&" }
