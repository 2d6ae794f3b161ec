package server_test

import (
	"fmt"
	"net/http"
	"net/url"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"
)

// valueOf is what a page's field holds.
func valueOf(doc *html.Node, name string) string {
	for _, n := range elements(doc, "") {
		if attr(n, "name") != name {
			continue
		}
		switch n.Data {
		case "input":
			return attr(n, "value")
		case "textarea":
			var b strings.Builder
			for d := range n.Descendants() {
				b.WriteString(d.Data)
			}
			return b.String()
		case "select":
			for _, o := range elements(n, "option") {
				if has(o, "selected") {
					return attr(o, "value")
				}
			}
		}
	}
	return ""
}

func TestAWrongMemberIsToldBesideTheFieldAndNothingIsLost(t *testing.T) {
	h := newHouse(t)
	base, _ := h.furnish()
	whole := map[string]string{"name": "Cleo", "age": "9", "portion": "0.5", "least": "0.25", "most": "1",
		"limit_nutrient_0": "sodium_mg", "limit_bound_0": "most", "limit_amount_0": "500", "limit_per_0": "meal", "limit_by_0": "clinician",
		"avoid_other": "", "level": ""}
	for name, c := range map[string]struct{ field, typed, says string }{
		"no name":                  {"name", "", "Write a name."},
		"a name taken":             {"name", "ANA", "already called Ana"},
		"a name without end":       {"name", strings.Repeat("x", 200), "at most 80 characters"},
		"an age in words":          {"age", "nine", "“nine” is not a number; write one such as 71."},
		"half a year":              {"age", "8.5", "whole number"},
		"a negative limit":         {"limit_amount_0", "-5", "Write a number from 0"},
		"a limit without amount":   {"limit_amount_0", "", "Write the amount, in mg of sodium"},
		"an amount of nothing":     {"limit_nutrient_0", "", "Choose what the limit is on."},
		"an unknown nutrient":      {"limit_nutrient_0", "vitamin_q", "not among the nutrients"},
		"an unknown period":        {"limit_per_0", "week", "Choose the period"},
		"no portion at all":        {"portion", "0", "Write a number from 0.05"},
		"a unit in the number":     {"portion", "1 bowl", "is not a number"},
		"least above usual":        {"least", "0.75", "more than the usual portion"},
		"most below usual":         {"most", "0.3", "less than the usual portion"},
		"a food nobody knows":      {"avoid_other", "moonroot", "“moonroot” is not in the food table"},
		"a level that is not one":  {"level", "12", "Choose a level from the list."},
		"a script for an age":      {"age", "<script>alert(1)</script>", "is not a number"},
		"an amount without an end": {"limit_amount_0", "1e300", "Write a number from 0"},
	} {
		t.Run(name, func(t *testing.T) {
			var pairs []string
			for k, v := range whole {
				if k == c.field {
					v = c.typed
				}
				pairs = append(pairs, k, v)
			}
			pairs = append(pairs, "avoid", "milk", "feature", "stringy")
			r := h.post(base+"/people/new", pairs...)
			require.Equal(t, http.StatusUnprocessableEntity, r.StatusCode)
			assert.Contains(t, alertOf(t, r.body), c.says)
			doc := parse(t, r)
			for k, v := range whole {
				if k == c.field {
					v = c.typed
				}
				if k == "limit_nutrient_0" || k == "limit_per_0" || k == "level" {
					continue // a list cannot show what is not in it
				}
				assert.Equal(t, v, valueOf(doc, k), "the field %s keeps what was typed", k)
			}
			for _, n := range elements(doc, "input") {
				if attr(n, "name") == "avoid" && attr(n, "value") == "milk" || attr(n, "name") == "feature" && attr(n, "value") == "stringy" {
					assert.True(t, has(n, "checked"), "the box %s stays ticked", attr(n, "value"))
				}
			}
			checkPage(t, name, doc)
		})
	}
	saved, err := h.store.ListHouseholds(t.Context())
	require.NoError(t, err)
	assert.Len(t, saved[0].Members, 2, "nobody was half saved")
}

func TestAWrongPlanIsToldBesideTheField(t *testing.T) {
	h := newHouse(t)
	base, _ := h.furnish()
	r := h.post(base+"/people/new", "name", "Cleo", "plan_on", "yes", "plan_per", "meal", "weight_nutrient_0", "carbohydrate_g", "weight_amount_0", "0")
	require.Equal(t, http.StatusUnprocessableEntity, r.StatusCode)
	for _, says := range []string{"Write what one unit is called.", "Write how many units there are to use.", "Write a number from 0.001"} {
		assert.Contains(t, alertOf(t, r.body), says)
	}
}

func TestMoreRowsKeepWhatIsTypedAndSaveNothing(t *testing.T) {
	h := newHouse(t)
	base, _ := h.furnish()
	r := h.post(base+"/people/new", "name", "Cleo", "age", "nine", "limit_nutrient_0", "sodium_mg", "limit_amount_0", "abc", "limit_bound_0", "least", "more", "1")
	require.Equal(t, http.StatusOK, r.StatusCode)
	doc := parse(t, r)
	assert.Equal(t, "nine", valueOf(doc, "age"))
	assert.Equal(t, "abc", valueOf(doc, "limit_amount_0"))
	assert.Equal(t, "least", valueOf(doc, "limit_bound_0"))
	found := false
	for _, n := range elements(doc, "select") {
		found = found || attr(n, "name") == "limit_nutrient_1"
	}
	assert.True(t, found, "there is a second row")
	saved, err := h.store.ListHouseholds(t.Context())
	require.NoError(t, err)
	assert.Len(t, saved[0].Members, 2)
}

func TestAWrongRecipeIsToldAndItsTextKept(t *testing.T) {
	h := newHouse(t)
	base, dish := h.furnish()
	for _, path := range []string{base + "/recipes/new", dish + "/edit"} {
		for name, c := range map[string]struct {
			text, says, keeps string
		}{
			"nothing":             {"", "Paste or type a recipe", ""},
			"blanks":              {" \n\t\n", "Paste or type a recipe", ""},
			"no ingredients":      {"A title and nothing else", "could not be read yet", "A title and nothing else"},
			"a picture":           {"\x89PNG\r\n\x1a\n\x00\x00soup of the day", "looks like a file", "soup of the day"},
			"broken letters":      {"Soup \xff\xfe of the day", "looks like a file", "of the day"},
			"five megabytes":      {"Endless soup\n" + strings.Repeat("1 cup flour\n", 5<<20/12), "far more than a recipe", "Endless soup"},
			"nine megabytes":      {"Endless soup\n" + strings.Repeat("1 cup flour\n", 9<<20/12), "far more than a recipe", "Endless soup"},
			"nine megabytes of é": {"Endless soup\n" + strings.Repeat("é", 9<<20/6), "far more than a recipe", "Endless soup"},
		} {
			t.Run(path+" "+name, func(t *testing.T) {
				r := h.post(path, "text", c.text, "note", "my note")
				require.Equal(t, http.StatusUnprocessableEntity, r.StatusCode)
				assert.Contains(t, alertOf(t, r.body), c.says)
				doc := parse(t, r)
				assert.Contains(t, valueOf(doc, "text"), c.keeps)
				assert.Less(t, len(r.body), 100_000)
				if len(c.text) < 1<<20 {
					assert.Equal(t, "my note", valueOf(doc, "note"))
				}
				checkPage(t, name, doc)
			})
		}
	}
	list, err := h.store.ListRecipes(t.Context(), 1)
	require.NoError(t, err)
	require.Len(t, list, 1)
	assert.Equal(t, 1, list[0].Versions)
}

func TestARecipeWithoutServingsIsTakenWithItsGuessShown(t *testing.T) {
	h := newHouse(t)
	base, _ := h.furnish()
	to := h.must(base+"/recipes/new", "text", strings.Replace(potText, "Serves 4\n\n", "", 1))
	assert.Contains(t, h.get(to).body, "the recipe does not say")
}

func TestFormsThatAreNotFormsAreTurnedAway(t *testing.T) {
	h := newHouse(t)
	base, _ := h.furnish()
	for name, c := range map[string]struct{ kind, body string }{
		"JSON":        {"application/json", `{"name":"x"}`},
		"no type":     {"", "name=x"},
		"bad escapes": {"application/x-www-form-urlencoded", "name=%zz"},
		"a file form": {"multipart/form-data; boundary=x", "--x--"},
	} {
		t.Run(name, func(t *testing.T) {
			r := h.ask(http.MethodPost, base+"/people", c.kind, c.body)
			assert.Equal(t, http.StatusBadRequest, r.StatusCode)
			assert.Contains(t, r.body, "send it again from the page itself")
		})
	}
}

func TestAWrongLineCorrectionKeepsWhatIsTyped(t *testing.T) {
	h := newHouse(t)
	_, dish := h.furnish()
	r := h.post(dish+"/lines/3", "q", "beans", "grams", "a lot", "food", "sr:none", "skip", "yes")
	require.Equal(t, http.StatusUnprocessableEntity, r.StatusCode)
	assert.Contains(t, alertOf(t, r.body), "“a lot” is not a number")
	assert.Contains(t, alertOf(t, r.body), "not in the table")
	doc := parse(t, r)
	assert.Equal(t, "a lot", valueOf(doc, "grams"))
	assert.Equal(t, "beans", valueOf(doc, "q"))
}

func TestWrongWishesAndPortionsAreTold(t *testing.T) {
	h := newHouse(t)
	base, dish := h.furnish()
	r := h.post(dish+"/adapt", "cap", "many", "lock", "0", "lock", "zebra", "lock", "999")
	require.Equal(t, http.StatusUnprocessableEntity, r.StatusCode)
	assert.Contains(t, r.body, "“many” is not a number")
	r = h.get(base + "/table?seated=1&m=1&m=2&p1=lots&dish=1")
	require.Equal(t, http.StatusOK, r.StatusCode)
	assert.Contains(t, r.body, "“lots” is not a number")
	assert.Equal(t, "lots", valueOf(parse(t, r), "p1"))
	assert.Contains(t, alertOf(t, r.body), "A portion could not be read")
	assert.Contains(t, h.get(dish+"/adapt?seated=1").body, "Nobody is at the table.")
}

func TestTheHouseholdsOwnFormIsChecked(t *testing.T) {
	h := newHouse(t)
	base, _ := h.furnish()
	h.must("/", "name", "Mill Row")
	for name, c := range map[string]struct{ field, typed, says string }{
		"a name taken":       {"name", "Mill Row", "already a household of that name"},
		"no name":            {"name", " ", "Write a name."},
		"lifting in words":   {"lift", "little", "is not a number"},
		"more than one day":  {"share", "150", "from 1 to 100"},
		"a negative lifting": {"lift", "-1", "from 0.1 to 100"},
	} {
		t.Run(name, func(t *testing.T) {
			values := map[string]string{"name": "Quay Lane", "lift": "3", "share": "40"}
			values[c.field] = c.typed
			r := h.post(base+"/people", "name", values["name"], "lift", values["lift"], "share", values["share"], "spare", "grip")
			require.Equal(t, http.StatusUnprocessableEntity, r.StatusCode)
			assert.Contains(t, alertOf(t, r.body), c.says)
		})
	}
	h.must(base+"/people", "name", "Quay Lane", "lift", "2½", "share", "40", "spare", "grip", "spare", "nonsense")
	saved, err := h.store.FindHousehold(t.Context(), 1)
	require.NoError(t, err)
	assert.Equal(t, []string{"grip"}, saved.Cook.Spare)
	assert.InDelta(t, 2.5, saved.Cook.LiftLimitKg, 1e-9)
	assert.InDelta(t, 0.4, saved.MealShare, 1e-9)
	assert.Len(t, saved.Members, 2)
	r := h.post("/", "name", "Quay Lane")
	assert.Equal(t, http.StatusUnprocessableEntity, r.StatusCode)
	assert.Equal(t, "Quay Lane", valueOf(parse(t, r), "name"))
}

// TestWordsNeverBecomeMarkup puts markup wherever a person may type and walks
// the pages that show it.
func TestWordsNeverBecomeMarkup(t *testing.T) {
	h := newHouse(t)
	const nasty = `<script>alert(1)</script><img src=x onerror=alert(2)>"'&`
	base, _, _ := strings.Cut(h.must("/", "name", "A"+nasty), "/people")
	h.must(base+"/people/new", "name", "B"+nasty, "portion", "1", "plan_on", "yes", "plan_unit", "u"+nasty, "plan_allowance", "1", "plan_per", "meal",
		"weight_nutrient_0", "sodium_mg", "weight_amount_0", "100", "limit_nutrient_0", "sodium_mg", "limit_bound_0", "most", "limit_amount_0", "5", "limit_per_0", "meal", "limit_by_0", "own_choice")
	dish, _, _ := strings.Cut(h.must(base+"/recipes/new", "text",
		fmt.Sprintf("Soup %s\n\nServes 2\n\nIngredients\n1 tsp salt %s\n2 cups %s\n\nMethod\nStir %s well.\n", nasty, nasty, nasty, nasty), "note", nasty), "?")
	paths := []string{"/?list", base + "/people", base + "/people/1", base + "/people/1/remove", base + "/recipes", base + "/table", dish, dish + "/edit",
		dish + "/lines/1?q=" + url.QueryEscape(nasty), dish + "/adapt", dish + "/versions", dish + "/versions/1", dish + "/compare?a=1&b=1",
		base + "/table?done=" + url.QueryEscape(nasty), base + "/table?seated=1&m=1&p1=" + url.QueryEscape(nasty)}
	for _, path := range paths {
		r := h.get(path)
		require.Equal(t, http.StatusOK, r.StatusCode, path)
		doc := parse(t, r)
		checkPage(t, path, doc)
		for _, n := range elements(doc, "script") {
			assert.Equal(t, "/static/ledger.js", attr(n, "src"), path)
		}
		assert.Empty(t, elements(doc, "img"), path)
	}
	r := h.post("/", "name", "A"+nasty)
	assert.Empty(t, elements(parse(t, r), "img"))
	text := h.get(dish + "/versions/1/text")
	assert.Contains(t, text.Header.Get("Content-Type"), "text/plain")
}
