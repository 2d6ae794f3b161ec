package ingredient

import (
	"strings"

	"potwright/internal/measure"
)

// standalone foods are never the first half of a shared name: "butter or olive
// oil" is butter, "lemon or lime juice" is lemon juice.
var standalone = wordSet(`paprika cinnamon turmeric cumin oregano thyme basil parsley butter margarine milk water honey sugar salt lard shortening mayonnaise cream buttermilk
yogurt oil flour ketchup salsa eggs egg cornstarch bacon ham nuts raisins chicken beef turkey pork
vinegar wine broth stock bouillon cheese bread rice pasta molasses hummus tofu`)

// heads are nouns that two names before them may share.
var heads = wordSet(`juice broth stock oil pepper peppers cabbage pasta tortilla tortillas beans bean milk cheese onion onions
vinegar sauce bread flour sugar yogurt squash lettuce rice potato potatoes apple apples seeds nuts soup powder syrup wine salt
tomato tomatoes dressing mustard chips crackers noodles breasts breast thighs bouillon fillets peas wheat bran cereal
chilies chiles olives mushrooms pears peaches sausage steak meat cream mayonnaise margarine oats halves leaves zest peel grapes`)

// or handles an "or" within a segment; done is true where the rest of the
// segment was read as another food.
func (p *reader) or(at, after int, s segment, behind bool) (done bool) {
	if after >= s.to {
		return false
	}
	if behind && p.at > 0 && p.depth < maxDepth && p.namedOutright(after, s.to) && !s.paren && p.quantityFollows(after) {
		p.addAlternative(after, s.to)
		return true
	}
	if behind || !p.namedBefore(s.from, at) {
		p.r.Notes = append(p.r.Notes, "of "+p.written(s.from, s.to)+", the first is counted")
		if behind {
			p.skipChoice(after, s.to)
			return true
		}
		return p.choiceOfWords(after, s)
	}
	p.addAlternative(after, s.to)
	p.shareHead(s.from, at, after, s.to)
	return true
}

// listOfSorts recognises "navy, kidney or lima beans": the one word before the
// comma shares the noun at the end.
func (p *reader) listOfSorts(s segment) bool {
	if s.paren || p.at != 1 || len(p.food) != 1 || heads[p.food[0]] || standalone[p.food[0]] {
		return false
	}
	for i := s.from + 1; i < s.to-1; i++ {
		if e, _ := p.phraseAt(i, i+1); e.tag != tagOr {
			continue
		}
		right := p.nameWords(i+1, s.to)
		if len(right) < 2 || !heads[p.tokens[right[len(right)-1]].low] || !p.namedBefore(s.from, i) {
			return false
		}
		p.shared = p.tokens[right[len(right)-1]].low
		p.addAlternative(s.from, s.to)
		return true
	}
	return false
}

// quantityFollows reports whether a number stands at token i: "or 2 cups".
func (p *reader) quantityFollows(i int) bool {
	_, _, ok := p.quantityAt(i, false)
	return ok
}

// choiceOfSorts passes over one of several sorts behind the food: of "(red,
// yellow, or green)" only the first counts.
func (p *reader) choiceOfSorts(s segment) bool {
	if p.sorted != s.group || s.group == 0 {
		if s.paren && len(p.nameWords(s.from, s.to)) > 0 {
			p.sorted = s.group
		}
		return false
	}
	names := p.nameWords(s.from, s.to)
	if len(names) == 0 || !p.allAdjectives(names) || !colours[p.tokens[names[0]].low] && !p.orFollows(s) {
		return false
	}
	p.part("note", s.from, s.to)
	return true
}

// orFollows reports whether a later segment of the same parenthesis starts with
// "or".
func (p *reader) orFollows(s segment) bool {
	for k := p.at + 1; k < len(p.list) && p.list[k].group == s.group; k++ {
		if e, _ := p.phraseAt(p.list[k].from, p.list[k].to); e.tag == tagOr {
			return true
		}
	}
	return false
}

// colours exclude one another.
var colours = wordSet("red green yellow orange white black purple brown")

// skipChoice notes the second of two descriptions.
func (p *reader) skipChoice(from, to int) { p.part("note", from, to) }

// namedBefore reports whether tokens from..to hold a food's name or adjectives
// that could be one.
func (p *reader) namedBefore(from, to int) bool {
	for i := from; i < to; {
		e, n := p.phraseAt(i, to)
		if n == 0 {
			if p.tokens[i].kind == word {
				return true
			}
			n = 1
		} else if e.tag == tagFood || e.tag == tagAdjective {
			return true
		}
		i += n
	}
	return false
}

// choiceOfWords handles "fresh or frozen blueberries": the words after "or" up
// to the food are the second choice and are passed over.
func (p *reader) choiceOfWords(after int, s segment) bool {
	i := after
	for i < s.to {
		e, n := p.phraseAt(i, s.to)
		if n == 0 || (e.tag != tagState && e.tag != tagPrep && e.tag != tagAdverb && e.tag != tagSize && e.tag != tagNoise) {
			break
		}
		i += n
	}
	p.part("note", after, i)
	s.from = i
	p.words(s)
	return true
}

// sharing are heads that also go before another: "onion or garlic powder".
var sharing = wordSet("wheat bran onion")

// shareHead gives the first of two names the noun they share: "lemon or lime
// juice", "red or green pepper".
func (p *reader) shareHead(from, at, after, to int) {
	if p.quantityFollows(after) {
		return
	}
	left := p.nameWords(from, at)
	right := p.nameWords(after, to)
	if len(left) == 0 || len(left) > 2 || len(right) < 2 {
		return
	}
	last := p.tokens[right[len(right)-1]].low
	own := p.tokens[left[len(left)-1]].low
	if last == "squares" && len(right) > 2 {
		last = p.tokens[right[len(right)-2]].low
	}
	if !heads[last] || heads[own] && !sharing[own] && !(own == "tomato" && last == "juice") && last != "cereal" || standalone[own] && last != "broth" && last != "stock" && last != "bouillon" && last != "cereal" {
		return
	}
	if own == "water" {
		return
	}
	p.shared = last
	for k := 1; k < len(right); k++ { // "rice or wheat cereal squares" share both nouns
		if p.tokens[right[k]].low == "cereal" {
			p.shared = p.joined(right[k:])
			return
		}
	}
}

// joined are the words of tokens with a space between them.
func (p *reader) joined(tokens []int) string {
	words := make([]string, len(tokens))
	for i, t := range tokens {
		words[i] = p.tokens[t].low
	}
	return strings.Join(words, " ")
}

// nameWords are the tokens of from..to that are words of a name.
func (p *reader) nameWords(from, to int) []int {
	var list []int
	for i := from; i < to; {
		e, n := p.phraseAt(i, to)
		if n == 0 {
			e, n = p.unlisted(i)
		}
		if e.tag == tagFood || e.tag == tagAdjective {
			list = append(list, span(i, n)...)
		} else if e.tag == tagRest || e.tag == tagOr {
			break
		}
		i += n
	}
	return list
}

// seasonings go on the pan together without an amount each.
var seasonings = wordSet("salt pepper sugar paprika garlic onion thyme oregano basil parsley cumin")

// and handles "salt and pepper", "lettuce and tomato" and "1 teaspoon each
// basil and oregano"; done is true where the rest was read as a further food.
func (p *reader) and(at, after int, s segment, behind bool) (done bool) {
	if behind || after >= s.to || p.depth >= maxDepth || !p.namedBefore(s.from, at) {
		return false
	}
	left, right := p.nameWords(s.from, at), p.nameWords(after, s.to)
	if len(left) == 0 || len(right) == 0 || !p.namedOutright(s.from, at) {
		return false
	}
	pair := seasonings[p.tokens[left[len(left)-1]].low] && p.hasSeasoning(right) &&
		(p.tokens[left[len(left)-1]].low == "salt" || p.tokens[left[len(left)-1]].low == "pepper")
	if p.r.HasAmount && !pair && !p.eachOf {
		return false
	}
	p.together(after, s.to)
	return true
}

func (p *reader) hasSeasoning(tokens []int) bool {
	for _, i := range tokens {
		if seasonings[p.tokens[i].low] {
			return true
		}
	}
	return false
}

// together reads tokens from..to as a further food of the line.
func (p *reader) together(from, to int) {
	other := &reader{source: p.source, from: from, to: to, depth: p.depth + 1, eachOf: p.eachOf}
	other.line()
	if !other.named {
		return
	}
	nested := other.r.Together
	other.r.Together = nil
	p.r.Optional = p.r.Optional || other.r.Optional
	if other.r.ToTaste {
		p.use(other.r.UseOf)
	}
	if other.r.HasAmount {
		p.part("further", from, to)
	} else {
		p.part("food", from, to)
	}
	p.r.Together = append(append(p.r.Together, other.r), nested...)
}

// shareTogether gives the further foods of a line its amount and use: each the
// whole where the line says "each", else an equal share.
func (p *reader) shareTogether() {
	var sharing int64
	for i := range p.r.Together {
		t := &p.r.Together[i]
		if p.r.ToTaste {
			t.ToTaste, t.UseOf = true, p.r.UseOf
		}
		t.Optional = t.Optional || p.r.Optional
		t.Notes, t.Confidence = nil, 1
		if p.r.HasAmount && !t.HasAmount {
			t.HasAmount, t.Amount = true, p.r.Amount
			sharing++
		}
	}
	if sharing > 0 && !p.eachOf {
		p.split(sharing + 1)
	}
}

// split divides one written amount over the foods of the line.
func (p *reader) split(parts int64) {
	share, ok := p.r.Amount.Quantity.Scale(measure.NewRatio(1, parts))
	if !ok {
		return
	}
	written := p.r.Amount
	for i := range p.r.Together {
		if p.r.Together[i].Amount == written {
			p.r.Together[i].Amount.Quantity = share
		}
	}
	p.r.Amount.Quantity = share
	p.note(0.2, "the amount is split evenly between "+p.r.Food+" and "+strings.ToLower(p.r.Together[0].Food))
}
