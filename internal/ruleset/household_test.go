package ruleset

import (
	"strings"
	"testing"

	"potwright/internal/composition"
	"potwright/internal/household"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const harbourStreet = `household: Harbour Street
cook: {hands: {spare: [fine_knife_work, tight_twist], lift_limit_kg: 3}}
equipment: {no_oven: true, pots: [{name: blue pot, litres: 4.7}]}
members:
  - name: A
    age: 71
    limits: [{nutrient: sodium_mg, at_most: 600, per: meal, set_by: clinician}]
    texture: {level: 6}
  - name: B
    plan: {unit: choice, weights: {carbohydrate_g: 0.0667}, round_to: 0.5, allowance: 4, per: meal, free: [non_starchy_vegetable]}
  - name: C
    age: 9
    portion: 0.6
    avoid: [milk]
    dislikes: [food:liver]
`

func TestAHouseholdFileReadsAsWritten(t *testing.T) {
	h, err := ReadHousehold(strings.NewReader(harbourStreet), "home.yaml")
	require.NoError(t, err)
	most := 600.0
	assert.Equal(t, household.Household{
		Name:      "Harbour Street",
		Cook:      household.Cook{Spare: []string{"fine_knife_work", "tight_twist"}, LiftLimitKg: 3},
		Equipment: household.Equipment{NoOven: true, Pots: []household.Pot{{Name: "blue pot", Litres: 4.7}}},
		Members: []household.Member{
			{Name: "A", Age: 71, Portion: 1, Texture: &household.Texture{Level: 6},
				Limits: []household.Limit{{Nutrient: composition.Sodium, AtMost: &most, Per: household.PerMeal, SetBy: household.Clinician}}},
			{Name: "B", Portion: 1, Plan: &household.Plan{Unit: "choice", RoundTo: 0.5, Allowance: 4, Per: household.PerMeal,
				Weights: map[composition.Nutrient]float64{composition.Carbohydrate: 0.0667}, Free: []string{"non_starchy_vegetable"}}},
			{Name: "C", Age: 9, Portion: 0.6, Avoid: []string{"milk"}, Dislikes: []string{"food:liver"}},
		},
	}, h)
}

func TestAHouseholdMayBeJSON(t *testing.T) {
	h, err := ReadHousehold(strings.NewReader(`{"household": "H", "members": [{"name": "A", "portion": 0.5, "portion_min": 0.25}]}`), "home.json")
	require.NoError(t, err)
	assert.Equal(t, []household.Member{{Name: "A", Portion: 0.5, PortionMin: 0.25}}, h.Members)
}

func FuzzReadHousehold(f *testing.F) {
	f.Add(harbourStreet)
	f.Add("members: [{name: *a}]\n")
	f.Add("household: &a [*a]\nmembers: {}")
	f.Fuzz(func(t *testing.T, text string) {
		h, err := ReadHousehold(strings.NewReader(text), "home.yaml")
		if err == nil {
			require.NotEmpty(t, h.Members, "who eats")
		}
	})
}
