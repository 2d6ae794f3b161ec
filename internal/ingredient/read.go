package ingredient

import (
	"slices"
	"strings"
	"unicode/utf8"
)

// maxRunes is how much of a line is read; the rest is kept in Text and said so.
const maxRunes = 600

// maxDepth bounds alternatives within alternatives.
const maxDepth = 3

// Read reads one ingredient line. It never fails: what it could not understand
// is said in Notes and lowers Confidence. Parts hold columns of text as given.
func Read(text string) Reading {
	source := scan(clip(text))
	p := &reader{source: source, to: len(source.tokens)}
	p.line()
	r := p.r
	r.Text = text
	r.Parts = inOrder(r.Parts)
	if utf8.RuneCountInString(text) > maxRunes {
		r.Notes = append(r.Notes, "the line is very long; only its beginning was read")
		r.Confidence /= 2
	}
	return r
}

// inOrder sorts parts by column and drops those that lie within another.
func inOrder(parts []Part) []Part {
	slices.SortStableFunc(parts, func(a, b Part) int {
		if a.From != b.From {
			return a.From - b.From
		}
		return b.To - a.To
	})
	kept, end := parts[:0], 0
	for _, p := range parts {
		if p.From >= end {
			kept, end = append(kept, p), p.To
		}
	}
	return kept
}

func clip(text string) string {
	n := 0
	for i := range text {
		if n == maxRunes {
			return text[:i]
		}
		n++
	}
	return text
}

// reader reads tokens from..to of a source into one Reading.
type reader struct {
	*source
	from, to int
	depth    int
	r        Reading

	doubt      float64  // taken from the confidence
	food       []string // words of the food's name
	qualifiers []string // words that go before it, found behind it
	named      bool     // food holds more than adjectives
	eachOf     bool     // "1 teaspoon each salt and pepper"
	whole      []int    // tokens of food, for the parts
	shared     string   // the noun that the first of two names shares

	given *Reading // whose amount an alternative without one takes

	list []segment // of the line
	at   int       // the segment being read
	// wholeUnit is set for "5 whole cloves".
	wholeUnit bool
	sorted    int // the parenthesis that has told the sort

	fromFruit     string // "juice" or "zest" of a fruit that is counted
	bothFromFruit bool   // juice and zest
}

func (p *reader) note(doubt float64, sentence string) {
	p.doubt += doubt
	p.r.Notes = append(p.r.Notes, sentence)
}

func (p *reader) part(name string, from, to int) {
	if from < to {
		p.r.Parts = append(p.r.Parts, Part{name, p.tokens[from].from, p.tokens[to-1].to})
	}
}

// line reads the whole span: amount, then segments, then what follows from
// them together.
func (p *reader) line() {
	i := p.skipLabel(p.skipBullets(p.from))
	i = p.head(i)
	p.list = p.segments(i)
	for p.at = 0; p.at < len(p.list); p.at++ {
		p.segment(p.list[p.at])
	}
	p.finish()
	p.r.Text = p.written(p.from, p.to)
}

// bullets are the marks that stand before a line of a list.
const bullets = "-–—•·*▢☐☑□■▪◦●○►▸✓✔[]+_~>"

func (p *reader) skipBullets(i int) int {
	for i < p.to && p.tokens[i].kind == mark && strings.Contains(bullets, p.tokens[i].low) {
		i++
	}
	if p.is(i, "x") && i > p.from && p.is(i+1, "]") { // a ticked box
		i += 2
	}
	return i
}

// skipLabel passes over a word or two that tell what the foods of a line are for, up to
// a colon with an amount behind it: "Toppings: 1 avocado, 1/2 cup salsa".
func (p *reader) skipLabel(i int) int {
	for k := i; k < min(i+3, p.to-1); k++ {
		if p.is(k, ":") && k > i {
			first := p.segments(k + 1)
			if len(first) > 0 && p.amountOfFood(k+1, first[0].to) {
				p.part("note", i, k)
				return k + 1
			}
			break
		}
		if p.tokens[k].kind != word {
			break
		}
	}
	return i
}

// segment is a stretch of the line between commas or within parentheses.
type segment struct {
	from, to int
	paren    bool
	group    int // counts parentheses; 0 outside them
	outer    int // the group of the outermost parenthesis
}

// segments cuts tokens i.. at commas, semicolons, dashes and parentheses.
func (p *reader) segments(i int) []segment {
	var list []segment
	depth, start, group, outer := 0, i, 0, 0
	cut := func(end int) {
		if start < end {
			s := segment{from: start, to: end, paren: depth > 0}
			if s.paren {
				s.group, s.outer = group, outer
			}
			list = append(list, s)
		}
		start = end + 1
	}
	for ; i < p.to; i++ {
		t := p.tokens[i]
		if t.kind != mark {
			continue
		}
		switch t.low {
		case "(", "[", "{":
			cut(i)
			depth++
			group++
			if depth == 1 {
				outer = group
			}
		case ")", "]", "}":
			cut(i)
			depth = max(0, depth-1)
		case ",", ";", ":", "*":
			cut(i)
		case "-", "–", "—":
			if p.spaced(i) || p.is(i+1, "-") && i+1 < p.to {
				cut(i)
			}
		case ".":
			if i+1 == p.to || p.spaced(i) || p.tokens[i+1].at > t.end {
				cut(i)
			}
		}
	}
	cut(p.to)
	return list
}

// spaced reports whether a dash has space around it, so that it parts phrases
// and joins no word.
func (p *reader) spaced(i int) bool {
	before := i == 0 || p.tokens[i-1].end < p.tokens[i].at
	after := i+1 >= len(p.tokens) || p.tokens[i+1].at > p.tokens[i].end
	return before && after
}

// finish draws the conclusions that need the whole line.
func (p *reader) finish() {
	p.nameFood()
	p.saltAndPepper()
	p.borrowAmount()
	p.citrus()
	if g := p.given; g != nil && !p.r.HasAmount {
		p.r.HasAmount, p.r.Amount = true, g.Amount
		p.r.HasContainer, p.r.Container = g.HasContainer, g.Container
	}
	if p.r.Food == "" {
		p.note(0.7, "no food was found on this line")
	}
	if !p.r.HasAmount && !p.r.ToTaste && p.depth == 0 {
		p.note(0.15, "no amount is written")
	}
	p.shareTogether()
	p.r.Confidence = max(0, 1-p.doubt)
}

// saltAndPepper reads "S&P".
func (p *reader) saltAndPepper() {
	if p.r.Food == "s" && len(p.r.Together) == 1 && p.r.Together[0].Food == "p" {
		p.r.Food, p.r.Together[0].Food = "salt", "pepper"
	}
}

// nameFood joins the food's name and takes a trailing unit out of it:
// "garlic cloves", "celery stalks".
func (p *reader) nameFood() {
	p.trailingUnit()
	words := make([]string, 0, len(p.qualifiers)+len(p.food)+1)
	for _, q := range p.qualifiers {
		if !slices.Contains(p.food, q) && !slices.Contains(words, q) {
			words = append(words, q)
		}
	}
	words = append(words, p.food...)
	if p.shared != "" {
		words = append(words, p.shared)
	}
	p.r.Food = strings.Join(words, " ")
	if p.r.Food == "" && p.r.HasAmount && p.r.Amount.Unit.Name != "each" {
		p.unitIsFood()
	}
	for start := 0; start < len(p.whole); {
		end := start + 1
		for end < len(p.whole) && p.whole[end] == p.whole[end-1]+1 {
			end++
		}
		p.part("food", p.whole[start], p.whole[end-1]+1)
		start = end
	}
}
