package server_test

import (
	"net/http"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// beansLabel is an invented label, field by field.
var beansLabel = []string{"name", "Quay kidney beans", "panel", "us", "serving", "1/2 cup (130 g)", "servings", "about 3.5", "container", "can",
	"f_energy_kcal", "110", "f_fat_g", "0", "f_saturated_fat_g", "0", "f_sodium_mg", "20", "f_carbohydrate_g", "20", "f_fibre_g", "6", "f_sugars_g", "less than 1 g", "f_protein_g", "7"}

// with is the label with one field changed.
func with(field, value string) []string {
	out := append([]string(nil), beansLabel...)
	for i := 0; i < len(out); i += 2 {
		if out[i] == field {
			out[i+1] = value
			return out
		}
	}
	return append(out, field, value)
}

func TestALabelIsAddedChangedAndTakenOut(t *testing.T) {
	h := newHouse(t)
	base, dish := h.furnish()
	assert.Contains(t, h.get(base+"/pantry").body, "Nothing yet.")
	assert.Equal(t, base+"/pantry?done=product", h.must(base+"/pantry/new", beansLabel...))
	page := h.get(base + "/pantry")
	assert.Contains(t, page.body, "Quay kidney beans")
	assert.Contains(t, page.body, "sodium in 100 g: about 15 mg (13 to 17)", "20 mg in 130 g is 17.5 to 22.5 (21 CFR 101.9(c)(4))")

	doc := parse(t, h.get(base+"/pantry/1"))
	assert.Equal(t, "1/2 cup (130 g)", valueOf(doc, "serving"))
	assert.Equal(t, "less than 1 g", valueOf(doc, "f_sugars_g"), "the words as typed")
	h.must(base+"/pantry/1", with("f_sodium_mg", "40")...)
	saved, err := h.store.FindProduct(t.Context(), 1, 1)
	require.NoError(t, err)
	assert.Equal(t, "40", saved.Label.Figures["sodium_mg"])

	h.must(dish+"/lines/3", "food", "own:1", "remember", "yes")
	assert.Contains(t, h.get(dish).body, "quay kidney beans")
	assert.Contains(t, h.get(base+"/pantry/1/remove").body, "Take it out")
	h.must(base + "/pantry/1/remove")
	assert.Equal(t, http.StatusNotFound, h.get(base+"/pantry/1").StatusCode)
	assert.Contains(t, h.get(dish).body, "no longer in the table", "a line that was tied to it says so")
}

func TestAFaultyLabelKeepsAllThatWasTyped(t *testing.T) {
	h := newHouse(t)
	base, _ := h.furnish()
	for field, c := range map[string]struct{ value, says string }{
		"serving":           {"a handful", "holds no amount"},
		"f_sodium_mg":       {"salty", "is no amount; expected an amount in mg"},
		"f_saturated_fat_g": {"3", "Saturated fat is more than fat"},
		"servings":          {"many", "is no number of servings"},
		"f_salt_g":          {"1", "is not on a US panel"},
	} {
		r := h.post(base+"/pantry/new", with(field, c.value)...)
		require.Equal(t, http.StatusUnprocessableEntity, r.StatusCode, field)
		assert.Contains(t, alertOf(t, r.body), c.says, field)
		doc := parse(t, r)
		checkPage(t, field, doc)
		assert.Equal(t, c.value, valueOf(doc, field))
		assert.Equal(t, "about 3.5", strings.Replace(valueOf(doc, "servings"), "many", "about 3.5", 1))
		assert.Equal(t, "110", valueOf(doc, "f_energy_kcal"))
	}
	h.must(base+"/pantry/new", beansLabel...)
	r := h.post(base+"/pantry/new", with("name", "quay  KIDNEY beans")...)
	assert.Equal(t, http.StatusUnprocessableEntity, r.StatusCode)
	assert.Contains(t, alertOf(t, r.body), "already a product of that name")
}

func TestAFoodItIsLikeIsLookedUpWithoutLosingTheRest(t *testing.T) {
	h := newHouse(t)
	base, _ := h.furnish()
	r := h.post(base+"/pantry/new", append(with("serving", "1 cup"), "look_for", "kidney beans canned", "look", "1")...)
	require.Equal(t, http.StatusOK, r.StatusCode)
	doc := parse(t, r)
	assert.Equal(t, "1 cup", valueOf(doc, "serving"))
	var found string
	for _, n := range elements(doc, "input") {
		if attr(n, "name") == "like" && attr(n, "value") != "" && found == "" {
			found = attr(n, "value")
		}
	}
	require.NotEmpty(t, found)
	h.must(base+"/pantry/new", append(with("serving", "1 cup"), "like", found, "borrow", "yes")...)
	assert.Contains(t, h.get(base+"/pantry").body, "from half to double")
	assert.Equal(t, http.StatusUnprocessableEntity, h.post(base+"/pantry/new", append(with("name", "other"), "like", "sr:99999")...).StatusCode)
}

func TestAnotherHouseholdsPantryIsNotFound(t *testing.T) {
	h := newHouse(t)
	base, _ := h.furnish()
	h.must(base+"/pantry/new", beansLabel...)
	other, _, _ := strings.Cut(h.must("/", "name", "Mill Row"), "/people")
	for _, path := range []string{"/pantry/1", "/pantry/1/remove", "/pantry/x"} {
		assert.Equal(t, http.StatusNotFound, h.get(other+path).StatusCode, path)
	}
	assert.Equal(t, http.StatusNotFound, h.post(other+"/pantry/1/remove").StatusCode)
	assert.Contains(t, h.get(other+"/pantry").body, "Nothing yet.")
}

func TestDefinitionsAndSharesOfADayAreTold(t *testing.T) {
	h := newHouse(t)
	_, dish := h.furnish()
	r := h.get(dish)
	assert.Contains(t, r.body, "Numeric definitions it meets")
	assert.Contains(t, r.body, "A home figure is not a label")
	assert.Contains(t, r.body, "21 CFR 101.9(c)")
	h.must(dish+"/lines/6", "food", "", "skip", "yes")
	assert.Contains(t, text(elements(parse(t, h.get(dish)), "table")[0]), "% DV")
}

// TestAProductInABrowser types in a label, ties a line to it and adapts the dish.
func TestAProductInABrowser(t *testing.T) {
	needBrowser(t)
	for _, s := range screens()[:2] {
		t.Run(s.name, func(t *testing.T) {
			h := newHouse(t)
			base, dish := h.furnish()
			b := newTab(t, h, s)
			b.open(base + "/recipes")
			b.click(`nav a[href$="/pantry"]`)
			b.click(`main a[href$="/pantry/new"]`)
			b.fill("name", "Quay kidney beans")
			b.fill("look_for", "kidney beans canned")
			b.click(`main button[name="look"]`)
			b.do(chromedp.Click(chromedp.CSS(`input[name="like"]:not([value=""])`)))
			b.fill("serving", "some")
			b.fill("servings", "3.5")
			b.choose("container", "can")
			b.fill("f_energy_kcal", "110")
			b.fill("f_sodium_mg", "<5 mg")
			b.fill("f_carbohydrate_g", "20")
			b.click("main form > .actions button")
			assert.Contains(t, b.words(), "\"some\" holds no amount")
			b.fill("serving", "1/2 cup (130 g)")
			b.click("main form > .actions button")
			assert.Contains(t, b.words(), "The label is saved.")
			assert.Contains(t, b.words(), "Numeric definitions it meets")

			b.open(dish + "/lines/3")
			b.fill("q", "quay beans")
			b.click("main form .search button")
			assert.Contains(t, b.words(), "from your pantry")
			b.do(chromedp.Click(chromedp.CSS(`input[name="food"][value="own:1"]`)))
			b.do(chromedp.Click(chromedp.CSS(`input[name="remember"]`)))
			b.click("main form > .actions button")
			assert.Contains(t, b.words(), "the choice is remembered")
			assert.Contains(t, b.words(), "quay kidney beans")
			b.do(chromedp.Click(chromedp.CSS("details.claims summary")))
			b.look()
			b.click(`main a[href$="/adapt"]`)

			b.open(base + "/pantry/1")
			b.click(`a[href$="/remove"]`)
			b.click("main form button")
			assert.Contains(t, b.words(), "Taken out.")
		})
	}
}

func TestAnyLabelIsAnsweredWithoutHarm(t *testing.T) {
	h := newHouse(t)
	base, _ := h.furnish()
	for name, value := range map[string]string{
		"a script": "<script>alert(1)</script>", "broken letters": "\xff\xfe 1/2 cup (120 g)", "an endless number": strings.Repeat("9", 4000),
		"a tower of marks": strings.Repeat("½", 300), "zero parts": "1/0 cup (0/0 g)", "a power": "1e999 g", "control signs": "\x00\x07 30 g",
	} {
		t.Run(name, func(t *testing.T) {
			for i := 0; i < len(beansLabel); i += 2 {
				r := h.post(base+"/pantry/new", append(with(beansLabel[i], value), "ingredients", value)...)
				assert.Contains(t, []int{http.StatusUnprocessableEntity, http.StatusSeeOther}, r.StatusCode, beansLabel[i])
				assert.NotContains(t, r.body, "<script>alert")
			}
		})
	}
	assert.Equal(t, http.StatusOK, h.get(base+"/pantry").StatusCode)
	assert.Equal(t, http.StatusOK, h.get(base+"/recipes").StatusCode)
}

// Whoever avoids milk is told of the whey in a package's own list.
func TestThePackagesIngredientsAreHeldAgainstWhatPeopleAvoid(t *testing.T) {
	h := newHouse(t)
	base, dish := h.furnish()
	h.must(base+"/pantry/new", append(beansLabel, "ingredients", "Beans, water, WHEY powder, salt")...)
	h.must(dish+"/lines/3", "food", "own:1")
	assert.Contains(t, h.get(base+"/table").body, "the ingredients of quay kidney beans list whey")
}
