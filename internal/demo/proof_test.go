package demo_test

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/adaptation"
	"potwright/internal/certificate"
	"potwright/internal/demo"
	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/recipe"
	"potwright/internal/testkit"
)

func TestEveryDemoAnswerHasAProofThatTheCheckerAccepts(t *testing.T) {
	k, h := testkit.Kitchen(t), people(t)
	for _, name := range demo.Dishes() {
		text, err := demo.Dish(name)
		require.NoError(t, err)
		assert.True(t, proved(t, k, h, name, text), "%s: no proof is written", name)
	}
}

// TestPublishedAnswersHaveProofs does the same for published recipes with their
// methods, those that suit nobody included.
func TestPublishedAnswersHaveProofs(t *testing.T) {
	k, h := testkit.Kitchen(t), people(t)
	var recipes []struct {
		ID, Title          string
		Servings           float64
		Ingredients, Steps []string
	}
	text, err := os.ReadFile(testkit.Shared(t, filepath.Join("validation", "recipes_with_methods.json")))
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(text, &recipes))
	count := 0
	for _, r := range recipes {
		text := fmt.Sprintf("%s\nServes %g\nIngredients\n%s\nMethod\n%s\n", r.Title, r.Servings, strings.Join(r.Ingredients, "\n"), strings.Join(r.Steps, "\n"))
		if proved(t, k, h, r.ID, text) {
			count++
		}
	}
	t.Logf("%d of %d answers have a proof; the others are blocked by a line that no limit is about", count, len(recipes))
	assert.Positive(t, count)
}

// proved adapts a dish for the demo household and checks the proof, if the
// answer has one: it must fit the answer's own claim and cost.
func proved(t *testing.T, k *kitchen.Kitchen, h household.Household, name, text string) bool {
	a, err := k.Read(text, nil, nil)
	require.NoError(t, err, name)
	ans, err := k.Adapt(context.Background(), a, h, adaptation.Wishes{Certificate: true})
	require.NoError(t, err, name)
	if ans.Certificate == nil {
		return false
	}
	report, err := certificate.Check(*ans.Certificate)
	if !assert.NoError(t, err, name) {
		return true
	}
	if assert.Equal(t, ans.Fits, ans.Certificate.Chosen != nil, name) && ans.Fits {
		assert.Equal(t, ans.Cost[0], report.Cost, name)
		fresh, err := k.Read(recipe.Text(ans.Recipe), nil, nil)
		require.NoError(t, err, name)
		assert.NoError(t, fresh.Agrees(*ans.Certificate), "%s: the exported text", name)
	}
	return true
}
