package rules_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/keeping"
	"potwright/internal/testkit"
)

// adviceOn is all advice on a dish of the lines given, made as the method says.
func adviceOn(t *testing.T, lines []string, method string) []keeping.Advice {
	t.Helper()
	k := testkit.Kitchen(t)
	a, err := k.Read(exampleText(strings.Join(lines, "\n"), method), nil, nil)
	require.NoError(t, err)
	return a.Keeping()
}

func TestEveryAdviceOnKeepingDoesWhatItsExamplesSay(t *testing.T) {
	k := testkit.Kitchen(t)
	for _, r := range k.Keeping.Rules() {
		for _, x := range r.Examples {
			a, err := k.Read(exampleText(strings.Join(x.Lines, "\n"), x.Method), nil, nil)
			require.NoError(t, err, x.Lines)
			got := k.Keeping.Speaks(r.ID, a.Keepable())
			assert.Equal(t, x.Speaks, got, fmt.Sprintf("line %d: %s: %q %q, read as %s", x.Line, r.ID, x.Lines, x.Method, nameOf(*a.Pot.Lines[0].Matched)))
		}
	}
}

// USDA FSIS, Safe Minimum Internal Temperature Chart, and FSIS and FDA leaflets
// named beside each.
func TestKeepingAdviceHasTheAgenciesFigures(t *testing.T) {
	for _, c := range []struct {
		name, line, method, want string
	}{
		{"poultry 165 °F, FSIS chart", "1 lb chicken thighs", "Bake the chicken for 40 minutes. Serve.", "165 °F"},
		{"ground meat 160 °F, FSIS chart", "1 lb ground beef", "Fry the beef for 10 minutes. Serve.", "160 °F"},
		{"whole cuts 145 °F and 3 minutes, FSIS chart", "4 pork chops", "Fry the pork chops for 12 minutes. Serve.", "145 °F (63 °C) inside, then three minutes of rest"},
		{"fish 145 °F, FSIS chart", "1 lb cod fillets", "Bake the cod for 12 minutes. Serve.", "145 °F"},
		{"egg dishes 160 °F, FSIS chart", "6 eggs", "Whisk the eggs. Bake the eggs for 30 minutes.", "160 °F"},
		{"leftovers to 165 °F, FSIS Leftovers", "1 lb ground beef", "Fry the beef for 10 minutes. Serve.", "Reheat to 165 °F"},
		{"two hours, one above 90 °F, FSIS Danger Zone", "1 lb ground beef", "Fry the beef for 10 minutes. Serve.", "within 2 hours of cooking, 1 hour where it is over 90 °F"},
		{"soup 3 to 4 days, 2 to 3 months, FoodSafety.gov chart", "4 cups chicken broth", "Simmer the broth for 20 minutes. Serve.", "3 to 4 days. Frozen at 0 °F: best within 2 to 3 months"},
		{"poultry by itself 4 to 6 months (FDA chart), but any leftovers 3 to 4 (FSIS)", "1 lb chicken thighs", "Bake the chicken for 40 minutes. Serve.", "3 to 4 months"},
		{"kidney beans soaked 5 hours and boiled 30 minutes, Bad Bug Book", "1 lb dried kidney beans", "Simmer the beans for 2 hours. Serve.", "5 hours or more"},
	} {
		var all []string
		for _, a := range adviceOn(t, []string{c.line}, c.method) {
			all = append(all, a.Text)
			assert.NotEmpty(t, a.Source)
			assert.NotEmpty(t, a.Reason)
		}
		assert.Contains(t, strings.Join(all, "\n"), c.want, c.name)
	}
}

func TestADishKeepsNoLongerThanItsRiskiestFood(t *testing.T) {
	advice := adviceOn(t, []string{"6 cloves garlic", "1 cup olive oil"}, "Crush the garlic into a jar. Cover with oil and let steep.")
	storing := slices.DeleteFunc(slices.Clone(advice), func(a keeping.Advice) bool { return a.Topic != keeping.Storing })
	require.Len(t, storing, 1, "one time, not several")

	soup := adviceOn(t, []string{"1 lb chicken thighs", "4 cups chicken broth"}, "Simmer the chicken in the broth for 40 minutes. Serve.")
	i := slices.IndexFunc(soup, func(a keeping.Advice) bool { return a.Topic == keeping.Storing })
	require.GreaterOrEqual(t, i, 0)
	assert.Equal(t, "keep_soup", soup[i].Rule, "2 to 3 months for soup is less than 4 to 6 for poultry")
}

func TestAMethodThatNamesTheInsideTemperatureNeedsNoAdviceOnIt(t *testing.T) {
	for method, speaks := range map[string]bool{
		"Bake the chicken at 400 °F for 20 minutes. Serve.":                             true,
		"Bake the chicken until it reaches 165 °F inside. Serve.":                       false,
		"Bake the chicken until the internal temperature is 74 C. Serve.":               false,
		"Bake the chicken until a thermometer reads 150 °F. Serve.":                     true,
		"Bake the chicken at 165 C. Serve.":                                             true,
		"Bake the chicken until a thermometer reads 165 degrees F inside it. Serve it.": false,
	} {
		got := slices.ContainsFunc(adviceOn(t, []string{"1 lb chicken breasts"}, method), func(a keeping.Advice) bool { return a.Rule == "inside_poultry" })
		assert.Equal(t, speaks, got, method)
	}
}
