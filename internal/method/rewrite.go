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
// gone. notes are sentences for the cook about what could not be placed.
func Rewrite(rec recipe.Recipe, lines []foodmatch.Matched, changes []LineChange) (steps []recipe.Step, notes []string) {
	w := &writer{book: newBook(lines), changes: changesOf(lines, changes), added: newAdded(), seen: map[string]bool{}}
	w.find(rec.Steps)
	out := make([]recipe.Step, len(rec.Steps))
	for i, s := range rec.Steps {
		out[i] = recipe.Step{Section: s.Section, Text: w.step(i, s.Text)}
	}
	for i := range w.changes {
		w.add(&w.changes[i], rec.Steps)
	}
	w.table()
	w.missed(rec.Steps, out)
	return w.added.steps(out), w.notes
}

type writer struct {
	book    *book
	changes []change
	added   *added
	// uses is the first step that mentions each change's food, -1 for none.
	uses  []int
	notes []string
	seen  map[string]bool
}

func (w *writer) note(format string, args ...any) {
	text := fmt.Sprintf(format, args...)
	if !w.seen[text] {
		w.seen[text] = true
		w.notes = append(w.notes, text)
	}
}

func (w *writer) find(steps []recipe.Step) {
	mentions := Mentions(steps, w.book.lines)
	for i := range w.changes {
		use := -1
		for k := len(steps) - 1; k >= 0; k-- {
			for _, m := range mentions[k] {
				if w.changes[i].is(&m) && !w.stays(&m) {
					use = k
				}
			}
		}
		w.uses = append(w.uses, use)
	}
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
		if w.mentions(edited, &w.changes[k]) {
			for _, e := range w.changes[k].edits() {
				if e.Do == "replace" {
					edited = replaceText(edited, e.Find, e.Text)
				}
			}
		}
	}
	tokens, tail := lex(edited)
	w.book.mark(tokens)
	ss := sentences(tokens)
	for k := range ss {
		w.sentence(i, &ss[k])
	}
	if !anyChanged(ss) {
		return edited
	}
	return w.settled(ss, tail)
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

func (w *writer) sentence(step int, s *sentence) {
	for k := range w.changes {
		c := &w.changes[k]
		for _, e := range c.edits() {
			if e.Do == "drop" {
				s.drop(e.Find, c)
			}
		}
	}
	s.remove(w.gone)
	for k := range w.changes {
		c := &w.changes[k]
		if c.leaves {
			continue
		}
		for _, n := range s.replace(c) {
			w.note("%s", n)
		}
		for _, t := range s.tokens {
			if t.mention != nil && c.is(t.mention) && t.mention.Ambiguous() && !c.sameFood() {
				w.note("Step %d says “%s”, which may mean several ingredients; it was left as it is.", step+1, t.mention.Words)
			}
		}
	}
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

// add makes the edits that add words.
func (w *writer) add(c *change, steps []recipe.Step) {
	use := w.uses[w.index(c)]
	for _, e := range c.edits() {
		if e.Do != "add" && e.Do != "move" {
			continue
		}
		w.added.put(e.Text, e.At, use)
		if use < 0 && e.At != "start" && e.At != "end" && len(steps) > 0 {
			w.note("The method does not mention the %s, so this is said at the end: %s", c.name(), finished(e.Text))
		}
	}
}

func (w *writer) index(c *change) int {
	for i := range w.changes {
		if &w.changes[i] == c {
			return i
		}
	}
	return 0
}

// table says what is offered at the table.
func (w *writer) table() {
	var offered []string
	for _, c := range w.changes {
		offered = append(offered, c.option.AtTable...)
	}
	if len(offered) > 0 {
		w.added.put("At the table: "+strings.Join(offered, "; "), "end", -1)
	}
}

// missed notes replaced foods that no step names, and kept ones that a step
// named before and none does now.
func (w *writer) missed(old, rewritten []recipe.Step) {
	for i := range w.changes {
		c := &w.changes[i]
		if w.uses[i] >= 0 || c.leaves || c.sameFood() || len(c.edits()) > 0 || speaksOfAll(old) || len(old) == 0 {
			continue
		}
		if now := join(c.newWords()); now != "" {
			w.note("The method does not mention the %s; use the %s where the dish takes it.", c.name(), now)
		}
	}
	before, now := w.named(old), w.named(rewritten)
	for line := range w.book.lines {
		if before[line] && !now[line] && !w.touches(line) {
			w.note("The method no longer mentions the %s; use it where the recipe did.", w.book.lines[line].Reading.Food)
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

func (w *writer) named(steps []recipe.Step) map[int]bool {
	out := map[int]bool{}
	for _, ms := range Mentions(steps, w.book.lines) {
		for _, m := range ms {
			out[m.Line] = true
			for _, o := range m.Others {
				out[o] = true
			}
		}
	}
	return out
}

// speaksOfAll reports whether a step says "everything", "the seasonings" and the
// like.
func speaksOfAll(steps []recipe.Step) bool {
	for _, s := range steps {
		for _, word := range words(s.Text) {
			if everything[word] {
				return true
			}
		}
	}
	return false
}
