package fooddata

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/composition"
)

// USDA Table of Nutrient Retention Factors, Release 6: 271 codes. The copy in
// circulation has shifted columns under 5005, of which the alcohol alone is
// sound.
func TestTheRetentionTableIsThatOfUSDA(t *testing.T) {
	table, err := LoadRetentions()
	require.NoError(t, err)
	require.Len(t, table, 270)
	for _, r := range table {
		for n, known := range r.Known {
			assert.GreaterOrEqual(t, r.Percent[n], 0.0)
			assert.LessOrEqual(t, r.Percent[n], 100.0, r.Code)
			assert.True(t, known || r.Percent[n] == 0)
		}
	}
	assert.Equal(t, 100.0, table["0001"].Percent[composition.Calcium], "cheese, baked")
	assert.Equal(t, 30.0, table["0381"].Percent[composition.Potassium], "pasta, boiled, drained")
	assert.Equal(t, 55.0, table["3005"].Percent[composition.VitaminC], "greens, boiled, drained")
	half := table["5005"]
	assert.Equal(t, 35.0, half.Percent[composition.Alcohol], "alcohol, stirred in, 30 minutes")
	assert.False(t, half.Known[composition.Calcium])
	assert.False(t, table["0001"].Known[composition.VitaminK], "the table has no vitamin K")
}

func TestAFaultInTheRetentionTableIsNamed(t *testing.T) {
	for text, want := range map[string]string{
		"# code\tname\tsodium_mg\n0001\tcheese\t101\n":                  `factor/retention.tsv:2: sodium_mg "101"; expected a whole percentage`,
		"# code\tname\tsodium_mg\n0001\tcheese\n":                       "factor/retention.tsv:2: 2 columns; expected 3",
		"# code\tname\tsalt\n0001\tcheese\t5\n":                         `heading "salt"; expected the key of a nutrient`,
		"# code\tname\tsodium_mg\n0001\tcheese\t5\n0001\tcheese\t5\n":   "code 0001 stands twice",
		"# code\tname\tsodium_mg\n0001\tcheese\tSep-75\n0002\tx\t100\n": "expected a whole percentage",
	} {
		_, err := loadRetentions(fstest.MapFS{retentionFile: {Data: []byte(text)}})
		assert.ErrorContains(t, err, want)
	}
}
