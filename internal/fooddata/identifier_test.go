package fooddata

import (
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The codes are those of USDA SR28, file LANGUAL: allspice is a spice or herb by the
// US Code of Federal Regulations (A0113), its plant is B1356.
func TestFoodsCarryTheirOfficialIdentifiers(t *testing.T) {
	table, err := Load()
	require.NoError(t, err)
	codes, err := LanguaL()
	require.NoError(t, err)
	allspice, _ := table.ByID("sr:02001")
	got := IdentifiersOf(allspice, codes)
	assert.Equal(t, "02001", got.NDB)
	assert.Empty(t, got.FDC)
	assert.Subset(t, got.LanguaL, []string{"A0113", "B1356"})

	form := regexp.MustCompile(`^[A-Z]\d{4}$`)
	for id, list := range codes {
		_, known := table.ByID(id)
		assert.True(t, known, "%s is a row of the table", id)
		for _, code := range list {
			assert.Regexp(t, form, code, id)
		}
	}
	assert.Greater(t, len(codes), 800)
}
