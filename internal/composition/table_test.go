package composition

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// shelf is a few rows that bring out one rule each.
func shelf(t testing.TB) *Table {
	t.Helper()
	table, err := NewTable([]*Food{
		{ID: "1", Name: "butter, salted", States: []string{"salted"}, Kinds: []string{"butter"}, Defaults: []Default{{Phrase: "butter", Weight: 0.9, Why: "salted unless stated"}}},
		{ID: "2", Name: "butter, unsalted", States: []string{"unsalted"}, Kinds: []string{"butter"}, Defaults: []Default{{Phrase: "butter", Weight: 0.1}}},
		{ID: "3", Name: "corn, canned", States: []string{"canned"}},
		{ID: "4", Name: "corn, canned, drained", States: []string{"canned", "drained"}, Defaults: []Default{{Phrase: "corn", Units: []string{"can"}, Weight: 1}}},
		{ID: "5", Name: "corn, frozen", States: []string{"frozen"}},
		{ID: "6", Name: "corn, raw", States: []string{"raw"}},
		{ID: "7", Name: "green onion, raw", States: []string{"raw"}, Synonyms: []string{"scallion", "spring onion"}},
		{ID: "8", Name: "onion, raw", States: []string{"raw"}, Synonyms: []string{"red onion"}},
		{ID: "9", Name: "oat milk", Kinds: []string{"plant_milk"}},
		{ID: "10", Name: "goat milk"},
		{ID: "11", Name: "lima beans, dry", States: []string{"dried"}, Synonyms: []string{"butter bean"}, Kinds: []string{"legume"}},
		{ID: "12", Name: "beef, ground, 80% lean, raw", States: []string{"raw", "ground", "lean_80"}, Synonyms: []string{"ground beef"}},
		{ID: "13", Name: "beef, ground, 93% lean, raw", States: []string{"raw", "ground", "lean_93"}, Synonyms: []string{"ground beef"}},
	})
	require.NoError(t, err)
	return table
}

func TestAnIdOrNameStandsOnce(t *testing.T) {
	_, err := NewTable([]*Food{{ID: "1", Name: "a"}, {ID: "1", Name: "b"}})
	require.ErrorContains(t, err, `id "1" stands for both "a" and "b"`)
	_, err = NewTable([]*Food{{ID: "1", Name: "a"}, {ID: "2", Name: "a"}})
	require.ErrorContains(t, err, `name "a" stands for both 1 and 2`)
	_, err = NewTable([]*Food{{ID: "1"}})
	require.Error(t, err)
	_, err = NewTable([]*Food{nil})
	require.Error(t, err)
}

func TestAFoodIsFoundByIdAndName(t *testing.T) {
	table := shelf(t)
	f, ok := table.ByID("3")
	require.True(t, ok)
	assert.Equal(t, "corn, canned", f.Name)
	f, ok = table.ByName("oat milk")
	require.True(t, ok)
	assert.Equal(t, "9", f.ID)
	_, ok = table.ByID("99")
	assert.False(t, ok)
	assert.Len(t, table.Foods(), 13)
}

func first(t *testing.T, table *Table, p Phrase) string {
	t.Helper()
	got := table.Match(p)
	if len(got) == 0 {
		return ""
	}
	return got[0].Food.Name
}

func TestStatesChooseAmongSiblings(t *testing.T) {
	table := shelf(t)
	for _, c := range []struct {
		p    Phrase
		want string
	}{
		{Phrase{Words: "butter"}, "butter, salted"},
		{Phrase{Words: "unsalted butter"}, "butter, unsalted"},
		{Phrase{Words: "butter", States: []string{"no_salt_added"}}, "butter, unsalted"},
		{Phrase{Words: "corn"}, "corn, raw"},
		{Phrase{Words: "corn", Unit: "can"}, "corn, canned, drained"},
		{Phrase{Words: "corn", States: []string{"frozen"}}, "corn, frozen"},
		{Phrase{Words: "canned corn, drained"}, "corn, canned, drained"},
		{Phrase{Words: "scallions"}, "green onion, raw"},
		{Phrase{Words: "large red onions"}, "onion, raw"},
		{Phrase{Words: "ground beef", States: []string{"lean_90"}}, "beef, ground, 93% lean, raw"},
		{Phrase{Words: "90% lean ground beef"}, "beef, ground, 93% lean, raw"},
		{Phrase{Words: "Butter beans"}, "lima beans, dry"},
	} {
		assert.Equal(t, c.want, first(t, table, c.p), "%+v", c.p)
	}
}

func TestAnotherKindOfThingIsNotMatched(t *testing.T) {
	table := shelf(t)
	for _, words := range []string{"corn butter beans", "onion milk", "oat", "goat", "butter onion"} {
		assert.Empty(t, table.Match(Phrase{Words: words}), words)
	}
	assert.Equal(t, "goat milk", first(t, table, Phrase{Words: "goat milk"}))
	assert.Equal(t, "oat milk", first(t, table, Phrase{Words: "oat milk"}))
}

func TestTheReasonOfADefaultIsTold(t *testing.T) {
	got := shelf(t).Match(Phrase{Words: "butter"})
	require.Len(t, got, 2)
	assert.Equal(t, "salted unless stated", got[0].Why)
	assert.InDelta(t, 0.9, got[0].Weight, 1e-9)
}

func TestSlipsAreSuggestedNotDecided(t *testing.T) {
	table := shelf(t)
	assert.Contains(t, table.Suggest("buter"), "butter")
	assert.Empty(t, table.Match(Phrase{Words: "buter"}))
	assert.Empty(t, table.Suggest("butter"), "a word that is known needs none")
	assert.Empty(t, table.Suggest("two words"))
	assert.Empty(t, table.Suggest(""))
}

func TestSearchFindsBeginningsAndRanksTheFoodItself(t *testing.T) {
	table := shelf(t)
	got := table.Search("corn dr", 5)
	require.NotEmpty(t, got)
	assert.Equal(t, "corn, canned, drained", got[0].Name)
	assert.Equal(t, "butter, salted", table.Search("butt", 1)[0].Name)
	assert.Equal(t, "oat milk", table.Search("plant milk", 3)[0].Name)
	assert.Empty(t, table.Search("", 5))
	assert.Empty(t, table.Search("butter", 0))
	assert.Empty(t, table.Search("zebra", 5))
}

func TestPluralsJoinTheirSingularAndNothingElse(t *testing.T) {
	for plural, singular := range map[string]string{
		"tomatoes": "tomato", "leaves": "leaf", "berries": "berry", "radishes": "radish", "peas": "pea",
		"cherries": "cherry", "cloves": "clove", "chiles": "chili", "Brussels": "brussel",
	} {
		assert.Equal(t, []string{singular}, tokenize(plural))
	}
	for _, same := range []string{"hummus", "couscous", "asparagus", "swiss", "molasses", "creamed", "corned", "cress"} {
		assert.Equal(t, []string{same}, tokenize(same))
	}
}

func TestStatesAreTakenOutOfAName(t *testing.T) {
	core, states := takeStates(tokenize("Low-Sodium 85% lean fat-free canned beans, no salt added"))
	assert.Equal(t, []string{"bean"}, core)
	assert.Equal(t, []string{"low_sodium", "lean_85", "fat_free", "canned", "no_salt_added"}, states)
}

func TestTheOrderOfWordsAndFoodsDoesNotMatter(t *testing.T) {
	table := shelf(t)
	foods := table.Foods()
	words := []string{"butter", "unsalted", "corn", "canned", "frozen", "green", "onion", "ground", "beef", "large"}
	rapid.Check(t, func(t *rapid.T) {
		shuffled, err := NewTable(rapid.Permutation(foods).Draw(t, "foods"))
		if err != nil {
			t.Fatal(err)
		}
		p := Phrase{}
		for i := rapid.IntRange(1, 4).Draw(t, "n"); i > 0; i-- {
			p.Words += rapid.SampledFrom(words).Draw(t, "word") + " "
		}
		a, b := table.Match(p), shuffled.Match(p)
		if len(a) != len(b) {
			t.Fatalf("%q: %d candidates, %d after shuffling", p.Words, len(a), len(b))
		}
		for i := range a {
			if a[i].Food != b[i].Food || a[i].Weight != b[i].Weight || a[i].Why != b[i].Why {
				t.Fatalf("%q: %v is %v after shuffling", p.Words, a[i], b[i])
			}
		}
	})
}

func TestAPer100gRangeCoversTheSecondValue(t *testing.T) {
	f := &Food{Group: "0100"}
	f.Nutrients[Sodium] = Content{Known: true, Mid: 38, SD: 1, Other: 43, HasOther: true}
	r, ok := f.Per100g(Sodium)
	require.True(t, ok)
	assert.True(t, r.Valid())
	assert.GreaterOrEqual(t, r.High, 43.0)
	_, ok = f.Per100g(Iron)
	assert.False(t, ok)
}
