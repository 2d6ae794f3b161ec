package kitchen_test

import (
	"context"
	"fmt"
	"os"
	"runtime"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/adaptation"
	"potwright/internal/demo"
	"potwright/internal/kitchen"
	"potwright/internal/ruleset"
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
	_, err := k.Store.SaveHousehold(ctx, h)
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

// invented is so many recipes: the demo dishes in turn, every one with a title of
// its own, so that lines recur more than in a real collection.
func invented(b *testing.B, n int) []kitchen.Sweepable {
	b.Helper()
	names := demo.Dishes()
	out := make([]kitchen.Sweepable, n)
	for i := range out {
		text, err := demo.Dish(names[i%len(names)])
		require.NoError(b, err)
		title := fmt.Sprintf("Dish %d", i)
		_, rest, _ := strings.Cut(text, "\n")
		out[i] = kitchen.Sweepable{Title: title, Text: title + "\n" + rest}
	}
	return out
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

func processorTime(b *testing.B) time.Duration {
	b.Helper()
	var u syscall.Rusage
	require.NoError(b, syscall.Getrusage(syscall.RUSAGE_SELF, &u))
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
