package method

import (
	"cmp"
	"slices"
	"strings"

	"potwright/internal/recipe"
)

// use is a sentence of the method; step is -1 where there is none.
type use struct{ step, sentence int }

func (u use) before(v use) bool {
	return u.step < v.step || u.step == v.step && u.sentence < v.sentence
}

// said is a sentence that a rule adds, with the change that it belongs to.
type said struct {
	text   string
	change int
}

// added are the steps and sentences that rules add, by place.
type added struct {
	start, end, last []said
	before, after    map[int][]said
	// ahead and behind stand in a step, before and after one of its sentences.
	ahead, behind map[use][]said
	known         map[string]bool
}

func newAdded() *added {
	return &added{before: map[int][]said{}, after: map[int][]said{}, ahead: map[use][]said{}, behind: map[use][]said{}, known: map[string]bool{}}
}

// put keeps a sentence for its place; the same words are said once. Without a
// sentence that uses the line it is said at the end.
func (a *added) put(text, at string, u use, change int) {
	text = finished(text)
	if text == "" || a.known[text] {
		return
	}
	a.known[text] = true
	s := said{text, change}
	switch {
	case at == "start":
		a.start = append(a.start, s)
	case at == "last":
		a.last = append(a.last, s)
	case at == "end" || u.step < 0:
		a.end = append(a.end, s)
	case at == "before":
		a.before[u.step] = append(a.before[u.step], s)
	case at == "with":
		a.behind[u] = append(a.behind[u], s)
	case at == "ahead":
		a.ahead[u] = append(a.ahead[u], s)
	default:
		a.after[u.step] = append(a.after[u.step], s)
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

// into puts the sentences of a step's places into it.
func (a *added) into(step int, ss []sentence) []sentence {
	var out []sentence
	for k := range ss {
		u := use{step, k}
		for _, s := range a.ahead[u] {
			mark := fullStop()
			small := goesOn(out)
			if small {
				mark = []token{{text: ";"}}
			}
			out = append(out, addedSentence(s.text, small, mark))
		}
		out = append(out, ss[k])
		for _, s := range a.behind[u] {
			last := &out[len(out)-1]
			small := goesOn(out)
			mark := last.mark
			if len(mark) == 0 && !last.empty() {
				last.mark, last.changed = fullStop(), true
			}
			out = append(out, addedSentence(s.text, small, mark))
		}
	}
	return out
}

// goesOn reports whether the last sentence that is left ends with a semicolon.
func goesOn(ss []sentence) bool {
	for k := len(ss) - 1; k >= 0; k-- {
		if !ss[k].empty() {
			return isSemicolon(ss[k].mark)
		}
	}
	return false
}

// within are the edits of sentences that stand in steps, in order.
func (a *added) within() []Edit {
	var out []Edit
	for _, places := range []map[use][]said{a.ahead, a.behind} {
		for u, all := range places {
			for _, s := range all {
				out = append(out, Edit{Was: u.step, Change: s.change})
			}
		}
	}
	slices.SortFunc(out, func(x, y Edit) int { return cmp.Or(cmp.Compare(x.Was, y.Was), cmp.Compare(x.Change, y.Change)) })
	return out
}

func isSemicolon(mark []token) bool { return len(mark) == 1 && mark[0].text == ";" }

func fullStop() []token { return []token{{text: "."}} }

// addedSentence is a rule's sentence without its full stop.
func addedSentence(text string, small bool, mark []token) sentence {
	text = strings.TrimSuffix(text, ".")
	if small {
		text = lowered(text)
	}
	t := token{space: " ", text: text, word: true, fixed: true}
	return sentence{tokens: []token{t}, mark: append([]token(nil), mark...), changed: true, large: !small}
}

// laid is the steps as they are laid out, and what they were.
type laid struct {
	steps []recipe.Step
	edits []Edit
	// now is where each old step is; -1 where it is gone.
	now []int
}

// steps lays the rewritten steps and the added ones out.
func (a *added) steps(rewritten []recipe.Step) laid {
	l := laid{now: make([]int, len(rewritten))}
	add := func(section string, texts []said) {
		for _, t := range texts {
			l.edits = append(l.edits, Edit{Step: len(l.steps), Was: -1, Change: t.change})
			l.steps = append(l.steps, recipe.Step{Section: section, Text: t.text})
		}
	}
	first, serving := a.firstStep(rewritten), servingFrom(rewritten)
	section := ""
	for i, s := range rewritten {
		section = s.Section
		if i == first {
			add(section, a.start)
		}
		if i == serving && i > 0 {
			add(rewritten[i-1].Section, a.end)
		}
		add(section, a.before[i])
		l.now[i] = -1
		if strings.TrimSpace(s.Text) != "" {
			l.now[i] = len(l.steps)
			l.steps = append(l.steps, s)
		}
		add(section, a.after[i])
	}
	if first == len(rewritten) {
		add(section, a.start)
	}
	if serving == len(rewritten) || serving == 0 {
		add(section, a.end)
	}
	add(section, a.last)
	return l
}

// firstStep is the first step that is not about the oven and the pan alone.
func (a *added) firstStep(steps []recipe.Step) int {
	for i, s := range steps {
		ws := words(s.Text)
		if len(ws) > 0 && ws[0] != "preheat" && !(ws[0] == "heat" && (hasRun(ws, "heat", "oven") || hasRun(ws, "the", "oven")) && len(ws) < 10) {
			return i
		}
	}
	return 0
}

// servingFrom is where the last steps, which only serve, begin.
func servingFrom(steps []recipe.Step) int {
	at := len(steps)
	for at > 0 {
		ws := words(steps[at-1].Text)
		if len(ws) > 0 && !servings[ws[0]] {
			break
		}
		at--
	}
	return at
}

var servings = newSet("serve garnish enjoy ladle store plate")
