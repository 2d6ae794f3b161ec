package demo_test

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/adaptation"
	"potwright/internal/testkit"
)

// TestPublishedRecipesAdaptWithoutFault adapts some 600 recipes of USDA MyPlate
// Kitchen, NIH/NHLBI and state extension services for the demo household. Every
// answer is read afresh from its own text by the kitchen, which reports any
// difference as an error; none may come. It prints how many suit, and the times.
func TestPublishedRecipesAdaptWithoutFault(t *testing.T) {
	k, h := testkit.Kitchen(t), people(t)
	for _, file := range []string{"recipes_with_methods.json", "recipes_panels.json"} {
		text, err := os.ReadFile(testkit.Shared(t, filepath.Join("validation", file)))
		require.NoError(t, err)
		var recipes []struct {
			ID, Title          string
			Servings           float64
			Ingredients, Steps []string
		}
		require.NoError(t, json.Unmarshal(text, &recipes))
		var times []time.Duration
		var changes []int
		for _, r := range recipes {
			text := fmt.Sprintf("%s\nServes %g\nIngredients\n%s\n", r.Title, r.Servings, strings.Join(r.Ingredients, "\n"))
			if len(r.Steps) > 0 {
				text += "Method\n" + strings.Join(r.Steps, "\n") + "\n"
			}
			a, err := k.Read(text, nil, nil)
			require.NoError(t, err, r.ID)
			start := time.Now()
			ans, err := k.Adapt(context.Background(), a, h, adaptation.Wishes{})
			times = append(times, time.Since(start))
			if assert.NoError(t, err, r.ID) && ans.Fits {
				changes = append(changes, len(ans.Changes))
			} else if !ans.Fits {
				assert.NotEmpty(t, ans.Conflicts, "%s: no reason is given", r.ID)
			}
		}
		slices.Sort(times)
		slices.Sort(changes)
		t.Logf("%s: %d of %d suit the demo household, with %d changes in the median; %v in the median, %v at most",
			file, len(changes), len(recipes), changes[len(changes)/2], times[len(times)/2], times[len(times)-1])
	}
}
