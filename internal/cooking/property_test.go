package cooking_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"potwright/internal/composition"
	"potwright/internal/cooking"
	"potwright/internal/nutrient"
)

var foods = []string{"1 lb spaghetti", "2 tablespoons salt", "1 lb ground beef", "4 chicken breasts", "1 cup red wine", "2 cups spinach",
	"1 lb potatoes", "4 slices bacon", "1/2 cup soy sauce", "4 cups chicken broth", "1 onion", "2 eggs", "1 cup milk", "1 lb dry beans",
	"blorfuzz", "salt and pepper to taste", "6 cups water", "1 cup rice", "2 tablespoons oil"}

var clauses = []string{"Boil the spaghetti 10 minutes", "drain", "Brown the beef", "drain off the fat", "Add the wine and simmer 30 minutes",
	"discard the marinade", "Mix everything in a bowl", "Bake 40 minutes", "Cook the potatoes; drain", "Marinate the chicken overnight",
	"Stir in the spinach", "flame", "Grill the chicken 5 minutes a side", "Cover and simmer 1 to 2 hours", "Serve", "Steam the spinach",
	"Remove from the marinade", "Cook on low 8 hours in a slow cooker", "Add the remaining ingredients", "skim the fat"}

// Whatever a method says, cooking raises nothing, every range is in order, what
// is unknown stays unknown, and the pot weighs something finite.
func TestCookingNeverAddsANutrient(t *testing.T) {
	table, book := realBook(t)
	rapid.Check(t, func(t *rapid.T) {
		lines := rapid.SliceOfN(rapid.SampledFrom(foods), 1, 7).Draw(t, "lines")
		method := rapid.SliceOfN(rapid.SampledFrom(clauses), 0, 7).Draw(t, "method")
		text := ""
		for i, c := range method {
			text += c + rapid.SampledFrom([]string{". ", "; ", " and ", ".|", ", then "}).Draw(t, fmt.Sprint("mark", i))
		}
		ms := matched(table, lines...)
		plan := book.Read(steps(text), ms)
		var panels []nutrient.LinePanel
		for i, m := range ms {
			raw, got := nutrient.Line("0", &m, 1), book.Panel("0", plan, i, &m, 1)
			panels = append(panels, got)
			for _, n := range composition.Nutrients() {
				assert.LessOrEqual(t, got.Panel[n].Mid, raw.Panel[n].Mid*(1+1e-12), "%s of %s", n, lines[i])
				assert.True(t, got.Panel[n].Valid(), "%s of %s: %+v", n, lines[i], got.Panel[n])
				assert.Equal(t, raw.Panel[n].Unknown, got.Panel[n].Unknown)
			}
			assert.True(t, got.Finished.Valid(), "%s: %+v", lines[i], got.Finished)
			assert.LessOrEqual(t, plan.Of(i).Low, plan.Of(i).High)
			assert.True(t, plan.Of(i).Away.Valid() && plan.Of(i).Away.High <= 1)
		}
		pot := nutrient.Sum(panels, 4).Finished(nutrient.Finish{Evaporated: plan.Evaporated})
		assert.True(t, pot.YieldGrams.Valid(), "%+v", pot.YieldGrams)
		assert.True(t, pot.YieldMillilitres.Valid(), "%+v", pot.YieldMillilitres)
	})
}

func TestTheSameMethodAlwaysReadsTheSame(t *testing.T) {
	table, book := realBook(t)
	ms := matched(table, foods...)
	text := steps("Boil the spaghetti and potatoes; drain. | Mix everything. | Bake 40 minutes.")
	want := book.Read(text, ms)
	for range 20 {
		assert.Equal(t, want, book.Read(text, ms))
	}
}

func TestALongerSimmerKeepsNoMoreAlcohol(t *testing.T) {
	table, book := realBook(t)
	wine := matched(table, "1 cup red wine")[0]
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(0, 300).Draw(t, "a")
		b := rapid.Float64Range(a, 600).Draw(t, "b")
		of := func(minutes float64) float64 {
			l := cooking.Line{Treatment: cooking.Stewed, Sure: true, Low: minutes, High: minutes}
			return book.Panel("0", cooking.Plan{Told: true, Lines: []cooking.Line{l}}, 0, &wine, 1).Panel[composition.Alcohol].Mid
		}
		assert.GreaterOrEqual(t, of(a), of(b)-1e-12)
	})
}

func FuzzRead(f *testing.F) {
	for _, c := range clauses {
		f.Add(c)
	}
	f.Add("Boil the potatoes; drain. Cook and drain the pasta, 10-12 minutes")
	table, book := realBook(f)
	ms := matched(table, foods...)
	f.Fuzz(func(t *testing.T, text string) {
		plan := book.Read(steps(text), ms)
		for i, m := range ms {
			for n, a := range book.Panel("0", plan, i, &m, 1).Panel {
				if !a.Valid() {
					t.Fatalf("%s of %s: %+v", composition.Nutrient(n), foods[i], a)
				}
			}
		}
	})
}
