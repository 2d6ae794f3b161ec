package household_test

import (
	"testing"

	"potwright/internal/composition"
	"potwright/internal/household"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func food(name string, kinds ...string) *composition.Food {
	return &composition.Food{Name: name, Kinds: kinds}
}

// book is a small one of our own making.
func book() household.Book {
	return household.Book{
		Avoid: []household.AvoidRule{
			{ID: "milk", Title: "milk", Also: []string{"dairy"}, Signs: household.Signs{Kinds: []string{"cheese"}, Words: []string{"milk", "butter"}, NotWords: []string{"coconut milk"}},
				Stands: []household.Carrier{{Signs: household.Signs{Words: []string{"margarine"}}, Why: "some hold whey"}}, SaysFree: []string{"vegan"}},
			{ID: "fish", Title: "fish", Signs: household.Signs{Words: []string{"cod"}}},
			{ID: "animal", Title: "animal foods", Includes: []string{"milk", "fish", "nothing"}},
		},
		Levels: []household.Level{{Level: 4, Title: "pureed", Smooth: true, Plate: "Puree this portion.", DoneBy: []string{"puree"}},
			{Level: 6, Title: "soft", Adult: household.Piece{Width: 15, Length: 15}, Child: household.Piece{Width: 8, Length: 8}, Plate: "Cut to {width} by {length}."}},
		Features: []household.Feature{
			{ID: "stringy", Title: "stringy", UpTo: 6, Carriers: []household.FeatureCarrier{{Signs: household.Signs{Words: []string{"celery"}}}}, GoneBy: []string{"puree"}, Remedy: "Peel it."},
			{ID: "tough", Title: "tough", UpTo: 6, Carriers: []household.FeatureCarrier{{Signs: household.Signs{Kinds: []string{"meat"}}, Maybe: true}}, GoneAfter: 90, Remedy: "Mince it.", PlateFixes: true},
		},
		Smooth: household.Signs{Words: []string{"oil"}},
		Actions: []household.HandAction{{ID: "drain", Title: "draining", Step: []string{"drain"}, NotIn: []string{"drain off"},
			Loads: map[string]int{"grip": 3, "lift": 3}, Lifts: true, Easier: "Ladle it."}},
	}
}

func TestFindingsOfAvoidancesNameTheLine(t *testing.T) {
	cheddar, cod, margarine := food("cheddar", "cheese"), food("cod, raw"), food("margarine, tub")
	needs := household.NewNeeds(book(), []*composition.Food{cheddar, cod, margarine})
	m := household.Member{Avoid: []string{"dairy", "nonsense"}}
	got := needs.AvoidFindings(m, []household.LineFood{
		{Line: 0, Text: "1 cup cheddar", Food: cheddar}, {Line: 1, Text: "1 lb cod", Food: cod},
		{Line: 2, Text: "2 tbsp margarine", Food: margarine}, {Line: 3, Text: "a bit of this", Unread: true}})
	require.Len(t, got, 4)
	assert.Equal(t, household.Over, got[0].Fit)
	assert.Equal(t, "Contains milk: cheddar (cheese): milk.", got[0].Text)
	assert.Equal(t, "dairy", got[0].Need)
	assert.Equal(t, 0, got[0].Shares[0].Line)
	assert.Equal(t, household.Unknown, got[1].Fit)
	assert.Contains(t, got[1].Text, "May contain milk")
	assert.Equal(t, "Read the label of this package.", got[1].Remedy)
	assert.Equal(t, household.Unknown, got[2].Fit, "an unread line is never free")
	assert.Equal(t, household.Unknown, got[3].Fit, "a need that is not known is never passed over")
	assert.Equal(t, household.Over, household.NewVerdict(got).Fit)
}

func TestAnAvoidanceHoldsAllThatItIncludes(t *testing.T) {
	needs := household.NewNeeds(book(), nil)
	a, err := needs.Avoidance("animal")
	require.NoError(t, err)
	assert.Equal(t, household.Contains, a.JudgeFood(food("cod, raw")).Presence)
	assert.Equal(t, household.Contains, a.JudgeFood(food("butter")).Presence)
	assert.Equal(t, household.FreeSoFar, a.JudgeFood(food("coconut milk")).Presence)
	assert.Equal(t, household.MayContain, a.JudgeFood(food("vegan butter")).Presence)
	assert.Equal(t, household.NotKnown, a.JudgeFood(nil).Presence)
}

func TestAFoodOrAKindMayBeAvoidedByItself(t *testing.T) {
	needs := household.NewNeeds(book(), []*composition.Food{food("bacon", "cured_meat")})
	celery, err := needs.Avoidance("food:celery")
	require.NoError(t, err)
	assert.Equal(t, household.Contains, celery.JudgeFood(food("celery, raw")).Presence)
	assert.Equal(t, household.FreeSoFar, celery.JudgeFood(food("celeriac")).Presence)
	cured, err := needs.Avoidance("kind:cured_meat")
	require.NoError(t, err)
	assert.Equal(t, household.Contains, cured.JudgeFood(food("bacon", "cured_meat")).Presence)
}

func TestWorseRanksUnknownBetweenCloseAndOver(t *testing.T) {
	order := []household.Fit{household.Inside, household.Close, household.Unknown, household.Over}
	for i, a := range order {
		for j, b := range order {
			assert.Equal(t, order[max(i, j)], household.Worse(a, b))
		}
	}
	assert.Equal(t, household.Inside, household.NewVerdict(nil).Fit)
}

func TestTextureAnswersAreThree(t *testing.T) {
	needs := household.NewNeeds(book(), nil)
	need, ok := needs.Texture(household.Member{Age: 9, Texture: &household.Texture{Level: 6}})
	require.True(t, ok)
	assert.Equal(t, "Cut to 8 mm by 8 mm.", need.PlateRemedy())
	got := need.Features([]household.LineFood{{Line: 0, Text: "celery", Food: food("celery, raw")}, {Line: 1, Text: "beef", Food: food("beef", "meat")}},
		[]string{"Simmer 20 minutes."})
	require.Len(t, got, 3)
	assert.Equal(t, household.Breaks, got[1].Answer)
	assert.False(t, got[1].ByPlate)
	assert.Equal(t, household.CantTell, got[2].Answer)
	assert.True(t, got[2].ByPlate)
	got = need.Features([]household.LineFood{{Line: 1, Text: "beef", Food: food("beef", "meat")}}, []string{"Simmer 2 hours."})
	assert.Equal(t, household.AimsAt, got[1].Answer)
	_, ok = needs.Texture(household.Member{})
	assert.False(t, ok)
	_, ok = needs.Texture(household.Member{Texture: &household.Texture{Level: 5}})
	assert.False(t, ok, "the book does not know the level")
}

func TestHandNotesFollowWhatIsSpared(t *testing.T) {
	needs := household.NewNeeds(book(), nil)
	steps := []string{"Drain the pasta.", "Drain off the fat."}
	got := needs.Hands(household.Cook{Spare: []string{"grip"}}).Judge(nil, steps, 2)
	require.Len(t, got, 1)
	assert.Equal(t, household.HandNote{Line: -1, Step: 0, Action: "drain", Load: "grip", Score: 3,
		Text: "Step 1: draining (grip 3 of 3).", Easier: "Ladle it."}, got[0])
	assert.Empty(t, needs.Hands(household.Cook{Spare: []string{"pinch"}}).Judge(nil, steps, 2))
	got = needs.Hands(household.Cook{LiftLimitKg: 2}).Judge(nil, steps, 2.1)
	require.Len(t, got, 1)
	assert.Equal(t, "lift", got[0].Load)
}
