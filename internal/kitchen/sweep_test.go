package kitchen_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/adaptation"
	"potwright/internal/demo"
	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/recipe"
	"potwright/internal/ruleset"
	"potwright/internal/store/sqlite"
	"potwright/internal/testkit"
)

func TestASweepSaysOfEverySavedRecipeWhatItsOwnCheckSays(t *testing.T) {
	ctx := context.Background()
	k, h := stored(t)
	list, err := k.Store.ListRecipes(ctx, h.ID)
	require.NoError(t, err)
	for _, workers := range []int{1, 3} {
		var titles []string
		for s, err := range k.Sweep(ctx, h.ID, kitchen.SweepOptions{Workers: workers, Adapt: true}) {
			require.NoError(t, err)
			titles = append(titles, s.Recipe.Title)
			_, a, err := k.Open(ctx, h.ID, s.Recipe.LatestID)
			require.NoError(t, err)
			report := k.Check(a, h)
			assert.Equal(t, report.Fit, s.Fit, s.Recipe.Title)
			assert.Equal(t, report.Fits, s.Standing == kitchen.Suits, s.Recipe.Title)
			ans, err := k.Adapt(ctx, a, h, adaptation.Wishes{})
			require.NoError(t, err)
			assert.Equal(t, ans.Fits, s.Standing == kitchen.SuitsAfter, s.Recipe.Title)
			assert.Len(t, s.Swaps, len(ans.Changes), s.Recipe.Title)
		}
		require.Len(t, titles, len(list), "%d workers", workers)
		for i, r := range list {
			assert.Equal(t, r.Title, titles[i], "in the order of the list")
		}
	}
}

func TestASweepFollowsTheMembersAsTheyAreNow(t *testing.T) {
	ctx := context.Background()
	k, h := stored(t)
	h.Members = h.Members[:1]
	h.Members[0].Limits, h.Members[0].Plan, h.Members[0].Avoid, h.Members[0].Texture = nil, nil, nil, nil
	_, err := storeOf(k).SaveHousehold(ctx, h, "")
	require.NoError(t, err)
	for s, err := range k.Sweep(ctx, h.ID, kitchen.SweepOptions{}) {
		require.NoError(t, err)
		assert.Equal(t, kitchen.Suits, s.Standing, "%s: %v", s.Recipe.Title, s.Why)
	}
}

func TestASweepEndsWhenItIsCancelledOrLeft(t *testing.T) {
	k, h := stored(t)
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	seen := 0
	var last error
	for _, err := range k.Sweep(ctx, h.ID, kitchen.SweepOptions{Workers: 2}) {
		if last = err; err == nil {
			seen++
			stop()
		}
	}
	require.ErrorIs(t, last, context.Canceled)
	assert.Less(t, seen, len(demo.Dishes()))
	for _, err := range k.Sweep(context.Background(), h.ID, kitchen.SweepOptions{}) {
		require.NoError(t, err)
		break
	}
}

func TestATextThatDoesNotReadIsAResultAndTheSweepGoesOn(t *testing.T) {
	k, h := stored(t)
	var got []kitchen.Standing
	texts := []kitchen.Sweepable{{Title: "empty"}, {Title: "rice", Text: "Rice\nServes 4\n\n1 cup white rice\n\nBoil the rice."}}
	for s, err := range k.SweepTexts(context.Background(), h, texts, kitchen.SweepOptions{}) {
		require.NoError(t, err)
		got = append(got, s.Standing)
	}
	require.Len(t, got, 2)
	assert.Equal(t, kitchen.Unread, got[0])
	assert.NotEqual(t, kitchen.Unread, got[1])
}

// invented is so many recipes that vary as those of a real collection do: a demo
// dish's lines in amounts of their own, three to six further lines of 859 published
// ones in amounts of their own too, and steps with times of their own. 10,000 of
// them have 9,800 distinct lines among 173,000 and 16,500 distinct steps among 52,000.
func invented(b testing.TB, n int) []kitchen.Sweepable {
	b.Helper()
	file, err := os.ReadFile("../../testdata/lines/labelled.tsv")
	require.NoError(b, err)
	var published []string
	for _, row := range strings.Split(strings.TrimSpace(string(file)), "\n")[1:] {
		published = append(published, strings.Split(row, "\t")[1])
	}
	var dishes []string
	for _, name := range demo.Dishes() {
		text, err := demo.Dish(name)
		require.NoError(b, err)
		dishes = append(dishes, text)
	}
	rnd := rand.New(rand.NewPCG(1, 2))
	out := make([]kitchen.Sweepable, n)
	for i := range out {
		out[i] = varied(rnd, fmt.Sprintf("Dish %d", i), dishes[i%len(dishes)], published)
	}
	return out
}

var (
	amountFirst = regexp.MustCompile(`^(\d+ )?\d+(/\d+)? `)
	minutes     = regexp.MustCompile(`\d+ minutes`)
	amounts     = []string{"1/4", "1/3", "1/2", "3/4", "1", "1 1/4", "1 1/2", "2", "2 1/2", "3", "4", "5"}
)

func varied(rnd *rand.Rand, title, dish string, published []string) kitchen.Sweepable {
	other := func(line string) string {
		return amountFirst.ReplaceAllString(line, amounts[rnd.IntN(len(amounts))]+" ")
	}
	_, rest, _ := strings.Cut(dish, "\n")
	head, list, _ := strings.Cut(rest, "Ingredients\n")
	list, steps, _ := strings.Cut(list, "\nMethod\n")
	lines := strings.Split(strings.TrimSpace(list), "\n")
	for i, l := range lines {
		lines[i] = other(l)
	}
	for range 3 + rnd.IntN(4) {
		lines = append(lines, other(published[rnd.IntN(len(published))]))
	}
	steps = minutes.ReplaceAllStringFunc(steps, func(string) string { return fmt.Sprintf("%d minutes", 2+rnd.IntN(2000)) })
	return kitchen.Sweepable{Title: title, Text: title + "\n" + head + "Ingredients\n" + strings.Join(lines, "\n") + "\n\nMethod\n" + steps}
}

// BenchmarkSweep checks recipes as they are; cpu-s is the processor time of one
// sweep, sys-MB the memory asked of the system.
func BenchmarkSweep(b *testing.B) {
	k := testkit.Kitchen(b)
	file, err := os.Open("../demo/household.yaml")
	require.NoError(b, err)
	defer file.Close()
	h, err := ruleset.ReadHousehold(file, "household.yaml")
	require.NoError(b, err)
	for _, n := range []int{1000, 3000, 10000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			texts := invented(b, n)
			before := processorTime(b)
			for b.Loop() {
				seen := 0
				for _, err := range k.SweepTexts(context.Background(), h, texts, kitchen.SweepOptions{}) {
					require.NoError(b, err)
					seen++
				}
				require.Equal(b, n, seen)
			}
			b.ReportMetric((processorTime(b)-before).Seconds()/float64(b.N), "cpu-s/op")
			var m runtime.MemStats
			runtime.ReadMemStats(&m)
			b.ReportMetric(float64(m.Sys)/1e6, "sys-MB")
		})
	}
}

// BenchmarkSweepOfAChangedLimit sweeps 10,000 saved recipes time and again, each time
// after somebody's limit was changed: cpu-s is the processor time of one sweep by what
// is kept of the recipes, cold-cpu-s that of the first, which reads them all.
func BenchmarkSweepOfAChangedLimit(b *testing.B) {
	ctx, k, h := context.Background(), testkit.Kitchen(b), household.Household{}
	store, err := sqlite.Open(filepath.Join(b.TempDir(), "test.db"), testkit.Now)
	require.NoError(b, err)
	defer store.Close()
	k.Store, k.Memory = store, kitchen.NewMemory(200, 20_000)
	require.NoError(b, demo.Fill(ctx, k))
	hs, err := store.ListHouseholds(ctx)
	require.NoError(b, err)
	h = hs[0]
	var held kitchen.Holdings
	for _, r := range invented(b, 10_000) {
		v := recipe.Version{ID: 1, Number: 1, SavedAt: testkit.Now(), Text: r.Text}
		held.Recipes = append(held.Recipes, kitchen.HeldRecipe{Title: r.Title, CreatedAt: testkit.Now(), Versions: []recipe.Version{v}})
	}
	_, err = store.TakeRecipes(ctx, h.ID, held)
	require.NoError(b, err)
	sweep := func() float64 {
		before := processorTime(b)
		for _, err := range k.Sweep(ctx, h.ID, kitchen.SweepOptions{}) {
			require.NoError(b, err)
		}
		return (processorTime(b) - before).Seconds()
	}
	cold, warm := sweep(), 0.0
	for b.Loop() {
		*h.Members[0].Limits[0].AtMost++
		h, err = store.SaveHousehold(ctx, h, "")
		require.NoError(b, err)
		warm += sweep()
	}
	b.ReportMetric(cold, "cold-cpu-s")
	b.ReportMetric(warm/float64(b.N), "cpu-s/op")
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	b.ReportMetric(float64(m.Sys)/1e6, "sys-MB")
}

func processorTime(b *testing.B) time.Duration {
	b.Helper()
	var u syscall.Rusage
	require.NoError(b, syscall.Getrusage(syscall.RUSAGE_SELF, &u))
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
