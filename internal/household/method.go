package household

import (
	"slices"
	"strconv"
)

// method is the steps of a recipe as far as needs look at them.
type method struct {
	steps []*step
	// minutes is the longest time of moist or oven cooking that a step names.
	minutes int
}

// Method is the steps of a recipe, read once for questions about many lines.
type Method struct{ of method }

// Method reads steps.
func (n *Needs) Method(steps []string) Method { return Method{n.method(steps)} }

// step is one step with what is looked for in steps.
type step struct {
	words []string
	// shows are the phrases of the book that it holds and does not deny.
	shows  []bool
	whole  bool // it speaks of everything in the pot
	cooked int  // minutes of moist or oven cooking, 0 where it names none
	cut    cut  // what it cuts something to
}

// wholeDish reports whether a word stands for everything in the pot.
func wholeDish(w string) bool {
	switch w {
	case "soup", "mixture", "everything", "stew", "sauce", "chili", "chowder", "curry", "content", "dish":
		return true
	default:
		return false
	}
}

// softens reports whether a word names cooking that softens with time.
func softens(w string) bool {
	switch w {
	case "simmer", "simmered", "simmering", "braise", "stew", "boil", "boiling", "cook", "cooker",
		"roast", "bake", "steam":
		return true
	default:
		return false
	}
}

// method reads steps; those read before are remembered, as everyone at the table
// looks at the same ones.
func (n *Needs) method(steps []string) method {
	m := method{steps: make([]*step, len(steps))}
	for i, text := range steps {
		m.steps[i] = n.steps.Of(text, func() *step { return n.step(text) })
		m.minutes = max(m.minutes, m.steps[i].cooked)
	}
	return m
}

func (n *Needs) step(text string) *step {
	words := tokens(text)
	s := &step{words: words, shows: n.inSteps.shown(words), whole: slices.ContainsFunc(words, wholeDish), cut: cutTo(text, words)}
	if slices.ContainsFunc(words, softens) {
		s.cooked = minutesIn(words)
	}
	return s
}

// minutesIn is the longest time a step names: the first number of "1 to 2
// hours", since the cook may stop there.
func minutesIn(words []string) int {
	best := 0
	for i, w := range words {
		unit := 0
		switch w {
		case "minute", "min":
			unit = 1
		case "hour", "hr":
			unit = 60
		}
		if unit == 0 || i == 0 {
			continue
		}
		n, ok := count(words[i-1])
		if i >= 3 && (words[i-2] == "to" || words[i-2] == "or") {
			if first, isNumber := count(words[i-3]); isNumber {
				n, ok = first, true
			}
		} else if i >= 2 {
			if first, isNumber := count(words[i-2]); isNumber && ok && first < n {
				n = first // "20-30 minutes"
			}
		}
		if ok && n <= 24*60 {
			best = max(best, n*unit)
		}
	}
	return best
}

func count(w string) (int, bool) {
	switch w {
	case "an", "one":
		return 1, true
	case "two":
		return 2, true
	case "three":
		return 3, true
	}
	n, err := strconv.Atoi(w)
	return n, err == nil && n >= 0
}

// anywhere reports whether some step holds one of the phrases.
func (m method) anywhere(of phraseSet) bool {
	return slices.ContainsFunc(m.steps, func(s *step) bool { return s.shows[of] })
}

// dishWide reports whether some step does it to everything in the pot.
func (m method) dishWide(of phraseSet) bool {
	return slices.ContainsFunc(m.steps, func(s *step) bool { return s.whole && s.shows[of] })
}

// about reports whether some step does it and names a food, by the words at the
// head of its name.
func (m method) about(of phraseSet, head []string) bool {
	return slices.ContainsFunc(m.steps, func(s *step) bool { return s.shows[of] && sharesNoun(s.words, head) })
}

// headWords are the words of a name before its first comma: "kidney beans" of
// "kidney beans, canned, drained".
func headWords(name string) []string {
	for i, r := range name {
		if r == ',' {
			return tokens(name[:i])
		}
	}
	return tokens(name)
}

// sharesNoun reports whether a step names the last word of a food's name.
func sharesNoun(step, head []string) bool {
	return len(head) > 0 && slices.Contains(step, head[len(head)-1])
}
