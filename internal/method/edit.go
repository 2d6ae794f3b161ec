package method

import (
	"regexp"
	"strings"

	"potwright/internal/recipe"
)

// added are the steps and sentences that rules add, by place.
type added struct {
	start, end []string
	before     map[int][]string
	with       map[int][]string
	after      map[int][]string
	said       map[string]bool
}

func newAdded() *added {
	return &added{before: map[int][]string{}, with: map[int][]string{}, after: map[int][]string{}, said: map[string]bool{}}
}

// put keeps a sentence for its place; step is the one that uses the line, -1
// where none does: then it is said at the end. The same words are said once.
func (a *added) put(text, at string, step int) {
	text = finished(text)
	if text == "" || a.said[text] {
		return
	}
	a.said[text] = true
	switch {
	case at == "start":
		a.start = append(a.start, text)
	case at == "end" || step < 0:
		a.end = append(a.end, text)
	case at == "before":
		a.before[step] = append(a.before[step], text)
	case at == "with":
		a.with[step] = append(a.with[step], text)
	default:
		a.after[step] = append(a.after[step], text)
	}
}

// finished is a text as a sentence on one line.
func finished(text string) string {
	text = capital(strings.Join(strings.Fields(text), " "))
	if text != "" && !strings.ContainsAny(text[len(text)-1:], ".!?") {
		text += "."
	}
	return text
}

// steps lays the rewritten steps and the added ones out. with[i] joins step i.
func (a *added) steps(rewritten []recipe.Step) []recipe.Step {
	var out []recipe.Step
	add := func(section string, texts []string) {
		for _, t := range texts {
			out = append(out, recipe.Step{Section: section, Text: t})
		}
	}
	if len(rewritten) > 0 {
		add(rewritten[0].Section, a.start)
	} else {
		add("", a.start)
	}
	section := ""
	for i, s := range rewritten {
		section = s.Section
		add(section, a.before[i])
		text := strings.TrimSpace(s.Text)
		if with := a.with[i]; len(with) > 0 {
			text = strings.TrimSpace(closed(text) + " " + strings.Join(with, " "))
			s.Text = text
		}
		if text != "" {
			out = append(out, s)
		}
		add(section, a.after[i])
	}
	add(section, a.end)
	return out
}

// closed ends a text with a full stop, so that a sentence may follow.
func closed(text string) string {
	if text == "" || strings.ContainsAny(text[len(text)-1:], ".!?;:") {
		return text
	}
	return text + "."
}

// replaceText puts a rule's words in place of others, whole words, in any case.
func replaceText(text, find, with string) string {
	if strings.TrimSpace(find) == "" {
		return text
	}
	re, err := regexp.Compile(`(?i)(^|[^\pL\pN])(` + regexp.QuoteMeta(find) + `)($|[^\pL\pN])`)
	if err != nil {
		return text
	}
	var b strings.Builder
	for {
		at := re.FindStringSubmatchIndex(text)
		if at == nil {
			return b.String() + text
		}
		word := with
		if startsCapital(text[at[4]:at[5]]) {
			word = capital(with)
		}
		b.WriteString(text[:at[4]] + word)
		text = text[at[5]:]
	}
}

// drop takes out the clauses that hold the words of find and mention the changed
// food or nothing; a sentence that is one clause goes whole.
func (s *sentence) drop(find string, c *change) {
	ws := words(find)
	for i := 0; i < len(s.tokens) && len(ws) > 0; i++ {
		if matches(s.tokens, i, ws) == 0 {
			continue
		}
		cs, at := s.clauseAt(i)
		if !s.speaksOnlyOf(cs[at], c) {
			continue
		}
		s.dropClause(cs, at)
		i = -1
	}
}

func (s *sentence) speaksOnlyOf(in span, c *change) bool {
	for _, t := range s.tokens[in.from:in.to] {
		if t.mention != nil && !c.is(t.mention) {
			return false
		}
	}
	return true
}
