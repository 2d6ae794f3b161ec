package kitchen_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/foodmatch"
	"potwright/internal/recipe"
	"potwright/internal/spread"
	"potwright/internal/testkit"
)

// Amounts that no kitchen has are not read as some other amount and never spoil the sum:
// the line says in a sentence what it can't weigh, or the panel stays a number.
func TestAmountsThatNoKitchenHas(t *testing.T) {
	k := testkit.Kitchen(t)
	for _, amount := range []string{"1e308", "99999999999", "999999999", "-5", "NaN", "Inf", "1/0", "0", "0/0", "1e-320", strings.Repeat("9", 400),
		"1." + strings.Repeat("0", 400) + "1", "999999999 to 1000000000", "999999999/7", "9 9 9 9 9", "5 (999999999 oz) cans", "1,000,000,000,000", "½½½½", "٣"} {
		for _, unit := range []string{" cups", " kg", ""} {
			text := fmt.Sprintf("Soup\n\nServes 4\n\nIngredients\n%s%s flour\n1 tsp salt\n\nMethod\nBoil.\n", amount, unit)
			a, err := k.Read(text, nil, nil)
			if err != nil {
				assert.ErrorContains(t, err, "expected", amount)
				continue
			}
			for _, l := range a.Pot.Lines {
				g := l.Matched.Grams()
				assert.True(t, g.Valid() && g.High <= recipe.MostGrams, "%s%s: %v", amount, unit, g)
				if l.Matched.State == foodmatch.Unread {
					assert.NotEmpty(t, l.Matched.Notes, amount)
				}
			}
			for _, x := range a.Pot.Serving {
				assert.False(t, math.IsNaN(x.Mid) || math.IsInf(x.High, 0), amount)
			}
		}
	}
}

func TestServingsThatNoKitchenHas(t *testing.T) {
	for _, serves := range []string{"Serves 999999999", "Serves 4 to 999999999", "Serves 1001", "Makes 5000 servings", "Serves 0", "Serves " + strings.Repeat("9", 60)} {
		r, err := recipe.Parse("Soup\n\n" + serves + "\n\nIngredients\n1 cup flour\n\nMethod\nBoil.\n")
		require.NoError(t, err)
		assert.InDelta(t, 4, r.Servings, 0, serves)
		assert.Contains(t, strings.Join(r.Notes, "\n"), "4 is assumed", serves)
	}
	r, err := recipe.Parse("Soup\n\nServes 1000\n\nIngredients\n1 cup flour\n\nMethod\nBoil.\n")
	require.NoError(t, err)
	assert.InDelta(t, 1000, r.Servings, 0)
}

func TestCorrectionsThatNoKitchenHas(t *testing.T) {
	for name, g := range map[string]spread.Range{"without end": spread.Exact(1e308), "negative": spread.Exact(-5), "upside down": {Low: 3, Mid: 2, High: 1},
		"no number": spread.Exact(math.NaN()), "infinite": {High: math.Inf(1)}} {
		c := recipe.Correction{Grams: &g}
		require.ErrorContains(t, c.Check(), "expected low, mid and high grams in this order", name)
		// What came in by an archive is read all the same, and spoils no sum.
		a, err := testkit.Kitchen(t).Read("Soup\n\nServes 4\n\nIngredients\n1 cup flour\n\nMethod\nBoil.\n", nil, []recipe.LineCorrection{{Words: "1 cup flour", Correction: c}})
		require.NoError(t, err)
		assert.Equal(t, foodmatch.Unread, a.Pot.Lines[0].Matched.State, name)
		assert.Contains(t, strings.Join(a.Pot.Lines[0].Matched.Notes, "\n"), "too large to weigh; expected at most 1000 kg", name)
	}
}
