package household

import (
	"fmt"
	"slices"

	"potwright/internal/composition"
)

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
	// clues are the words of the signs and of the carriers: a text without any of
	// them says nothing of it.
	clues phrases
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
	clues := slices.Clone(r.Words)
	for _, c := range r.Stands {
		a.carriers = append(a.carriers, carrier{newSigns(c.Signs), c.Why})
		clues = append(clues, c.Words...)
	}
	a.clues = newPhrases(clues)
	return a
}

// answer is the answer for a food, from the table's answers where it is in
// there.
func (a *avoidance) answer(f *composition.Food) Answer {
	if a.known != nil {
		if ans, ok := a.known()[f]; ok {
			return ans
		}
	}
	return a.food(f, tokens(f.Name))
}

// food works out the answer for a food. What a name of the table claims to be
// free of is free where only a guess says otherwise.
func (a *avoidance) food(f *composition.Food, name []string) Answer {
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

func (a *avoidance) signsOf(f *composition.Food, name []string) Answer {
	if why, ok := a.signs.inFood(f, name, nil); ok {
		return a.contains(f.Name, why)
	}
	for i := range a.carriers {
		c := &a.carriers[i]
		if _, ok := c.inFood(f, name, nil); ok {
			return a.may(f.Name, c.why)
		}
	}
	return Answer{Presence: FreeSoFar}
}

// text answers for the words of a line.
func (a *avoidance) text(words []string) Answer {
	if !a.clues.in(words) {
		return Answer{Presence: FreeSoFar}
	}
	if why, ok := a.signs.inText(words); ok {
		return a.contains(why, why)
	}
	for i := range a.carriers {
		c := &a.carriers[i]
		if word, ok := c.inText(words); ok {
			return a.may(word, c.why)
		}
	}
	return Answer{Presence: FreeSoFar}
}

// listed answers for the list of ingredients of a package.
func (a *avoidance) listed(f *composition.Food) Answer {
	ans := a.text(tokens(f.Ingredients))
	if ans.Presence != FreeSoFar {
		ans.Why = fmt.Sprintf("the ingredients of %s list %s", f.Name, ans.Why)
	}
	return ans
}

func (a *avoidance) contains(what, why string) Answer {
	if what == why {
		return Answer{Contains, fmt.Sprintf("%s: %s", what, a.rule.Title)}
	}
	return Answer{Contains, fmt.Sprintf("%s (%s): %s", what, why, a.rule.Title)}
}

func (a *avoidance) may(what, why string) Answer {
	return Answer{MayContain, fmt.Sprintf("%s may hold %s: %s", what, a.rule.Title, why)}
}
