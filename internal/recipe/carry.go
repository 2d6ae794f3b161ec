package recipe

import (
	"slices"

	"potwright/internal/composition"
	"potwright/internal/ingredient"
)

// Carried are the corrections of a recipe as they belong to its changed text: each stays
// with the line of the same words, else with the one line that differs in its amount
// only. What has no line there is a stray; so is a weight that can't go with the amount.
func Carried(was, is Recipe) []LineCorrection {
	to, places := followed(was, is), was.places()
	is.Lines = slices.Clone(is.Lines)
	var left []LineCorrection
	for i, l := range was.Lines {
		if l.Fix == nil {
			continue
		}
		c := was.correctionOf(places, i, *l.Fix)
		if j, ok := to[i]; ok {
			fix, lost := carried(l.Reading, is.Lines[j].Reading, c.Correction)
			is.Lines[j].Fix, c.Correction = fix, lost
		}
		if c.Correction != (Correction{}) {
			left = append(left, c)
		}
	}
	is.Correct(append(left, was.Strays...))
	return is.Corrections()
}

// carried is a line's correction for the line that stands for it now, nil where there is
// none, and what of it can't be: the food stays, and a weight goes with the amount.
func carried(was, is ingredient.Reading, fix Correction) (kept *Correction, lost Correction) {
	if fix.Grams == nil || sameWords(was, is) {
		return &fix, Correction{}
	}
	if k, ok := ingredient.Times(is, was); ok {
		grams := fix.Grams.Scale(k)
		fix.Grams = &grams
		return &fix, Correction{}
	}
	lost.Grams, fix.Grams = fix.Grams, nil
	if fix == (Correction{}) {
		return nil, lost
	}
	return &fix, lost
}

// followed tells for lines of a recipe which line of its changed text stands for them.
func followed(was, is Recipe) map[int]int {
	to, taken := map[int]int{}, map[int]bool{}
	for _, key := range []func(Line) string{
		func(l Line) string { return l.Section + "\n" + plainWords(l.Reading.Text) },
		func(l Line) string { return plainWords(l.Reading.Text) },
	} {
		pairEqual(was, is, key, to, taken)
	}
	for i, l := range was.Lines {
		if _, stands := to[i]; stands {
			continue
		}
		like := func(other Line) bool { return sameButAmount(l.Reading, other.Reading) }
		before := only(was.Lines, func(n int) bool { _, stands := to[n]; return stands }, like)
		after := only(is.Lines, func(n int) bool { return taken[n] }, like)
		if before == i && after >= 0 {
			to[i], taken[after] = after, true
		}
	}
	return to
}

// pairEqual pairs the lines that are left and of one key, in order, where there are as
// many as before: of two that were alike nothing tells which one is left.
func pairEqual(was, is Recipe, key func(Line) string, to map[int]int, taken map[int]bool) {
	before, after := map[string][]int{}, map[string][]int{}
	for i, l := range was.Lines {
		if _, stands := to[i]; !stands {
			before[key(l)] = append(before[key(l)], i)
		}
	}
	for j, l := range is.Lines {
		if !taken[j] {
			after[key(l)] = append(after[key(l)], j)
		}
	}
	for k, lines := range before {
		if len(after[k]) != len(lines) {
			continue
		}
		for n, i := range lines {
			to[i], taken[after[k][n]] = after[k][n], true
		}
	}
}

// only is the one line that is like another and not out of the question; -1 where there
// is none, or more than one.
func only(lines []Line, out func(int) bool, like func(Line) bool) int {
	found := -1
	for i, l := range lines {
		if out(i) || !like(l) {
			continue
		}
		if found >= 0 {
			return -1
		}
		found = i
	}
	return found
}

func sameWords(a, b ingredient.Reading) bool { return plainWords(a.Text) == plainWords(b.Text) }

// sameFoods leaves out whether the food stands for one or for several: "1 onion" twice
// is "2 onions".
func sameFoods(a, b ingredient.Reading) bool {
	return slices.Equal(composition.Words(a.Food), composition.Words(b.Food))
}

// sameButAmount reports whether two lines are of the same food in the same state and
// package, so that what was said of one holds for the other.
func sameButAmount(a, b ingredient.Reading) bool {
	return a.Food != "" && sameFoods(a, b) && slices.Equal(a.States, b.States) && a.Size == b.Size &&
		a.HasContainer == b.HasContainer && a.Container == b.Container &&
		slices.EqualFunc(a.Alternatives, b.Alternatives, sameFoods) && slices.EqualFunc(a.Together, b.Together, sameFoods)
}
