package server_test

import (
	"net/http"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/recipe"
)

// What belongs to the household next door, named in a form's fields, in a query or in a
// body: it is not found, and nothing of it shows.
func TestWhatIsTheNeighboursIsNotReachedByItsNumber(t *testing.T) {
	s := newStreet(t)
	ana, mel := s.as("ana"), s.as("mel")
	mel.must("/h/2/pantry/new", "name", "mill broth", "panel", "us", "serving", "1 cup (240 g)", "f_energy_kcal", "10", "f_sodium_mg", "500")
	before := s.held(2)
	for name, pairs := range map[string][]string{
		"/h/1/day/dish":             {"version", "2", "meal", "evening", "date", "2026-03-01", "state", "eaten", "m", "1", "seated", "1"},
		"/h/1/day/food":             {"food", "own:1", "unit", "g", "amount", "10", "meal", "evening", "date", "2026-03-01", "state", "eaten", "m", "1"},
		"/h/1/recipes/1/made":       {"version", "2", "rating", "3", "date", "2026-03-01"},
		"/h/1/recipes/1/edit":       {"from", "2", "text", potText},
		"/h/1/recipes/1/lines/1":    {"from", "2", "food", "sr:02047"},
		"/h/1/accounts/4":           {"role_4", "eater"},
		"/h/1/accounts/4/remove":    {},
		"/h/1/tokens/1/revoke":      {},
		"/h/1/pantry/1":             {"name", "taken over", "panel", "us", "serving", "1 cup (240 g)"},
		"/h/1/recipes/2/tags":       {"tags", "mine"},
		"/h/1/day/entries/1":        {"do", "remove"},
		"/h/1/recipes/1/portions":   {"version", "2", "count", "1", "size", "1", "by", "servings"},
		"/h/1/recipes/2/share":      {},
		"/h/1/recipes/1/photos/1":   {"caption1", "mine"},
		"/h/1/freezer/1":            {"m", "1"},
		"/h/1/recipes/1/lines/2":    {"from", "1", "food", "own:1", "remember", "yes"},
		"/h/1/recipes/2/adapt/save": {"mark", "x"},
	} {
		r := ana.post(name, pairs...)
		assert.NotContains(t, r.body, "Mill Row", name)
		assert.NotContains(t, r.body, "mill broth", name)
		if name != "/h/1/tokens/1/revoke" && name != "/h/1/recipes/1/portions" {
			assert.Contains(t, []int{http.StatusNotFound, http.StatusUnprocessableEntity}, r.StatusCode, name)
		}
	}
	for _, c := range []struct{ method, path, body string }{
		{"POST", "/check", `{"version":2}`}, {"POST", "/adapt", `{"version":2}`}, {"POST", "/meal", `{"dishes":[{"version":2}]}`},
		{"POST", "/day/dish", `{"version":2,"meal":"evening","helpings":[{"member":1}]}`},
		{"POST", "/day/food", `{"food":"own:1","grams":5,"meal":"evening","members":[1]}`},
		{"POST", "/recipes/1/versions", `{"parent":2,"text":"Soup\n\nIngredients\n1 cup water\n\nMethod\nBoil."}`},
		{"POST", "/recipes/1/made", `{"version":2,"rating":3}`}, {"POST", "/recipes/1/links", `{"version":2}`},
		{"PUT", "/choices/broth", `{"food_id":"own:1"}`}, {"GET", "/shopping?recipe=2", ""}, {"PUT", "/products/1", `{"name":"taken over","panel":"us","serving":"1 cup (240 g)"}`},
	} {
		r := ana.ask(c.method, "/api/v1/households/1"+c.path, "application/json", c.body)
		assert.Contains(t, []int{http.StatusNotFound, http.StatusUnprocessableEntity, http.StatusBadRequest}, r.StatusCode, "%s %s", c.method, c.path)
		assert.NotContains(t, r.body, "mill broth", c.path)
	}
	assert.Equal(t, before, s.held(2), "nothing of theirs was changed")
	choices, err := s.store.Choices(t.Context(), 1)
	require.NoError(t, err)
	assert.Equal(t, map[string]recipe.Correction{}, choices)
}
