package kitchen

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"potwright/internal/adaptation"
	"potwright/internal/cooking"
	"potwright/internal/foodmatch"
	"potwright/internal/recipe"
	"potwright/internal/swap"
)

// A rule puts two foods in place of line 1; the rewritten method drains the first
// of them and says nothing new of the second.
func TestWhatTheRewrittenMethodDoesIsLearntForTheNextSearch(t *testing.T) {
	stewed, boiled := cooking.Line{Treatment: cooking.Stewed, Sure: true}, cooking.Line{Treatment: cooking.Boiled, Sure: true}
	a := Analysis{
		Recipe: recipe.Recipe{Lines: make([]recipe.Line, 3)},
		Plan:   cooking.Plan{Told: true, Lines: []cooking.Line{stewed, stewed, stewed}},
	}
	option := swap.Option{Rule: &swap.Rule{ID: "r"}, Lines: make([]foodmatch.Matched, 2)}
	ans := adaptation.Answer{Changes: []adaptation.Change{{Line: 1, Option: option}}}
	fresh := cooking.Plan{Told: true, Lines: []cooking.Line{stewed, boiled, stewed, stewed}}

	known := learnt{swapped: map[part]cooking.Line{}, kept: map[int]cooking.Line{}}
	assert.True(t, known.learn(a, ans, fresh), "the first food is cooked in another way")
	assert.Equal(t, boiled, known.swapped[part{1, "r", 0}])
	assert.Equal(t, stewed, known.swapped[part{1, "r", 1}])
	assert.False(t, known.learn(a, ans, fresh), "nothing new: another search would find the same")
}

func TestAnAnswerThatMissesSaysSo(t *testing.T) {
	ans := adaptation.Answer{Fits: true, Proof: adaptation.Optimal}
	misses(&ans)
	assert.False(t, ans.Fits)
	assert.NotEqual(t, adaptation.Optimal, ans.Proof)
	assert.NotEmpty(t, ans.Conflicts)
}
