package server_test

import (
	"context"
	"fmt"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"regexp"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/demo"
	"potwright/internal/kitchen"
	"potwright/internal/recipe"
	"potwright/internal/server"
	"potwright/internal/store/sqlite"
	"potwright/internal/testkit/datafile"
)

// heaviest is the most a page may weigh, in bytes, without its style and script.
const heaviest = 150_000

// TestAnEmptyStartLeadsToTheInventedHousehold presses the one button.
func TestAnEmptyStartLeadsToTheInventedHousehold(t *testing.T) {
	h, _ := newLargeHouse(t, 0)
	assert.Contains(t, h.get("/").body, `action="/demo"`)
	h.must("/demo")
	assert.Contains(t, h.get(h.get("/").Header.Get("Location")).body, "Harbour fish chowder")
	assert.NotContains(t, h.get("/?list").body, `action="/demo"`, "what is there is not covered over")
}

func TestNoPageOfALargeHouseholdIsHeavy(t *testing.T) {
	h, _ := newLargeHouse(t, 200)
	for _, p := range largeWalk() {
		path := p.of(0)
		r := h.get(path)
		require.Equal(t, http.StatusOK, r.StatusCode, path)
		assert.LessOrEqual(t, len(r.body), heaviest, path)
	}
}

// newLargeHouse is a house with the invented household and so many recipes of five
// versions each; none for 0.
func newLargeHouse(t testing.TB, recipes int) (*house, http.Handler) {
	t.Helper()
	file := datafile.Empty(t)
	store, err := sqlite.Open(file, time.Now)
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, store.Close()) })
	k := *loaded(t)
	k.Store, k.Memory = store, kitchen.NewMemory(200, 20_000)
	cfg := config(t, store)
	cfg.Kitchen = &k
	cfg.Log, cfg.Demo = slog.New(slog.DiscardHandler), func(ctx context.Context) error { return demo.Fill(ctx, &k) }
	if recipes > 0 {
		require.NoError(t, cfg.Demo(t.Context()))
		_, err := store.TakeRecipes(t.Context(), 1, manyRecipes(t, recipes))
		require.NoError(t, err)
	}
	handler, err := server.New(cfg)
	require.NoError(t, err)
	ts := httptest.NewServer(handler)
	t.Cleanup(ts.Close)
	return &house{t: t, url: ts.URL, store: store, file: file}, handler
}

// manyRecipes are dishes that resemble the invented ones, no two with the same lines.
func manyRecipes(t testing.TB, n int) kitchen.Holdings {
	t.Helper()
	var h kitchen.Holdings
	dishes := demo.Dishes()
	for i := range n {
		text, err := demo.Dish(dishes[i%len(dishes)])
		require.NoError(t, err)
		r := kitchen.HeldRecipe{Title: fmt.Sprintf("Dish %d", i), CreatedAt: time.Now()}
		for v := range 5 {
			other := wholeAmount.ReplaceAllString(text, fmt.Sprintf("${1}.%03d $2", i/len(dishes)*5+v))
			r.Versions = append(r.Versions, recipe.Version{ID: int64(v + 1), ParentID: int64(v), Number: v + 1, SavedAt: time.Now(), Text: other})
		}
		h.Recipes = append(h.Recipes, r)
	}
	return h
}

// wholeAmount is an amount in whole numbers before an ingredient.
var wholeAmount = regexp.MustCompile(`(?m)^(\d+) ([a-z])`)

// TestTheInventedHouseholdIsOneClickAway starts on an empty screen.
func TestTheInventedHouseholdIsOneClickAway(t *testing.T) {
	needBrowser(t)
	h, _ := newLargeHouse(t, 0)
	b := newTab(t, h, screens()[1])
	b.open("/")
	b.click(`form[action="/demo"] button`)
	assert.Contains(t, b.words(), "Tonight’s table")
	assert.Contains(t, b.words(), "4 more dishes to choose from")
	assert.Contains(t, b.words(), "Harbour fish chowder")
}

// TestADishAmongManyIsFoundWhereItIsChosen looks for one of sixty by its title.
func TestADishAmongManyIsFoundWhereItIsChosen(t *testing.T) {
	needBrowser(t)
	h, _ := newLargeHouse(t, 60)
	b := newTab(t, h, screens()[1])
	for _, path := range []string{"/h/1/table?seated=1&m=1", "/h/1/shopping"} {
		b.open(path)
		b.fill("find", "dish 31")
		b.click(".besides button")
		assert.Contains(t, b.words(), "1 dish has these words", path)
		b.do(chromedp.Click(chromedp.CSS(".besides .tick input")))
		b.click(".besides button")
		assert.Contains(t, b.run(`document.querySelector("input[name=dish]:checked").closest("label").textContent`), "Dish 31", path)
	}
}
