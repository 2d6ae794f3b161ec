package adaptation_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/adaptation"
	"potwright/internal/composition"
)

// A label figure at the ceiling brings the plate to the limit and no further:
// worked out here from the answer's own panel, without the solver.
func TestALabelAtItsCeilingKeepsThePlateInside(t *testing.T) {
	const limit, servings = 1100.0, 4.0
	_, ans := adaptSoup(t, salted(limit), adaptation.Wishes{})
	require.True(t, ans.Fits)
	require.NotEmpty(t, ans.Labels)
	for _, l := range ans.Labels {
		lp := ans.Pot.Lines[l.Line]
		var perServing float64
		switch l.Per {
		case "1 cup":
			perServing = 240
		case "1/2 cup (130 g)":
			perServing = 130
		default:
			continue
		}
		item := lp.Matched.Items[0]
		others := ans.Pot.Total[composition.Sodium].Mid - lp.Panel[composition.Sodium].Mid
		plate := (others + l.AtMost/perServing*item.Grams.Mid) / servings
		assert.LessOrEqual(t, plate, limit+1e-6, l.Text)
		step := 10 / perServing * item.Grams.Mid / servings
		assert.Greater(t, plate, limit-step-1e-6, "the next label step would pass it: %s", l.Text)
	}
}
