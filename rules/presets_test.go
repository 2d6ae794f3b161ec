package rules_test

import (
	"strings"
	"testing"

	"potwright/internal/composition"
	"potwright/internal/household"
	"potwright/internal/testkit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The figures of the documents named; kidney guidance gives none for potassium and
// phosphorus (KDOQI 2020), and none is made up.
func TestPublishedLimitsHaveThePublishedFigures(t *testing.T) {
	needs := testkit.Rulebook(t).Needs
	byID := map[string]household.Preset{}
	for _, p := range needs.Presets() {
		byID[p.ID] = p
		assert.True(t, strings.HasSuffix(p.Note, household.YourClinicianFirst), p.ID)
		assert.NotEmpty(t, p.Source, p.ID)
		assert.NotEmpty(t, p.Date, p.ID)
		for _, l := range p.Limits {
			assert.Equal(t, household.Guidance, l.SetBy, p.ID)
		}
	}
	for _, c := range []struct {
		id, document string
		nutrient     composition.Nutrient
		atMost       float64
		atLeast      float64
		per          household.Period
	}{
		{"dga_2020_sodium", "Dietary Guidelines 2020-2025: under 2,300 mg", composition.Sodium, 2300, 0, household.PerDay},
		{"dga_2020_saturated_fat", "Dietary Guidelines 2020-2025: under 10 % of 2,000 kcal, 9 kcal a g", composition.SaturatedFat, 22, 0, household.PerDay},
		{"dga_2020_added_sugars", "Dietary Guidelines 2020-2025: under 10 % of 2,000 kcal, 4 kcal a g", composition.AddedSugars, 50, 0, household.PerDay},
		{"dga_2025_sodium", "Dietary Guidelines 2025-2030: under 2,300 mg", composition.Sodium, 2300, 0, household.PerDay},
		{"dga_2025_added_sugars", "Dietary Guidelines 2025-2030: 10 g a meal", composition.AddedSugars, 10, 0, household.PerMeal},
		{"dga_2025_protein_70_kg", "Dietary Guidelines 2025-2030: from 1.2 g a kg", composition.Protein, 0, 84, household.PerDay},
		{"who_sodium", "WHO 2012: under 2,000 mg", composition.Sodium, 2000, 0, household.PerDay},
		{"who_potassium", "WHO 2012: 3,510 mg", composition.Potassium, 0, 3510, household.PerDay},
		{"heart_sodium", "American Heart Association: 2,300 mg", composition.Sodium, 2300, 0, household.PerDay},
		{"heart_sodium_ideal", "American Heart Association: 1,500 mg", composition.Sodium, 1500, 0, household.PerDay},
		{"dash_sodium_high", "DASH-Sodium design level 150 mmol is 3,448 mg", composition.Sodium, 3450, 0, household.PerDay},
		{"dash_sodium_intermediate", "DASH-Sodium design level 100 mmol is 2,299 mg", composition.Sodium, 2300, 0, household.PerDay},
		{"dash_sodium_low", "DASH-Sodium design level 50 mmol is 1,149 mg", composition.Sodium, 1150, 0, household.PerDay},
		{"child_sodium_1_3", "NASEM 2019: 1,200 mg", composition.Sodium, 1200, 0, household.PerDay},
		{"child_sodium_4_8", "NASEM 2019: 1,500 mg", composition.Sodium, 1500, 0, household.PerDay},
		{"child_sodium_9_13", "NASEM 2019: 1,800 mg", composition.Sodium, 1800, 0, household.PerDay},
		{"fibre", "IOM 2005: 14 g per 1,000 kcal", composition.Fibre, 0, 28, household.PerDay},
		{"fibre_2400", "IOM 2005: 14 g per 1,000 kcal", composition.Fibre, 0, 34, household.PerDay},
		{"protein_70_kg", "IOM 2005: 0.8 g a kg", composition.Protein, 0, 56, household.PerDay},
		{"kidney_sodium", "KDOQI 2020: under 2.3 g", composition.Sodium, 2300, 0, household.PerDay},
	} {
		p := byID[c.id]
		if !assert.Len(t, p.Limits, 1, c.id) {
			continue
		}
		l := p.Limits[0]
		assert.Equal(t, c.nutrient, l.Nutrient, c.document)
		assert.Equal(t, c.per, l.Per, c.document)
		if c.atMost > 0 {
			require.NotNil(t, l.AtMost, c.id)
			assert.Equal(t, c.atMost, *l.AtMost, c.document)
		} else {
			require.NotNil(t, l.AtLeast, c.id)
			assert.Equal(t, c.atLeast, *l.AtLeast, c.document)
		}
	}
	assert.Empty(t, byID["kidney_potassium_phosphorus"].Limits)
	assert.Contains(t, byID, "kidney_potassium_phosphorus")
}
