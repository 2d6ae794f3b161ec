package label

import "potwright/internal/composition"

// lowTerms are the claims that, met by the reference food, bar "reduced".
var lowTerms = map[composition.Nutrient]string{
	composition.Sodium: "low sodium", composition.Energy: "low calorie", composition.Fat: "low fat",
	composition.SaturatedFat: "low saturated fat", composition.Cholesterol: "low cholesterol",
}

// reducedSections are the paragraphs of 21 CFR that define "reduced", single foods
// first.
var reducedSections = map[composition.Nutrient][2]string{
	composition.Sodium: {"101.61(b)(6)", "101.61(b)(7)"}, composition.Energy: {"101.60(b)(4)", "101.60(b)(5)"},
	composition.Fat: {"101.62(b)(4)", "101.62(b)(5)"}, composition.SaturatedFat: {"101.62(c)(4)", "101.62(c)(5)"},
	composition.Cholesterol: {"101.62(d)(4)", "101.62(d)(5)"},
}

// Reduced holds a food against "reduced" (a quarter less) for a nutrient, compared
// with the reference food: per reference amount for a single food, per 100 g for a
// dish. It is barred where the reference is low already. It is false for a nutrient
// without such a definition here.
func Reduced(n composition.Nutrient, reference, food Subject) (Judged, bool) {
	sections, ok := reducedSections[n]
	if !ok {
		return Judged{}, false
	}
	section := sections[0]
	if food.Kind != SingleFood {
		section = sections[1]
	}
	j := Judged{Claim: us("reduced "+n.Name(), section)}
	j.Judgement, j.Why = less(n, reference, food, 0.25)
	return barLow(j, n, reference), true
}

// LightInSodium holds a single food against "light in sodium" (half the sodium of a
// reference food that has over 40 kcal or over 3 g fat per reference amount), 21 CFR
// 101.56(c)(1); with a leaner reference the word "light" alone would do, (c)(2).
func LightInSodium(reference, food Subject) Judged {
	j := Judged{Claim: us("light in sodium", "101.56(c)(1)")}
	rich := test{n: composition.Energy, per: plainReference, most: 40}
	fatty := test{n: composition.Fat, per: plainReference, most: 3}
	e, _ := rich.judge(reference)
	f, _ := fatty.judge(reference)
	if j.Judgement, j.Why = less(composition.Sodium, reference, food, 0.5); e == Meets && f == Meets {
		j.Claim = us("light", "101.56(c)(2)")
	}
	return barLow(j, composition.Sodium, reference)
}

// barLow bars a comparison with a food that is low already.
func barLow(j Judged, n composition.Nutrient, reference Subject) Judged {
	for _, d := range definitions() {
		if d.Term == lowTerms[n] && d.suits(reference.Kind) && d.judge(reference).Judgement == Meets {
			j.Judgement, j.Why = DoesNot, "the food it is compared with is "+d.Term+" already"
		}
	}
	return j
}

// less judges whether the food holds less of a nutrient than the reference by a
// share, over both ranges.
func less(n composition.Nutrient, reference, food Subject, share float64) (Judgement, string) {
	t := test{n: n, per: plainReference}
	if food.Kind != SingleFood {
		t.per = perHundred
	}
	was, ok1 := t.amounts(reference)
	is, ok2 := t.amounts(food)
	if !ok1 || !ok2 {
		return Unknown, "the amount customarily consumed that the rule goes by is not known for this food"
	}
	keep, edge := 1-share, slack*(1+was[0].Mid)
	switch {
	case was[0].Open || is[0].Open:
		return Unknown, "a part of the " + n.Name() + " is not known"
	case is[0].High <= keep*was[0].Low+edge:
		return Meets, ""
	case is[0].Low > keep*was[0].High+edge:
		return DoesNot, ""
	default:
		return MayMeet, ""
	}
}
