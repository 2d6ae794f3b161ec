package label_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"potwright/internal/composition"
	"potwright/internal/label"
	"potwright/internal/spread"
)

// exactly is a food whose figures are known without doubt; every nutrient not
// named is not known.
func exactly(grams float64, amounts map[composition.Nutrient]float64) label.Subject {
	s := label.Subject{Serving: label.Portion{Grams: spread.Exact(grams)}, Reference: grams}
	for n := range s.Serving.Amounts {
		x, ok := amounts[composition.Nutrient(n)]
		s.Serving.Amounts[n] = label.Amount{Range: spread.Exact(x), Open: !ok}
	}
	return s
}

func sodium(grams, mg float64) label.Subject {
	return exactly(grams, map[composition.Nutrient]float64{composition.Sodium: mg})
}

func judgement(t *testing.T, s label.Subject, term string) label.Judged {
	t.Helper()
	for _, j := range label.Claims(s) {
		if j.Term == term {
			return j
		}
	}
	require.Fail(t, "no such claim", term)
	return label.Judged{}
}

// 21 CFR 101.61(b), with the 50 g test for reference amounts of 30 g or less.
func TestLowSodiumByTheUSDefinition(t *testing.T) {
	soup := sodium(245, 130)
	assert.Equal(t, label.Meets, judgement(t, soup, "low sodium").Judgement)
	assert.Equal(t, label.DoesNot, judgement(t, soup, "very low sodium").Judgement)
	assert.Equal(t, `meets the numeric definition of "low sodium" (21 CFR 101.61(b)(4))`, judgement(t, soup, "low sodium").Sentence())

	condiment := sodium(15, 60)
	assert.Equal(t, label.DoesNot, judgement(t, condiment, "low sodium").Judgement, "200 mg in 50 g")
	cheese := sodium(30, 120)
	assert.Equal(t, label.DoesNot, judgement(t, cheese, "low sodium").Judgement, "exactly 30 g is small")
	assert.Equal(t, label.Meets, judgement(t, sodium(30.1, 120), "low sodium").Judgement)

	dish := sodium(250, 300)
	dish.Kind = label.MainDish
	low := judgement(t, dish, "low sodium")
	assert.Equal(t, label.Meets, low.Judgement, "120 mg in 100 g")
	assert.Equal(t, "21 CFR 101.61(b)(5)", low.Section)
}

// 21 CFR 101.13(l) and (m): six ounces are 170.097 g, ten are 283.495 g.
func TestDishesByWeightAndGroups(t *testing.T) {
	two, three := [4]float64{40, 40}, [4]float64{40, 80}
	assert.Equal(t, label.SingleFood, label.KindOf(170.0, two))
	assert.Equal(t, label.MainDish, label.KindOf(170.2, two))
	assert.Equal(t, label.MainDish, label.KindOf(283.4, three))
	assert.Equal(t, label.Meal, label.KindOf(283.5, three))
	assert.Equal(t, label.MainDish, label.KindOf(400, two), "a meal has three portions")
	assert.Equal(t, label.SingleFood, label.KindOf(400, [4]float64{0, 300}), "a dish has two groups")
}

// 21 CFR 101.61(b)(6) and 101.56(c).
func TestComparisonsNeedAReferenceFood(t *testing.T) {
	salty := sodium(245, 300)
	for mg, want := range map[float64]label.Judgement{225: label.Meets, 226: label.DoesNot} {
		j, ok := label.Reduced(composition.Sodium, salty, sodium(245, mg))
		require.True(t, ok)
		assert.Equal(t, want, j.Judgement, "%v mg", mg)
	}
	j, _ := label.Reduced(composition.Sodium, sodium(245, 139), sodium(245, 60))
	assert.Equal(t, label.DoesNot, j.Judgement)
	assert.Contains(t, j.Why, "low sodium already")

	rich := exactly(245, map[composition.Nutrient]float64{composition.Sodium: 350, composition.Energy: 120, composition.Fat: 2})
	assert.Equal(t, label.Meets, label.LightInSodium(rich, sodium(245, 175)).Judgement)
	assert.Equal(t, "light in sodium", label.LightInSodium(rich, sodium(245, 175)).Term)
	assert.Equal(t, label.DoesNot, label.LightInSodium(rich, sodium(245, 176)).Judgement)
	_, ok := label.Reduced(composition.Iron, rich, rich)
	assert.False(t, ok)
}

// 21 CFR 101.61(b)(1)(ii).
func TestASaltedFoodIsNotSodiumFree(t *testing.T) {
	s := sodium(100, 3)
	assert.Equal(t, label.Meets, judgement(t, s, "sodium free").Judgement)
	s.Salted = true
	assert.Equal(t, label.DoesNot, judgement(t, s, "sodium free").Judgement)
}

// 21 CFR 101.13(h)(1)-(3): over 480 mg, 720 mg in a main dish, 960 mg in a meal.
func TestDisclosureLevelsAreExceededNotReached(t *testing.T) {
	for _, c := range []struct {
		kind label.Kind
		mg   float64
		want int
	}{{label.SingleFood, 481, 1}, {label.SingleFood, 480, 0}, {label.MainDish, 720, 0}, {label.Meal, 961, 1}} {
		s := sodium(300, c.mg)
		s.Kind = c.kind
		assert.Len(t, label.Disclosures(s), c.want, "%v", c)
	}
}

// 21 CFR 101.54(b), (c) and 101.62(b), (c), (d): fibre 28 g a day; at most 15 % of
// the energy from saturated fat.
func TestOtherDefinitions(t *testing.T) {
	s := exactly(100, map[composition.Nutrient]float64{composition.Fibre: 5.6, composition.Fat: 3, composition.SaturatedFat: 1,
		composition.TransFat: 0, composition.Energy: 60, composition.Cholesterol: 1, composition.Protein: 12})
	assert.Equal(t, label.Meets, judgement(t, s, "high in fibre").Judgement)
	assert.Equal(t, label.DoesNot, judgement(t, s, "good source of fibre").Judgement, "that is 10 to 19 %")
	assert.Equal(t, label.Meets, judgement(t, s, "low fat").Judgement)
	assert.Equal(t, label.Meets, judgement(t, s, "low saturated fat").Judgement, "9 of 60 kcal is 15 %")
	assert.Equal(t, label.Meets, judgement(t, s, "cholesterol free").Judgement)
	assert.Equal(t, label.MayMeet, judgement(t, s, "high in protein").Judgement, "quality is not known")
	assert.Equal(t, label.Unknown, judgement(t, s, "low sodium").Judgement, "sodium is not known")
	s.Serving.Amounts[composition.Sodium] = label.Amount{Range: spread.Exact(141), Open: true}
	assert.Equal(t, label.DoesNot, judgement(t, s, "low sodium").Judgement, "a lower bound may settle it")
	s.Reference = 0
	assert.Equal(t, label.Unknown, judgement(t, s, "low fat").Judgement, "no claim without a reference amount")
}

func TestTheRangeDecides(t *testing.T) {
	s := sodium(245, 130)
	s.Serving.Amounts[composition.Sodium].Range = spread.Between(120, 130, 150)
	assert.Equal(t, label.MayMeet, judgement(t, s, "low sodium").Judgement)
	s.Serving.Amounts[composition.Sodium].Range = spread.Between(141, 150, 160)
	assert.Equal(t, label.DoesNot, judgement(t, s, "low sodium").Judgement)
}

// A wider range never turns a judgement from one side to the other.
func TestMoreDoubtNeverProvesAClaim(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mid := rapid.Float64Range(0, 300).Draw(t, "mid")
		wide := rapid.Float64Range(0, 100).Draw(t, "wide")
		s := sodium(245, mid)
		before := label.Claims(s)
		s.Serving.Amounts[composition.Sodium].Range = spread.Between(mid-wide, mid, mid+wide)
		for i, after := range label.Claims(s) {
			if after.Judgement == label.Meets || after.Judgement == label.DoesNot {
				assert.Equal(t, before[i].Judgement, after.Judgement, after.Term)
			}
		}
	})
}

// 21 CFR 101.12(b), table 2.
func TestReferenceAmountsByKind(t *testing.T) {
	for kind, want := range map[string]float64{"broth": 245, "cheese": 30, "canned_beans": 130, "soy_sauce": 15 * 1.1} {
		got, _, ok := label.Reference(&composition.Food{Kinds: []string{kind}}, 1.1)
		assert.True(t, ok, kind)
		assert.InDelta(t, want, got, 1e-9, kind)
	}
	paste, _, ok := label.Reference(&composition.Food{Name: "tomato paste, canned", Kinds: []string{"canned_vegetable", "tomato_product"}}, 1)
	assert.True(t, ok)
	assert.Equal(t, 30.0, paste, "the narrower category comes first")
	_, _, ok = label.Reference(&composition.Food{Kinds: []string{"bouillon", "broth"}}, 1)
	assert.False(t, ok, "a bouillon goes by the dish made of it")
}
