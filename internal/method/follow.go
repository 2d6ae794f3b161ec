package method

import (
	"regexp"
	"strings"
)

// handled reports whether a sentence of the recipe did something with a food
// itself that a further sentence may go on from.
func (r reader) handled(u use) bool {
	s := &r.steps[u.step][u.sentence]
	for _, t := range s.tokens {
		if t.mention == nil && verbs[t.norm] {
			_, heated := heats[t.norm]
			return heated || preparing[t.norm]
		}
	}
	return false
}

// following are verbs that say nothing without what was said before.
var following = newSet(`drain cool dry rinse squeeze crumble turn flip discard press keep reserve mash save`)

// onlyFollows reports whether a sentence names no ingredient and goes on with
// what the sentence before it handled.
func (s *sentence) onlyFollows() bool {
	if len(s.tokens) == 0 {
		return false
	}
	for _, t := range s.tokens {
		if t.mention != nil || t.norm == "oven" || t.norm == "pan" {
			return false
		}
	}
	return following[s.tokens[0].norm]
}

// onlyWarms reports whether a sentence names the changed food alone and heats it
// for no longer than it takes to warm through.
func (s *sentence) onlyWarms(c *change) bool {
	for i := range s.tokens {
		if _, high, n := duration(s.tokens, i); n > 0 && high > warming {
			return false
		}
	}
	return s.speaksOnlyOf(span{0, len(s.tokens)}, c)
}

// warming is the longest time, in minutes, that only warms a pot through: a
// design choice.
const warming = 2

// ready are the words of lines whose food needs no knife.
var ready = newSet(`frozen canned bottled powder puree sauce juice seed paste flake ready`)

// peelOnly are done to a whole frozen vegetable no more, the others to a cut one.
var peelOnly = newSet(`peel wash scrub trim thaw pat wipe`)

// pulses are too small to be cut.
var pulses = newSet("bean lentil chickpea")

var cutting = newSet(`peel wash scrub trim core seed chop slice dice mince cut cube halve quarter shred grate`)

// spares reports whether the new food does not need what a verb does.
func (c *change) spares(verb string) bool {
	if len(c.fresh) != 1 || c.made > 0 {
		return false
	}
	before := newSet(strings.Join(words(c.old.Text), " "))
	isReady, whole := false, false
	for _, w := range words(c.fresh[0].Text) {
		isReady = isReady || ready[w] && !before[w] || w == "cooked" && pulses[head(c.names[0])]
		whole = whole || w == "whole"
	}
	if whole {
		return isReady && peelOnly[verb]
	}
	return isReady && cutting[verb]
}

func hasWord(text, w string) bool {
	for _, x := range words(text) {
		if x == w {
			return true
		}
	}
	return false
}

// dropDone leaves out the work that the new food comes without: "peel and chop
// the onion" where it is bought chopped.
func (s *sentence) dropDone(c *change) {
	for i := 0; i < len(s.tokens); i++ {
		t := s.tokens[i]
		if t.mention == nil || !c.is(t.mention) || t.mention.Ambiguous() || t.mention.Doing {
			continue
		}
		cs, at := s.clauseAt(i)
		if !s.speaksOnlyOf(cs[at], c) {
			continue
		}
		verb := s.tokens[cs[at].from]
		if verb.mention == nil && c.spares(verb.norm) {
			s.dropClause(cs, at)
			i = -1
			continue
		}
		for k := at - 1; k >= 0 && cs[k].to-cs[k].from == 1 && verbs[s.tokens[cs[k].from].norm]; k-- {
			if c.spares(s.tokens[cs[k].from].norm) {
				s.cut(cs[k].from, cs[k+1].from)
				i = -1
			}
		}
	}
}

var (
	pinkness  = regexp.MustCompile(`(?i),? ?(?:just )?(?:until|till) (?:it is |they are |the meat is )?no (?:longer pink|pink is left|pink remains)(?: in the (?:middle|center|centre))?`)
	drippings = regexp.MustCompile(`(?i)(?:,|;| and)(?: then)? (?:drain|pour|spoon|skim)(?: and rinse)?(?: off)?(?: (?:the|any|excess))* fat\b`)
	meatHeat  = regexp.MustCompile(`(?i),? ?to (?:an internal temperature of )?1[4-8]\d ?(?:°|degrees )? ?F(?: inside| in the (?:middle|center|centre))?`)
)

// meats are kinds of foods that are done by colour and by their inner heat.
var meats = []string{"meat", "beef", "pork", "poultry", "chicken", "turkey", "lamb", "fish", "shellfish"}

// doneness takes out of a step how meat is known to be done, where no meat
// comes in its place.
func (c *change) doneness(text string) string {
	if !ofKinds(c.oldKinds, meats) || len(c.option.Lines) == 0 || c.sameFood() {
		return text
	}
	for _, l := range c.option.Lines {
		if ofKinds(kindsOf(l, 0), meats) {
			return text
		}
	}
	for _, re := range []*regexp.Regexp{pinkness, meatHeat, drippings} {
		text = re.ReplaceAllString(text, "")
	}
	return text
}
