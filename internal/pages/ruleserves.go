package pages

import (
	"slices"

	"potwright/internal/composition"
	"potwright/internal/household"
	"potwright/internal/swap"
)

// serves lists the needs that a swap rule helps with, worked out from what it
// takes away and puts in: hands spared, texture eased, what people avoid gone,
// less of what people watch.
func (p *rulePages) serves(r swap.Rule) []string {
	var out []string
	for _, l := range r.Spares {
		out = append(out, "hands: "+labelOf(l, loads()))
	}
	for _, f := range r.Softens {
		out = append(out, "texture: "+readableKey(f))
	}
	for _, rule := range p.book.Needs.AvoidRules() {
		a, err := p.book.Needs.Avoidance(rule.ID)
		if err == nil && p.holds(a, r) && !bringsIn(a, r) {
			out = append(out, "without "+rule.Title)
		}
	}
	for _, n := range []composition.Nutrient{composition.Sodium, composition.SaturatedFat, composition.Sugars, composition.Energy} {
		if p.lessens(r, n) {
			out = append(out, "less "+n.Name())
		}
	}
	return out
}

// holds reports whether what a rule is for contains what someone avoids: all of
// the foods it names, or all examples where it names none.
func (p *rulePages) holds(a household.Avoidance, r swap.Rule) bool {
	if r.Do != swap.Replace && r.Do != swap.Omit {
		return false
	}
	for _, name := range r.Match.Foods {
		f, ok := p.foods.ByName(name)
		if !ok || a.JudgeFood(f).Presence != household.Contains {
			return false
		}
	}
	if len(r.Match.Foods) > 0 {
		return true
	}
	// No food but the words decide.
	nothing := &composition.Food{Kinds: r.Match.Kinds}
	for _, text := range r.Examples.Fires {
		if a.Judge(household.LineFood{Text: text, Food: nothing}).Presence != household.Contains {
			return false
		}
	}
	return len(r.Examples.Fires) > 0
}

// bringsIn reports whether a replacement contains it, or may.
func bringsIn(a household.Avoidance, r swap.Rule) bool {
	return slices.ContainsFunc(r.With, func(w swap.Ingredient) bool {
		return w.Same || w.Row == nil || a.JudgeFood(w.Row).Presence != household.FreeSoFar
	})
}

// lessShare is how much of a nutrient may be left where a swap is listed as one
// that lessens it: the quarter less that US law asks of "reduced" (21 CFR
// 101.13(j)).
const lessShare = 0.75

// lessens reports whether a swap by weight or volume leaves at most three
// quarters of a nutrient of the foods it names. Of the others nothing is said:
// it depends on the line.
func (p *rulePages) lessens(r swap.Rule, n composition.Nutrient) bool {
	if len(r.Match.Foods) == 0 || r.Do == swap.ToTable {
		return false
	}
	var after float64
	for _, w := range r.With {
		if w.Row == nil || !w.Row.Nutrients[n].Known || w.By == swap.ByPiece {
			return false
		}
		after += w.Row.Nutrients[n].Mid * w.Ratio
	}
	for _, name := range r.Match.Foods {
		f, ok := p.foods.ByName(name)
		if !ok || !f.Nutrients[n].Known || f.Nutrients[n].Mid < smallestWatched(n) {
			return false
		}
		before := f.Nutrients[n].Mid
		left := after
		if r.Do == swap.Reduce && len(r.Keep) > 0 {
			left = before * slices.Max(r.Keep)
		} else if r.Do == swap.Rinse || r.Do == swap.Drain {
			return n == composition.Sodium
		}
		if left > before*lessShare {
			return false
		}
	}
	return true
}

// smallestWatched is the content in 100 g from which less of it is worth a word:
// a twentieth of the US daily values (21 CFR 101.9(c)), energy 40 kcal.
func smallestWatched(n composition.Nutrient) float64 {
	switch n {
	case composition.Sodium:
		return 115
	case composition.SaturatedFat:
		return 1
	case composition.Sugars:
		return 2.5
	}
	return 40
}
