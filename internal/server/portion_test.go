package server_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestAPortionIsToldInGramsAndCosts(t *testing.T) {
	h := newHouse(t)
	base, dish := h.furnish()
	body := h.get(base + "/table").body
	assert.NotContains(t, body, "What a portion costs", "a part of the dish is not known")
	assert.NotContains(t, body, "One size for the whole table")
	h.must(dish+"/lines/6", "food", "", "skip", "yes")
	h.must(base+"/people/2", "name", "Ben", "portion", "1.5", "least", "1",
		"plan_on", "yes", "plan_unit", "choice", "plan_allowance", "4", "plan_per", "meal", "plan_round", "0.5", "weight_nutrient_0", "carbohydrate_g", "weight_amount_0", "15")
	body = h.get(base + "/table").body
	assert.Regexp(t, `one serving, about \d+ g \(\d+ to \d+\)`, body)
	assert.Regexp(t, `What a portion costs: \d+(\.5)? choices? under [\d.]+ of a serving, `, body)
	assert.Regexp(t, `The largest portion inside every limit: .* of a serving`, body)
	assert.Regexp(t, `One size for the whole table: up to .* is inside every limit of everyone \(sodium of Ana decides\), about \d+ g`, body)
}
