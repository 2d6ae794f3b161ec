package composition

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestFoodsBesideTheTableAreFoundButNeverGuessed(t *testing.T) {
	base, err := NewTable([]*Food{
		{ID: "sr:1", Name: "butter, salted", Synonyms: []string{"butter"}},
		{ID: "sr:2", Name: "kale, raw", Source: "looked at"},
	})
	require.NoError(t, err)
	table, err := base.Beside([]*Food{
		{ID: "fdc:7", Name: "butter, whipped, with salt"},
		{ID: "fdc:8", Name: "kale, raw"},
		{ID: "sr:2", Name: "kale", Source: "the same row again"},
	})
	require.NoError(t, err)

	for name, c := range map[string]struct{ words, want string }{
		"a phrase means what it meant":     {"butter", "butter, salted"},
		"a phrase told by states too":      {"whipped butter", "butter, salted"},
		"the whole name means the import":  {"butter, whipped, with salt", "butter, whipped, with salt"},
		"the table's own name stays its":   {"kale, raw", "kale, raw"},
		"a taken name has the id after it": {"kale, raw (fdc:8)", "kale, raw (fdc:8)"},
	} {
		t.Run(name, func(t *testing.T) {
			got := table.Match(Phrase{Words: c.words})
			require.NotEmpty(t, got)
			assert.Equal(t, c.want, got[0].Food.Name)
		})
	}

	found := table.Search("butter", 10)
	require.Len(t, found, 2, "Search finds the table's row and the import")
	assert.Equal(t, "sr:1", found[0].ID)
	assert.True(t, found[1].Imported)
	kale, _ := table.ByID("sr:2")
	assert.Equal(t, "looked at", kale.Source, "a row of the table stays")
	_, known := base.ByID("fdc:7")
	assert.False(t, known, "the table itself stays as it is")
	assert.Len(t, table.Foods(), 4)

	over, err := table.With([]*Food{{ID: "own:1", Name: "our butter"}})
	require.NoError(t, err)
	assert.Len(t, over.Search("butter", 10), 3, "a pantry over it finds both")
}
