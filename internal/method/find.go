package method

import (
	"strings"

	"potwright/internal/recipe"
)

// reader holds the method as read before anything is changed.
type reader struct {
	steps [][]sentence
}

func (b *book) read(steps []recipe.Step) reader {
	var r reader
	for _, s := range steps {
		tokens, _ := lex(s.Text)
		b.mark(tokens)
		r.steps = append(r.steps, sentences(tokens))
	}
	return r
}

// each calls f for every sentence in order until it returns true; the sentence
// where it did, or step -1.
func (r reader) each(f func(u use, s *sentence) bool) use {
	for i := range r.steps {
		for k := range r.steps[i] {
			if u := (use{i, k}); f(u, &r.steps[i][k]) {
				return u
			}
		}
	}
	return use{-1, 0}
}

// served is the sentence of the last step that serves the dish, where others stand
// before it in that step; step -1 for none.
func (r reader) served() use {
	last := len(r.steps) - 1
	return r.each(func(u use, s *sentence) bool {
		return u.step == last && u.sentence > 0 && len(s.tokens) > 0 && servings[s.tokens[0].norm]
	})
}

// mentions reports whether a step of the recipe speaks of a changed food.
func (r reader) mentions(step int, c *change) bool {
	for _, s := range r.steps[step] {
		for _, t := range s.tokens {
			if t.mention != nil && c.is(t.mention) {
				return true
			}
		}
	}
	return false
}

// named are the lines that the method speaks of.
func (r reader) named() map[int]bool {
	out := map[int]bool{}
	r.each(func(_ use, s *sentence) bool {
		for _, t := range s.tokens {
			if t.mention == nil {
				continue
			}
			out[t.mention.Line] = true
			for _, o := range t.mention.Others {
				out[o] = true
			}
		}
		return false
	})
	return out
}

// preparing are verbs of what is done with a food before the cooking.
var preparing = newSet(`drain rinse peel chop cut slice thaw mince dice grate shred measure soak trim core seed wash scrub
wipe pat dry halve quarter cube crush squeeze`)

// useOf is the first sentence that cooks or adds what a mention test finds, or
// else the first that says it.
func (r reader) useOf(is func(*Mention) bool) use {
	first := use{-1, 0}
	main := r.each(func(u use, s *sentence) bool {
		for i, t := range s.tokens {
			if t.mention == nil || !is(t.mention) {
				continue
			}
			if first.step < 0 {
				first = u
			}
			cs, at := s.clauseAt(i)
			if verb, _ := s.governors(i, cs[at]); verb < 0 || !preparing[s.tokens[verb].norm] {
				return true
			}
		}
		return false
	})
	if main.step >= 0 {
		return main
	}
	return first
}

// alone reports whether the first clause of the sentence that uses a change's
// food speaks of it and no other, and more follows.
func (r reader) alone(c *change) bool {
	if c.use.step < 0 {
		return false
	}
	s := &r.steps[c.use.step][c.use.sentence]
	cs := clauses(s.tokens)
	for _, t := range s.tokens[cs[0].from:cs[0].to] {
		if t.mention != nil && c.is(t.mention) {
			return len(cs) > 1 && s.speaksOnlyOf(cs[0], c)
		}
	}
	return false
}

// heatOf is the heat of a sentence: the stove, the oven, or none. Heating the
// oven is none.
func heatOf(s *sentence) (stove, oven bool) {
	resting := false
	for i, t := range s.tokens {
		if t.mention != nil {
			continue
		}
		h, ok := heatAt(s.tokens, i)
		resting = resting || h == Rest
		_, _, timed := duration(s.tokens, i)
		switch {
		case timed > 0 && !resting, t.norm == "medium" && after(s.tokens, i) != "bowl" && after(s.tokens, i) != "pan":
			stove = true
		case t.norm == "warm" && (after(s.tokens, i) == "through" || after(s.tokens, i) == "the"):
			stove = true
		case t.norm == "oven" && before(s.tokens, i) != "heat" && before(s.tokens, i) != "the" && before(s.tokens, i) != "preheat":
			oven = true
		case !ok || h == Rest || t.norm == "heat" && i+1 < len(s.tokens) && speaksOfOven(s.tokens[i:]):
		case h == Bake || h == Grill:
			oven = true
		case t.norm == "heat" && i > 0 && before(s.tokens, i) == "off":
		default:
			stove = true
		}
		if t.norm == "cooker" && before(s.tokens, i) == "slow" {
			stove = true
		}
	}
	return stove, oven
}

func speaksOfOven(tokens []token) bool {
	for _, t := range tokens[:min(4, len(tokens))] {
		if t.norm == "oven" || t.norm == "grill" || t.norm == "broiler" {
			return true
		}
	}
	return false
}

// from tells whether the stove or the oven heats the dish from the step of a
// use on.
func (r reader) from(at use) (stove, oven bool) {
	r.each(func(u use, s *sentence) bool {
		if u.step < at.step {
			return false
		}
		st, ov := heatOf(s)
		stove, oven = stove || st, oven || ov && !u.before(at)
		return false
	})
	return stove, oven
}

// wet are words of what a pot is filled with.
var wet = newSet(`broth stock water tomato milk wine juice cider liquid bouillon`)

// liquid is the first sentence that puts liquid on the heat, step -1 for none.
func (r reader) liquid() use {
	return r.each(func(u use, s *sentence) bool {
		has := false
		for i, t := range s.tokens {
			if t.norm == "drain" || t.norm == "oven" || t.norm == "pasta" || t.norm == "spaghetti" {
				return false
			}
			has = has || wet[t.norm] && before(s.tokens, i) != "in" && after(s.tokens, i) != "paste"
		}
		stove, oven := r.from(u)
		return has && stove && !oven
	})
}

// filling are words of the sentence that puts a batter into its pan.
var filling = newSet(`pour spoon scrape turn spread fill bake drop`)

// pan is the first sentence from a use on that puts the batter into its pan or
// bakes it, step -1 for none.
func (r reader) pan(at use) use {
	return r.each(func(u use, s *sentence) bool {
		if u.before(at) || u == at {
			return false
		}
		fills, into := false, false
		for i, t := range s.tokens {
			fills = fills || t.mention == nil && filling[t.norm] && (i == 0 || t.norm == "bake")
			into = into || t.norm == "bake" || t.norm == "pan" || t.norm == "tin" || t.norm == "dish" || t.norm == "cup"
		}
		return fills && into
	})
}

// groups are words by which steps mean foods that they do not name, with the
// kinds of foods that they mean; none for every food.
var groups = map[string][]string{
	"everything": nil, "ingredient": nil, "thing": nil,
	"seasoning": {"spice", "herb", "salt", "spice_blend", "spice_blend_salted", "seasoning_mix"},
	"seasoned":  {"spice", "herb", "salt", "spice_blend", "spice_blend_salted", "seasoning_mix"},
	"spice":     {"spice", "herb", "spice_blend", "spice_blend_salted", "seasoning_mix"},
	"herb":      {"herb", "spice_blend"},
	"vegetable": {"vegetable", "mushroom", "potato", "canned_vegetable", "starchy_vegetable"},
	"nut":       {"nut", "tree_nut", "peanut"},
	"fruit":     {"fruit", "berry", "dried_fruit", "canned_fruit"},
	"sweetener": {"sugar", "sweetener", "syrup", "honey"},
	"meat":      {"meat", "beef", "pork", "poultry", "chicken"},
	"flour":     {"flour"}, "cheese": {"cheese"}, "bean": {"legume", "canned_beans", "dry_beans"},
	"sugar": {"sugar"}, "pepper": {"vegetable"}, "mustard": {"mustard"}, "salt": {"salt"},
}

// dryKinds are the foods of "the dry ingredients".
var dryKinds = []string{"flour", "sugar", "salt", "leavening", "starch", "spice", "oats", "dry_milk", "baking_mix", "cocoa"}

// groupOf is the kinds that the word at token i means; ok is false where it is
// no such word.
func groupOf(tokens []token, i int) (kinds []string, ok bool) {
	kinds, ok = groups[tokens[i].norm]
	if ok && (tokens[i].norm == "ingredient" || tokens[i].norm == "thing") && before(tokens, i) == "dry" {
		return dryKinds, true
	}
	return kinds, ok && tokens[i].norm != "thing"
}

// meant is the first sentence with a word that means a food of some kinds
// without naming it; step -1 for none.
func (r reader) meant(has func(kind string) bool) use {
	return r.each(func(u use, _ *sentence) bool { return r.means(u, has) })
}

// means reports whether a sentence has such a word.
func (r reader) means(u use, has func(kind string) bool) bool {
	s := &r.steps[u.step][u.sentence]
	for i, t := range s.tokens {
		if t.mention != nil {
			continue
		}
		if kinds, ok := groupOf(s.tokens, i); ok && ofKinds(has, kinds) {
			return true
		}
	}
	return false
}

func ofKinds(has func(kind string) bool, kinds []string) bool {
	for _, k := range kinds {
		if has(k) {
			return true
		}
	}
	return kinds == nil
}

// firstWork is the first sentence that handles food on the heat or in a bowl.
func (r reader) firstWork() use {
	return r.each(func(_ use, s *sentence) bool {
		foods := 0
		var last *Mention
		for _, t := range s.tokens {
			if t.mention != nil && t.mention != last {
				last = t.mention
				foods++
			}
		}
		return foods > 1 || foods == 1 && !preparing[s.tokens[0].norm]
	})
}

func lowered(s string) string {
	if s == "" {
		return s
	}
	return strings.ToLower(s[:1]) + s[1:]
}
