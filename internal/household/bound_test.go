package household_test

import (
	"testing"

	"potwright/internal/composition"
	"potwright/internal/household"
	"potwright/internal/spread"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func at(x float64) *float64 { return &x }

func amount(low, mid, high float64) household.Amount {
	return household.Amount{Range: spread.Range{Low: low, Mid: mid, High: high}}
}

func unknown(low, mid, high float64) household.Amount {
	a := amount(low, mid, high)
	a.Unknown = 2
	return a
}

func sodium(atMost float64, per household.Period, by household.SetBy) household.Limit {
	return household.Limit{Nutrient: composition.Sodium, AtMost: at(atMost), Per: per, SetBy: by}
}

func TestADaysLimitIsSharedOutAndAMealsIsNot(t *testing.T) {
	m := household.Member{Limits: []household.Limit{
		sodium(2300, household.PerDay, household.Guidance),
		sodium(600, household.PerMeal, household.Clinician),
		{Nutrient: composition.Protein, AtLeast: at(60), AtMost: at(90), Per: household.PerDay},
		sodium(500, household.PerServing, household.OwnChoice),
	}}
	bounds := m.Bounds(household.DefaultMealShare)
	require.Len(t, bounds, 5)
	assert.InDelta(t, 2300.0/3, bounds[0].Value, 1e-9)
	assert.Equal(t, 600.0, bounds[1].Value)
	assert.Equal(t, household.AtMost, bounds[2].Side)
	assert.InDelta(t, 30, bounds[2].Value, 1e-9)
	assert.Equal(t, household.AtLeast, bounds[3].Side)
	assert.InDelta(t, 20, bounds[3].Value, 1e-9)
	assert.Equal(t, 2, bounds[3].Index)
	assert.Equal(t, 500.0, bounds[4].Value)
}

func TestAnAmountIsJudgedByItsRange(t *testing.T) {
	most := household.Bound{Limit: sodium(600, household.PerMeal, household.Guidance), Side: household.AtMost, Value: 600}
	least := household.Bound{Limit: household.Limit{Nutrient: composition.Fibre, AtLeast: at(8), Per: household.PerMeal}, Side: household.AtLeast, Value: 8}
	for _, c := range []struct {
		name  string
		bound household.Bound
		in    household.Amount
		want  household.Fit
	}{
		{"the whole range under the bound is inside", most, amount(400, 500, 590), household.Inside},
		{"a high end on the bound is inside", most, amount(400, 500, 600), household.Inside},
		{"a high end over the bound is close", most, amount(500, 590, 610), household.Close},
		{"a middle over the bound is over", most, amount(500, 601, 700), household.Over},
		{"a sum of doubles a hair over the bound is inside", most, amount(600, 600, 600.0000001), household.Inside},
		{"unknown parts under the bound can't be told", most, unknown(100, 200, 300), household.Unknown},
		{"unknown parts do not mend what is over", most, unknown(600, 700, 800), household.Over},
		{"a low end over an at-least bound is inside", least, amount(8, 9, 10), household.Inside},
		{"a low end under an at-least bound is close", least, amount(7, 9, 10), household.Close},
		{"a middle under an at-least bound falls short", least, amount(5, 6, 9), household.Over},
		{"unknown parts may reach an at-least bound", least, unknown(5, 6, 7), household.Unknown},
		{"known parts alone reach an at-least bound", least, unknown(8, 9, 10), household.Inside},
		{"nothing known is unknown", most, unknown(0, 0, 0), household.Unknown},
	} {
		t.Run(c.name, func(t *testing.T) { assert.Equal(t, c.want, c.bound.Judge(c.in)) })
	}
}

func TestOnlyAClinicansLimitNeedsTheHighEndInside(t *testing.T) {
	close := amount(500, 590, 610)
	for by, want := range map[household.SetBy]bool{household.Clinician: false, household.Guidance: true, household.OwnChoice: true} {
		b := household.Member{Limits: []household.Limit{sodium(600, household.PerMeal, by)}}.Bounds(1)[0]
		assert.Equal(t, want, b.Fits(close), by)
		assert.Equal(t, !want, b.Limit.Strict(), by)
		assert.True(t, b.Fits(amount(1, 2, 3)))
		assert.False(t, b.Fits(unknown(1, 2, 3)), "unknown never fits")
	}
}

func TestFindingsSayHowMuchByTheLabelsRounding(t *testing.T) {
	clinic := household.Member{Limits: []household.Limit{sodium(600, household.PerMeal, household.Clinician)}}.Bounds(1)[0]
	day := household.Member{Limits: []household.Limit{sodium(2300, household.PerDay, household.Guidance)}}.Bounds(household.DefaultMealShare)[0]
	fibre := household.Member{Limits: []household.Limit{{Nutrient: composition.Fibre, AtLeast: at(8), Per: household.PerMeal, SetBy: household.OwnChoice}}}.Bounds(1)[0]
	for _, c := range []struct {
		bound household.Bound
		in    household.Amount
		want  string
	}{
		{clinic, amount(690, 820, 960), "Sodium 820 mg (690–960) of at most 600 mg a meal, set by the clinician: over by 220 mg."},
		{clinic, amount(402, 402, 402), "Sodium 400 mg of at most 600 mg a meal, set by the clinician: inside."},
		{clinic, amount(500, 590, 660), "Sodium 590 mg (500–660) of at most 600 mg a meal, set by the clinician: inside at the middle, but it may be over by 60 mg."},
		{clinic, amount(602, 602, 602), "Sodium 600 mg of at most 600 mg a meal, set by the clinician: over by less than 5 mg."},
		{clinic, unknown(200, 250, 300), "Sodium at least 250 mg (200–300) of at most 600 mg a meal, set by the clinician: 2 parts are unknown, so it can't be told."},
		{day, amount(400, 500, 600), "Sodium 500 mg (400–600) of at most 770 mg a meal (a third of 2,300 mg a day), published guidance: inside."},
		{fibre, amount(5, 6, 7), "Fibre 6 g (5–7) of at least 8 g a meal, own choice: under by 2 g."},
		{fibre, amount(9, 9, 9), "Fibre 9 g of at least 8 g a meal, own choice: reached."},
	} {
		assert.Equal(t, c.want, c.bound.Finding(c.in).Text)
	}
}

func anyAmount(t *rapid.T, name string) household.Amount {
	low := rapid.Float64Range(0, 3000).Draw(t, name+" low")
	mid := low + rapid.Float64Range(0, 1000).Draw(t, name+" mid")
	high := mid + rapid.Float64Range(0, 1000).Draw(t, name+" high")
	a := amount(low, mid, high)
	a.Unknown = rapid.IntRange(0, 2).Draw(t, name+" unknown")
	return a
}

func worseOrSame(a, b household.Fit) bool { return household.Worse(a, b) == b }

func TestMoreOfANutrientIsNeverABetterVerdictAgainstAtMost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := anyAmount(t, "a")
		b := a
		more := rapid.Float64Range(0, 500).Draw(t, "more")
		b.Low, b.Mid, b.High = b.Low+more, b.Mid+more, b.High+more
		bound := household.Bound{Side: household.AtMost, Value: rapid.Float64Range(0, 4000).Draw(t, "bound")}
		assert.True(t, worseOrSame(bound.Judge(a), bound.Judge(b)))
		least := household.Bound{Side: household.AtLeast, Value: bound.Value}
		assert.True(t, worseOrSame(least.Judge(b), least.Judge(a)))
	})
}

func TestTighteningALimitNeverMendsAVerdict(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := anyAmount(t, "a")
		loose := rapid.Float64Range(0, 4000).Draw(t, "loose")
		tight := rapid.Float64Range(0, loose).Draw(t, "tight")
		was := household.Bound{Side: household.AtMost, Value: loose}.Judge(a)
		is := household.Bound{Side: household.AtMost, Value: tight}.Judge(a)
		assert.True(t, worseOrSame(was, is), "%s to %s", was, is)
	})
}

func TestAMembersPortionsHaveDefaults(t *testing.T) {
	usual, least, most := household.Member{}.Portions()
	assert.Equal(t, [3]float64{1, 1, 1}, [3]float64{usual, least, most})
	usual, least, most = household.Member{Portion: 0.6, PortionMax: 0.8}.Portions()
	assert.Equal(t, [3]float64{0.6, 0.6, 0.8}, [3]float64{usual, least, most})
}
