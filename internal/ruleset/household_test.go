package ruleset

import (
	"bytes"
	"strings"
	"testing"

	"potwright/internal/composition"
	"potwright/internal/household"
	"potwright/internal/measure"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
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

func TestAWrittenHouseholdReadsBackTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := anyHousehold(t)
		var b bytes.Buffer
		require.NoError(t, WriteHousehold(&b, want))
		got, err := ReadHousehold(&b, "home.yaml")
		require.NoError(t, err, b.String())
		assert.Equal(t, want, got)
	})
}

func anyHousehold(t *rapid.T) household.Household {
	h := household.Household{
		Name:      anyName(t, "household"),
		Measures:  rapid.SampledFrom(measure.Systems()).Draw(t, "measures"),
		MealShare: rapid.SampledFrom([]float64{0, 0.25, 1}).Draw(t, "share"),
		Cook:      household.Cook{LiftLimitKg: rapid.SampledFrom([]float64{0, 2.5}).Draw(t, "lift")},
	}
	if rapid.Bool().Draw(t, "spare") {
		h.Cook.Spare = []string{"grip"}
	}
	for i := range rapid.IntRange(0, 3).Draw(t, "pots") {
		h.Equipment.Pots = append(h.Equipment.Pots, household.Pot{Name: anyName(t, "pot"), Litres: float64(i) + 0.7})
	}
	h.Equipment.NoScales, h.Equipment.NoOven = rapid.Bool().Draw(t, "no scales"), rapid.Bool().Draw(t, "no oven")
	for range rapid.IntRange(1, 4).Draw(t, "people") {
		h.Members = append(h.Members, anyMember(t, len(h.Members)))
	}
	return h
}

func anyName(t *rapid.T, label string) string {
	return "n" + rapid.StringMatching(`[ -~éß:#'"{}&*!|>%@-]{0,12}[a-z0-9]`).Draw(t, label)
}

func anyMember(t *rapid.T, i int) household.Member {
	m := household.Member{Name: anyName(t, "name") + string(rune('0'+i)), Age: rapid.IntRange(0, 120).Draw(t, "age"),
		Portion: rapid.Float64Range(0.01, 5).Draw(t, "portion")}
	if rapid.Bool().Draw(t, "limited") {
		x := rapid.Float64Range(0, 1e6).Draw(t, "bound")
		l := household.Limit{Nutrient: composition.Nutrient(rapid.IntRange(0, composition.NutrientCount-1).Draw(t, "nutrient")),
			Per: household.PerDay, SetBy: household.OwnChoice}
		if rapid.Bool().Draw(t, "most") {
			l.AtMost = &x
		} else {
			l.AtLeast = &x
		}
		m.Limits = []household.Limit{l}
	}
	if rapid.Bool().Draw(t, "planned") {
		m.Plan = &household.Plan{Unit: anyName(t, "unit"), Allowance: 4, Per: household.PerMeal,
			Weights: map[composition.Nutrient]float64{composition.Fat: rapid.Float64Range(0.001, 10).Draw(t, "weight")}}
	}
	if rapid.Bool().Draw(t, "told") {
		m.Cautions = []string{"grapefruit", "honey_under_one"}
	}
	if rapid.Bool().Draw(t, "soft") {
		m.Texture = &household.Texture{Level: rapid.IntRange(3, 7).Draw(t, "level"), Avoid: []string{"stringy"}}
	}
	return m
}

func FuzzReadHousehold(f *testing.F) {
	f.Add(harbourStreet)
	f.Add("members: [{name: *a}]\n")
	f.Add("household: &a [*a]\nmembers: {}")
	f.Fuzz(func(t *testing.T, text string) {
		h, err := ReadHousehold(strings.NewReader(text), "home.yaml")
		if err != nil {
			return
		}
		var b bytes.Buffer
		require.NoError(t, WriteHousehold(&b, h))
		_, err = ReadHousehold(&b, "again.yaml")
		require.NoError(t, err, b.String())
	})
}
