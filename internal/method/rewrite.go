package method

import (
	"fmt"
	"strings"

	"potwright/internal/foodmatch"
	"potwright/internal/recipe"
)

// Rewrite fits the steps of a recipe to changed lines. lines[i] belongs to
// rec.Lines[i]. Mentions of a changed food take the new one's words, a stated
// amount becomes the same share of the new amount, what is left out leaves the
// sentences it stood in, and the edits of the rules are made. Steps that speak
// of no changed line stay byte for byte; a step of which nothing is left is
// gone. What could not be placed for certain is marked.
func Rewrite(rec recipe.Recipe, lines []foodmatch.Matched, changes []LineChange) Revision {
	w := &writer{book: newBook(namesOf(lines)), added: newAdded(), longer: map[use]longer{}}
	w.changes = changesOf(w.book, changes)
	w.old = w.book.read(rec.Steps)
	for i := range w.changes {
		w.plan(&w.changes[i])
	}
	for i := range w.changes {
		w.takes(&w.changes[i])
	}
	w.besides(changes)
	out := make([]recipe.Step, len(rec.Steps))
	for i, s := range rec.Steps {
		out[i] = recipe.Step{Section: s.Section, Text: w.step(i, s.Text)}
	}
	w.table()
	w.missed(out)
	return w.revision(rec.Steps, out)
}

type writer struct {
	book    *book
	changes []change
	old     reader
	added   *added
	// marks hold the index of the recipe's own step until they are laid out.
	marks []Mark
	edits []Edit
	// longer are the sentences whose time changes, each with the change it is for.
	longer    map[use]longer
	timed     []Edit
	offered   []string
	offeredBy int
}

func (w *writer) mark(step int, c *change, reason string) {
	m := Mark{Step: step, Change: c.index, Reason: reason}
	if c.option.Rule != nil {
		m.Swap = c.option.Rule.Title
	}
	for _, other := range w.marks {
		if other == m {
			return
		}
	}
	w.marks = append(w.marks, m)
}

// revision lays the steps out and counts edits and marks by the new steps.
func (w *writer) revision(old, rewritten []recipe.Step) Revision {
	l := w.added.steps(rewritten)
	r := Revision{Steps: l.steps, Edits: l.edits}
	for _, e := range append(w.edits, w.timed...) {
		if e.Was >= 0 && old[e.Was].Text != rewritten[e.Was].Text {
			e.Step = l.now[e.Was]
			r.Edits = append(r.Edits, e)
		}
	}
	for _, e := range w.added.within() {
		e.Step = l.now[e.Was]
		r.Edits = append(r.Edits, e)
	}
	for _, m := range w.marks {
		if m.Step >= 0 {
			m.Step = l.now[m.Step]
		}
		r.Marks = append(r.Marks, m)
	}
	return r
}

// gone reports whether a mention speaks of a food that the steps no longer say.
// An ambiguous one is gone only where every line it may mean is.
func (w *writer) gone(m *Mention) bool {
	leaves := func(line int, any bool) bool {
		for _, c := range w.changes {
			if c.line == line && c.leaves && (any || c.part == m.Part) {
				return true
			}
		}
		return false
	}
	if !leaves(m.Line, false) {
		return false
	}
	for _, other := range m.Others {
		if !leaves(other, true) {
			return false
		}
	}
	return true
}

// stays reports whether a mention may mean a line that the change is not of.
func (w *writer) stays(m *Mention) bool { return m.Ambiguous() && !w.gone(m) }

// step is the new text of a step.
func (w *writer) step(i int, text string) string {
	edited := text
	for k := range w.changes {
		c := &w.changes[k]
		if edited == text && !w.old.mentions(i, c) || edited != text && !w.mentions(edited, c) {
			continue
		}
		w.edits = append(w.edits, Edit{Was: i, Change: c.index})
		for _, e := range c.edits() {
			if e.Do == "replace" {
				edited = replaceText(edited, e.Find, e.Text)
			}
		}
		edited = c.doneness(edited)
	}
	tokens, tail := lex(edited)
	w.book.mark(tokens)
	ss := sentences(tokens)
	for k := range ss {
		w.sentence(use{i, k}, &ss[k])
	}
	w.followUps(i, ss)
	ss = w.added.into(i, ss)
	if !anyChanged(ss) {
		return edited
	}
	return w.settled(ss, tail)
}

// followUps leaves out what was then done with a food whose own sentence is
// gone: "drain", "cool".
func (w *writer) followUps(step int, ss []sentence) {
	for k := 0; k+1 < len(ss); k++ {
		u := use{step, k}
		if len(ss[k].tokens) > 0 || len(w.added.behind[u]) > 0 || !w.old.handled(u) {
			continue
		}
		for k+1 < len(ss) && ss[k+1].onlyFollows() {
			k++
			ss[k].clear()
		}
	}
}

func (w *writer) mentions(text string, c *change) bool {
	tokens, _ := lex(text)
	w.book.mark(tokens)
	for _, t := range tokens {
		if t.mention != nil && c.is(t.mention) {
			return true
		}
	}
	return false
}

func (w *writer) sentence(u use, s *sentence) {
	for k := range w.changes {
		c := &w.changes[k]
		for _, e := range c.edits() {
			if e.Do == "drop" {
				s.drop(e.Find, c)
			}
		}
		s.dropDone(c)
		s.warmPowder(c)
		if t := w.longer[u]; t.of == c {
			s.retime(t.minutes)
		}
		if c.warms && c.use == u && s.onlyWarms(c) {
			s.clear()
		}
		if (c.cooking != "" || c.replaces) && c.use == u {
			s.cookNew(c)
		}
	}
	s.remove(w.gone)
	for k := range w.changes {
		c := &w.changes[k]
		if c.leaves {
			continue
		}
		for _, reason := range s.replace(c) {
			w.mark(u.step, c, reason)
		}
		for _, t := range s.tokens {
			if t.mention != nil && w.unclear(t.mention, c) {
				w.mark(u.step, c, fmt.Sprintf("it says “%s”, which may mean several ingredients, so its words are kept.", t.mention.Words))
			}
		}
	}
}

// unclear reports whether a mention may mean a changed food among others, and
// does not speak of what comes in its place as well.
func (w *writer) unclear(m *Mention, c *change) bool {
	if !m.Ambiguous() || c.sameFood() || !c.is(m) && !hasInt(m.Others, c.line) {
		return false
	}
	ws := words(m.Words)
	for i := range c.fresh {
		kinds, ok := groups[ws[len(ws)-1]]
		if saidIn(m.Words, c.names[i]) || ok && ofKinds(freshKinds(c, i), kinds) {
			return false
		}
	}
	return true
}

func hasInt(all []int, n int) bool {
	for _, x := range all {
		if x == n {
			return true
		}
	}
	return false
}

func anyChanged(ss []sentence) bool {
	for _, s := range ss {
		if s.changed {
			return true
		}
	}
	return false
}

// settled looks again for what should be gone: words that were apart may now
// stand together. What still speaks of it after a few looks is left out.
func (w *writer) settled(ss []sentence, tail string) string {
	const looks = 4
	for look := range looks {
		var tokens []token
		for _, s := range ss {
			tokens = append(append(tokens, s.tokens...), s.mark...)
		}
		for k := range tokens {
			tokens[k].mention = nil
		}
		w.book.mark(tokens)
		at, again := 0, false
		for k := range ss {
			copy(ss[k].tokens, tokens[at:])
			at += len(ss[k].tokens) + len(ss[k].mark)
			if ss[k].first(w.gone) < 0 {
				continue
			}
			again = true
			if look == looks-1 {
				ss[k].clear()
				continue
			}
			ss[k].remove(w.gone)
		}
		if !again {
			break
		}
	}
	return assemble(ss, tail)
}

// assemble joins sentences again. The first of those that are left starts the
// step, the last one ends it as the step ended.
func assemble(ss []sentence, tail string) string {
	var kept []sentence
	for _, s := range ss {
		if !s.empty() {
			kept = append(kept, s)
		}
	}
	if len(kept) == 0 {
		return ""
	}
	last := &kept[len(kept)-1]
	if len(last.mark) > 0 && last.mark[0].text == ";" {
		last.mark = ss[len(ss)-1].mark
	}
	kept[0].large = kept[0].large || ss[0].large
	var b strings.Builder
	for i, s := range kept {
		text := render(s.tokens)
		trimmed := strings.TrimLeft(text, " \t\n,")
		if i > 0 && trimmed != "" {
			b.WriteString(" ")
		}
		if s.changed && s.large || i == 0 && s.large {
			trimmed = capital(trimmed)
		}
		b.WriteString(trimmed + render(s.mark))
	}
	return b.String() + tail
}

// table says what is offered at the table.
func (w *writer) table() {
	if len(w.offered) > 0 {
		w.added.put("At the table: "+strings.Join(w.offered, "; "), "last", use{-1, 0}, w.offeredBy)
	}
}

// besides says the steps of what is put in besides the lines: "with" is where the
// liquid goes in, "end" stands before the dish is served.
func (w *writer) besides(given []LineChange) {
	for i, g := range given {
		if g.Line >= 0 || g.Option.Rule == nil {
			continue
		}
		for _, e := range g.Option.Rule.Method {
			if e.Do != "add" {
				continue
			}
			at, u := e.At, w.old.liquid()
			if served := w.old.served(); at == "end" && served.step >= 0 {
				at, u = "ahead", served
			}
			w.added.put(e.Text, at, u, i)
		}
	}
}

// missed marks foods that stay, that a step named before and none does now.
func (w *writer) missed(rewritten []recipe.Step) {
	if len(w.changes) == 0 {
		return
	}
	before, now := w.old.named(), w.book.read(rewritten).named()
	for line := range w.book.lines {
		if before[line] && !now[line] && !w.touches(line) {
			w.mark(-1, &w.changes[0], fmt.Sprintf("the method no longer mentions the %s; use it where the recipe did.", w.book.lines[line].Line.Reading.Food))
		}
	}
}

func (w *writer) touches(line int) bool {
	for _, c := range w.changes {
		if c.line == line {
			return true
		}
	}
	return false
}
