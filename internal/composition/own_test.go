package composition

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"potwright/internal/spread"
)

// over is the shelf with a household's own foods laid over it.
func over(t testing.TB) *Table {
	t.Helper()
	table, err := shelf(t).With([]*Food{
		{ID: "own:1", Name: "corn, canned, no salt added"},
		{ID: "own:2", Name: "butter"},
		{ID: "own:3", Name: "moonroot paste"},
	})
	require.NoError(t, err)
	return table
}

func TestAnOwnFoodIsMeantByItsWholeName(t *testing.T) {
	table := over(t)
	for words, want := range map[string]string{
		"no salt added canned corn": "own:1", "canned corn": "4", "butter": "own:2", "moonroot paste": "own:3", "oat milk": "9",
	} {
		got := table.Match(Phrase{Words: words, Unit: "can"})
		require.NotEmpty(t, got, words)
		assert.Equal(t, want, got[0].Food.ID, words)
	}
	got := table.Match(Phrase{Words: "corn", States: []string{"canned", "no_salt_added"}})
	require.Len(t, got, 1, "no other is in doubt")
	assert.Equal(t, "own:1", got[0].Food.ID)
	assert.Equal(t, "lima beans, dry", first(t, table, Phrase{Words: "butter beans"}), "what others are called by counts")
	assert.Equal(t, "moonroot paste", first(t, table, Phrase{Words: "tangy moonroot paste"}), "like any food")
}

func TestAnOverlayIsFoundFirstAndLeavesTheTableAsItWas(t *testing.T) {
	base := shelf(t)
	table := over(t)
	f, ok := table.ByID("own:2")
	require.True(t, ok)
	assert.Equal(t, "butter", f.Name)
	_, ok = table.ByID("12")
	assert.True(t, ok)
	_, ok = table.ByName("oat milk")
	assert.True(t, ok)
	assert.Len(t, table.Foods(), 16)
	found := table.Search("butter", 3)
	require.Len(t, found, 3)
	assert.Equal(t, "own:2", found[0].ID)
	assert.Len(t, table.Search("butter", 1), 1)
	assert.Empty(t, base.Match(Phrase{Words: "moonroot paste"}))
	same, err := base.With(nil)
	require.NoError(t, err)
	assert.Same(t, base, same)
	for _, bad := range [][]*Food{{nil}, {{ID: "x"}}, {{ID: "1", Name: "a"}}, {{ID: "x", Name: "a"}, {ID: "y", Name: "a"}}} {
		_, err := base.With(bad)
		assert.Error(t, err)
	}
}

// A content with bounds is those bounds, whatever the food group's usual spread.
func TestABoundedContentIsItsBounds(t *testing.T) {
	f := &Food{ID: "own:1", Name: "broth"}
	f.Nutrients[Sodium] = Content{Known: true, Bounded: true, Low: 56, Mid: 58, High: 60}
	r, ok := f.Per100g(Sodium)
	require.True(t, ok)
	assert.Equal(t, spread.Range{Low: 56, Mid: 58, High: 60}, r)
	assert.True(t, f.IsPure(Sodium))
	assert.False(t, f.IsPure(Protein))
}

func TestAnOverlayNeverChangesWhatOtherWordsMean(t *testing.T) {
	base, table := shelf(t), over(t)
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SampledFrom([]string{"lima beans", "scallion", "red onion", "goat milk", "80% lean ground beef", "frozen corn"}).Draw(t, "words")
		was, is := base.Match(Phrase{Words: words}), table.Match(Phrase{Words: words})
		require.NotEmpty(t, was)
		assert.Equal(t, was[0].Food.ID, is[0].Food.ID, words)
	})
}
