package server_test

import (
	"context"
	"fmt"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/demo"
	"potwright/internal/kitchen"
	"potwright/internal/recipe"
	"potwright/internal/server"
	"potwright/internal/store/sqlite"
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
	for _, path := range largePaths() {
		r := h.get(path)
		require.Equal(t, http.StatusOK, r.StatusCode, path)
		assert.LessOrEqual(t, len(r.body), heaviest, path)
	}
}

// BenchmarkLargeHousehold is the time of each page in a household of 1,000 recipes
// and 5,000 versions, one request after the other and 50 at once: the middle and the
// 99th of a hundred.
func BenchmarkLargeHousehold(b *testing.B) {
	_, handler := newLargeHouse(b, 1000)
	for _, path := range largePaths() {
		name := strings.ReplaceAll(strings.Trim(path, "/"), "/", "_")
		for _, c := range []struct {
			name   string
			atOnce int
		}{{"alone", 1}, {"50 at once", 50}} {
			b.Run(name+"/"+c.name, func(b *testing.B) {
				took := make(chan time.Duration, b.N)
				var asking sync.WaitGroup
				left := make(chan bool, b.N)
				for range b.N {
					left <- true
				}
				close(left)
				for range c.atOnce {
					asking.Go(func() {
						for range left {
							start := time.Now()
							handler.ServeHTTP(httptest.NewRecorder(), httptest.NewRequest(http.MethodGet, "http://localhost"+path, nil))
							took <- time.Since(start)
						}
					})
				}
				asking.Wait()
				close(took)
				sorted := slices.Sorted(func(yield func(time.Duration) bool) {
					for d := range took {
						if !yield(d) {
							return
						}
					}
				})
				b.ReportMetric(float64(sorted[len(sorted)/2].Microseconds())/1000, "median-ms")
				b.ReportMetric(float64(sorted[len(sorted)*99/100].Microseconds())/1000, "p99-ms")
			})
		}
	}
}

func largePaths() []string {
	return []string{"/h/1/recipes", "/h/1/recipes?q=chowder", "/h/1/recipes/6", "/h/1/recipes/6/versions", "/h/1/recipes/6/compare?a=6&b=10",
		"/h/1/recipes/1/adapt", "/h/1/recipes/1/card", "/h/1/people", "/h/1/recipes/new"}
}

// newLargeHouse is a house with the invented household and so many recipes of five
// versions each; none for 0.
func newLargeHouse(t testing.TB, recipes int) (*house, http.Handler) {
	t.Helper()
	store, err := sqlite.Open(filepath.Join(t.TempDir(), "potwright.db"), time.Now)
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
	return &house{t: t, url: ts.URL, store: store}, handler
}

func manyRecipes(t testing.TB, n int) kitchen.Holdings {
	t.Helper()
	var h kitchen.Holdings
	dishes := demo.Dishes()
	for i := range n {
		text, err := demo.Dish(dishes[i%len(dishes)])
		require.NoError(t, err)
		r := kitchen.HeldRecipe{Title: fmt.Sprintf("Dish %d", i), CreatedAt: time.Now()}
		for v := range 5 {
			r.Versions = append(r.Versions, recipe.Version{ID: int64(v + 1), ParentID: int64(v), Number: v + 1, SavedAt: time.Now(), Text: text})
		}
		h.Recipes = append(h.Recipes, r)
	}
	return h
}
