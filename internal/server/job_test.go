package server_test

import (
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestTheWholeJobByForms does what a household does, with nothing but forms.
func TestTheWholeJobByForms(t *testing.T) {
	h := newHouse(t)
	base, dish := h.furnish()

	recipe := h.get(dish + "?done=recipe")
	assert.Contains(t, recipe.body, "1/2 cup grated moonroot")
	assert.Contains(t, recipe.body, "not read: its part is not known")

	// The line no table knows is left out of the sums.
	to := h.must(dish+"/lines/6", "food", "", "skip", "yes")
	assert.Contains(t, h.get(strings.Split(to, "#")[0]).body, "corrected by you")

	table := h.get(base + "/table")
	assert.Contains(t, table.body, "Does not suit everyone yet.")
	assert.Contains(t, table.body, "from 1 tsp salt")

	adapt := h.get(dish + "/adapt")
	require.Equal(t, http.StatusOK, adapt.StatusCode)
	mark := valueOf(parse(t, adapt), "mark")
	require.NotEmpty(t, mark, "there is an answer to save")

	// Another answer than the one seen is not saved.
	moved := h.post(dish+"/adapt/save", "mark", "not-this-one", "note", "for Sunday")
	assert.Equal(t, http.StatusConflict, moved.StatusCode)
	assert.Contains(t, alertOf(t, moved.body), "Something changed since you looked")
	assert.Equal(t, "for Sunday", valueOf(parse(t, moved), "note"))

	saved := h.must(dish+"/adapt/save", "mark", mark, "note", "for Sunday")
	version := h.get(saved)
	require.Equal(t, http.StatusOK, version.StatusCode)
	assert.Contains(t, version.body, "for Sunday")
	assert.Contains(t, version.body, "What changed here")

	history := h.get(dish + "/versions").body
	assert.Contains(t, history, "Version 3")
	assert.Contains(t, history, "from version 2")
	assert.Contains(t, h.get(dish+"/versions/1").body, "1 tsp salt", "the first version is as it was")
	assert.Contains(t, h.get(dish+"/compare?a=1&b=3").body, "Was:")
}

func TestTheNewestVersionCanBeAdaptedAgain(t *testing.T) {
	h := newHouse(t)
	_, dish := h.furnish()
	h.must(dish+"/edit", "text", strings.Replace(potText, "1 tsp salt", "2 tsp salt", 1), "note", "saltier")
	r := h.get(dish)
	assert.Contains(t, r.body, "2 tsp salt")
	assert.Contains(t, r.body, "Version 2")
	assert.Contains(t, h.get(dish+"/versions/1").body, "This is an earlier version")
}

func TestWishesStayWithTheRecipe(t *testing.T) {
	h := newHouse(t)
	_, dish := h.furnish()
	to := h.must(dish+"/adapt", "lock", "4", "cap", "2", "seated", "1", "m", "1", "p1", "0.5")
	assert.Contains(t, to, "p1=0.5")
	w, err := h.store.Wishes(t.Context(), 1, 1)
	require.NoError(t, err)
	assert.Equal(t, []int{4}, w.Lock)
	assert.Equal(t, 2, w.MaxChanges)
	doc := parse(t, h.get(to))
	assert.Equal(t, "2", valueOf(doc, "cap"))
	assert.Equal(t, "0.5", valueOf(doc, "p1"))
}

func TestASwapAskedForIsTakenAndOneRefusedIsNot(t *testing.T) {
	h := newHouse(t)
	_, dish := h.furnish()
	h.must(dish+"/lines/6", "food", "", "skip", "yes")
	doc := parse(t, h.get(dish+"/adapt"))
	var refused []string
	for _, n := range elements(doc, "select") {
		if strings.HasPrefix(attr(n, "name"), "swap-4-") {
			refused = append(refused, attr(n, "name"), "not")
		}
	}
	require.NotEmpty(t, refused, "there are swaps for the salt")
	h.must(dish+"/adapt", refused...)
	after := h.get(dish + "/adapt")
	for _, n := range elements(parse(t, after), "select") {
		if strings.HasPrefix(attr(n, "name"), "swap-4-") {
			assert.Equal(t, "not", valueOf(parse(t, after), attr(n, "name")))
		}
	}
	// Of the swaps for the salt some leave it too salty for Ana; the last takes it
	// all out.
	taken := false
	for i := 0; i < len(refused) && !taken; i += 2 {
		h.must(dish+"/adapt", refused[i], "must")
		taken = strings.Contains(h.get(dish+"/adapt").body, "Asked for.")
	}
	assert.True(t, taken, "a swap asked for is in the answer")
}

func TestAMembersFormShowsWhatWasSaved(t *testing.T) {
	h := newHouse(t)
	base, _ := h.furnish()
	doc := parse(t, h.get(base+"/people/2"))
	for field, want := range map[string]string{"name": "Ben", "portion": "1.5", "least": "1", "plan_unit": "choice", "plan_allowance": "4",
		"weight_nutrient_0": "carbohydrate_g", "weight_amount_0": "15"} {
		assert.Equal(t, want, valueOf(doc, field), field)
	}
	before, err := h.store.FindHousehold(t.Context(), 1)
	require.NoError(t, err)
	// Sent back untouched, nothing changes.
	var pairs []string
	for _, n := range elements(doc, "") {
		name := attr(n, "name")
		switch {
		case name == "" || n.Data == "button" || n.Data == "meta":
		case attr(n, "type") == "checkbox" || attr(n, "type") == "radio":
			if has(n, "checked") {
				pairs = append(pairs, name, attr(n, "value"))
			}
		default:
			pairs = append(pairs, name, valueOf(doc, name))
		}
	}
	h.must(base+"/people/2", pairs...)
	after, err := h.store.FindHousehold(t.Context(), 1)
	require.NoError(t, err)
	assert.Equal(t, before, after)
}

func TestSomeoneIsTakenOffOnlyAfterAsking(t *testing.T) {
	h := newHouse(t)
	base, _ := h.furnish()
	assert.Contains(t, h.get(base+"/people/1/remove").body, "Take Ana off")
	h.must(base + "/people/1/remove")
	saved, err := h.store.FindHousehold(t.Context(), 1)
	require.NoError(t, err)
	require.Len(t, saved.Members, 1)
	assert.Equal(t, "Ben", saved.Members[0].Name)
	assert.Equal(t, http.StatusNotFound, h.get(base+"/people/1").StatusCode)
}

func TestARememberedFoodIsUsedByTheNextRecipe(t *testing.T) {
	h := newHouse(t)
	_, dish := h.furnish()
	h.must(dish+"/lines/6", "food", "sr:02047", "remember", "yes")
	choices, err := h.store.Choices(t.Context(), 1)
	require.NoError(t, err)
	assert.Len(t, choices, 1)
}

func TestWhatStandsAgainstEachOtherIsTold(t *testing.T) {
	h := newHouse(t)
	_, dish := h.furnish()
	h.must(dish+"/lines/6", "food", "", "skip", "yes")
	h.must(dish+"/adapt", "lock", "0", "lock", "1", "lock", "2", "lock", "3", "lock", "4", "lock", "5", "seated", "1", "m", "1", "m", "2")
	r := h.get(dish + "/adapt")
	assert.Contains(t, r.body, "Nothing that may be changed suits everyone")
	assert.Contains(t, r.body, "What stands against each other")
	assert.Empty(t, valueOf(parse(t, r), "mark"), "there is nothing to save")
	assert.Equal(t, http.StatusConflict, h.post(dish+"/adapt/save", "mark", "").StatusCode)
}

func TestTextureAndHandsAreToldAtTheTable(t *testing.T) {
	h := newHouse(t)
	base, _ := h.furnish()
	h.must(base+"/people/new", "name", "Cleo", "age", "9", "level", "6", "feature", "stringy")
	h.must(base+"/people", "name", "Quay Lane", "spare", "fine_knife_work", "spare", "lift")
	body := h.get(base + "/table").body
	assert.Contains(t, body, "8 mm", "a child's pieces (IDDSI framework 2.0, level 6)")
	assert.Contains(t, body, "For the cook’s hands")
}

func TestAnExportPastedBackIsTheSameDish(t *testing.T) {
	h := newHouse(t)
	base, dish := h.furnish()
	again := h.must(base+"/recipes/new", "text", h.get(dish+"/versions/1/text").body)
	one, two := parse(t, h.get(dish)), parse(t, h.get(strings.Split(again, "?")[0]))
	assert.Equal(t, text(elements(one, "tbody")[0]), text(elements(two, "tbody")[0]), "the panel is the same")
}

func TestAPublishedFigureIsPutInTheFormAndNotSavedYet(t *testing.T) {
	h := newHouse(t)
	base, _ := h.furnish()
	doc := parse(t, h.get(base+"/people/1"))
	var preset string
	for _, n := range elements(doc, "input") {
		if attr(n, "name") == "preset" && strings.HasPrefix(attr(n, "value"), "limit-") && preset == "" {
			preset = attr(n, "value")
			assert.Contains(t, text(n.Parent), "Source:")
		}
	}
	require.NotEmpty(t, preset, "there are published figures")
	r := h.post(base+"/people/1", "name", "Ana B", "limit_nutrient_0", "fibre_g", "limit_amount_0", "20", "limit_bound_0", "least", "preset", preset, "fill", "1")
	require.Equal(t, http.StatusOK, r.StatusCode)
	filled := parse(t, r)
	assert.Equal(t, "Ana B", valueOf(filled, "name"))
	assert.Equal(t, "20", valueOf(filled, "limit_amount_0"), "what was there stays")
	assert.NotEmpty(t, valueOf(filled, "limit_amount_1"), "the published figure follows")
	saved, err := h.store.FindHousehold(t.Context(), 1)
	require.NoError(t, err)
	assert.Equal(t, "Ana", saved.Members[0].Name)
}
