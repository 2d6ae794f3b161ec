package demo_test

import (
	"bytes"
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/adaptation"
	"potwright/internal/certificate"
	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/recipe"
	"potwright/internal/ruleset"
	"potwright/internal/testkit"
)

var every = flag.Int("every", 8, "of the published recipes without a method take every so-manieth for the twelve households")

var adaptedDishes = flag.String("adapted", "", "write every adapted dish of the twelve households to this file")

// households are those of testdata/households, by file name.
func households(t *testing.T) map[string]household.Household {
	t.Helper()
	files, err := filepath.Glob("../../testdata/households/*.yaml")
	require.NoError(t, err)
	require.Len(t, files, 12)
	out := map[string]household.Household{}
	for _, f := range files {
		text, err := os.ReadFile(f)
		require.NoError(t, err)
		h, err := ruleset.ReadHousehold(bytes.NewReader(text), f)
		require.NoError(t, err)
		out[strings.TrimSuffix(filepath.Base(f), ".yaml")] = h
	}
	return out
}

// TestTwelveHouseholdsHaveOneToSixMembers keeps the set as its README tells it.
func TestTwelveHouseholdsHaveOneToSixMembers(t *testing.T) {
	sizes := map[int]bool{}
	for _, h := range households(t) {
		sizes[len(h.Members)] = true
	}
	for n := 1; n <= 6; n++ {
		assert.True(t, sizes[n], "nobody eats as %d", n)
	}
}

// published reads recipes of a file of ../shared/validation (USDA MyPlate Kitchen,
// NIH/NHLBI, state extension services).
func published(t *testing.T, k *kitchen.Kitchen, file string) []kitchen.Analysis {
	t.Helper()
	text, err := os.ReadFile(testkit.Shared(t, filepath.Join("validation", file)))
	require.NoError(t, err)
	var recipes []struct {
		ID, Title          string
		Servings           float64
		Ingredients, Steps []string
	}
	require.NoError(t, json.Unmarshal(text, &recipes))
	var out []kitchen.Analysis
	for _, r := range recipes {
		text := fmt.Sprintf("%s\nServes %g\nIngredients\n%s\n", r.Title, r.Servings, strings.Join(r.Ingredients, "\n"))
		if len(r.Steps) > 0 {
			text += "Method\n" + strings.Join(r.Steps, "\n") + "\n"
		}
		a, err := k.Read(text, nil, nil)
		require.NoError(t, err, r.ID)
		out = append(out, a)
	}
	return out
}

// tallied is what came of the dishes of one household.
type tallied struct {
	dishes, fit, proved int
	changes             []int
}

// TestTwelveHouseholdsOnPublishedRecipes adapts published recipes for the twelve
// households. Every dish that is said to suit is confirmed by the certificate's
// checker and by reading its exported text afresh. How many suit, with how many
// changes and in how much time is told with -v. Of the recipes without a
// method every eighth is taken, all with -args -every=1, none in short mode.
func TestTwelveHouseholdsOnPublishedRecipes(t *testing.T) {
	k := testkit.Kitchen(t)
	dishes := published(t, k, "recipes_with_methods.json")
	if !testing.Short() {
		for i, a := range published(t, k, "recipes_panels.json") {
			if i%*every == 0 {
				dishes = append(dishes, a)
			}
		}
	}
	byName := households(t)
	var names []string
	for name := range byName {
		names = append(names, name)
	}
	slices.Sort(names)
	var log strings.Builder
	var times, waits []time.Duration
	ordinary := &tallied{}
	for _, name := range names {
		sum := &tallied{}
		for _, a := range dishes {
			asked, start := time.Now(), processorTime(t)
			ans, err := k.Adapt(context.Background(), a, byName[name], adaptation.Wishes{})
			times, waits = append(times, processorTime(t)-start), append(waits, time.Since(asked))
			if !assert.NoError(t, err, "%s for %s", a.Recipe.Title, name) {
				continue
			}
			sum.count(t, k, a, byName[name], ans)
			if strings.HasPrefix(name, "ordinary-") {
				ordinary.add(ans)
			}
			write(&log, name, a, ans)
		}
		t.Logf("%s", sum.text(name))
	}
	t.Logf("%s", ordinary.text("households with ordinary needs"))
	for what, all := range map[string][]time.Duration{"processor time, with that of whatever is cleared up meanwhile": times, "waited for": waits} {
		slices.Sort(all)
		t.Logf("%s: median %v, 99th percentile %v, most %v", what, all[len(all)/2], all[len(all)*99/100], all[len(all)-1])
	}
	if *adaptedDishes != "" {
		require.NoError(t, os.WriteFile(*adaptedDishes, []byte(log.String()), 0o600))
	}
}

func (s *tallied) add(ans adaptation.Answer) {
	s.dishes++
	if ans.Fits {
		s.fit++
		s.changes = append(s.changes, len(ans.Changes))
	}
}

// count adds an answer and confirms it.
func (s *tallied) count(t *testing.T, k *kitchen.Kitchen, a kitchen.Analysis, h household.Household, ans adaptation.Answer) {
	s.add(ans)
	if !ans.Fits {
		assert.NotEmpty(t, ans.Conflicts, "%s: no reason is given", a.Recipe.Title)
		return
	}
	fresh, err := k.Read(recipe.Text(ans.Recipe), nil, nil)
	if !assert.NoError(t, err, a.Recipe.Title) {
		return
	}
	portions := make([]float64, len(ans.Plates))
	for i, p := range ans.Plates {
		portions[i] = p.Portion
	}
	for i, p := range k.CheckPortions(fresh, h, portions).Plates {
		assert.True(t, p.Fits, "%s for %s: the exported text does not suit", a.Recipe.Title, h.Members[i].Name)
	}
	certified, err := k.Adapt(context.Background(), a, h, adaptation.Wishes{Certificate: true})
	if !assert.NoError(t, err, a.Recipe.Title) || certified.Certificate == nil {
		return
	}
	report, err := certificate.Check(*certified.Certificate)
	assert.NoError(t, err, a.Recipe.Title)
	assert.Equal(t, certified.Cost[0], report.Cost, a.Recipe.Title)
	s.proved++
}

func (s *tallied) text(name string) string {
	slices.Sort(s.changes)
	median := 0
	if len(s.changes) > 0 {
		median = s.changes[len(s.changes)/2]
	}
	return fmt.Sprintf("%s: %d of %d suit (%.0f %%), %d changes in the median, %d proofs", name, s.fit, s.dishes, 100*float64(s.fit)/float64(s.dishes), median, s.proved)
}

func write(log *strings.Builder, name string, a kitchen.Analysis, ans adaptation.Answer) {
	fmt.Fprintf(log, "## %s | %s | fits %v %s %v\n", name, a.Recipe.Title, ans.Fits, ans.Proof, ans.Cost)
	for _, c := range ans.Conflicts {
		fmt.Fprintf(log, "  ! %s\n", c)
	}
	for _, c := range ans.Changes {
		fmt.Fprintf(log, "  %s [%s] %v\n", c.Text(), c.Option.Rule.ID, c.For)
	}
	if len(ans.Changes) > 0 {
		for _, s := range ans.Recipe.Steps {
			fmt.Fprintf(log, "    . %s\n", s.Text)
		}
	}
}

// processorTime is what this program has taken of the processor.
func processorTime(t *testing.T) time.Duration {
	t.Helper()
	var u syscall.Rusage
	require.NoError(t, syscall.Getrusage(syscall.RUSAGE_SELF, &u))
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
