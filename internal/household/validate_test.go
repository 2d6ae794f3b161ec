package household_test

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"potwright/internal/composition"
	"potwright/internal/diagnostic"
	"potwright/internal/household"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func sound() household.Household {
	return household.Household{Name: "Harbour Street", Cook: household.Cook{Spare: []string{"grip"}, LiftLimitKg: 3},
		Members: []household.Member{
			{Name: "A", Age: 71, Limits: []household.Limit{sodium(600, household.PerMeal, household.Clinician)}, Texture: &household.Texture{Level: 6, Avoid: []string{"stringy"}}},
			{Name: "B", Plan: plan(), Portion: 0.6, PortionMin: 0.5, PortionMax: 1, Avoid: []string{"milk"}},
		}}
}

func plan() *household.Plan {
	p := choices()
	return &p
}

func smallNeeds() *household.Needs {
	return household.NewNeeds(household.Book{
		Avoid:    []household.AvoidRule{{ID: "milk", Title: "milk"}},
		Features: []household.Feature{{ID: "stringy"}, {ID: "husks"}},
	}, []*composition.Food{{Name: "bacon", Kinds: []string{"cured_meat"}}})
}

func TestASoundHouseholdHasNoFault(t *testing.T) {
	assert.NoError(t, sound().Validate(smallNeeds()))
	assert.NoError(t, sound().Validate(nil))
}

func TestEveryFaultIsNamedWithItsField(t *testing.T) {
	for _, c := range []struct {
		name, field, expected string
		spoil                 func(*household.Household)
	}{
		{"a name without end", "household", "at most 80", func(h *household.Household) { h.Name = strings.Repeat("é", 81) }},
		{"a member's name without end", "members[0].name", "at most 80", func(h *household.Household) { h.Members[0].Name = strings.Repeat("é", 81) }},
		{"no name", "household", "a name", func(h *household.Household) { h.Name = " " }},
		{"nobody", "members", "at least one member", func(h *household.Household) { h.Members = nil }},
		{"a member without a name", "members[0].name", "a name", func(h *household.Household) { h.Members[0].Name = "" }},
		{"two members of one name", "members[1].name", "another name", func(h *household.Household) { h.Members[1].Name = " a " }},
		{"a negative limit", "members[0].limits[0].at_most", "a number from 0 to", func(h *household.Household) { h.Members[0].Limits[0].AtMost = at(-1) }},
		{"a limit that is not a number", "members[0].limits[0].at_most", "a number from 0 to", func(h *household.Household) { h.Members[0].Limits[0].AtMost = at(math.NaN()) }},
		{"a limit without end", "members[0].limits[0].at_least", "a number from 0 to", func(h *household.Household) { h.Members[0].Limits[0].AtLeast = at(math.Inf(1)) }},
		{"a limit without a figure", "members[0].limits[0]", "at_most or at_least", func(h *household.Household) { h.Members[0].Limits[0].AtMost = nil }},
		{"at most under at least", "members[0].limits[0]", "at_most no smaller than at_least", func(h *household.Household) { h.Members[0].Limits[0].AtLeast = at(700) }},
		{"an unknown nutrient", "members[0].limits[0].nutrient", "a nutrient of the food table", func(h *household.Household) { h.Members[0].Limits[0].Nutrient = 99 }},
		{"an unknown period", "members[0].limits[0].per", `"meal"`, func(h *household.Household) { h.Members[0].Limits[0].Per = "meel" }},
		{"an unknown source of a limit", "members[0].limits[0].set_by", `"clinician"`, func(h *household.Household) { h.Members[0].Limits[0].SetBy = "clinicain" }},
		{"a portion below 0", "members[1].portion", "above 0 and at most 5", func(h *household.Household) { h.Members[1].Portion = -1 }},
		{"a portion above 5", "members[1].portion_max", "above 0 and at most 5", func(h *household.Household) { h.Members[1].PortionMax = 5.1 }},
		{"the least portion above the most", "members[1].portion_min", "no larger than portion_max", func(h *household.Household) { h.Members[1].PortionMin = 2 }},
		{"a usual portion outside what is accepted", "members[1].portion", "from portion_min to portion_max", func(h *household.Household) { h.Members[1].Portion = 0.4 }},
		{"a meal share above 1", "meal_share", "above 0 and at most 1", func(h *household.Household) { h.MealShare = 1.2 }},
		{"a meal share that is not a number", "meal_share", "above 0 and at most 1", func(h *household.Household) { h.MealShare = math.NaN() }},
		{"a texture level that does not exist", "members[0].texture.level", "from 3 to 7", func(h *household.Household) { h.Members[0].Texture.Level = 8 }},
		{"an unknown feature", "members[0].texture.avoid[0]", `"stringy"`, func(h *household.Household) { h.Members[0].Texture.Avoid[0] = "strings" }},
		{"an unknown hand load", "cook.spare[0]", `"grip"`, func(h *household.Household) { h.Cook.Spare[0] = "grib" }},
		{"a pot without a size", "equipment.pots[0].litres", "above 0", func(h *household.Household) { h.Equipment.Pots = []household.Pot{{Name: "blue pot"}} }},
		{"a pot without a name", "equipment.pots[0].name", "a name such as", func(h *household.Household) { h.Equipment.Pots = []household.Pot{{Litres: 3}} }},
		{"too many pots", "equipment.pots", "at most 20", func(h *household.Household) {
			h.Equipment.Pots = slices.Repeat([]household.Pot{{Name: "pot", Litres: 3}}, 21)
		}},
		{"a negative lift limit", "cook.lift_limit_kg", "a number from 0 to", func(h *household.Household) { h.Cook.LiftLimitKg = -1 }},
		{"an unknown avoidance", "members[1].avoid[0]", `"milk"`, func(h *household.Household) { h.Members[1].Avoid[0] = "mlik" }},
		{"an unknown kind", "members[1].avoid[0]", `"cured_meat"`, func(h *household.Household) { h.Members[1].Avoid[0] = "kind:curd_meat" }},
		{"an empty avoidance", "members[1].avoid[0]", "such as milk", func(h *household.Household) { h.Members[1].Avoid[0] = "" }},
		{"a plan without a unit", "members[1].plan.unit", "such as choice", func(h *household.Household) { h.Members[1].Plan.Unit = "" }},
		{"a plan that weighs nothing", "members[1].plan.weights", "at least one nutrient", func(h *household.Household) { h.Members[1].Plan.Weights = nil }},
		{"a weight that is not a number", "members[1].plan.weights.carbohydrate_g", "units of the plan per g", func(h *household.Household) { h.Members[1].Plan.Weights[composition.Carbohydrate] = math.NaN() }},
		{"a negative allowance", "members[1].plan.allowance", "a number from 0 to", func(h *household.Household) { h.Members[1].Plan.Allowance = -4 }},
		{"an allowance without end", "members[1].plan.allowance", "from 0 to 1000000", func(h *household.Household) { h.Members[1].Plan.Allowance = 1e308 }},
		{"a weight without end", "members[1].plan.weights.carbohydrate_g", "at most 1000", func(h *household.Household) { h.Members[1].Plan.Weights[composition.Carbohydrate] = -1e308 }},
		{"a unit of a thousand letters", "members[1].plan.unit", "at most 80", func(h *household.Household) { h.Members[1].Plan.Unit = strings.Repeat("x", 1000) }},
		{"a pot of a thousand letters", "equipment.pots[0].name", "at most 80", func(h *household.Household) {
			h.Equipment.Pots = []household.Pot{{Name: strings.Repeat("x", 1000), Litres: 3}}
		}},
		{"a kitchen that lifts tons", "cook.lift_limit_kg", "from 0 to 100", func(h *household.Household) { h.Cook.LiftLimitKg = 1e308 }},
		{"a crowd", "members", "at most 100", func(h *household.Household) {
			for i := range 100 {
				h.Members = append(h.Members, household.Member{Name: fmt.Sprint(i)})
			}
		}},
		{"dislikes without end", "members[0].dislikes", "at most 200", func(h *household.Household) { h.Members[0].Dislikes = slices.Repeat([]string{"milk"}, 201) }},
		{"an age of 200", "members[0].age", "0 to 130", func(h *household.Household) { h.Members[0].Age = 200 }},
	} {
		t.Run(c.name, func(t *testing.T) {
			h := sound()
			c.spoil(&h)
			var faults diagnostic.Faults
			require.True(t, errors.As(h.Validate(smallNeeds()), &faults))
			require.NotEmpty(t, faults)
			assert.Equal(t, c.field, faults[0].Field)
			assert.Contains(t, faults[0].Expected, c.expected)
			assert.NotEmpty(t, faults[0].Problem)
		})
	}
}

func TestEveryFaultIsReportedAtOnce(t *testing.T) {
	h := household.Household{Members: []household.Member{{}, {Portion: 9, Limits: []household.Limit{{}}}}}
	var faults diagnostic.Faults
	require.True(t, errors.As(h.Validate(nil), &faults))
	assert.GreaterOrEqual(t, len(faults), 6)
}
