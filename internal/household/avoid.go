package household

import (
	"fmt"

	"potwright/internal/composition"
)

// Presence is whether a line holds what someone avoids.
type Presence string

// Presences, from worst to best. Free is only ever "as far as known": the words
// of a recipe tell nothing of traces or of a package's own list.
const (
	Contains   Presence = "contains"
	MayContain Presence = "may contain"
	NotKnown   Presence = "unknown"
	FreeSoFar  Presence = "free as far as known"
)

// Answer is a presence and what it rests on, "" for FreeSoFar.
type Answer struct {
	Presence Presence
	Why      string
}

// Fit of a line with this answer on the plate of one who avoids it.
func (a Answer) Fit() Fit {
	switch a.Presence {
	case Contains:
		return Over
	case FreeSoFar:
		return Inside
	default:
		return Unknown
	}
}

func (p Presence) rank() int {
	switch p {
	case Contains:
		return 3
	case MayContain:
		return 2
	case NotKnown:
		return 1
	default:
		return 0
	}
}

func worse(a, b Answer) Answer {
	if b.Presence.rank() > a.Presence.rank() {
		return b
	}
	return a
}

// Avoidance is something a member avoids, ready to judge lines. Its answers for
// the foods of the table are worked out once, when it is first used.
type Avoidance struct {
	// Key as the member wrote it: "milk", "food:celery", "kind:cured_meat".
	Key   string
	Title string
	// Note is what to know about it, and Source where it comes from.
	Note, Source string
	parts        []avoidance
}

// JudgeFood answers for a food of the table or of the pantry.
func (a Avoidance) JudgeFood(f *composition.Food) Answer {
	if f == nil {
		return Answer{NotKnown, "no food was read"}
	}
	out := Answer{Presence: FreeSoFar}
	for i := range a.parts {
		p := &a.parts[i]
		out = worse(out, p.answer(f))
		if f.Ingredients != "" {
			out = worse(out, p.listed(f))
		}
	}
	if (f.IsOwn() || f.Imported) && len(f.Kinds) == 0 && f.Ingredients == "" {
		out = worse(out, Answer{NotKnown, fmt.Sprintf("neither the ingredients of %s nor what food it is like are known", f.Name)})
	}
	return out
}

// Judge answers for a line: the worst of its food, its words and the foods it
// may also mean. A line that was not read is never free.
func (a Avoidance) Judge(l LineFood) Answer {
	words := l.words()
	return a.judge(&l, &look{said: words, saidMarks: marksOf(words)})
}

// judge is Judge of a line that was looked at.
func (a Avoidance) judge(l *LineFood, seen *look) Answer {
	out := Answer{Presence: FreeSoFar}
	if l.Unread || l.Food == nil {
		out = Answer{NotKnown, fmt.Sprintf("%q was not read", l.name())}
	} else {
		out = worse(out, a.JudgeFood(l.Food))
	}
	for i := range a.parts {
		if p := &a.parts[i]; p.clues.firsts&seen.saidMarks != 0 {
			out = worse(out, p.text(seen.said))
		}
	}
	if out.Presence == Contains || out.Presence == MayContain {
		if claim, ok := a.claim(seen.said); ok {
			return Answer{MayContain, fmt.Sprintf("the line says %q: check the label", claim)}
		}
	}
	for _, c := range l.Candidates {
		if got := a.JudgeFood(c); got.Presence.rank() > MayContain.rank() {
			out = worse(out, Answer{MayContain, "the line may also mean " + got.Why})
		} else if got.Presence == MayContain {
			out = worse(out, got)
		}
	}
	return out
}

func (a Avoidance) claim(words []string) (string, bool) {
	for i := range a.parts {
		if text, ok := a.parts[i].saysFree.find(words); ok {
			return text, true
		}
	}
	return "", false
}

// Finding puts an answer about a line into a sentence; ok is false for a line
// that is free as far as known.
func (a Avoidance) Finding(l LineFood) (f Finding, ok bool) { return a.finding(&l, a.Judge(l)) }

// finding is Finding of a line that was judged.
func (a Avoidance) finding(l *LineFood, ans Answer) (f Finding, ok bool) {
	if ans.Presence == FreeSoFar {
		return Finding{}, false
	}
	f = Finding{Kind: "avoid", Need: a.Key, Fit: ans.Fit(), Shares: []Share{{Line: l.Line, Share: 1, Text: l.Text}}}
	switch ans.Presence {
	case Contains:
		f.Text = fmt.Sprintf("Contains %s: %s.", a.Title, ans.Why)
	case MayContain:
		f.Text = fmt.Sprintf("May contain %s: %s.", a.Title, ans.Why)
		f.Remedy = "Read the label of this package."
	default:
		f.Text = fmt.Sprintf("Can't tell whether there is %s: %s.", a.Title, ans.Why)
		f.Remedy = "Correct the line, or check it yourself."
	}
	return f, true
}
