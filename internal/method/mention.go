package method

import (
	"strings"
	"unicode/utf8"

	"potwright/internal/foodmatch"
	"potwright/internal/measure"
	"potwright/internal/recipe"
)

// Mention is where a step speaks of an ingredient line.
type Mention struct {
	// Line is the index of the ingredient line, Part the food on it: 0, but for
	// "salt and pepper" on one line, where pepper is 1.
	Line, Part int
	// Others are further lines that the words may mean just as well; the mention
	// is ambiguous where there are any.
	Others []int
	// From and To are rune columns in the step's text, To excluded.
	From, To int
	Words    string
	// Doing is set where the food is done to something: "salt the water".
	Doing bool
}

// Ambiguous reports whether the words may mean several lines.
func (m *Mention) Ambiguous() bool { return len(m.Others) > 0 }

// Mentions finds the words of each step that speak of a line. Words for what
// the lines make together ("the sauce") and for what is not used ("without
// salt") are none.
func Mentions(steps []recipe.Step, lines []foodmatch.Matched) [][]Mention {
	b := newBook(namesOf(lines))
	out := make([][]Mention, len(steps))
	for i, s := range steps {
		tokens, _ := lex(s.Text)
		b.mark(tokens)
		var last *Mention
		for _, t := range tokens {
			if t.mention != nil && t.mention != last {
				last = t.mention
				out[i] = append(out[i], *last)
			}
		}
	}
	return out
}

// mark sets the mention of every token that is part of one.
func (b *book) mark(tokens []token) {
	for i := 0; i < len(tokens); {
		n, found := b.at(tokens, i)
		if tokens[i].norm == "pepper" && besideSalt(tokens, i) {
			found = b.spices(found)
		}
		if len(found) == 0 || skipped(tokens, i, n) {
			i += max(n, 1)
			continue
		}
		best, others := b.resolve(tokens, i, found)
		b.mentions = append(b.mentions, Mention{Line: best.line, Part: best.part, Others: others, From: tokens[i].from})
		m := &b.mentions[len(b.mentions)-1]
		last := tokens[i+n-1]
		m.To, m.Words = last.from+utf8.RuneCountInString(last.text), last.text
		if n > 1 {
			m.Words = render(tokens[i : i+n])[len(tokens[i].space):]
		}
		m.Doing = n == 1 && isDoing(tokens, i)
		for k := i; k < i+n; k++ {
			tokens[k].mention = m
		}
		i += n
	}
}

// spices are the names of foods that are no vegetables: the pepper beside salt
// is never a bell pepper.
func (b *book) spices(found []name) []name {
	var out []name
	for _, n := range found {
		if !b.isVegetable(n) {
			out = append(out, n)
		}
	}
	return out
}

// isVegetable tells a pepper that is eaten as a vegetable by its food or, where
// that was not read, by its words.
func (b *book) isVegetable(n name) bool {
	line := b.lines[n.line]
	if line.parts[n.part].has("bell", "sweet", "capsicum") {
		return true
	}
	items := line.Line.Items
	if n.part >= len(items) || items[n.part].Food == nil {
		return false
	}
	return items[n.part].Food.HasKind("vegetable") || items[n.part].Food.HasKind("non_starchy_vegetable")
}

// at finds the names that start at token i: the longest, and of those the best
// in rank. n is how many tokens they take; without names, how many to skip.
func (b *book) at(tokens []token, i int) (n int, found []name) {
	if !tokens[i].word || tokens[i].fixed {
		return 1, nil
	}
	found = b.found[:0]
	for at := b.first(tokens[i].norm); at > 0; at = b.names[at].next {
		nm := b.name(at)
		length := matches(tokens, i, nm.words)
		switch {
		case length == 0 || length < n:
			continue
		case length > n:
			n, found = length, found[:0]
		}
		found = append(found, nm)
	}
	b.found = found
	for _, c := range compounds[tokens[i].norm] {
		if length := matches(tokens, i, c); length > n {
			n, found = length, nil
		}
	}
	best := classWord
	for _, nm := range found {
		best = min(best, nm.rank)
	}
	worst := best
	if best == headNoun && tokens[i].norm == "cheese" {
		worst = classWord // cottage cheese is no more "the cheese" than mozzarella
	}
	kept := found[:0]
	for _, nm := range found {
		if nm.rank <= worst && !hasName(kept, nm) {
			kept = append(kept, nm)
		}
	}
	return max(n, 1), kept
}

func hasName(names []name, n name) bool {
	for _, x := range names {
		if x.line == n.line && x.part == n.part {
			return true
		}
	}
	return false
}

// matches is how many tokens from i on the words take, hyphens included; 0 where
// they are not there.
func matches(tokens []token, i int, ws []string) int {
	at := i
	for k, w := range ws {
		if k > 0 && at < len(tokens) && isHyphen(tokens[at]) {
			at++
		}
		if at >= len(tokens) || tokens[at].norm != w || tokens[at].fixed {
			return 0
		}
		at++
	}
	return at - i
}

func isHyphen(t token) bool { return t.text == "-" || t.text == "‑" }

// leavesOut reports whether token i is a word whose object is not meant: "besides the
// nuts". "Beside" has the same normal form.
func leavesOut(tokens []token, i int) bool {
	if i < 0 {
		return false
	}
	switch strings.ToLower(tokens[i].text) {
	case "without", "no", "besides", "except":
		return true
	}
	return false
}

// skipped are words that do not speak of the food on its own: "without salt",
// "salt-free", "with their juices".
func skipped(tokens []token, i, n int) bool {
	if end := i + n; end+1 < len(tokens) && isHyphen(tokens[end]) && tokens[end+1].space == "" && tokens[end+1].norm == "free" {
		return true
	}
	if n == 1 && made[tokens[i].norm] && !bare(tokens, i) {
		return true
	}
	at := i - 1
	for at >= 0 && (tokens[at].norm == "any" || tokens[at].norm == "the" || tokens[at].norm == "adding" || tokens[at].norm == "more") {
		at--
	}
	if leavesOut(tokens, at) || before(tokens, at+1) == "and" && leavesOut(tokens, at-2) {
		return true
	}
	prev := before(tokens, i)
	return tokens[i].norm == "juice" && n == 1 && (prev == "their" || prev == "it" || prev == "its" || prev == "pan" || prev == "cooking")
}

// bare reports whether a word stands as an ingredient without "the": after a
// verb, in a list, or after "with".
func bare(tokens []token, i int) bool {
	prev := before(tokens, i)
	return i > 0 && (tokens[i-1].text == "," || verbs[prev] || conjunctions[prev] || prepositions[prev])
}

func before(tokens []token, i int) string {
	if i == 0 {
		return ""
	}
	return tokens[i-1].norm
}

func after(tokens []token, i int) string {
	if i+1 >= len(tokens) {
		return ""
	}
	return tokens[i+1].norm
}

// isDoing reports whether the food is a verb here: it starts a clause and an
// object follows.
func isDoing(tokens []token, i int) bool {
	if _, ok := doings[tokens[i].norm]; !ok {
		return false
	}
	next := after(tokens, i)
	if next != "it" && next != "them" && (!determiners[next] || next == "all") {
		return false
	}
	prev := before(tokens, i)
	return i == 0 || prev == "" || prev == "and" || prev == "then" || prev == "lightly" || prev == "generously"
}

// resolve picks the line that fits best; others are those that fit as well.
func (b *book) resolve(tokens []token, i int, found []name) (best name, others []int) {
	top := -1
	for _, nm := range found {
		fit := b.fit(tokens, i, nm)
		switch {
		case fit > top:
			top, best, others = fit, nm, nil
		case fit == top && nm.line != best.line:
			others = append(others, nm.line)
		}
	}
	return best, others
}

// fit is how much around a mention speaks for a line: words before it that the
// line has too, an amount that is the line's own, what the line is for, and salt
// beside pepper.
func (b *book) fit(tokens []token, i int, nm name) int {
	p := &b.lines[nm.line].parts[nm.part]
	fit := 1
	for k := i - 1; k >= 0 && k >= i-3 && tokens[k].word; k-- {
		if p.has(tokens[k].norm) && !determiners[tokens[k].norm] && !prepositions[tokens[k].norm] {
			fit += 2
		}
	}
	if amount := p.reading.Amount; p.reading.HasAmount {
		if a, ok := amountBefore(tokens, 0, i); ok && sameAmount(a, amount.Quantity, amount.Unit) {
			fit += 4
		}
	}
	fit += p.purpose(tokens[max(0, i-near):min(len(tokens), i+near)])
	if tokens[i].norm == "pepper" && besideSalt(tokens, i) && p.has("black", "white", "ground") {
		fit += 3
	}
	return fit
}

// near is how far around a mention, in tokens, its purpose is looked for.
const near = 40

// besideSalt reports whether token i is spoken of as a seasoning: "salt and
// pepper", "season with pepper".
func besideSalt(tokens []token, i int) bool {
	for k := max(0, i-3); k < i; k++ {
		if tokens[k].norm == "salt" || tokens[k].norm == "season" {
			return true
		}
	}
	return false
}

// purpose looks for what follows "for" in a line ("for the pasta water") in the
// step: a line with a purpose that the step does not share fits less.
func (p *part) purpose(tokens []token) int {
	if !p.hasUse {
		return 0
	}
	for _, use := range p.uses {
		for _, t := range tokens {
			if t.norm == use {
				return 2
			}
		}
	}
	return -1
}

func sameAmount(a stated, q measure.Quantity, u measure.Unit) bool {
	return a.unit.Name == u.Name && a.quantity.Low == q.Low && a.quantity.High == q.High
}
