package household

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/composition"
	"potwright/internal/spread"
)

func cautionNeeds() *Needs {
	return NewNeeds(Book{Cautions: []CautionRule{
		{ID: "citrus", Title: "no grapefruit", Also: []string{"pomelo"}, Signs: Signs{Words: []string{"grapefruit"}, NotWords: []string{"grapefruit spoon"}},
			Stands: []Carrier{{Signs: Signs{Words: []string{"marmalade"}}, Why: "often of Seville oranges"}}, Say: "Ask your pharmacist."},
		{ID: "egg", Title: "no raw egg", Signs: Signs{Kinds: []string{"egg"}}, Heat: true, Still: []string{"soft boiled"}, Say: "Ask your clinician."},
		{ID: "risk", Title: "care", Includes: []string{"egg"}, Say: "Ask your clinician."},
		{ID: "shape", Title: "choking", UnderAge: 4, Signs: Signs{Words: []string{"grape"}, NotStates: []string{"quartered"}}, GoneBy: []string{"quarter"}, Say: "Ask."},
		{ID: "salt", Title: "steady salt", OnlyWarns: true, Amount: &CautionAmount{composition.Sodium, 1000},
			Steady: &CautionSteady{composition.Sodium, 25, 200}, Say: "Tell your clinic."},
	}}, nil)
}

func ids(cs []Caution) (out []string) {
	for _, c := range cs {
		out = append(out, c.ID)
	}
	return out
}

func TestCautionsAreRaisedByLinesAndBySayingSo(t *testing.T) {
	n := cautionNeeds()
	egg := &composition.Food{Name: "egg, whole, raw", Kinds: []string{"egg"}}
	grape := &composition.Food{Name: "grapes, raw"}
	for _, c := range []struct {
		name   string
		member Member
		line   LineFood
		steps  []string
		want   []string
		sure   bool
	}{
		{"what is ticked is found by its words", Member{Cautions: []string{"citrus"}}, LineFood{Text: "1 grapefruit"}, nil, []string{"citrus"}, true},
		{"another word for it is known", Member{Cautions: []string{"Pomelo"}}, LineFood{Text: "1 grapefruit"}, nil, []string{"citrus"}, true},
		{"a spoon is no fruit", Member{Cautions: []string{"citrus"}}, LineFood{Text: "1 melon, scooped with a grapefruit spoon"}, nil, nil, false},
		{"what may hold it is not sure", Member{Cautions: []string{"citrus"}}, LineFood{Text: "1 tbsp marmalade"}, nil, []string{"citrus"}, false},
		{"nothing is raised for one who ticked nothing", Member{}, LineFood{Text: "1 grapefruit"}, nil, nil, false},
		{"heat takes a raw egg away", Member{Cautions: []string{"egg"}}, LineFood{Text: "2 eggs", Food: egg, Heat: HeatedThrough}, nil, nil, false},
		{"an egg that stays raw is sure", Member{Cautions: []string{"egg"}}, LineFood{Text: "2 eggs", Food: egg, Heat: NotHeated}, nil, []string{"egg"}, true},
		{"an egg nobody tells of is not", Member{Cautions: []string{"egg"}}, LineFood{Text: "2 eggs", Food: egg}, nil, []string{"egg"}, false},
		{"a soft egg stays soft", Member{Cautions: []string{"egg"}}, LineFood{Text: "2 soft-boiled eggs", Food: egg, Heat: HeatedThrough}, nil, []string{"egg"}, true},
		{"one caution brings those it includes", Member{Cautions: []string{"risk"}}, LineFood{Text: "2 eggs", Food: egg, Heat: NotHeated}, nil, []string{"egg"}, true},
		{"a child's age raises it without a tick", Member{Age: 2}, LineFood{Text: "1 cup grapes", Food: grape}, nil, []string{"shape"}, true},
		{"a child of four has outgrown it", Member{Age: 4}, LineFood{Text: "1 cup grapes", Food: grape}, nil, nil, false},
		{"an age that is not told raises nothing", Member{}, LineFood{Text: "1 cup grapes", Food: grape}, nil, nil, false},
		{"a shape cut on the line is gone", Member{Age: 2}, LineFood{Text: "1 cup grapes, quartered", Food: grape}, nil, nil, false},
		{"a shape cut in a step is gone", Member{Age: 2}, LineFood{Text: "1 cup grapes", Food: grape}, []string{"Quarter the grapes."}, nil, false},
		{"a word nobody knows is said, not passed over", Member{Cautions: []string{"moonlight"}}, LineFood{Text: "1 onion"}, nil, []string{"moonlight"}, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := n.Cautions(c.member, PlateFoods{Foods: []LineFood{c.line}, Steps: c.steps})
			require.Equal(t, c.want, ids(got))
			if len(got) == 1 {
				assert.Equal(t, c.sure, got[0].Sure)
				assert.NotEmpty(t, got[0].Say)
			}
		})
	}
}

func sodium(x float64, unknown int) Amounts {
	return func(composition.Nutrient) Amount {
		return Amount{Range: spread.Between(x*0.9, x, x*1.1), Unknown: unknown}
	}
}

func TestACautionByAmountSpeaksOfThePlate(t *testing.T) {
	n, m := cautionNeeds(), Member{Cautions: []string{"salt"}}
	for x, want := range map[float64]int{500: 0, 950: 1, 1000: 1, 2000: 1} {
		assert.Len(t, n.Cautions(m, PlateFoods{Amounts: sodium(x, 0)}), want, x)
	}
	assert.False(t, n.Cautions(m, PlateFoods{Amounts: sodium(950, 0)})[0].Sure, "only the high end reaches it")
}

func TestASteadyCautionSpeaksOfAChange(t *testing.T) {
	n, m := cautionNeeds(), Member{Cautions: []string{"salt"}}
	for _, c := range []struct {
		name          string
		before, after float64
		want          int
	}{
		{"a quarter less, and over 200 mg", 1000, 750, 1},
		{"more counts as less does", 800, 1200, 1},
		{"a tenth less is about the same", 1000, 900, 0},
		{"half of little is little", 100, 50, 0},
	} {
		assert.Len(t, n.SteadyCautions(m, sodium(c.before, 0), sodium(c.after, 0)), c.want, c.name)
	}
	assert.Empty(t, n.SteadyCautions(m, sodium(1000, 1), sodium(100, 0)), "what is not known is not compared")
	assert.Empty(t, n.SteadyCautions(Member{}, sodium(1000, 0), sodium(100, 0)))
}

func TestWhatACautionIsAboutIsNotBroughtIn(t *testing.T) {
	n := cautionNeeds()
	grapefruit, marmalade := LineFood{Text: "1 grapefruit"}, LineFood{Text: "1 tbsp marmalade"}
	m := Member{Cautions: []string{"citrus"}}
	bars := func(m Member, food LineFood) []string {
		b := n.Bars(m)
		return b.On([]LineFood{food})
	}
	assert.Equal(t, []string{"citrus"}, bars(m, grapefruit))
	assert.Empty(t, bars(m, marmalade), "what only may hold it is told on the plate")
	assert.Empty(t, bars(Member{}, grapefruit))
	assert.Equal(t, []string{"dislike:food:grapefruit"}, bars(Member{Dislikes: []string{"food:grapefruit"}}, grapefruit), "without any caution too")
}

func TestAnUnknownCautionIsAFaultOfTheHousehold(t *testing.T) {
	h := Household{Name: "H", Members: []Member{{Name: "A", Cautions: []string{"citrus", "citrs"}}}}
	err := h.Validate(cautionNeeds())
	require.Error(t, err)
	assert.Contains(t, err.Error(), `members[0].cautions[1]: unknown caution "citrs"; expected "citrus"`)
}
