package foodmatch_test

import (
	"encoding/json"
	"os"
	"path/filepath"
	"sort"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"potwright/internal/fooddata"
	"potwright/internal/foodmatch"
	"potwright/internal/ingredient"
)

// publishedLines are the ingredient lines of recipes published with panels by
// US agencies. They are reference material beside the repository; without it the
// test is skipped.
func publishedLines(t testing.TB) []string {
	t.Helper()
	path := sharedFile("validation/recipes_panels.json")
	b, err := os.ReadFile(path)
	if err != nil {
		t.Skip("no reference recipes: set POTWRIGHT_SHARED to the folder that holds validation/recipes_panels.json")
	}
	var recipes []struct {
		Ingredients []string `json:"ingredients"`
	}
	require.NoError(t, json.Unmarshal(b, &recipes))
	var lines []string
	for _, r := range recipes {
		lines = append(lines, r.Ingredients...)
	}
	return lines
}

func sharedFile(name string) string {
	if dir := os.Getenv("POTWRIGHT_SHARED"); dir != "" {
		return filepath.Join(dir, name)
	}
	dir, err := os.Getwd()
	for err == nil {
		path := filepath.Join(dir, "shared", name)
		if _, statErr := os.Stat(path); statErr == nil {
			return path
		}
		if filepath.Dir(dir) == dir {
			break
		}
		dir = filepath.Dir(dir)
	}
	return ""
}

// Most lines of published recipes must be read to grams. Run with -v for the
// lines that are not.
func TestLinesOfPublishedRecipesAreReadToGrams(t *testing.T) {
	table, err := fooddata.Load()
	require.NoError(t, err)
	lines := publishedLines(t)
	counts := map[foodmatch.State]int{}
	unread := map[string][]string{}
	for _, line := range lines {
		m := foodmatch.Weigh(ingredient.Read(line), table, nil, nil)
		counts[m.State]++
		if m.State == foodmatch.Unread {
			why := "no food on the line"
			for _, n := range m.Notes {
				if strings.Contains(n, "not in the food table") || strings.Contains(n, "no weight") {
					why = n
				}
			}
			unread[why] = append(unread[why], line)
		}
		if dump := os.Getenv("POTWRIGHT_LINES"); dump != "" {
			describe(t, line, m)
		}
	}
	whys := make([]string, 0, len(unread))
	for w := range unread {
		whys = append(whys, w)
	}
	sort.Slice(whys, func(i, j int) bool { return len(unread[whys[i]]) > len(unread[whys[j]]) })
	for _, w := range whys {
		t.Logf("%3d  %s: %q", len(unread[w]), w, unread[w][0])
	}
	share := 100 * float64(len(lines)-counts[foodmatch.Unread]) / float64(len(lines))
	t.Logf("%d lines, %.2f %% read to grams: %v", len(lines), share, counts)
	require.GreaterOrEqual(t, share, 98.0)
}

func describe(t *testing.T, line string, m foodmatch.Matched) {
	for _, i := range m.Items {
		t.Logf("LINE %s => %.1f [%.1f-%.1f] %s {%s} %s c=%.2f # %s", line, i.Grams.Mid, i.Grams.Low, i.Grams.High,
			i.Food.Name, i.GramsFrom, m.State, m.Confidence, strings.Join(m.Notes, " # "))
	}
}
