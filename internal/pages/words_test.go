package pages

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"potwright/internal/composition"
	"potwright/internal/household"
	"potwright/internal/nutrient"
	"potwright/internal/recipe"
	"potwright/internal/spread"
)

func TestFiguresHaveThreeDigitsAtMost(t *testing.T) {
	for x, want := range map[float64]string{
		0: "0", 0.001: "under 0.01", 0.25: "0.25", 1.26: "1.3", 2: "2", 12.4: "12", 604: "604", 1234: "1,230", 1234567: "1,234,570",
	} {
		assert.Equal(t, want, figure(x))
	}
}

func TestUnknownAmountsAreNeverShownAsZero(t *testing.T) {
	assert.Equal(t, "not known", amountWords(nutrient.Amount{Unknown: 2}, "mg"))
	assert.Equal(t, "at least 480 mg (390 to 610)",
		amountWords(nutrient.Amount{Range: spread.Between(390, 480, 610), Unknown: 1}, "mg"))
	assert.Equal(t, "0 mg", amountWords(nutrient.Amount{}, "mg"))
	assert.Equal(t, "not known", differenceWords(nutrient.Amount{Unknown: 1}, nutrient.Amount{}, "mg"))
}

func TestLimitsAreToldInPlainWords(t *testing.T) {
	most, least := 600.0, 25.0
	assert.Equal(t, "sodium: at most 600 mg a meal, set by a clinician",
		limitWords(household.Limit{Nutrient: composition.Sodium, AtMost: &most, Per: household.PerMeal, SetBy: household.Clinician}))
	assert.Equal(t, "fibre: at least 25 g a day, own choice",
		limitWords(household.Limit{Nutrient: composition.Fibre, AtLeast: &least, Per: household.PerDay, SetBy: household.OwnChoice}))
}

func TestABarStaysInsideItsDrawing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		low := rapid.Float64Range(0, 1000).Draw(t, "low")
		mid := low + rapid.Float64Range(0, 1000).Draw(t, "more")
		high := mid + rapid.Float64Range(0, 1000).Draw(t, "most")
		bound := rapid.Float64Range(0, 5000).Draw(t, "bound")
		b, ok := newBar("x", "sodium", household.Finding{Amount: spread.Between(low, mid, high), Bound: bound}, "words")
		if high == 0 && bound == 0 {
			assert.False(t, ok, "nothing to draw")
			return
		}
		assert.True(t, ok)
		for _, x := range []float64{b.Low, b.Mid, b.High, b.Bound, b.Low + b.Span, b.Past + b.PastSpan} {
			assert.GreaterOrEqual(t, x, 0.0)
			assert.LessOrEqual(t, x, barWidth)
		}
		assert.LessOrEqual(t, b.Low, b.Mid)
		assert.LessOrEqual(t, b.Mid, b.High)
	})
}

func TestOnlyTheStepsThatDifferAreMarked(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOfN(rapid.SampledFrom([]string{"stir", "boil", "serve", "rest"}), 0, 12)
		steps := func(texts []string) (out []recipe.Step) {
			for _, text := range texts {
				out = append(out, recipe.Step{Text: text})
			}
			return out
		}
		kept := func(views []stepView) (out []string) {
			for _, v := range views {
				if v.Mark == "" {
					out = append(out, v.Text)
				}
			}
			return out
		}
		before, after := compareSteps(steps(words.Draw(t, "before")), steps(words.Draw(t, "after")))
		assert.Equal(t, kept(before), kept(after), "what is kept is the same on both sides")
	})
}

func TestADrawingOfAnAtLeastLimitMarksNothingAsPast(t *testing.T) {
	least := 25.0
	b, ok := newBar("x", "fibre", household.Finding{Limit: &household.Limit{Nutrient: composition.Fibre, AtLeast: &least},
		Amount: spread.Between(30, 40, 50), Bound: 25}, "")
	assert.True(t, ok)
	assert.Zero(t, b.PastSpan)
}

func TestWhatNeedsDoingComesFirst(t *testing.T) {
	views := vocabulary{}.findingViews("x", []household.Finding{
		{Kind: "texture", Fit: household.Inside}, {Kind: "texture", Fit: household.Close},
		{Kind: "avoid", Need: "milk", Fit: household.Unknown}, {Kind: "avoid", Need: "food:celery", Fit: household.Over}})
	var order []household.Fit
	for _, v := range views {
		order = append(order, v.Mark)
	}
	assert.Equal(t, []household.Fit{household.Over, household.Unknown, household.Close, household.Inside}, order)
	assert.Equal(t, "avoiding celery", views[0].What)
}
