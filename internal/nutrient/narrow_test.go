package nutrient_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/composition"
	"potwright/internal/nutrient"
)

func TestTheWidestDoubtIsNamedFirstWithWhatNarrowsIt(t *testing.T) {
	tb := table(t)
	pot := nutrient.Sum([]nutrient.LinePanel{
		line(tb, "0", "4 cups chicken broth"), line(tb, "1", "1 teaspoon sugar"), line(tb, "2", "salt to taste"),
	}, 4)
	sources := nutrient.Narrow(pot, composition.Sodium)
	require.NotEmpty(t, sources)
	assert.Contains(t, []int{0, 2}, sources[0].Line)
	sum := 0.0
	for i, s := range sources {
		sum += s.Share
		assert.NotEmpty(t, s.Text)
		assert.NotEqual(t, 1, s.Line, "sugar has no sodium to doubt")
		if i > 0 {
			assert.LessOrEqual(t, s.Share, sources[i-1].Share)
		}
	}
	assert.LessOrEqual(t, sum, 1+1e-9)
	exact := nutrient.Sum([]nutrient.LinePanel{line(tb, "0", "4 cups water")}, 4)
	assert.Empty(t, nutrient.Narrow(exact, composition.Protein))
}
