package kitchen

import (
	"fmt"
	"slices"

	"potwright/internal/composition"
	"potwright/internal/label"
	"potwright/internal/measure"
	"potwright/internal/nutrient"
	"potwright/internal/spread"
)

// Claims are the numeric definitions of the regulations held against a serving of
// a dish or a product.
type Claims struct {
	// Basis says what the figures were taken as: a single food, a main dish or a
	// meal.
	Basis  string
	Judged []label.Judged
	// Compared are the definitions of "reduced" against an earlier version of the
	// dish, as far as they are met.
	Compared []label.Judged
	// Disclosures are what a label that makes a claim would have to point to.
	Disclosures []string
}

// Of lists the claims of one judgement.
func (c Claims) Of(j label.Judgement) []label.Judged {
	var out []label.Judged
	for _, x := range c.Judged {
		if x.Judgement == j {
			out = append(out, x)
		}
	}
	return out
}

// The four food groups of 21 CFR 101.13(l) by kinds of the table, and the kinds
// that do not count: sauces, gravies, condiments, pickles, fats.
var (
	claimGroups = [4][]string{
		{"grain", "bread", "pasta", "noodle", "rice", "cereal", "tortilla"},
		{"vegetable", "fruit", "tomato_product", "mushroom"},
		{"milk", "cheese", "yogurt", "dry_milk", "plant_milk"},
		{"meat", "beef", "pork", "poultry", "fish", "shellfish", "lamb", "veal", "egg", "legume", "nut", "tree_nut", "seed", "tofu"},
	}
	uncounted = []string{"condiment", "sauce", "gravy", "pickle", "salad_dressing", "broth", "bouillon", "soup", "fat", "oil", "starch", "flour", "bread_crumbs", "spice", "fruit_juice"}
)

// groupOf is the food's group of four, or -1.
func groupOf(f *composition.Food) int {
	has := func(kinds []string) bool { return slices.ContainsFunc(kinds, f.HasKind) }
	if has(uncounted) {
		return -1
	}
	for i, kinds := range claimGroups {
		if has(kinds) {
			return i
		}
	}
	return -1
}

// Kinds that are salt or sugar, or commonly understood to hold it.
var (
	saltKinds  = []string{"salt", "spice_blend_salted", "bouillon", "soy_sauce", "cured_meat", "pickle", "leavening"}
	sugarKinds = []string{"sugar", "syrup", "honey", "jam"}
)

// ComparesClaims reports whether a dish can be held against an earlier version of it:
// by 100 g, as main dishes and meals are. Of any other dish the amount customarily
// eaten, by which "reduced" goes, is not known.
func ComparesClaims(a Analysis) bool { return dishSubject(a).Kind != label.SingleFood }

// DishClaims holds a serving of the dish against the definitions, and against an
// earlier version of it where one is given. A dish that is neither a main dish nor
// a meal by its weight and groups is judged by the definitions that need no
// reference amount; the others stay unknown.
func DishClaims(a Analysis, earlier *Analysis) Claims {
	s := dishSubject(a)
	c := claimsOf(s, map[label.Kind]string{
		label.SingleFood: "neither a main dish nor a meal by its weight and food groups; the US terms go by the amount customarily eaten, which is not known here",
		label.MainDish:   fmt.Sprintf("a main dish of about %.0f g (21 CFR 101.13(m)), so the US terms go by 100 g", s.Serving.Grams.Mid),
		label.Meal:       fmt.Sprintf("a meal of about %.0f g (21 CFR 101.13(l)), so the US terms go by 100 g", s.Serving.Grams.Mid),
	}[s.Kind])
	if earlier != nil {
		c.compare(dishSubject(*earlier), s)
	}
	return c
}

// compare adds the definitions of "reduced" that are met.
func (c *Claims) compare(earlier, now label.Subject) {
	var all []label.Judged
	for _, n := range []composition.Nutrient{composition.Sodium, composition.Energy, composition.Fat, composition.SaturatedFat, composition.Cholesterol} {
		if j, ok := label.Reduced(n, earlier, now); ok {
			all = append(all, j)
		}
	}
	if now.Kind == label.SingleFood {
		all = append(all, label.LightInSodium(earlier, now))
	}
	for _, j := range all {
		if j.Judgement == label.Meets {
			c.Compared = append(c.Compared, j)
		}
	}
}

// dishSubject is a serving of the dish for the definitions.
func dishSubject(a Analysis) label.Subject {
	s := label.Subject{Serving: servingOf(a.Pot)}
	var groups [4]float64
	for _, lp := range a.Pot.Lines {
		if lp.AtTable {
			continue
		}
		for _, it := range lp.Matched.Items {
			if g := groupOf(it.Food); g >= 0 && a.Pot.Servings > 0 {
				groups[g] += it.Grams.Mid / a.Pot.Servings
			}
			s.Salted = s.Salted || hasKindOf(it.Food, saltKinds)
			s.Sugared = s.Sugared || hasKindOf(it.Food, sugarKinds)
		}
	}
	s.Kind = label.KindOf(s.Serving.Grams.Mid, groups)
	return s
}

func claimsOf(s label.Subject, basis string) Claims {
	return Claims{Basis: basis, Judged: label.Claims(s), Disclosures: label.Disclosures(s)}
}

func hasKindOf(f *composition.Food, kinds []string) bool {
	return slices.ContainsFunc(kinds, f.HasKind)
}

// servingOf is one serving of the pot with its weight.
func servingOf(pot nutrient.Pot) label.Portion {
	p := label.Portion{}
	if pot.Servings > 0 {
		p.Grams = pot.YieldGrams.Scale(1 / pot.Servings)
	}
	for n, a := range pot.Serving {
		p.Amounts[n] = label.Amount{Range: a.Range, Open: a.Unknown > 0}
	}
	return p
}

// FoodClaims holds a serving of one food against the definitions for single foods,
// by the amount customarily eaten of its kind. ok is false where the food has no
// measure of a serving.
func FoodClaims(f *composition.Food) (c Claims, ok bool) {
	grams, density := 0.0, 0.0
	for _, m := range f.Measures {
		u, found := measure.FindUnit(m.Unit)
		switch {
		case m.Amount <= 0:
		case m.Unit == "serving":
			grams = m.Grams / m.Amount
		case found && u.Kind == measure.Volume && density == 0:
			density = m.Grams / (m.Amount * u.Size)
		}
	}
	if grams <= 0 {
		return Claims{}, false
	}
	s := label.Subject{Serving: label.Portion{Grams: spread.Exact(grams)}, Salted: hasKindOf(f, saltKinds), Sugared: hasKindOf(f, sugarKinds)}
	for _, n := range composition.Nutrients() {
		r, known := f.Per100g(n)
		s.Serving.Amounts[n] = label.Amount{Range: r.Scale(grams / 100), Open: !known}
	}
	basis := "a single food; the US terms go by the amount customarily eaten, which is not known for its kind"
	if ref, what, found := label.Reference(f, density); found {
		s.Reference = ref
		basis = fmt.Sprintf("a single food; the US terms go by %.0f g, the amount customarily eaten of %s (21 CFR 101.12(b))", ref, what)
	}
	return claimsOf(s, basis), true
}
