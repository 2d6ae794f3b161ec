package foodmatch_test

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/composition"
	"potwright/internal/foodmatch"
	"potwright/internal/ingredient"
)

// labelled is an ingredient line with the rows of the table a nutritionist would
// take, best first, and the grams that go into the pot.
type labelled struct {
	text string
	// foods are the foods of the line, each with the rows that are right for it;
	// empty where the line is no food or the table has no right row.
	foods [][]string
	// grams of each food; nil where the line gives no amount.
	grams []float64
	none  bool // a food, but no right row in the table
}

// TestLabelledLines holds the reading and matching against lines of the learning
// half of the published recipes that were labelled by hand, without sight of what
// the program made of them (testdata/lines/README.md). Run it with -v for every
// line that differs.
func TestLabelledLines(t *testing.T) {
	foods := table(t)
	lines := labelledLines(t)
	assert.GreaterOrEqual(t, len(lines), 800)
	var foodRight, foodOf, gramsRight, gramsOf int
	for _, l := range lines {
		m := foodmatch.Weigh(ingredient.Read(l.text), foods, nil, nil)
		if l.none {
			continue
		}
		foodOf++
		right := l.isFood(foods, m)
		if right {
			foodRight++
		} else {
			t.Logf("food   %-70s got %s, want %s", l.text, itemNames(m), wanted(foods, l))
		}
		if l.grams == nil || m.Reading.Optional || len(m.Items) != len(l.grams) {
			continue
		}
		gramsOf++
		if l.isWeight(m) {
			gramsRight++
		} else {
			t.Logf("grams  %-70s got %.0f (%s), want %v", l.text, m.Grams().Mid, m.Items[0].GramsFrom, l.grams)
		}
	}
	t.Logf("food right: %d of %d, %.1f %%", foodRight, foodOf, 100*float64(foodRight)/float64(foodOf))
	t.Logf("grams within 10 %%: %d of %d, %.1f %%", gramsRight, gramsOf, 100*float64(gramsRight)/float64(gramsOf))
	assert.GreaterOrEqual(t, float64(foodRight)/float64(foodOf), 0.95)
	assert.GreaterOrEqual(t, float64(gramsRight)/float64(gramsOf), 0.93)
}

// isFood reports whether the line's foods are those of the label or equal rows.
func (l labelled) isFood(t *composition.Table, m foodmatch.Matched) bool {
	if len(m.Items) != len(l.foods) {
		return false
	}
	for i, item := range m.Items {
		ok := false
		for _, id := range l.foods[i] {
			f, found := t.ByID(id)
			ok = ok || found && equalRows(item.Food, f)
		}
		if !ok {
			return false
		}
	}
	return true
}

// equalRows are rows whose energy, protein, fat, carbohydrate and sodium are
// within a twentieth of one another, or within 5 kcal, 0.5 g and 10 mg.
func equalRows(a, b *composition.Food) bool {
	if a == b {
		return true
	}
	for n, floor := range map[composition.Nutrient]float64{
		composition.Energy: 5, composition.Protein: 0.5, composition.Fat: 0.5, composition.Carbohydrate: 0.5, composition.Sodium: 10,
	} {
		x, okX := a.Per100g(n)
		y, okY := b.Per100g(n)
		if !okX || !okY || math.Abs(x.Mid-y.Mid) > max(floor, 0.05*max(x.Mid, y.Mid)) {
			return false
		}
	}
	return true
}

func (l labelled) isWeight(m foodmatch.Matched) bool {
	for i, item := range m.Items {
		if math.Abs(item.Grams.Mid-l.grams[i]) > 0.1*l.grams[i]+0.05 {
			return false
		}
	}
	return true
}

func itemNames(m foodmatch.Matched) string {
	var names []string
	for _, i := range m.Items {
		names = append(names, i.Food.Name)
	}
	return strings.Join(names, " + ")
}

func wanted(t *composition.Table, l labelled) string {
	var names []string
	for _, rows := range l.foods {
		name := "?"
		if f, ok := t.ByID(rows[0]); ok {
			name = f.Name
		}
		names = append(names, name)
	}
	return strings.Join(names, " + ")
}

func labelledLines(t testing.TB) []labelled {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", "testdata", "lines", "labelled.tsv"))
	require.NoError(t, err)
	var lines []labelled
	for i, row := range strings.Split(strings.TrimSpace(string(text)), "\n") {
		if strings.HasPrefix(row, "#") {
			continue
		}
		c := strings.Split(row, "\t")
		require.Len(t, c, 5, "line %d", i+1)
		l := labelled{text: c[1], none: c[2] == "none"}
		if c[2] != "-" && !l.none {
			for _, food := range strings.Split(c[2], "+") {
				l.foods = append(l.foods, strings.Split(food, "|"))
			}
		}
		if c[3] != "-" && !strings.Contains(c[3], "?") {
			for _, g := range strings.Split(c[3], "+") {
				x, err := strconv.ParseFloat(g, 64)
				require.NoError(t, err, fmt.Sprintf("line %d", i+1))
				l.grams = append(l.grams, x)
			}
		}
		lines = append(lines, l)
	}
	return lines
}
