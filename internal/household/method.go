package household

import (
	"slices"
	"strconv"
)

// method is the steps of a recipe as far as needs look at them.
type method struct {
	steps [][]string
	// minutes is the longest time of moist or oven cooking that a step names.
	minutes int
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

func readMethod(steps []string) method {
	var m method
	for _, s := range steps {
		words := tokens(s)
		m.steps = append(m.steps, words)
		if slices.ContainsFunc(words, softens) {
			m.minutes = max(m.minutes, minutesIn(words))
		}
	}
	return m
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

// anywhere reports whether some step holds one of the words.
func (m method) anywhere(ps phrases) bool {
	return slices.ContainsFunc(m.steps, func(s []string) bool { _, ok := ps.find(s); return ok })
}

// dishWide reports whether some step does it to everything in the pot.
func (m method) dishWide(ps phrases) bool {
	return slices.ContainsFunc(m.steps, func(s []string) bool {
		_, does := ps.find(s)
		return does && slices.ContainsFunc(s, wholeDish)
	})
}

// about reports whether some step does it and names the line's food.
func (m method) about(ps phrases, l LineFood) bool {
	if l.Food == nil {
		return false
	}
	return slices.ContainsFunc(m.steps, func(s []string) bool {
		_, does := ps.find(s)
		return does && sharesNoun(s, headWords(l.Food.Name))
	})
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
