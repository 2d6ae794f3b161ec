package ingredient

import (
	"strings"

	"potwright/internal/measure"
)

// rest files the remainder of a segment as an instruction, or as "plus more".
func (p *reader) rest(e entry, from, to int) {
	if e.tag == tagPlusMore || p.is(from, "plus") || p.is(from, "+") {
		p.r.PlusMore = true
		p.part("note", from, to)
		return
	}
	for i := from; i < to; i++ {
		if got, n := p.phraseAt(i, to); n > 0 && (got.tag == tagOptional || got.tag == tagUse) {
			p.file(got, i, n)
		}
	}
	p.r.Preparation = append(p.r.Preparation, p.written(from, to))
	p.part("preparation", from, to)
	if examples[p.tokens[from].low] {
		p.skipExamples()
	}
}

// examples start a list that only illustrates: "such as Braeburn, Empire, or
// Fuji".
var examples = wordSet("such like including e.g e.g. try recommended choose")

// skipExamples passes over the segments that go on with a list of examples: the
// rest of the parenthesis, or up to the "or" or "and" that closes the list.
func (p *reader) skipExamples() {
	group := p.list[p.at].group
	end := p.at
	for k := p.at + 1; k < len(p.list) && p.list[k].group == group; k++ {
		e, _ := p.phraseAt(p.list[k].from, p.list[k].to)
		if closes := e.tag == tagOr || e.tag == tagAnd; closes || group > 0 {
			end = k
			if closes {
				break
			}
		}
	}
	for ; p.at < end; p.at++ {
		p.part("note", p.list[p.at+1].from, p.list[p.at+1].to)
	}
}

// preparation takes a run of preparation words, adverbs and their joints as one
// phrase and returns how many tokens it took.
func (p *reader) preparation(i int, s segment) int {
	end := i
	for k := i; k < s.to; {
		e, n := p.phraseAt(k, s.to)
		prep := n > 0 && (e.tag == tagPrep || e.tag == tagAdverb)
		joint := n > 0 && (e.tag == tagAnd) && k+n < s.to && p.isPrep(k+n, s.to)
		if !prep && !joint {
			break
		}
		k += n
		if prep {
			end = k
		}
	}
	text := strings.ToLower(p.written(i, end))
	p.r.Preparation = append(p.r.Preparation, text)
	p.part("preparation", i, end)
	return end - i
}

func (p *reader) isPrep(i, to int) bool {
	e, n := p.phraseAt(i, to)
	return n > 0 && (e.tag == tagPrep || e.tag == tagAdverb)
}

// maxQualifiers is how many unlisted words behind a comma may still be part of
// the food's name ("cheese, cheddar").
const maxQualifiers = 4

// place puts the name words of a segment where they belong: the food's name,
// words before it, or a note.
func (p *reader) place(tokens []int, s segment, behind bool) {
	if len(tokens) == 0 {
		return
	}
	names := make([]string, 0, len(tokens))
	for _, i := range tokens {
		names = append(names, p.tokens[i].low)
	}
	switch {
	case !behind:
		p.food = append(p.food, names...)
		p.whole = append(p.whole, tokens...)
	case p.unitBehind(tokens):
	case len(tokens) <= maxQualifiers && (!s.paren || p.allAdjectives(tokens)):
		p.qualifiers = append(names, p.qualifiers...)
		p.whole = append(p.whole, tokens...)
	default:
		text := p.written(tokens[0], tokens[len(tokens)-1]+1)
		p.r.Preparation = append(p.r.Preparation, text)
		p.part("note", tokens[0], tokens[len(tokens)-1]+1)
	}
}

// unitBehind reads a unit that stands behind the food: "3 celery (stalks)",
// "1 nutmeg (dash)".
func (p *reader) unitBehind(tokens []int) bool {
	if len(tokens) != 1 || p.r.HasAmount && p.r.Amount.Unit.Name != "each" {
		return false
	}
	u, ok := measure.FindUnit(p.tokens[tokens[0]].low)
	if ok && !p.r.HasAmount && (u.Name == "dash" || u.Name == "pinch") {
		p.r.HasAmount, p.r.Amount.Quantity = true, measure.Exactly(measure.Whole(1))
	}
	if !ok || !p.r.HasAmount || !trailing[u.Name] && u.Name != "dash" && u.Name != "pinch" {
		return false
	}
	p.r.Amount.Unit = u
	p.part("unit", tokens[0], tokens[0]+1)
	return true
}

func (p *reader) allAdjectives(tokens []int) bool {
	for k := 0; k < len(tokens); {
		e, n := p.phraseAt(tokens[k], tokens[len(tokens)-1]+1)
		if n == 0 || e.tag != tagAdjective && (e.tag != tagFood || e.value == compound) {
			return false
		}
		k += n
	}
	return true
}
