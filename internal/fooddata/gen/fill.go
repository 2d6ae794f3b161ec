package main

import (
	"math"
	"regexp"

	"potwright/internal/composition"
	"potwright/internal/fooddata/usda"
)

const ashNumber = "207"

// fill sets the nutrients of a row: SR28 first, the survey where SR28 is blank
// and as the second value where the two differ by over 5 %; for sodium the
// survey, being newer, comes first. Zeros that follow from other figures are
// filled in; anything else stays unknown.
func (s *sources) fill(r *row, ndb string) {
	v, survey := s.values[ndb], s.survey[ndb]
	for _, n := range composition.Nutrients() {
		num := usda.NutrientNumber(n)
		if num == "" {
			continue
		}
		c := &r.Nutrients[n]
		if x, ok := v[num]; ok {
			*c = composition.Content{Known: true, Mid: x.Mid, SD: x.SD, N: x.N}
		} else if x, ok := survey[num]; ok {
			*c = composition.Content{Known: true, Mid: x.Mid}
			r.survey = append(r.survey, n)
		}
		if x, ok := s.change[ndb][n]; ok && c.Known && math.Abs(x-c.Mid) > 0.05*math.Abs(c.Mid) {
			c.Other, c.HasOther = x, true
			if n == composition.Sodium {
				c.Mid, c.Other = c.Other, c.Mid
				r.survey = append(r.survey, n)
			}
		}
	}
	s.fillAdded(r, ndb)
	fillZeros(&r.Food)
	fillAlcohol(&r.Food, v)
}

// fillAdded caps the inferred added sugars by the total.
func (s *sources) fillAdded(r *row, ndb string) {
	c := &r.Nutrients[composition.AddedSugars]
	total := r.Nutrients[composition.Sugars]
	if x, ok := s.added[ndb]; ok {
		if total.Known {
			x = math.Min(x, total.Mid)
		}
		*c = composition.Content{Known: true, Mid: x}
		return
	}
	if unsweetened(&r.Food) {
		*c = composition.Content{Known: true}
	}
}

// sweetish are words of names that may stand for sugar put in.
var sweetish = regexp.MustCompile(`sweet and|sauce|candied|harvard|pickle|relish|syrup|glazed|honey|fries|puffs|` +
	`chocolate|flavor|fruit|vanilla|baked beans|pork|dessert|topping|creamer|condensed milk|eggnog|spread|cream style|` +
	`cereal|granola|nectar|cocktail|drink|jam|jell|ketchup|stewed|dressing|mix|au gratin|scalloped|sweetened|hash brown`)

// unsweetened says that a row is a food no sugar was put into: raw or dried, or
// frozen, canned in water or juice, or plain milk, cheese, egg, oil or flour.
// Fruit in its own juice counts as unsweetened (21 CFR 101.9(c)(6)(iii)).
func unsweetened(f *composition.Food) bool {
	if f.HasState("unsweetened") {
		return true
	}
	if sweetish.MatchString(f.Name) || f.HasState("sweetened") || f.HasState("in_light_syrup") || f.HasState("in_heavy_syrup") {
		return false
	}
	switch f.Group {
	case "0500", "1000", "1300", "1700":
		return !f.HasKind("cured_meat")
	case "0200":
		return !f.HasKind("seasoning_mix") && !f.HasKind("flavoring") && !f.HasKind("condiment")
	case "0900", "1600":
		return !f.HasKind("fruit_juice") && !f.HasKind("meat_substitute") && !f.HasKind("nut_butter") && !f.HasKind("plant_milk")
	case "1100":
		return !f.HasKind("canned_vegetable") || f.HasKind("tomato")
	case "1200":
		return true
	case "1500":
		return f.HasState("raw") || f.HasState("cooked") && !f.HasState("fried")
	case "2000":
		return f.HasKind("flour") || f.HasKind("starch") || f.HasKind("pasta") || f.HasKind("rice") || f.HasKind("whole_grain")
	case "0100":
		return f.HasKind("milk") || f.HasKind("cheese") || f.HasKind("cream") || f.HasKind("egg") || f.HasKind("butter") ||
			f.HasKind("yogurt") && f.HasState("plain")
	}
	return false
}

// fillZeros sets what must be zero: parts of a whole that is zero, and in plain
// plant foods what plants do not make.
func fillZeros(f *composition.Food) {
	whole := map[composition.Nutrient][]composition.Nutrient{
		composition.Fat:          {composition.SaturatedFat, composition.TransFat},
		composition.Carbohydrate: {composition.Sugars, composition.Fibre, composition.AddedSugars},
		composition.Sugars:       {composition.AddedSugars},
	}
	for _, n := range []composition.Nutrient{composition.Fat, composition.Carbohydrate, composition.Sugars} {
		if c := f.Nutrients[n]; !c.Known || c.Mid != 0 || c.HasOther {
			continue
		}
		for _, part := range whole[n] {
			if !f.Nutrients[part].Known {
				f.Nutrients[part] = composition.Content{Known: true}
			}
		}
	}
	for _, n := range absent(f) {
		if !f.Nutrients[n].Known {
			f.Nutrients[n] = composition.Content{Known: true}
		}
	}
}

// absent lists what a plain plant food does not hold: cholesterol, which is of
// animal origin; trans fat, which comes from ruminants and hydrogenation; and,
// mushrooms aside, vitamin D (NIH Office of Dietary Supplements, vitamin D).
func absent(f *composition.Food) []composition.Nutrient {
	switch f.Group {
	case "0900", "1100", "1200", "1600", "2000", "0200":
	default:
		return nil
	}
	if sweetish.MatchString(f.Name) || f.HasKind("nut_butter") || f.HasKind("meat_substitute") || f.HasKind("canned_beans") && f.HasKind("pork") {
		return nil
	}
	out := []composition.Nutrient{composition.Cholesterol, composition.TransFat}
	if !f.HasKind("mushroom") && !f.HasKind("plant_milk") && !f.HasKind("fruit_juice") {
		out = append(out, composition.VitaminD)
	}
	return out
}

// fillAlcohol sets alcohol to zero where the other parts leave no room for it:
// SR28 computes carbohydrate by difference from 100 g.
func fillAlcohol(f *composition.Food, v values) {
	c := &f.Nutrients[composition.Alcohol]
	ash, ok := v[ashNumber]
	if c.Known || !ok {
		return
	}
	sum := ash.Mid
	for _, n := range []composition.Nutrient{composition.Water, composition.Protein, composition.Fat, composition.Carbohydrate} {
		if !f.Nutrients[n].Known {
			return
		}
		sum += v[usda.NutrientNumber(n)].Mid
	}
	if math.Abs(sum-100) < 0.3 {
		*c = composition.Content{Known: true}
	}
}
