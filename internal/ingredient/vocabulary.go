package ingredient

import "strings"

// tag says what a phrase of a line does.
type tag uint8

const (
	tagFood      tag = iota // part of the food's name
	tagAdjective            // part of the food's name, but no food by itself
	tagState                // value is the state in normal form
	tagPrep                 // preparation
	tagAdverb               // belongs to the preparation next to it
	tagSize                 // value is the size
	tagNoise                // says nothing about the food
	tagRest                 // what follows, to the end of the segment, is an instruction
	tagOptional
	tagUse // value is the use: "to taste", "as needed", "frying", …
	tagPlusMore
	tagOr
	tagAnd
)

// compound marks a fixed name in the vocabulary.
const compound = "compound"

type entry struct {
	tag   tag
	value string
}

// vocabulary holds phrases with spaces in place of hyphens.
var vocabulary = buildVocabulary()

// longestPhrase is the most words of a phrase in the vocabulary.
const longestPhrase = 5

func buildVocabulary() map[string]entry {
	m := map[string]entry{}
	add := func(t tag, list string) {
		for _, phrase := range strings.FieldsFunc(list, func(r rune) bool { return r == ',' || r == '\n' }) {
			if phrase = strings.TrimSpace(phrase); phrase != "" {
				m[phrase] = entry{t, ""}
			}
		}
	}
	add(tagAdverb, adverbs)
	add(tagPrep, preparations)
	add(tagAdjective, adjectives)
	add(tagNoise, noise)
	add(tagRest, instructions)
	add(tagOptional, optionals)
	add(tagPlusMore, plusMores)
	add(tagFood, compounds)
	for phrase := range m {
		if m[phrase].tag == tagFood {
			m[phrase] = entry{tagFood, compound}
		}
	}
	add(tagFood, sorts)
	addValues(m, tagState, states)
	addValues(m, tagSize, sizes)
	addValues(m, tagUse, uses)
	m["or"], m["and/or"] = entry{tag: tagOr}, entry{tag: tagOr}
	m["and"], m["&"], m["+"] = entry{tag: tagAnd}, entry{tag: tagAnd}, entry{tag: tagAnd}
	return m
}

// addValues reads lines of "value: phrase, phrase".
func addValues(m map[string]entry, t tag, list string) {
	for _, line := range strings.Split(strings.TrimSpace(list), "\n") {
		value, phrases, _ := strings.Cut(line, ":")
		for _, phrase := range strings.Split(phrases, ",") {
			m[strings.TrimSpace(phrase)] = entry{t, strings.TrimSpace(value)}
		}
	}
}

// phraseAt finds the longest phrase of the vocabulary at token i, before token
// to; n is how many tokens it takes.
func (s *source) phraseAt(i, to int) (e entry, n int) {
	first := s.tokens[i].low
	if strings.IndexByte(first, '-') >= 0 {
		first = strings.ReplaceAll(first, "-", " ")
	}
	if got, ok := vocabulary[first]; ok {
		e, n = got, 1
	}
	if !phraseStarts[first] {
		return e, n
	}
	var room [64]byte
	joined := append(room[:0], first...)
	for k := 1; k < longestPhrase && i+k < to; k++ {
		next := s.tokens[i+k]
		if next.kind == mark && next.low != "-" && next.low != "/" && next.low != "&" {
			break
		}
		switch {
		case next.low == "-":
			continue
		case next.low == "/" || joined[len(joined)-1] == '/':
			joined = append(joined, next.low...)
		default:
			joined = append(append(joined, ' '), strings.ReplaceAll(next.low, "-", " ")...)
		}
		if got, ok := vocabulary[string(joined)]; ok {
			e, n = got, k+1
		}
		if !phraseStarts[string(joined)] {
			break
		}
	}
	return e, n
}

// phraseStarts are the beginnings of phrases, up to the end of a word.
var phraseStarts = startsOf(vocabulary)

func startsOf(phrases map[string]entry) map[string]bool {
	starts := map[string]bool{}
	for phrase := range phrases {
		for i := 1; i < len(phrase); i++ {
			if phrase[i] == ' ' || phrase[i] == '/' || phrase[i-1] == '/' {
				starts[phrase[:i]] = true
			}
		}
	}
	return starts
}
