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

// AvoidRule is one avoidance as written in rules/need.
type AvoidRule struct {
	ID    string
	Title string
	Also  []string // other words people use for it
	// Lists it stands on: "US nine", "EU fourteen", "choice", "medicine".
	Lists []string
	// Includes are avoidances whose foods belong to this one too.
	Includes []string
	Signs
	// Stands are foods that may hold it without saying so.
	Stands []Carrier
	// SaysFree are words of a line that claim its absence: they turn "contains"
	// into "may contain", never into free.
	SaysFree []string
	Note     string
	Source   string
	Line     int // where the rule stands in its file
}

// Carrier is a food that may hold something, and why.
type Carrier struct {
	Signs
	Why string
}

// avoidance is one AvoidRule ready for use, without those it includes.
type avoidance struct {
	rule     AvoidRule
	signs    signs
	carriers []carrier
	saysFree phrases
	// known are the answers for the foods of the table, worked out when first
	// asked for.
	known func() map[*composition.Food]Answer
}

type carrier struct {
	signs
	why string
}

func newAvoidance(r AvoidRule) avoidance {
	a := avoidance{rule: r, signs: newSigns(r.Signs), saysFree: newPhrases(r.SaysFree)}
	for _, c := range r.Stands {
		a.carriers = append(a.carriers, carrier{newSigns(c.Signs), c.Why})
	}
	return a
}

// answer is the answer for a food, from the table's answers where it is in
// there.
func (a avoidance) answer(f *composition.Food) Answer {
	if a.known != nil {
		if ans, ok := a.known()[f]; ok {
			return ans
		}
	}
	return a.food(f, tokens(f.Name))
}

// food works out the answer for a food. What a name of the table claims to be
// free of is free where only a guess says otherwise.
func (a avoidance) food(f *composition.Food, name []string) Answer {
	ans := a.signsOf(f, name)
	claim, claims := a.saysFree.find(name)
	switch {
	case claims && ans.Presence == Contains:
		return Answer{MayContain, fmt.Sprintf("%s says %q: check the label", f.Name, claim)}
	case claims:
		return Answer{Presence: FreeSoFar}
	default:
		return ans
	}
}

func (a avoidance) signsOf(f *composition.Food, name []string) Answer {
	if why, ok := a.signs.inFood(f, name, nil); ok {
		return a.contains(f.Name, why)
	}
	for _, c := range a.carriers {
		if _, ok := c.inFood(f, name, nil); ok {
			return a.may(f.Name, c.why)
		}
	}
	return Answer{Presence: FreeSoFar}
}

// text answers for the words of a line.
func (a avoidance) text(words []string) Answer {
	if why, ok := a.signs.inText(words); ok {
		return a.contains(why, why)
	}
	for _, c := range a.carriers {
		if word, ok := c.inText(words); ok {
			return a.may(word, c.why)
		}
	}
	return Answer{Presence: FreeSoFar}
}

func (a avoidance) contains(what, why string) Answer {
	if what == why {
		return Answer{Contains, fmt.Sprintf("%s: %s", what, a.rule.Title)}
	}
	return Answer{Contains, fmt.Sprintf("%s (%s): %s", what, why, a.rule.Title)}
}

func (a avoidance) may(what, why string) Answer {
	return Answer{MayContain, fmt.Sprintf("%s may hold %s: %s", what, a.rule.Title, why)}
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
	for _, p := range a.parts {
		out = worse(out, p.answer(f))
	}
	return out
}

// Judge answers for a line: the worst of its food, its words and the foods it
// may also mean. A line that was not read is never free.
func (a Avoidance) Judge(l LineFood) Answer {
	words := l.words()
	out := Answer{Presence: FreeSoFar}
	if l.Unread || l.Food == nil {
		out = Answer{NotKnown, fmt.Sprintf("%q was not read", l.name())}
	} else {
		out = worse(out, a.JudgeFood(l.Food))
	}
	for _, p := range a.parts {
		out = worse(out, p.text(words))
	}
	if claim, ok := a.claim(words); ok && (out.Presence == Contains || out.Presence == MayContain) {
		return Answer{MayContain, fmt.Sprintf("the line says %q: check the label", claim)}
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
	for _, p := range a.parts {
		if text, ok := p.saysFree.find(words); ok {
			return text, true
		}
	}
	return "", false
}

// Finding puts an answer about a line into a sentence; ok is false for a line
// that is free as far as known.
func (a Avoidance) Finding(l LineFood) (f Finding, ok bool) {
	ans := a.Judge(l)
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
