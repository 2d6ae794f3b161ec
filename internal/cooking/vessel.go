package cooking

import (
	"slices"

	"potwright/internal/composition"
	"potwright/internal/method"
)

var (
	// prepares are verbs that do not put a food anywhere.
	prepares = words("chop", "peel", "slice", "wash", "trim", "cut", "dice", "mince", "grate", "core", "rinse", "thaw", "measure", "crush", "shred", "pit", "halve", "quarter", "clean", "scrub", "dry", "pat", "squeeze", "julienne", "cube", "snip", "seed", "zest", "open", "preheat", "garnish", "soak", "press")
	// joins are verbs that put a food to what is there already.
	joins = words("add", "stir", "return", "fold", "pour", "toss", "top", "sprinkle", "layer", "put", "place", "spoon", "cover", "spread", "drizzle", "arrange", "lay", "back", "mash", "season", "coat", "stuff", "fill", "scatter", "drop", "roll", "dip", "brush", "rub", "ladle", "transfer")
	// starts are verbs that start a bowl of their own, where nothing there is named.
	starts = words("mix", "combine", "whisk", "beat", "blend", "sift", "cream", "puree", "process", "brown", "saute", "cook", "boil", "fry", "steam", "sear", "roast", "grill", "broil", "bring", "marinate", "soften", "toast", "bake", "melt", "heat", "simmer", "stew", "braise", "microwave", "poach", "warm")
	// gathers are words for what was made before.
	gathers = words("mixture", "everything", "ingredient", "batter", "dough", "sauce", "filling", "together", "all", "dressing", "marinade", "mix", "remaining", "rest", "combine")
	things  = words("pot", "saucepan", "skillet", "pan", "bowl", "wok", "oven", "dish", "sheet", "bag", "kettle", "casserole", "griddle", "cup", "jar", "blender", "processor", "cooker", "tin", "plate", "boiler", "stockpot")
)

func words(ws ...string) []string { return ws }

func has(ws []string, any ...string) bool {
	return slices.ContainsFunc(ws, func(w string) bool { return slices.Contains(any, w) })
}

// place decides which vessel a clause works on, and puts the foods it names
// there.
func (t *trace) place(c method.Clause) {
	named := t.name(c)
	if meansAll(c.Words) {
		named = append(named, t.nameRest()...)
	}
	if len(named) == 0 {
		if has(c.Words, gathers...) && !isPreheat(c) {
			t.gather(c)
		}
		return
	}
	if onlyPrepares(c) || t.drainsCan(c, named) {
		return
	}
	to := t.vesselFor(c, named)
	for _, i := range named {
		if from := t.lines[i].vessel; from > 0 && from != to {
			t.merge(from, to)
		}
		t.lines[i].vessel = to
	}
	if to != t.cur {
		t.cur, t.last, t.moved = to, t.cur, c.Step
	}
	t.inStep = c.Step
	if has(c.Words, gathers...) {
		t.gather(c)
	}
}

// holdsOnly reports whether nothing is in the vessel worked on but the lines
// given, water and seasonings.
func (t *trace) holdsOnly(lines []int) bool {
	for i := range t.lines {
		if t.lines[i].vessel == t.cur && !slices.Contains(lines, i) && !t.lines[i].sort.neutral {
			return false
		}
	}
	return true
}

// name notes the lines that a clause names, and returns them.
func (t *trace) name(c method.Clause) []int {
	var out []int
	for _, m := range c.Mentions {
		for _, i := range append([]int{m.Line}, m.Others...) {
			if i < 0 || i >= len(t.lines) || slices.Contains(out, i) {
				continue
			}
			out = append(out, i)
			if t.isOneFood(m) {
				t.lines[i].named, t.lines[i].doubtful = true, false
			} else if !t.lines[i].named {
				t.lines[i].named, t.lines[i].doubtful = true, true
			}
		}
	}
	return out
}

// isOneFood reports whether the lines that words may mean are all of one food:
// then it makes no odds which is meant.
func (t *trace) isOneFood(m method.Mention) bool {
	for _, i := range m.Others {
		if i < 0 || i >= len(t.lines) || t.food(i) == nil || t.food(i) != t.food(m.Line) {
			return false
		}
	}
	return true
}

// food is the line's first food, nil where none was read.
func (t *trace) food(line int) *composition.Food {
	if line < 0 || line >= len(t.matched) || len(t.matched[line].Line.Items) == 0 {
		return nil
	}
	return t.matched[line].Line.Items[0].Food
}

// meansAll looks for "everything", "all ingredients", "the remaining
// ingredients".
func meansAll(ws []string) bool {
	return has(ws, "everything") || has(ws, "ingredient") && has(ws, "all", "remaining", "rest", "other")
}

// nameRest names the lines that no step has named.
func (t *trace) nameRest() []int {
	var out []int
	for i := range t.lines {
		if !t.lines[i].named {
			t.lines[i].named = true
			out = append(out, i)
		}
	}
	return out
}

// onlyPrepares reports whether a clause only readies foods: its first verb is
// such a one, and no heat comes with it.
func onlyPrepares(c method.Clause) bool {
	return c.Heat == "" && len(c.Words) > 0 && slices.Contains(prepares, c.Words[0]) && !has(c.Words, "add", "into", "in")
}

// drainsCan reports whether a clause drains foods that are in no vessel yet: a
// can is opened, nothing is boiled.
func (t *trace) drainsCan(c method.Clause, named []int) bool {
	heated := slices.ContainsFunc(t.waiting, func(w method.Clause) bool { return w.Heat != "" })
	if !isDrain(c.Words) || heated || c.Heat != "" || len(named) == 0 {
		return false
	}
	if !slices.ContainsFunc(named, func(i int) bool { return t.food(i) == nil || !t.food(i).HasState("canned") }) {
		return true
	}
	return !slices.ContainsFunc(named, func(i int) bool { return t.lines[i].vessel > 0 || t.lines[i].sort.thirsty || t.isKind(i, "potato") })
}

// vesselFor is where the foods of a clause go: where one of them is, to what is
// worked on, or to a new vessel.
func (t *trace) vesselFor(c method.Clause, named []int) int {
	fresh := namesNewVessel(c.Words)
	there := 0
	for _, i := range named {
		if t.lines[i].vessel > 0 && (there == 0 || t.lines[i].vessel == t.cur) {
			there = t.lines[i].vessel
		}
	}
	first := ""
	if len(c.Words) > 0 {
		first = c.Words[0]
	}
	joining := slices.Contains(joins, first) || has(c.Words, "add", "stir")
	switch {
	case there > 0 && (!joining || t.cur == 0):
		return there
	case joining && there == t.cur && t.last > 0 && !fresh && t.holdsOnly(named):
		return t.last // what was made apart goes to what was made before
	case joining && t.cur > 0 && !(fresh && there == 0 && c.Step != t.inStep && !has(c.Words, "add", "stir")):
		return t.cur
	case there > 0:
		return there
	case t.cur > 0 && c.Heat != "" && has(c.Words, "in") && t.onlyFats(named):
		return t.cur // "fry in the oil": what was made before is fried
	case t.cur == 0 || fresh || slices.Contains(starts, first) && (first != "cook" || c.Step != t.inStep):
		t.vessels++
		return t.vessels
	}
	return t.cur
}

// namesNewVessel looks for "in a large pot", "in another bowl".
func namesNewVessel(ws []string) bool {
	for i, w := range ws {
		if !slices.Contains(things, w) {
			continue
		}
		for _, before := range ws[max(0, i-4):i] {
			if before == "a" || before == "an" || before == "another" || before == "separate" || before == "second" || before == "small" || before == "apart" {
				return true
			}
		}
	}
	return has(ws, "apart", "separately", "meanwhile")
}

func (t *trace) merge(from, to int) {
	for i := range t.lines {
		if t.lines[i].vessel == from {
			t.lines[i].vessel = to
		}
	}
}

// gather puts what stands unheated in other vessels to what is worked on.
func (t *trace) gather(c method.Clause) {
	if t.cur == 0 {
		return
	}
	for i := range t.lines {
		v := t.lines[i].vessel
		if v == 0 || v == t.cur {
			continue
		}
		if len(t.lines[i].exposures) == 0 || has(c.Words, "combine", "everything", "all", "together") {
			t.merge(v, t.cur)
		}
	}
	t.inStep = c.Step
}

func (t *trace) onlyFats(lines []int) bool {
	return !slices.ContainsFunc(lines, func(i int) bool { return !t.isKind(i, "oil", "fat", "butter", "margarine") })
}
