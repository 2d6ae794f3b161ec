package kitchen_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"flag"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/composition"
	"potwright/internal/demo"
	"potwright/internal/foodmatch"
	"potwright/internal/ingredient"
	"potwright/internal/kitchen"
	"potwright/internal/nutrient"
	"potwright/internal/recipe"
	"potwright/internal/spread"
	"potwright/internal/testkit"
)

var update = flag.Bool("update", false, "write the golden files anew")

func demoDish(t *testing.T, k *kitchen.Kitchen, name string) kitchen.Analysis {
	t.Helper()
	text, err := demo.Dish(name)
	require.NoError(t, err)
	a, err := k.Read(text, nil, nil)
	require.NoError(t, err)
	return a
}

// toast is an invented dish with foods of its own, so that the golden files
// change only where the way of writing does.
func toast() kitchen.Analysis {
	bread := &composition.Food{ID: "test:1", Name: "bread", Source: "invented"}
	paste := &composition.Food{ID: "test:2", Name: "bean spread", Source: "invented"}
	for _, n := range []composition.Nutrient{composition.Energy, composition.Protein, composition.Sodium} {
		bread.Nutrients[n] = composition.Content{Known: true, Mid: 100, SD: 10, N: 4}
		paste.Nutrients[n] = composition.Content{Known: true, Mid: 50, SD: 5, N: 4}
	}
	paste.Nutrients[composition.Potassium] = composition.Content{Known: true, Mid: 300, SD: 20, N: 3}
	item := func(f *composition.Food, grams float64, from string, others ...*composition.Food) foodmatch.Item {
		it := foodmatch.Item{Food: f, Grams: spread.Between(0.9*grams, grams, 1.1*grams), GramsFrom: from, Candidates: []composition.Candidate{{Food: f, Weight: 0.8}}}
		for _, o := range others {
			it.Candidates = append(it.Candidates, composition.Candidate{Food: o, Weight: 0.2})
		}
		return it
	}
	matched := func(text string, s foodmatch.State, confidence float64, items ...foodmatch.Item) foodmatch.Matched {
		return foodmatch.Matched{Reading: ingredient.Read(text), State: s, Confidence: confidence, Items: items}
	}
	lines := []foodmatch.Matched{
		matched("4 thick slices bread, toasted", foodmatch.Read, 1, item(bread, 200, "measure of this food")),
		matched("1/2 cup (120 g) bean spread or ajvar", foodmatch.Assumed, 0.8, item(paste, 120, "written weight", bread)),
		matched("- 1 tbsp grated moonroot", foodmatch.Unread, 0),
		matched("=2 skewers", foodmatch.Skipped, 1),
		matched("2 tbsp bean spread", foodmatch.Read, 0.9, item(paste, 30, "measure of this food")),
	}
	lines[1].Notes = []string{"counted as the first named; also named: ajvar"}
	a := kitchen.Analysis{Recipe: recipe.Recipe{Title: "+ Toast, \"plain\"", Servings: 2, Notes: []string{"invented"}}}
	var panels []nutrient.LinePanel
	for i, m := range lines {
		panels = append(panels, nutrient.Line(strconv.Itoa(i), &m, 1))
		a.Recipe.Lines = append(a.Recipe.Lines, recipe.Line{Reading: m.Reading})
	}
	a.Recipe.Lines[4].Section, panels[4].AtTable = recipe.TableSection, true
	a.Recipe.Lines[0].Fix = &recipe.Correction{FoodID: "test:1"}
	a.Pot = nutrient.Sum(panels, 2)
	return a
}

func TestTheFiguresOfToastLineByLine(t *testing.T) {
	acc := toast().Account()
	for _, format := range kitchen.AccountFormats() {
		t.Run(format, func(t *testing.T) {
			var b bytes.Buffer
			require.NoError(t, kitchen.WriteAccounts(&b, format, acc))
			golden := filepath.Join("..", "..", "testdata", "report", "toast."+format)
			if *update {
				require.NoError(t, os.MkdirAll(filepath.Dir(golden), 0o755))
				require.NoError(t, os.WriteFile(golden, b.Bytes(), 0o644))
			}
			want, err := os.ReadFile(golden)
			require.NoError(t, err)
			was, is := strings.Split(string(want), "\n"), strings.Split(b.String(), "\n")
			require.Len(t, is, len(was), "go test ./internal/kitchen -run LineByLine -update writes the golden files anew")
			for i := range was {
				require.Equal(t, was[i], is[i], "line %d of %s", i+1, golden)
			}
		})
	}
}

// table reads a CSV account back, by heading.
func table(t *testing.T, text []byte) []map[string]string {
	t.Helper()
	rows, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
	require.NoError(t, err)
	var out []map[string]string
	for _, row := range rows[1:] {
		m := map[string]string{}
		for i, h := range rows[0] {
			m[h] = row[i]
		}
		out = append(out, m)
	}
	return out
}

func decimalOf(t *testing.T, s string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(s, 64)
	require.NoError(t, err)
	return x
}

func TestTheRowsOfTheTableAddUpToThePot(t *testing.T) {
	k := testkit.Kitchen(t)
	for _, name := range demo.Dishes() {
		t.Run(name, func(t *testing.T) {
			a := demoDish(t, k, name)
			var b bytes.Buffer
			require.NoError(t, kitchen.WriteAccountsCSV(&b, a.Account()))
			lines, pot, unknown := map[string]float64{}, map[string]float64{}, map[string]string{}
			for _, row := range table(t, b.Bytes()) {
				switch {
				case row["part"] == "line" && row["counted"] == kitchen.CountedInPot:
					lines[row["nutrient"]] += decimalOf(t, row["mid"])
				case row["part"] == "pot":
					pot[row["nutrient"]], unknown[row["nutrient"]] = decimalOf(t, row["mid"]), row["unknown_parts"]
				}
			}
			require.Len(t, pot, composition.NutrientCount)
			for _, n := range composition.Nutrients() {
				assert.InDelta(t, pot[n.Name()], lines[n.Name()], 1e-6*float64(len(a.Pot.Lines)), n.Name())
				assert.InDelta(t, a.Pot.Total[n].Mid, pot[n.Name()], 1e-6, n.Name())
				assert.Equal(t, strconv.Itoa(a.Pot.Total[n].Unknown), unknown[n.Name()])
			}
		})
	}
}

func TestALineIsItsGramsTimesTheRow(t *testing.T) {
	a, err := testkit.Kitchen(t).Read("Salted water\nServes 2\nIngredients\n10 g salt\n1 cup grated moonroot\n", nil, nil)
	require.NoError(t, err)
	acc := a.Account()
	salt := acc.Lines[0]
	require.Len(t, salt.Foods, 1)
	// USDA SR28, 02047: 38,758 mg sodium in 100 g of table salt.
	assert.Equal(t, "USDA SR28 NDB 02047", strings.Split(salt.Foods[0].Source, ";")[0])
	assert.InDelta(t, 38758, salt.Foods[0].Per100g["sodium_mg"].Mid, 1)
	assert.InDelta(t, 3875.8, salt.Nutrients["sodium_mg"].Mid, 0.1)
	assert.Equal(t, "10 g", salt.Read.Amount)
	strange := acc.Lines[1]
	assert.Equal(t, kitchen.NotKnown, strange.Counted)
	assert.Equal(t, 1, strange.Nutrients["sodium_mg"].Unknown)
	assert.Equal(t, []int{2}, acc.Unknown["sodium_mg"])
	assert.Equal(t, 1, acc.Pot["sodium_mg"].Unknown)
}

func TestEveryLineIsTheProductOfTheFiguresBesideIt(t *testing.T) {
	k := testkit.Kitchen(t)
	products := 0
	for _, name := range demo.Dishes() {
		for _, l := range demoDish(t, k, name).Account().Lines {
			if len(l.Foods) != 1 {
				continue
			}
			f := l.Foods[0]
			for key, per100g := range f.Per100g {
				kept := 1.0
				if r, takes := f.Kept[key]; takes {
					kept = r.Mid
				}
				products++
				want := f.Grams.Mid * per100g.Mid / 100 * kept
				assert.InDelta(t, want, l.Nutrients[key].Mid, 1e-5+1e-6*want*100, "%s: %s, %s", name, l.Text, key)
			}
		}
	}
	assert.Greater(t, products, 500)
}

func TestTextOfALineNeverBecomesAFormula(t *testing.T) {
	k := testkit.Kitchen(t)
	for _, line := range []string{"=1+1 cups milk", "+2 cups milk", "-2 cups milk", "@milk", "\t2 cups milk", `2 cups "milk", cold`} {
		a, err := k.Read("=cmd|' /C calc'!A0\nServes 2\nIngredients\n1 cup milk\n"+line+"\n", nil, nil)
		require.NoError(t, err, line)
		var b bytes.Buffer
		require.NoError(t, kitchen.WriteAccountsCSV(&b, a.Account()))
		for _, row := range table(t, b.Bytes()) {
			for heading, cell := range row {
				assert.False(t, cell != "" && strings.ContainsRune("=+-@\t\r", rune(cell[0])), "%s: %q", heading, cell)
			}
		}
	}
}

func TestTheAccountReadsBackAsJSON(t *testing.T) {
	k, h := stored(t)
	_, a := first(t, k, h)
	acc := k.Check(a, h).Account(a)
	var b bytes.Buffer
	require.NoError(t, kitchen.WriteAccounts(&b, "json", acc))
	var back kitchen.Account
	require.NoError(t, json.Unmarshal(b.Bytes(), &back))
	assert.Len(t, back.Members, len(h.Members))
	assert.Len(t, back.Lines, len(a.Pot.Lines))
	for key, x := range back.Serving {
		assert.False(t, math.IsNaN(x.Mid), key)
		assert.Equal(t, acc.Serving[key], x)
	}
	b.Reset()
	require.NoError(t, kitchen.WriteAccounts(&b, "csv", acc, acc))
	plates := 0
	for _, row := range table(t, b.Bytes()) {
		if row["part"] == "plate" && row["nutrient"] == "sodium" {
			plates++
		}
	}
	assert.Equal(t, 2*len(h.Members), plates)
	assert.Error(t, kitchen.WriteAccounts(&b, "spreadsheet", acc))
}
