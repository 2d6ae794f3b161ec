package server_test

import (
	"net/http"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/household"
	"potwright/internal/recipe"
	"potwright/internal/store/sqlite"
	"potwright/internal/testkit/datafile"
)

// TestNoPageIsRememberedForAnother has three people look at every page, one after
// another, and holds what the second gets against a server that nobody else asked.
func TestNoPageIsRememberedForAnother(t *testing.T) {
	s := newStreet(t)
	ana, ed, mel, alone := s.as("ana"), s.as("ed"), s.as("mel"), houseOver(t, s.store, time.Now)
	alone.cookie = ed.cookie
	for _, route := range s.routes {
		if route.Method != http.MethodGet || !strings.HasPrefix(route.Path, "/h/:hid") || strings.HasSuffix(route.Path, "/curve") {
			continue
		}
		at := path(route.Path, s.mine)
		hers, his, expected := ana.get(at), ed.get(at), alone.get(at)
		assert.Equal(t, expected.StatusCode, his.StatusCode, at)
		assert.Equal(t, expected.Header.Get("Cache-Control"), his.Header.Get("Cache-Control"), at)
		if strings.HasPrefix(expected.Header.Get("Content-Type"), "text/html") {
			assert.True(t, his.body == expected.body, at)
			assert.True(t, hers.StatusCode != http.StatusOK || hers.body == ana.get(at).body, "%s the second time", at)
		}
		assert.Equal(t, http.StatusNotFound, mel.get(at).StatusCode, "%s is another household's", at)
		assert.NotEqual(t, http.StatusOK, s.get(at).StatusCode, "nobody is signed in")
	}
	list := "/h/1/recipes"
	require.Equal(t, http.StatusOK, ana.get(list).StatusCode)
	ana.must("/logout")
	assert.Equal(t, http.StatusSeeOther, ana.get(list).StatusCode, "the session has ended")
}

// TestWhatAnotherProgramSavesShowsAtOnce writes through a second opening of the file,
// as the command line beside a running server does.
func TestWhatAnotherProgramSavesShowsAtOnce(t *testing.T) {
	file := datafile.Empty(t)
	open := func() *sqlite.Store {
		store, err := sqlite.Open(file, time.Now)
		require.NoError(t, err)
		t.Cleanup(func() { require.NoError(t, store.Close()) })
		return store
	}
	h := houseOver(t, open(), time.Now)
	base, dish := h.furnish()
	other := open()
	see := func(at, words string) {
		t.Helper()
		for range 2 { // the second time it is remembered
			assert.False(t, strings.Contains(h.get(at).body, words), "%s on %s", words, at)
		}
	}

	see(base+"/recipes", "Quay pie")
	see(base+"/recipes?q=pie", "Quay pie")
	_, err := other.CreateRecipe(t.Context(), 1, "Quay pie", recipe.Version{Text: "Quay pie\n\nServes 2\n\n1 cup flour\n\nBake it."})
	require.NoError(t, err)
	assert.True(t, strings.Contains(h.get(base+"/recipes").body, "Quay pie"), "Quay pie")
	assert.True(t, strings.Contains(h.get(base+"/recipes?q=pie").body, "Quay pie"), "Quay pie")

	see(dish, "Salt Lane")
	see(base+"/people", "Dora")
	home, err := other.FindHousehold(t.Context(), 1)
	require.NoError(t, err)
	home.Name, home.Members = "Salt Lane", append(home.Members, household.Member{Name: "Dora", Portion: 1})
	_, err = other.SaveHousehold(t.Context(), home, "")
	require.NoError(t, err)
	assert.True(t, strings.Contains(h.get(dish).body, "Salt Lane"), "Salt Lane")
	assert.True(t, strings.Contains(h.get(base+"/people").body, "Dora"), "Dora")

	see(dish, "beside the stove")
	require.NoError(t, other.SetTags(t.Context(), 1, 1, []string{"beside the stove"}, ""))
	assert.True(t, strings.Contains(h.get(dish).body, "beside the stove"), "beside the stove")

	before := h.get(dish).body
	require.NoError(t, other.RememberChoice(t.Context(), 1, "chicken broth", recipe.Correction{FoodID: "sr:14411"}, ""))
	assert.True(t, before != h.get(dish).body, "what a phrase means")
}

// TestAPageOfTodayIsNotYesterdays lets the day end.
func TestAPageOfTodayIsNotYesterdays(t *testing.T) {
	now := time.Date(2026, 3, 1, 23, 40, 0, 0, time.UTC)
	h := newHouseAt(t, func() time.Time { return now })
	base, _ := h.furnish()
	before := h.get(base + "/day").body
	require.True(t, before == h.get(base+"/day").body)
	now = now.Add(time.Hour)
	assert.False(t, before == h.get(base+"/day").body)
}
