package label

import (
	"fmt"
	"slices"
	"sync"

	"potwright/internal/composition"
)

// definitions are the terms with a numeric definition: 21 CFR 101.54 and 101.60 to
// 101.62 (text of 2015 and later), then the annex of Regulation (EC) 1924/2006,
// from memory. They are put together once.
var definitions = sync.OnceValue(func() []definition {
	return slices.Concat(sodiumTerms(), energyTerms(), fatTerms(), contentTerms(), europeanTerms())
})

var (
	single = []Kind{SingleFood}
	dishes = []Kind{MainDish, Meal}
)

func us(term, section string) Claim { return Claim{Term: term, Section: "21 CFR " + section} }

func atMost(n composition.Nutrient, p per, most float64) test { return test{n: n, per: p, most: most} }

func below(n composition.Nutrient, p per, most float64) test {
	return test{n: n, per: p, most: most, under: true}
}

func ofEnergy(n composition.Nutrient, kcalPerGram, most float64, under bool) test {
	return test{n: n, per: shareOfEnergy, perGram: kcalPerGram, most: most, under: under}
}

func salted(s Subject) string {
	if s.Salted {
		return "salt, or something understood to hold it, is an ingredient"
	}
	return ""
}

func sugared(s Subject) string {
	if s.Sugared {
		return "sugar, or something understood to hold it, is an ingredient"
	}
	return ""
}

// sodiumTerms are those of 101.61(b).
func sodiumTerms() []definition {
	na := composition.Sodium
	return []definition{
		{Claim: us("sodium free", "101.61(b)(1)"), kinds: single, tests: []test{below(na, perBoth, 5)}, barred: salted},
		{Claim: us("sodium free", "101.61(b)(1)"), kinds: dishes, tests: []test{below(na, perServing, 5)}, barred: salted},
		{Claim: us("very low sodium", "101.61(b)(2)"), kinds: single, tests: []test{atMost(na, perReference, 35)}},
		{Claim: us("very low sodium", "101.61(b)(3)"), kinds: dishes, tests: []test{atMost(na, perHundred, 35)}},
		{Claim: us("low sodium", "101.61(b)(4)"), kinds: single, tests: []test{atMost(na, perReference, 140)}},
		{Claim: us("low sodium", "101.61(b)(5)"), kinds: dishes, tests: []test{atMost(na, perHundred, 140)}},
	}
}

// energyTerms are those of 101.60(b) and (c).
func energyTerms() []definition {
	e := composition.Energy
	return []definition{
		{Claim: us("calorie free", "101.60(b)(1)"), kinds: single, tests: []test{below(e, perBoth, 5)}},
		{Claim: us("low calorie", "101.60(b)(2)"), kinds: single, tests: []test{atMost(e, perReference, 40)}},
		{Claim: us("low calorie", "101.60(b)(3)"), kinds: dishes, tests: []test{atMost(e, perHundred, 120)}},
		{Claim: us("sugar free", "101.60(c)(1)"), kinds: single, tests: []test{below(composition.Sugars, perBoth, 0.5)}, barred: sugared},
		{Claim: us("sugar free", "101.60(c)(1)"), kinds: dishes, tests: []test{below(composition.Sugars, perServing, 0.5)}, barred: sugared},
	}
}

// fatTerms are those of 101.62(b) to (d); the shares of energy are at 9 kcal a gram.
func fatTerms() []definition {
	fat, sat, trans, chol := composition.Fat, composition.SaturatedFat, composition.TransFat, composition.Cholesterol
	return []definition{
		{Claim: us("fat free", "101.62(b)(1)"), kinds: single, tests: []test{below(fat, perBoth, 0.5)}},
		{Claim: us("fat free", "101.62(b)(1)"), kinds: dishes, tests: []test{below(fat, perServing, 0.5)}},
		{Claim: us("low fat", "101.62(b)(2)"), kinds: single, tests: []test{atMost(fat, perReference, 3)}},
		{Claim: us("low fat", "101.62(b)(3)"), kinds: dishes, tests: []test{atMost(fat, perHundred, 3), ofEnergy(fat, 9, 30, false)}},
		{Claim: us("saturated fat free", "101.62(c)(1)"), kinds: single, tests: []test{below(sat, perBoth, 0.5), below(trans, perBoth, 0.5)}},
		{Claim: us("saturated fat free", "101.62(c)(1)"), kinds: dishes, tests: []test{below(sat, perServing, 0.5), below(trans, perServing, 0.5)}},
		{Claim: us("low saturated fat", "101.62(c)(2)"), kinds: single, tests: []test{atMost(sat, plainReference, 1), ofEnergy(sat, 9, 15, false)}},
		{Claim: us("low saturated fat", "101.62(c)(3)"), kinds: dishes, tests: []test{atMost(sat, perHundred, 1), ofEnergy(sat, 9, 10, true)}},
		{Claim: us("cholesterol free", "101.62(d)(1)"), kinds: single, tests: []test{below(chol, perBoth, 2), atMost(sat, plainReference, 2)}},
		{Claim: us("cholesterol free", "101.62(d)(1)"), kinds: dishes, tests: []test{below(chol, perServing, 2), atMost(sat, perServing, 2)}},
		{Claim: us("low cholesterol", "101.62(d)(2)"), kinds: single, tests: []test{atMost(chol, perReference, 20), atMost(sat, plainReference, 2)}},
		{Claim: us("low cholesterol", "101.62(d)(3)"), kinds: dishes, tests: []test{atMost(chol, perHundred, 20), atMost(sat, perHundred, 2)}},
	}
}

// contentTerms are "good source" (10 to 19 % of the daily value) and "high" (20 %
// or more), 101.54(b) and (c), for single foods. A main dish or meal may only say
// that it holds a food that meets them, which its own figures do not tell.
func contentTerms() []definition {
	var out []definition
	for _, n := range []composition.Nutrient{composition.Fibre, composition.Protein, composition.VitaminD, composition.Calcium, composition.Iron,
		composition.Potassium, composition.Phosphorus, composition.Magnesium, composition.VitaminC, composition.VitaminK} {
		value, _, _ := dailyValue(n)
		capped, memory := "", n == composition.Phosphorus || n == composition.Magnesium || n == composition.VitaminC || n == composition.VitaminK
		if n == composition.Protein {
			value, capped = proteinValue, "it goes by protein corrected for its quality, which is not known here"
		}
		good, high := us("good source of "+n.Name(), "101.54(c)"), us("high in "+n.Name(), "101.54(b)")
		good.Memory, high.Memory = memory, memory
		out = append(out,
			definition{Claim: good, kinds: single, capped: capped, tests: []test{{n: n, per: plainReference, least: 0.1 * value, most: 0.2 * value, under: true}}},
			definition{Claim: high, kinds: single, capped: capped, tests: []test{{n: n, per: plainReference, least: 0.2 * value}}})
	}
	return out
}

// proteinValue is the daily reference value of protein for adults in g, 21 CFR
// 101.9(c)(9).
const proteinValue = 50

// europeanTerms are those of the annex of Regulation (EC) 1924/2006 per 100 g, from
// memory. Those with another figure for drinks are left out.
func europeanTerms() []definition {
	eu := func(term string, tests ...test) definition {
		return definition{Claim: Claim{Term: term, Section: "Regulation (EC) 1924/2006, annex", Memory: true}, tests: tests}
	}
	na := composition.Sodium
	free := eu("sodium-free or salt-free", atMost(na, perHundred, 5))
	free.barred = salted
	return []definition{
		free,
		eu("very low sodium/salt", atMost(na, perHundred, 40)),
		eu("low sodium/salt", atMost(na, perHundred, 120)),
		eu("fat-free", atMost(composition.Fat, perHundred, 0.5)),
		eu("sugars-free", atMost(composition.Sugars, perHundred, 0.5)),
		eu("source of fibre", test{n: composition.Fibre, per: perHundred, least: 3}),
		eu("high fibre", test{n: composition.Fibre, per: perHundred, least: 6}),
		eu("source of protein", test{n: composition.Protein, per: shareOfEnergy, perGram: 4, least: 12}),
		eu("high protein", test{n: composition.Protein, per: shareOfEnergy, perGram: 4, least: 20}),
	}
}

// disclosure is the amount of a nutrient in a serving above which a US label that
// makes a claim must point to it, by kind of food: 21 CFR 101.13(h).
type disclosure struct {
	n     composition.Nutrient
	above [3]float64
}

var disclosures = []disclosure{
	{composition.Fat, [3]float64{13, 19.5, 26}},
	{composition.SaturatedFat, [3]float64{4, 6, 8}},
	{composition.Cholesterol, [3]float64{60, 90, 120}},
	{composition.Sodium, [3]float64{480, 720, 960}},
}

// Disclosures says what a US label that makes a claim would have to point to,
// judged at the best estimate: 21 CFR 101.13(h)(1)-(3). A single food is judged per
// serving and, where the reference amount is known, per that and per 50 g of a
// small one.
func Disclosures(s Subject) []string {
	var out []string
	for _, d := range disclosures {
		above := d.above[s.Kind]
		amounts := []Amount{s.Serving.Amounts[d.n]}
		if s.Kind == SingleFood && s.Reference > 0 {
			more, _ := test{n: d.n, per: perReference}.amounts(s)
			amounts = append(amounts, more...)
		}
		for _, a := range amounts {
			if a.Mid > above {
				out = append(out, fmt.Sprintf("%s, over %s %s (21 CFR 101.13(h))", d.n.Name(), Figure(above), d.n.Unit()))
				break
			}
		}
	}
	return out
}
