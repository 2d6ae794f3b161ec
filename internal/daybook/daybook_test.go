package daybook_test

import (
	"encoding/json"
	"math"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"potwright/internal/composition"
	"potwright/internal/daybook"
	"potwright/internal/household"
	"potwright/internal/nutrient"
	"potwright/internal/spread"
)

const monday = daybook.Date("2026-03-02") // ISO 8601: 2026-W10-1

func drawPanel(t *rapid.T) (p nutrient.Panel) {
	for n := range p {
		mid := rapid.Float64Range(0, 1000).Draw(t, "mid")
		p[n] = nutrient.Amount{Range: spread.Between(mid*rapid.Float64Range(0, 1).Draw(t, "down"), mid, mid*rapid.Float64Range(1, 3).Draw(t, "up")),
			Unknown: rapid.IntRange(0, 2).Draw(t, "unknown")}
	}
	return p
}

// drawWeek is up to so many entries of two members in one week, each of a version of
// its own.
func drawWeek(t *rapid.T) []daybook.Entry {
	week := monday.Week()
	out := make([]daybook.Entry, rapid.IntRange(0, 8).Draw(t, "entries"))
	for i := range out {
		out[i] = daybook.Entry{ID: int64(i + 1), MemberID: rapid.Int64Range(1, 2).Draw(t, "member"), Date: week[rapid.IntRange(0, 6).Draw(t, "day")],
			Meal: rapid.SampledFrom(daybook.Meals()).Draw(t, "meal"), State: rapid.SampledFrom([]daybook.State{daybook.Planned, daybook.Eaten}).Draw(t, "state"),
			VersionID: int64(i + 1), Title: "dish", Portion: 1, Panel: drawPanel(t)}
	}
	return out
}

func requireSame(t require.TestingT, want, got nutrient.Panel) {
	for n := range want {
		for _, pair := range [][2]float64{{want[n].Low, got[n].Low}, {want[n].Mid, got[n].Mid}, {want[n].High, got[n].High}} {
			require.InDelta(t, pair[0], pair[1], 1e-9*math.Max(1, pair[0]), composition.Nutrient(n).Key())
		}
		require.Equal(t, want[n].Unknown, got[n].Unknown)
	}
}

// A day is the sum of its entries, not of rounded figures; different dishes are
// independent, as spread adds them.
func TestADayIsTheSumOfItsEntries(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		entries := drawWeek(t)
		for _, day := range monday.Week() {
			mine := daybook.Of(entries, 1, day)
			var want nutrient.Panel
			for n := range want {
				for _, e := range mine {
					want[n].Range = want[n].Range.Add(e.Panel[n].Range)
					want[n].Unknown += e.Panel[n].Unknown
				}
			}
			requireSame(t, want, daybook.Sum(mine))
		}
	})
}

func TestWhatIsAddedAndTakenAwayLeavesAllAsItWas(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		entries := drawWeek(t)
		before := daybook.Sum(daybook.Of(entries, 1, monday))
		more := daybook.Entry{ID: 99, MemberID: 1, Date: monday, VersionID: 99, Panel: drawPanel(t)}
		at := rapid.IntRange(0, len(entries)).Draw(t, "at")
		added := slices.Insert(slices.Clone(entries), at, more)
		want := before.Plus(more.Panel)
		requireSame(t, want, daybook.Sum(daybook.Of(added, 1, monday)))
		left := slices.DeleteFunc(added, func(e daybook.Entry) bool { return e.ID == more.ID })
		require.Equal(t, before, daybook.Sum(daybook.Of(left, 1, monday)))
	})
}

func TestMovingAnEntryKeepsTheWeek(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		entries := drawWeek(t)
		if len(entries) == 0 {
			return
		}
		week := monday.Week()
		before := daybook.Sum(daybook.Of(entries, 1, week[:]...))
		i := rapid.IntRange(0, len(entries)-1).Draw(t, "which")
		entries[i].Date = week[rapid.IntRange(0, 6).Draw(t, "to")]
		entries[i].Meal = rapid.SampledFrom(daybook.Meals()).Draw(t, "to meal")
		requireSame(t, before, daybook.Sum(daybook.Of(entries, 1, week[:]...)))
	})
}

// Two servings of one pot are off together: their half-widths add up; those of two
// pots add in quadrature.
func TestServingsOfOnePotAreOffTogether(t *testing.T) {
	var p nutrient.Panel
	p[composition.Sodium].Range = spread.Range{Low: 400, Mid: 500, High: 700}
	one := daybook.Entry{VersionID: 1, Panel: p}
	other := daybook.Entry{VersionID: 2, Panel: p}
	same := daybook.Sum([]daybook.Entry{one, one})[composition.Sodium].Range
	assert.Equal(t, spread.Range{Low: 800, Mid: 1000, High: 1400}, same)
	apart := daybook.Sum([]daybook.Entry{one, other})[composition.Sodium].Range
	assert.InDelta(t, 1000+200*math.Sqrt2, apart.High, 1e-9)
	assert.InDelta(t, 1000-100*math.Sqrt2, apart.Low, 1e-9)
}

func TestStandingsTellWhatIsLeft(t *testing.T) {
	most, least := 1500.0, 25.0
	m := household.Member{ID: 1, Limits: []household.Limit{
		{Nutrient: composition.Sodium, AtMost: &most, Per: household.PerDay, SetBy: household.Clinician},
		{Nutrient: composition.Fibre, AtLeast: &least, Per: household.PerDay},
		{Nutrient: composition.Energy, AtMost: &most, Per: household.PerMeal},
		{Nutrient: composition.Energy, AtMost: &most, Per: household.PerServing}},
		Plan: &household.Plan{Unit: "choice", Weights: map[composition.Nutrient]float64{composition.Carbohydrate: 1.0 / 15}, RoundTo: 0.5, Allowance: 12, Per: household.PerDay}}
	var p nutrient.Panel
	p[composition.Sodium].Range = spread.Range{Low: 400, Mid: 500, High: 700}
	p[composition.Fibre] = nutrient.Amount{Range: spread.Exact(6), Unknown: 1}
	p[composition.Carbohydrate].Range = spread.Exact(19) // 1.27 choices, rounded to 1.5
	entry := func(meal daybook.Meal, s daybook.State) daybook.Entry {
		return daybook.Entry{MemberID: 1, Date: monday, Meal: meal, State: s, VersionID: 1, Panel: p}
	}
	day := []daybook.Entry{entry(daybook.Midday, daybook.Eaten), entry(daybook.Evening, daybook.Planned)}
	got := daybook.Standings(m, day)
	require.Len(t, got, 5, "three by day, energy once for each of two meals")
	assert.Equal(t, 500.0, got[0].Eaten.Mid)
	assert.Equal(t, spread.Range{Low: 100, Mid: 500, High: 700}, got[0].Left())
	assert.Equal(t, household.AtLeast, got[1].Side)
	assert.Equal(t, 2, got[1].All.Unknown, "what is not known stays so")
	assert.Equal(t, 13.0, got[1].Left().Mid)
	assert.Equal(t, 1.5, got[2].Eaten.Mid)
	assert.Equal(t, 3.0, got[2].All.Mid, "each meal is rounded by itself: 1.5 and 1.5, not 2.5")
	assert.Equal(t, daybook.Midday, got[3].Meal)
	assert.Equal(t, daybook.Evening, got[4].Meal)

	p[composition.Sodium].Range = spread.Exact(1700)
	over := daybook.Standings(m, []daybook.Entry{entry(daybook.Midday, daybook.Eaten)})
	assert.Equal(t, spread.Range{Low: -200, Mid: -200, High: -200}, over[0].Left())
	assert.Len(t, daybook.Standings(m, nil), 3, "an empty day has all of its limits left")
}

func TestFreeFoodsCostNothing(t *testing.T) {
	var all, counted nutrient.Panel
	all[composition.Carbohydrate].Range, counted[composition.Carbohydrate].Range = spread.Exact(40), spread.Exact(30)
	e := daybook.Entry{MemberID: 1, Date: monday, Meal: daybook.Midday, VersionID: 1, Panel: all, Counted: &counted}
	plan := household.Plan{Weights: map[composition.Nutrient]float64{composition.Carbohydrate: 0.1}}
	assert.Equal(t, 3.0, daybook.Cost(plan, []daybook.Entry{e}).Mid)
	taken := daybook.Taken([]daybook.Entry{e}, 1, monday)
	assert.Equal(t, 40.0, taken.All[composition.Carbohydrate].Mid)
	assert.Equal(t, 30.0, taken.Costing[composition.Carbohydrate].Mid)
	assert.Zero(t, daybook.Taken([]daybook.Entry{e}, 2, monday))
}

func TestDates(t *testing.T) {
	// A clock in Auckland shows another day than one in London.
	auckland := time.FixedZone("NZDT", 13*3600)
	assert.Equal(t, daybook.Date("2026-03-02"), daybook.DateOf(time.Date(2026, 3, 1, 20, 0, 0, 0, time.UTC).In(auckland)))
	assert.Equal(t, daybook.Date("2024-02-29"), daybook.Date("2024-03-01").Plus(-1))
	for _, d := range monday.Week() {
		assert.Equal(t, monday.Week(), d.Week())
	}
	assert.Equal(t, daybook.Date("2026-03-08"), monday.Week()[6])
	for _, bad := range []string{"", "2026-02-30", "1 March 2026", "2026-3-1", "2026-03-01x"} {
		_, err := daybook.ParseDate(bad)
		require.ErrorContains(t, err, "expected a day", bad)
	}
}

func TestTheFreezerIsSortedByWhatToEatFirst(t *testing.T) {
	box := func(id, version int64, frozen, by, out daybook.Date) daybook.Container {
		return daybook.Container{ID: id, VersionID: version, Portion: 1, Frozen: frozen, BestBy: by, Out: out}
	}
	got := daybook.Shelves([]daybook.Container{box(1, 1, "2026-03-01", "", ""), box(2, 2, "2026-03-01", "2026-06-01", ""), box(3, 3, "2026-03-01", "2026-05-01", ""),
		box(4, 2, "2026-03-01", "2026-06-01", ""), box(5, 4, "2026-01-01", "2026-02-01", "2026-01-05")})
	require.Len(t, got, 3, "what was taken out is not there")
	assert.Equal(t, []int64{3}, got[0].IDs)
	assert.Equal(t, []int64{2, 4}, got[1].IDs, "those alike stand together")
	assert.Equal(t, []int64{1}, got[2].IDs, "no day is last")
	assert.False(t, got[0].PastBest("2026-05-01"))
	assert.True(t, got[0].PastBest("2026-05-02"))
	assert.False(t, got[2].PastBest("2099-01-01"))
}

func TestRatingsAreSaidInWords(t *testing.T) {
	seen := map[string]bool{}
	for r := daybook.Rating(1); r <= daybook.MostRating; r++ {
		require.NotEmpty(t, r.Words())
		seen[r.Words()] = true
	}
	assert.Len(t, seen, 5)
	assert.Empty(t, daybook.Rating(0).Words())
	assert.Empty(t, daybook.Rating(9).Words())
}

func TestAnEntryIsTheSameAfterBeingWritten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := daybook.Entry{MemberID: 3, Date: monday, Meal: daybook.Between, State: daybook.Eaten, FoodID: "sr:1", Title: rapid.String().Draw(t, "title"), Panel: drawPanel(t)}
		b, err := json.Marshal(e)
		require.NoError(t, err)
		var got daybook.Entry
		require.NoError(t, json.Unmarshal(b, &got))
		require.Equal(t, e, got)
	})
}
