package method

import (
	"fmt"
	"strings"

	"potwright/internal/ingredient"
	"potwright/internal/swap"
)

// replace puts the new food and its amount in place of every mention of a
// changed one. notes are about amounts that could not be told.
func (s *sentence) replace(c *change) (notes []string) {
	if c.chooses() {
		s.oneOfTwo(c)
	}
	done := map[*Mention]bool{}
	for i := 0; i < len(s.tokens); i++ {
		m := s.tokens[i].mention
		if m == nil || done[m] || !c.is(m) || m.Ambiguous() {
			continue
		}
		done[m] = true
		if note := s.replaceAt(i, c); note != "" {
			notes = append(notes, note)
		}
		i = -1 // the tokens have moved
	}
	return notes
}

// oneOfTwo leaves one mention of "the butter or margarine", where both are of the line.
func (s *sentence) oneOfTwo(c *change) {
	for i := 0; i < len(s.tokens); i++ {
		m := s.tokens[i].mention
		if m == nil || !c.is(m) {
			continue
		}
		_, end := s.mentionSpan(i)
		k, or, open := end, false, false
		for ; k < len(s.tokens) && (s.tokens[k].text == "(" || s.tokens[k].norm == "or" || determiners[s.tokens[k].norm]); k++ {
			or = or || s.tokens[k].norm == "or"
			open = open || s.tokens[k].text == "("
		}
		if !or || k == len(s.tokens) || s.tokens[k].mention == nil || !c.is(s.tokens[k].mention) {
			i = end - 1
			continue
		}
		_, to := s.mentionSpan(k)
		if open && to < len(s.tokens) && s.tokens[to].text == ")" {
			to++
		}
		s.cut(end, to)
		i = end - 1
	}
}

// isChosen reports whether a mention's words are of the food that was chosen.
func (c *change) isChosen(m *Mention) bool {
	chosen := words(c.fresh[0].Food)
	for _, w := range words(m.Words) {
		if !hasAny(chosen, w) {
			return false
		}
	}
	return true
}

// replaceAt changes the mention at token i.
func (s *sentence) replaceAt(i int, c *change) (note string) {
	_, to := s.mentionSpan(i)
	if s.tokens[i].mention.Doing {
		s.replaceDoing(i, c)
		return ""
	}
	cs, at := s.clauseAt(i)
	np := nounPhrase(s.tokens, i, cs[at])
	amount, has := amountBefore(s.tokens, np.from, i)
	if c.poured() {
		s.cutLiquid(np.to, cs[at].to)
	}
	switch {
	case c.sameFood() && has && normal(s.tokens[i].mention.Words) == "slice":
		return s.slices(i, c)
	case c.sameFood() && has:
		return s.restate(amount, c)
	case c.sameFood() || c.stillStock(s.tokens[i].mention) || c.chooses() && c.isChosen(s.tokens[i].mention):
		return ""
	case s.saysAlready(np, c):
		s.removeAt(i, c.is)
		return ""
	case normal(s.tokens[i].mention.Words) == "slice" && c.fresh[0].HasAmount && c.fresh[0].Amount.Unit.Name == "slice":
		return s.slices(i, c)
	case has && c.made > 0:
		s.replaceWords(i, cs[at].to, c) // as much of the mixture as of the old food
		return ""
	case has:
		return s.replaceMeasured(amount, i, to, cs[at].to, c)
	}
	before := len(s.tokens)
	s.dropForm(np.from, i, c)
	fewer := before - len(s.tokens)
	s.replaceWords(i-fewer, cs[at].to-fewer, c)
	return ""
}

// stillStock reports whether words for what a cube makes name the new cube's as well:
// "the hot stock".
func (c *change) stillStock(m *Mention) bool {
	if w := normal(m.Words); w != "stock" && w != "broth" || len(c.fresh) != 1 {
		return false
	}
	return strings.Contains(c.fresh[0].Food, "cube") || strings.Contains(c.fresh[0].Food, "bouillon")
}

// slices fits "each of 3 slices" to other slices.
func (s *sentence) slices(i int, c *change) (note string) {
	_, to := s.mentionSpan(i)
	cs, at := s.clauseAt(i)
	np := nounPhrase(s.tokens, i, cs[at])
	if a, has := amountBefore(s.tokens, np.from, i); has && !sameReading(c.fresh[0], c.old) {
		share, _ := a.share(c.old)
		text, ok := partOf(c.fresh[0], share)
		if !ok {
			return fmt.Sprintf("it states slices of the %s that could not be fitted to the new ones; go by the ingredient list.", c.oldName())
		}
		s.put(a.from, to, s.begun(a.from, text))
		return ""
	}
	s.settle(i, to)
	return ""
}

// poured reports whether the food now comes without its liquid.
func (c *change) poured() bool {
	return c.option.Rule != nil && (c.option.Rule.Do == swap.Rinse || c.option.Rule.Do == swap.Drain)
}

// cutLiquid takes "with their liquid" out behind a food that is now drained.
func (s *sentence) cutLiquid(i, end int) { s.cut(i, withLiquid(s.tokens, i, end)) }

// replaceDoing keeps "grease the pan" of "butter the pan"; "salt the water" goes
// with the salt.
func (s *sentence) replaceDoing(i int, c *change) {
	if c.sameFood() {
		return
	}
	cs, at := s.clauseAt(i)
	s.undo(i, cs, at)
}

// saysAlready reports whether the sentence names the new food beside the old:
// "milk and cream", with milk for the cream.
func (s *sentence) saysAlready(np span, c *change) bool {
	ws := c.names
	if len(ws) != 1 {
		return false
	}
	for k, t := range s.tokens {
		if k >= np.from && k < np.to || t.mention == nil || c.is(t.mention) {
			continue
		}
		if strings.Join(words(t.mention.Words), " ") == strings.Join(words(ws[0]), " ") {
			return true
		}
	}
	return false
}

// replaceWords puts the new words in place of the mention at i. Words that the
// new food ends with too ("broth") stay, and so does "chicken" for chicken breast.
func (s *sentence) replaceWords(i, end int, c *change) {
	from, to := s.mentionSpan(i)
	old, ws := s.tokens[i].mention.Words, s.fewer(i, c)
	if len(ws) == 0 || len(ws) == 1 && isShortFor(old, ws[0]) {
		s.settle(from, to)
		return
	}
	modifies := to < len(s.tokens) && s.tokens[to].mention == nil && mixtures[s.tokens[to].norm]
	switch {
	case modifies && s.tokens[to].norm == "water":
		s.put(from, to, s.begun(from, "cooking")) // "the pasta water"
		return
	case modifies && (s.tokens[to].norm == "liquid" || c.made > 0):
		to++ // "the soy liquid"
	case modifies && len(ws) > 1:
		s.settle(from, to)
		return
	}
	if k := onlyOne(ws, old); k >= 0 && len(ws) > 1 {
		ws[k] = old // "the broth and water" of which the broth is the old one
	}
	if c.made > 0 && ws[0] == c.names[0] {
		ws[0] = s.definite(from) + ws[0]
	}
	text := s.begun(from, s.listed(from, to, end, ws))
	s.put(from, to, text)
	plural := len(ws) > 1 || isPlural(ws[0]) || s.inList(from)
	s.flakes(from+1, plural, c)
	s.agree(from+1, plural)
	s.article(from, text, plural)
	if len(ws) > 1 || isPlural(ws[0]) && !isPlural(old) {
		s.pluralPronoun(from)
	}
	s.fitVerb(from, ws[0], c)
}

// definite is "the" for what a step before has made, where it is not there.
func (s *sentence) definite(i int) string {
	switch {
	case i > 0 && (determiners[s.tokens[i-1].norm] || adjectives[s.tokens[i-1].norm]):
		return ""
	case i > 0 && (isUnit(s.tokens[i-1]) || s.tokens[i-1].num):
		return "of the "
	}
	return "the "
}

// fewer are the names said at the mention at i: only the first where the step
// goes on with what is in the pot already, and none that the sentence says anyway.
func (s *sentence) fewer(i int, c *change) []string {
	ws := append([]string(nil), c.names...)
	if len(ws) < 2 {
		return ws
	}
	cs, at := s.clauseAt(i)
	verb, _ := s.governors(i, cs[at])
	np := nounPhrase(s.tokens, i, cs[at])
	shared := false
	for _, t := range s.tokens[np.from:i] {
		shared = shared || quantifiers[t.norm]
	}
	if c.named && !shared && (verb >= 0 && goingOn[s.tokens[verb].norm] || s.subordinate(i, cs[at]) >= 0) {
		return ws[:1]
	}
	c.named = true
	var out []string
	for _, w := range ws {
		if !s.names(w, c) {
			out = append(out, w)
		}
	}
	if len(out) == 0 {
		return ws
	}
	return out
}

// goingOn are verbs of what is done with food that is in the pot already.
var goingOn = newSet(`lift return set remove transfer turn drain serve cool slice cover flip garnish`)

// names reports whether the sentence speaks of a line by just these words.
func (s *sentence) names(phrase string, c *change) bool {
	for _, t := range s.tokens {
		if t.mention != nil && !c.is(t.mention) && strings.Join(words(t.mention.Words), " ") == strings.Join(words(phrase), " ") {
			return true
		}
	}
	return false
}

// isShortFor reports whether a word is what a food with a part is called for
// short: "chicken" for chicken breast.
func isShortFor(old, phrase string) bool {
	o, ws := words(old), words(phrase)
	return len(o) == 1 && len(ws) == 2 && o[0] == ws[0] && partHeads[ws[1]] && ws[1] != "meat" && ws[1] != "egg"
}

// inList reports whether the food at i ends a list: "milk and tahini go in".
func (s *sentence) inList(i int) bool {
	for i > 0 && determiners[s.tokens[i-1].norm] {
		i--
	}
	return i > 0 && isConjunction(s.tokens[i-1]) && s.tokens[i-1].norm != "or"
}

// flakes says "is cooked through" where no fish is there to flake.
func (s *sentence) flakes(i int, plural bool, c *change) {
	if i >= len(s.tokens) || s.tokens[i].norm != "flake" || !c.oldKinds("fish") {
		return
	}
	for _, l := range c.option.Lines {
		if kindsOf(l, 0)("fish") {
			return
		}
	}
	text := "is cooked through"
	if plural {
		text = "are cooked through"
	}
	s.put(i, i+1, text)
}

// onlyOne is the one phrase that ends with the words of old, -1 where there is
// none or more than one.
func onlyOne(phrases []string, old string) int {
	at := -1
	for k, p := range phrases {
		if !endsWith(words(p), words(old)) {
			continue
		}
		if at >= 0 {
			return -1
		}
		at = k
	}
	return at
}

// pluralPronoun fits "set it aside" behind several foods in place of one.
func (s *sentence) pluralPronoun(i int) {
	cs, at := s.clauseAt(i)
	if at+1 == len(cs) || !s.speaksOfIt(cs[at+1]) {
		return
	}
	for k := cs[at+1].from; k < cs[at+1].to; k++ {
		if s.tokens[k].norm == "it" {
			s.tokens[k].text, s.tokens[k].norm = "them", "them"
			return
		}
	}
}

// settle keeps the words of a mention and lets go of what they speak of.
func (s *sentence) settle(from, to int) {
	for k := from; k < to; k++ {
		s.tokens[k].mention = nil
		s.tokens[k].fixed = true
	}
}

func endsWith(long, short []string) bool {
	if len(short) > len(long) || len(short) == 0 {
		return false
	}
	return strings.Join(long[len(long)-len(short):], " ") == strings.Join(short, " ")
}

// listed joins the new foods as the list around the mention asks for. "Half of
// the" goes with both.
func (s *sentence) listed(from, to, end int, ws []string) string {
	if len(ws) < 2 {
		return strings.Join(ws, "")
	}
	next, shared := separatorAt(s.tokens, to, end), false
	for k := from; k > 0 && belongsBefore(s.tokens, k); k-- {
		shared = shared || quantifiers[s.tokens[k-1].norm]
	}
	if shared && next.found() && !next.comma {
		return join(ws) + "," // "half of the milk and butter, and the salt"
	}
	if shared {
		return join(ws)
	}
	if next.found() {
		return strings.Join(ws, ", ")
	}
	if k := from - 1; k > 0 && s.tokens[k].norm == "and" && s.tokens[k-1].mention != nil {
		s.tokens[k].text, s.tokens[k].space, s.tokens[k].norm, s.tokens[k].word = ",", "", "", false
	}
	return join(ws)
}

// join writes "a", "a and b", "a, b and c".
func join(ws []string) string {
	if len(ws) < 2 {
		return strings.Join(ws, "")
	}
	return strings.Join(ws[:len(ws)-1], ", ") + " and " + ws[len(ws)-1]
}

func isPlural(phrase string) bool {
	fields := strings.Fields(phrase)
	if len(fields) == 0 {
		return false
	}
	last := strings.ToLower(fields[len(fields)-1])
	return normal(last) != last
}

// agreements are verbs by number: singular, plural.
var agreements = [][2]string{{"is", "are"}, {"was", "were"}, {"has", "have"}, {"flakes", "flake"}, {"softens", "soften"},
	{"browns", "brown"}, {"goes", "go"}, {"wilts", "wilt"}, {"melts", "melt"}}

// agree fits the verb directly after a food to it.
func (s *sentence) agree(i int, plural bool) {
	if i >= len(s.tokens) {
		return
	}
	for _, pair := range agreements {
		from, to := pair[1], pair[0]
		if plural {
			from, to = to, from
		}
		if s.tokens[i].text == from {
			s.tokens[i].text = to
			return
		}
	}
}

// article fits "a" or "an" before a food.
func (s *sentence) article(i int, text string, plural bool) {
	if i == 0 || s.tokens[i-1].norm != "a" && s.tokens[i-1].norm != "an" {
		return
	}
	k := i - 1
	if plural {
		s.cut(k, i)
		return
	}
	article := "a"
	if strings.ContainsRune("aeiou", []rune(strings.ToLower(text) + " ")[0]) {
		article = "an"
	}
	if startsCapital(s.tokens[k].text) {
		article = capital(article)
	}
	s.tokens[k].text = article
}

// replaceMeasured puts new food and new amount in place of "1/2 cup of the
// broth". tokens to is the end of the mention.
func (s *sentence) replaceMeasured(a stated, i, to, end int, c *change) (note string) {
	texts, ok := c.parts(a)
	switch ws := c.names; {
	case len(ws) == 0:
		s.settle(i, to)
	case !ok:
		note = fmt.Sprintf("it stated an amount of the %s; how much %s that makes could not be told.", c.oldName(), join(ws))
		s.put(a.from, to, s.begun(a.from, "the "+join(ws)))
	case len(ws) == 1:
		s.replaceWords(i, end, c)
		s.put(a.from, a.to, s.begun(a.from, texts[0]))
	default:
		for k := range ws {
			texts[k] += " " + ws[k]
		}
		s.put(a.from, to, s.begun(a.from, s.listed(a.from, to, end, texts)))
	}
	return note
}

// parts are the amounts of the new foods that a stated amount of the old one
// makes: the same share.
func (c *change) parts(a stated) ([]string, bool) {
	share, ok := a.share(c.old)
	var texts []string
	for _, r := range c.fresh {
		if !ok {
			return nil, false
		}
		var text string
		text, ok = partOf(r, share)
		texts = append(texts, text)
	}
	return texts, ok && len(texts) == len(c.names)
}

// begun writes text large where it starts the sentence.
func (s *sentence) begun(at int, text string) string {
	if at == 0 && s.large {
		return capital(text)
	}
	return text
}

// restate changes the amount of a food that stays: the share of the line that
// the step states is a share of the new amount.
func (s *sentence) restate(a stated, c *change) (note string) {
	if len(c.fresh) == 0 || sameReading(c.fresh[0], c.old) {
		return ""
	}
	texts, ok := c.parts(a)
	if !ok {
		return fmt.Sprintf("it states an amount of the %s that could not be fitted to the new one; go by the ingredient list.", c.oldName())
	}
	s.put(a.from, a.to, s.begun(a.from, texts[0]))
	return ""
}

func sameReading(a, b ingredient.Reading) bool {
	return a.HasAmount == b.HasAmount && a.Amount == b.Amount
}
