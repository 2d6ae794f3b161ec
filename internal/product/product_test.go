package product_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"potwright/internal/composition"
	"potwright/internal/diagnostic"
	"potwright/internal/product"
	"potwright/internal/spread"
)

// beans is a label of the kind that cans of beans carry; its figures are invented.
func beans() product.Label {
	return product.Label{
		Name: "Kidney Beans, canned, low sodium", Panel: product.US, Serving: "1/2 cup (130 g)", Servings: "about 3.5", Container: "can",
		Figures: map[string]string{"energy_kcal": "110", "fat_g": "0", "saturated_fat_g": "0 g", "trans_fat_g": "0", "cholesterol_mg": "0mg",
			"sodium_mg": "140", "carbohydrate_g": "20g", "fibre_g": "6", "sugars_g": "less than 1 g", "added_sugars_g": "0", "protein_g": "7",
			"vitamin_d_ug": "0mcg", "calcium_mg": "4%", "iron_mg": "2 mg", "potassium_mg": "320"},
	}
}

func like() *composition.Food {
	f := &composition.Food{ID: "sr:1", Name: "kidney beans, canned", Group: "1600", Kinds: []string{"legume", "canned_beans"},
		States: []string{"canned", "salted"}, Measures: []composition.Measure{{Amount: 1, Unit: "cup", Grams: 256}, {Amount: 1, Unit: "can", Grams: 436}, {Amount: 1, Unit: "each", Grams: 0.5}}}
	f.Nutrients[composition.Phosphorus] = composition.Content{Known: true, Mid: 90, SD: 5}
	f.Nutrients[composition.Water] = composition.Content{Known: true, Mid: 75, SD: 1}
	f.Nutrients[composition.Fat] = composition.Content{Known: true, Mid: 0.3, SD: 0.05}
	f.Nutrients[composition.Fibre] = composition.Content{Known: true, Mid: 5, SD: 0.5}
	return f
}

func read(t *testing.T, l product.Label, like *composition.Food) (*composition.Food, []diagnostic.Fault) {
	t.Helper()
	f, warnings, err := product.Read(l, like)
	require.NoError(t, err)
	return f, warnings
}

func per100(t *testing.T, f *composition.Food, n composition.Nutrient) spread.Range {
	t.Helper()
	r, ok := f.Per100g(n)
	require.True(t, ok, n)
	return r
}

// 21 CFR 101.9(c)(4): 140 mg stands for 137.5 to 145 mg; a serving printed as 130 g
// is 129.5 to 130.5 g (101.9(b)(7)(ii)).
func TestAFigureBecomesTheRangeItsRoundingStandsFor(t *testing.T) {
	f, warnings := read(t, beans(), nil)
	assert.Empty(t, warnings)
	na := per100(t, f, composition.Sodium)
	assert.InDelta(t, 100*137.5/130.5, na.Low, 1e-3)
	assert.InDelta(t, 100*141.25/130, na.Mid, 1e-3)
	assert.InDelta(t, 100*145/129.5, na.High, 1e-3)
	fat := per100(t, f, composition.Fat)
	assert.Zero(t, fat.Mid)
	assert.InDelta(t, 100*0.5/129.5, fat.High, 1e-3, "below half a gram is printed as 0")
	sugars := per100(t, f, composition.Sugars)
	assert.Zero(t, sugars.Low)
	assert.InDelta(t, 100*1/129.5, sugars.High, 1e-3)
	calcium := per100(t, f, composition.Calcium)
	assert.InDelta(t, 100*0.03*1300/130.5, calcium.Low, 1e-3, "4 % stands for 3 to 5 % of 1,300 mg")
	iron := per100(t, f, composition.Iron)
	assert.InDelta(t, 100*1.5/130.5, iron.Low, 1e-3, "the step of iron is a suggestion only")
	_, ok := f.Per100g(composition.Phosphorus)
	assert.False(t, ok, "what is not on the label is unknown")
	assert.Equal(t, "kidney beans, canned, low sodium", f.Name)
	assert.Equal(t, []string{"canned", "low_sodium"}, f.States)
}

func grams(f *composition.Food, unit string) float64 {
	for _, m := range f.Measures {
		if m.Unit == unit {
			return m.Grams / m.Amount
		}
	}
	return 0
}

// A label's cup is 240 ml (21 CFR 101.9(b)(5)(viii)), a cook's 236.6.
func TestServingContainerAndCupBecomeMeasures(t *testing.T) {
	f, _ := read(t, beans(), nil)
	assert.InDelta(t, 260*236.588/240, grams(f, "cup"), 0.01)
	assert.InDelta(t, 130, grams(f, "serving"), 1e-9)
	assert.InDelta(t, 455, grams(f, "can"), 1e-9)
	l := beans()
	l.LikeID, l.Net = "sr:1", "15 oz (425 g)"
	f, _ = read(t, l, like())
	assert.InDelta(t, 425, grams(f, "can"), 1e-9, "the net weight is surer than the servings")
	assert.InDelta(t, 0.5, grams(f, "each"), 1e-9, "the like food's measures fill in")
	assert.InDelta(t, 260*236.588/240, grams(f, "cup"), 0.01, "but never beside one of the label's own")
	l.Net = "850 g"
	_, warnings := read(t, l, like())
	require.Len(t, warnings, 1)
	assert.Equal(t, "net", warnings[0].Field)
}

func TestServingsAreReadAsPrinted(t *testing.T) {
	for text, want := range map[string]float64{"30 g": 30, "2 slices (56g)": 56, "1 Tbsp (15 g)": 15, "1 oz (28 g)": 28, "3 crackers (15 g)": 15,
		"1 1/2 cups (40g)": 40, "240 mL": 240 * 256 / 236.588, "8 fl oz (240 ml)": 240 * 256 / 236.588, "1 cup": 240 * 256 / 236.588, "0.5 g": 0.5} {
		l := beans()
		l.LikeID, l.Serving, l.Figures = "sr:1", text, map[string]string{"sodium_mg": "5"}
		f, _ := read(t, l, like())
		assert.InDelta(t, want, grams(f, "serving"), 0.01, text)
	}
}

func TestWhatIsMissingIsBorrowedOnlyWhereAskedAndSaid(t *testing.T) {
	l := beans()
	l.LikeID = "sr:1"
	f, _ := read(t, l, like())
	assert.False(t, f.Nutrients[composition.Phosphorus].Known)
	assert.Equal(t, []string{"legume", "canned_beans"}, f.Kinds)
	assert.NotContains(t, f.States, "salted", "that is the like food's salt, not this one's")
	assert.InDelta(t, 0.3, per100(t, f, composition.Fat).Mid, 1e-9, "a printed 0 hides what the like food holds")
	l.Borrow = true
	f, _ = read(t, l, like())
	p := per100(t, f, composition.Phosphorus)
	assert.Less(t, p.Low, 50.0)
	assert.Greater(t, p.High, 180.0)
	assert.Contains(t, f.Source, "taken from kidney beans, canned, from half to double: phosphorus, water")
}

// Guidance of December 2012; salt is sodium times 2.5 (Annex I). A European label's
// carbohydrate leaves out the fibre.
func TestAEuropeanPanelIsPer100g(t *testing.T) {
	l := product.Label{Name: "plain yogurt", Panel: product.EU, Net: "500 g", Container: "container", Figures: map[string]string{
		"energy_kj": "255", "energy_kcal": "61", "fat_g": "3,3", "saturated_fat_g": "2.1", "carbohydrate_g": "4.7", "sugars_g": "4.7", "protein_g": "3.5", "salt_g": "0.12"}}
	f, warnings := read(t, l, nil)
	assert.Empty(t, warnings)
	na := per100(t, f, composition.Sodium)
	assert.InDelta(t, 46, na.Low, 1e-6)
	assert.InDelta(t, 48, na.Mid, 1e-6)
	assert.InDelta(t, 50, na.High, 1e-6)
	c := per100(t, f, composition.Carbohydrate)
	assert.InDelta(t, 4.65, c.Low, 1e-6)
	assert.Less(t, c.High, 5.6, "the energy leaves next to nothing for fibre")
	assert.InDelta(t, 3.3, per100(t, f, composition.Fat).Mid, 1e-6)
	assert.InDelta(t, 500, grams(f, "container"), 1e-9)

	l.Figures["fibre_g"] = "2.0"
	f, _ = read(t, l, nil)
	assert.InDelta(t, 6.7, per100(t, f, composition.Carbohydrate).Mid, 1e-6)
	delete(l.Figures, "fibre_g")
	delete(l.Figures, "protein_g")
	f, warnings = read(t, l, nil)
	assert.False(t, f.Nutrients[composition.Carbohydrate].Known)
	require.Len(t, warnings, 1)
	assert.Equal(t, "carbohydrate_g", warnings[0].Field)

	l.Panel = product.EULiquid
	_, _, err := product.Read(l, nil)
	require.ErrorContains(t, err, "what 100 ml of it weighs is not known")
	l.Serving = "200 ml (206 g)"
	f, _ = read(t, l, nil)
	assert.InDelta(t, 48/1.03, per100(t, f, composition.Sodium).Mid, 1e-6)
}

// 21 CFR 101.9(g): sodium may be 120 % of the label, fibre 80 %.
func TestToleranceWidensTheRange(t *testing.T) {
	l := beans()
	l.Tolerance = true
	f, _ := read(t, l, nil)
	assert.InDelta(t, 100*168/129.5, per100(t, f, composition.Sodium).High, 1e-3)
	assert.InDelta(t, 100*4.8/130.5, per100(t, f, composition.Fibre).Low, 1e-3)
}

func TestFaultsNameTheFieldAndWhatWasExpected(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*product.Label)
		field  string
		says   string
	}{
		"no name":                       {func(l *product.Label) { l.Name = " 12 " }, "name", "it has no name"},
		"no serving":                    {func(l *product.Label) { l.Serving = "" }, "serving", "the serving size is missing"},
		"a serving without a weight":    {func(l *product.Label) { l.Serving = "2 slices" }, "serving", "holds no weight or volume"},
		"a volume of an unknown weight": {func(l *product.Label) { l.Serving = "240 mL" }, "serving", "what it weighs is not known"},
		"words for a serving":           {func(l *product.Label) { l.Serving = "some" }, "serving", "holds no amount"},
		"an unlikely serving":           {func(l *product.Label) { l.Serving = "0 g" }, "serving", "no likely weight"},
		"words for a figure":            {func(l *product.Label) { l.Figures["sodium_mg"] = "a lot" }, "sodium_mg", "is no amount"},
		"a foreign unit":                {func(l *product.Label) { l.Figures["sodium_mg"] = "5 kcal" }, "sodium_mg", "is no unit of sodium"},
		"below nothing":                 {func(l *product.Label) { l.Figures["sodium_mg"] = "<0" }, "sodium_mg", "nothing is less than 0"},
		"below zero":                    {func(l *product.Label) { l.Figures["sodium_mg"] = "-5" }, "sodium_mg", "is no amount"},
		"a share of no daily value":     {func(l *product.Label) { l.Figures["trans_fat_g"] = "5%" }, "trans_fat_g", "no daily value"},
		"an odd share":                  {func(l *product.Label) { l.Figures["calcium_mg"] = "21%" }, "calcium_mg", "not a percentage that a label prints"},
		"salt in the US":                {func(l *product.Label) { l.Figures["salt_g"] = "1" }, "salt_g", "not on a US panel"},
		"salt and sodium":               {func(l *product.Label) { l.Panel = product.EU; l.Figures["salt_g"] = "1" }, "salt_g", "both typed"},
		"more saturated than fat":       {func(l *product.Label) { l.Figures["saturated_fat_g"] = "2" }, "saturated_fat_g", "of which it is a part"},
		"more sugars than carbohydrate": {func(l *product.Label) { l.Figures["sugars_g"] = "22" }, "sugars_g", "of which it is a part"},
		"more than it weighs":           {func(l *product.Label) { l.Serving = "20 g" }, "figures", "come to"},
		"more than anything holds":      {func(l *product.Label) { l.Figures["sodium_mg"] = "90000" }, "sodium_mg", "can hold"},
		"no figures":                    {func(l *product.Label) { l.Figures = nil }, "figures", "no figure is typed"},
		"an unknown line":               {func(l *product.Label) { l.Figures["joy"] = "1" }, "joy", "no line of a label"},
		"servings in words":             {func(l *product.Label) { l.Servings = "plenty" }, "servings", "no number of servings"},
		"a like food that is gone":      {func(l *product.Label) { l.LikeID = "sr:99" }, "like", "no food of the table"},
		"borrowing from nothing":        {func(l *product.Label) { l.Borrow = true }, "like", "no food is chosen"},
		"an unknown panel":              {func(l *product.Label) { l.Panel = "moon" }, "panel", "no kind of panel"},
		"endless ingredients":           {func(l *product.Label) { l.Ingredients = strings.Repeat("x", 3001) }, "ingredients", "too long"},
		"an unknown container":          {func(l *product.Label) { l.Container = "chest" }, "container", "no container"},
	} {
		t.Run(name, func(t *testing.T) {
			l := beans()
			c.change(&l)
			f, _, err := product.Read(l, nil)
			assert.Nil(t, f)
			var faults diagnostic.Faults
			require.True(t, errors.As(err, &faults), "%v", err)
			var said bool
			for _, fault := range faults {
				assert.NotEmpty(t, fault.Expected, fault.Problem)
				if fault.Field == c.field {
					said = true
					assert.Contains(t, fault.Problem, c.says)
				}
			}
			assert.True(t, said, "%v", err)
		})
	}
}

func TestDoubtsAreSaidAndDoNotStandInTheWay(t *testing.T) {
	l := beans()
	l.Figures["sodium_mg"] = "143"
	f, warnings := read(t, l, nil)
	require.Len(t, warnings, 1)
	assert.Contains(t, warnings[0].Problem, "143 mg is not a figure that the US rule prints (US 21 CFR 101.9(c)); near it are 140 and 150")
	assert.InDelta(t, 100*143/130.0, per100(t, f, composition.Sodium).Mid, 1e-6)
	l = beans()
	l.Figures["energy_kcal"] = "250"
	_, warnings = read(t, l, nil)
	require.Len(t, warnings, 1)
	assert.Equal(t, "energy_kcal", warnings[0].Field)
	l.Figures["energy_kcal"], l.Figures["sugars_g"], l.Figures["added_sugars_g"] = "110", "0", "<1 g"
	_, _, err := product.Read(l, nil)
	require.NoError(t, err, "less than 1 g beside 0 g may be rounding")
}

// The true food of a drawn panel lies within what its own label is read as.
func TestWhatAFoodHoldsLiesWithinItsLabel(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		serving := rapid.Float64Range(6, 400).Draw(t, "grams")
		mg := rapid.Float64Range(0, 2000).Draw(t, "sodium")
		l := product.Label{Name: "pot", Panel: product.US, Serving: figure(roundTo(serving, 1)) + " g", Figures: map[string]string{"sodium_mg": figure(roundSodium(mg))}}
		f, _, err := product.Read(l, nil)
		require.NoError(t, err)
		got, ok := f.Per100g(composition.Sodium)
		require.True(t, ok)
		truth := 100 * mg / serving
		assert.LessOrEqual(t, got.Low, truth+1e-3)
		assert.GreaterOrEqual(t, got.High, truth-1e-3)
		assert.True(t, got.Valid())
	})
}

// sound holds every food that is read to what a range must be.
func sound(t testing.TB, f *composition.Food) {
	for n, c := range f.Nutrients {
		if c.Known {
			r := spread.Range{Low: c.Low, Mid: c.Mid, High: c.High}
			assert.True(t, c.Bounded && r.Valid(), "%s %+v", composition.Nutrient(n), c)
		}
	}
	for _, m := range f.Measures {
		assert.True(t, m.Grams > 0 && m.Amount > 0 && m.Grams < 1e9, "%+v", m)
	}
}

func FuzzRead(f *testing.F) {
	f.Add("beans", "us", "1/2 cup (130 g)", "about 3.5", "15 oz (425 g)", "140", "less than 1 g", "110", "20 g", true)
	f.Add("milk", "eu_ml", "200 ml", "", "1 l", "0,1", "<0.5", "64", "4.7", false)
	f.Add("salt", "eu", "", "", "", "38758", "0", "0", "0", true)
	f.Add("½", "us", "½ ½ cup (.5g)", "1/0", "9999999 kg", "1e9", "<", "%", "5%", true)
	f.Fuzz(func(t *testing.T, name, panel, serving, servings, net, sodium, fat, energy, carbohydrate string, borrow bool) {
		l := product.Label{Name: name, Panel: product.Panel(panel), Serving: serving, Servings: servings, Net: net, Borrow: borrow, LikeID: "sr:1",
			Figures: map[string]string{"sodium_mg": sodium, "fat_g": fat, "energy_kcal": energy, "carbohydrate_g": carbohydrate}}
		food, _, err := product.Read(l, like())
		if err == nil {
			sound(t, food)
		}
	})
}
