package server_test

import (
	"fmt"
	"net/http"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// paste saves a recipe and gives its address.
func (h *house) paste(base, text string) string {
	h.t.Helper()
	dish, _, _ := strings.Cut(h.must(base+"/recipes/new", "text", text), "?")
	return dish
}

func TestADishIsCookedAStepAtATime(t *testing.T) {
	h := newHouse(t)
	base, dish := h.furnish()
	first := h.get(dish + "/cook").body
	assert.Contains(t, first, "Set out first")
	assert.Contains(t, first, "2 (15 oz) cans kidney beans")
	one := h.get(dish + "/cook?step=1").body
	assert.Contains(t, one, "Step 1 of 3")
	assert.Contains(t, one, "8 minutes")
	assert.Contains(t, one, `data-seconds="480"`)
	assert.Contains(t, one, "1 onion, chopped")
	assert.Contains(t, one, `the onion <b class="much">(1)</b> in the oil <b class="much">(1 tbsp)</b>`, "amounts stand in the step")
	assert.Contains(t, one, "1 tbsp olive oil")
	assert.NotContains(t, one, "moonroot", "what another step uses")
	end := h.get(dish + "/cook?step=4").body
	assert.Contains(t, end, "Onto each plate")
	assert.Contains(t, end, "Ana")
	assert.Contains(t, end, "not medical advice")
	assert.Contains(t, end, "How long it keeps")

	large := h.get(dish + "/cook?step=1&servings=8").body
	assert.Contains(t, large, `in the oil <b class="much">(2 tbsp)</b>`)
	assert.Contains(t, large, "servings=8", "the next step is for the same batch")
	assert.Contains(t, h.get(dish+"/cook?servings=8").body, "Times, heat and pan sizes in the method are not scaled")
	r := h.get(dish + "/cook?step=2&servings=none")
	assert.Equal(t, http.StatusUnprocessableEntity, r.StatusCode)
	assert.Contains(t, r.body, "Set out first", "what could not be read is asked for again")

	none := h.paste(base, "Only lines\n\nServes 2\n\nIngredients\n1 onion\n")
	assert.Contains(t, h.get(none+"/cook").body, "To the table")
	assert.Contains(t, h.get(none+"/cook?step=1").body, "Onto each plate")

	single := h.paste(base, "One step\n\nServes 2\n\nIngredients\n1 onion\n\nMethod\nFry the onion for 5 to 7 minutes.\n")
	assert.Contains(t, h.get(single+"/cook?step=1").body, "5 to 7 minutes")

	var many strings.Builder
	many.WriteString("Forty steps\n\nServes 2\n\nIngredients\n1 onion\n\nMethod\n")
	for i := range 40 {
		fmt.Fprintf(&many, "%d. Stir it round %d times.\n", i+1, i+2)
	}
	forty := h.paste(base, many.String())
	assert.Contains(t, h.get(forty+"/cook?step=40").body, "Step 40 of 40")
	for _, step := range []string{"42", "-1", "x", "99999999999999999999"} {
		assert.Equal(t, http.StatusNotFound, h.get(forty+"/cook?step="+step).StatusCode, step)
	}
	assert.Equal(t, http.StatusNotFound, h.get(forty+"/cook?version=1").StatusCode, "a version of another recipe")
}

func TestAStepThatIsHardOnTheHandsSaysTheEasierWay(t *testing.T) {
	h := newHouse(t)
	base, dish := h.furnish()
	h.must(base+"/people", "name", "Quay Lane", "spare", "tight_twist", "spare", "lift", "spare", "fine_knife_work", "spare", "pour_hot_liquid", "spare", "grip", "spare", "pinch")
	body := h.get(dish + "/cook").body
	assert.Contains(t, body, "Hard on the hands")
	assert.Contains(t, body, "Easier:")
}

func TestADishIsDividedIntoContainers(t *testing.T) {
	h := newHouse(t)
	base, dish := h.furnish()
	body := h.get(dish + "/portions").body
	assert.Contains(t, body, "4 full containers")
	assert.Equal(t, 4, strings.Count(body, `class="container-label`))
	assert.Contains(t, h.get(dish+"/portions?made=2026-01-30").body, "Chilled, use by: 2 February 2026")
	assert.Contains(t, h.get(dish+"/portions?made=Sunday").body, "Use by:", "a day that is no date is left to the cook")
	assert.Contains(t, body, "Ana: ")
	assert.Contains(t, h.get(dish+"/portions?by=servings&size=3").body, "left over")
	assert.Equal(t, http.StatusOK, h.get(dish+"/portions?by=grams&size=250").StatusCode)
	assert.Equal(t, http.StatusOK, h.get(dish+"/portions?by=cups&size=1").StatusCode)
	assert.Contains(t, h.get(dish+"/portions?size=0.05").body, "first 60")
	for _, q := range []string{"size=many", "size=-1", "size=0"} {
		r := h.get(dish + "/portions?" + q)
		assert.Equal(t, http.StatusUnprocessableEntity, r.StatusCode, q)
		assert.NotContains(t, r.body, "container-label", q)
	}
	unknown := h.paste(base, "Nothing known\n\nServes 2\n\nIngredients\n1 cup moonroot\n")
	assert.Contains(t, h.get(unknown+"/portions").body, "not known")
	r := h.get(unknown + "/portions?by=grams&size=200")
	assert.Equal(t, http.StatusUnprocessableEntity, r.StatusCode)
	assert.Contains(t, r.body, "only servings can be counted")
}

func TestARecipeStandsOnOneSheet(t *testing.T) {
	h := newHouse(t)
	base, _ := h.furnish()
	dish := h.paste(base, "Cheese toast\n\nServes 2\n\nIngredients\n2 slices white bread\n1/2 cup shredded cheddar cheese\n\nMethod\nToast the bread with the cheese for 4 minutes.\n")
	body := h.get(dish + "/card").body
	for _, want := range []string{"Cheese toast", "A serving holds", "Allergens", "milk", "Nothing found of", "How the figures were made", "not medical advice"} {
		assert.Contains(t, body, want)
	}
}

func TestAListForTwoDishesNamesAFoodOnce(t *testing.T) {
	h := newHouse(t)
	base, dish := h.furnish()
	other := h.paste(base, "More beans\n\nServes 4\n\nIngredients\n1 (15 oz) can kidney beans\n2 onions, chopped\n1 cup water\nsalt to taste\n\nMethod\nSimmer everything for 20 minutes.\n")
	id := func(a string) string { return a[strings.LastIndex(a, "/")+1:] }
	q := base + "/shopping?dish=" + id(dish) + "&dish=" + id(other)
	plain := h.get(q + "&format=text").body
	assert.Contains(t, plain, "3 cans of 15 oz")
	assert.Contains(t, plain, "More beans: 2 onions, chopped")
	assert.NotContains(t, plain, "] water")
	assert.Equal(t, 1, strings.Count(plain, "] salt"))
	assert.Contains(t, plain, "moonroot")
	page := h.get(q).body
	assert.Contains(t, page, "3 cans of 15 oz")
	assert.Contains(t, page, "Write the list")
	assert.Equal(t, http.StatusOK, h.get(base+"/shopping").StatusCode)
	assert.Equal(t, http.StatusOK, h.get(base+"/shopping?dish=999&dish=x").StatusCode)
	assert.Equal(t, http.StatusNotFound, h.get("/h/99/shopping").StatusCode)
}

func TestThePackagesOfAnAdaptedDishAreToldApart(t *testing.T) {
	h := newHouse(t)
	base, _ := h.furnish()
	dish := h.paste(base, "Bean broth\n\nServes 4\n\nIngredients\n1 onion\n2 cups unsalted chicken broth\n1/2 lb carrots\n\nMethod\nSimmer everything for 20 minutes.\n")
	q := base + "/shopping?dish=" + dish[strings.LastIndex(dish, "/")+1:]
	assert.Regexp(t, `On the label: sodium at most [\d,]+ mg in 1 cup`, h.get(q).body)
	assert.Regexp(t, `label: sodium at most [\d,]+ mg in 1 cup`, h.get(q+"&format=text").body)
	for _, path := range []string{q, dish + "/card", dish + "/portions", dish + "/cook?step=2"} {
		assert.Contains(t, h.get(path).body, "Allergens: always check the labels", path)
	}
}

func TestWhatThePantryHoldsIsNotAmongWhatIsBought(t *testing.T) {
	h := newHouse(t)
	base, dish := h.furnish()
	h.must(base+"/pantry/new", beansLabel...)
	h.must(dish+"/lines/3", "food", "own:1")
	h.must(dish+"/lines/6", "food", "", "skip", "yes")
	plain := h.get(base + "/shopping?format=text&dish=" + dish[strings.LastIndex(dish, "/")+1:]).body
	_, pantry, ok := strings.Cut(plain, "From the pantry\n")
	require.True(t, ok, plain)
	assert.True(t, strings.HasPrefix(pantry, "[ ] kidney beans (quay kidney beans): 2 cans of 15 oz"), pantry)
	_, optional, ok := strings.Cut(plain, "If you want them\n")
	require.True(t, ok, plain)
	assert.Contains(t, optional, "moonroot")
	assert.NotContains(t, h.get(base+"/shopping?format=text").body, "[ ]", "no dish, no list")
}

func TestTheListIsForAsManyServingsAsAreWanted(t *testing.T) {
	h := newHouse(t)
	base, dish := h.furnish()
	id := dish[strings.LastIndex(dish, "/")+1:]
	assert.Contains(t, h.get(base+"/shopping?format=text&dish="+id).body, "for 4 servings of Harbour bean pot")
	double := h.get(base + "/shopping?format=text&dish=" + id + "&s" + id + "=8").body
	assert.Contains(t, double, "4 cans of 15 oz")
	assert.Contains(t, double, "onions: 2,")
	r := h.get(base + "/shopping?dish=" + id + "&s" + id + "=none")
	assert.Equal(t, http.StatusUnprocessableEntity, r.StatusCode)
	assert.Contains(t, r.body, "A number of servings could not be read")

	h.must(base+"/day/dish", "version", "1", "date", "2026-03-02", "meal", "evening", "state", "planned", "by", "servings", "m", "1", "p1", "1", "m", "2", "p2", "1.1")
	assert.Contains(t, h.get(base+"/week?date=2026-03-02").body, "/shopping?dish="+id+"&amp;s"+id+"=2.25", "what is planned, rounded up to a quarter")
}

func TestWhatIsAtHomeIsTakenOffTheListInABrowser(t *testing.T) {
	needBrowser(t)
	h := newHouse(t)
	base, _ := h.furnish()
	dish := h.paste(base, "Bean broth\n\nServes 4\n\nIngredients\n1 onion\n2 cups unsalted chicken broth\n1/2 lb carrots\n\nMethod\nSimmer everything for 20 minutes.\n")
	b := newTab(t, h, screens()[1])
	b.open(base + "/shopping")
	b.do(chromedp.Click(chromedp.CSS(`input[name=dish][value="` + dish[strings.LastIndex(dish, "/")+1:] + `"]`)))
	b.click(`form.list > .actions button`)
	assert.Contains(t, b.words(), "2 cups, about 16 fl oz", "broth is bought by volume")
	assert.Regexp(t, `On the label: sodium at most [\d,]+ mg in 1 cup`, b.words())
	assert.NotContains(t, b.words(), "At home already")
	b.do(chromedp.Click(chromedp.CSS(`.buy input`)))
	b.click(`form.list > .actions button`)
	_, home, ok := strings.Cut(b.words(), "At home already")
	require.True(t, ok)
	assert.Contains(t, home, "onion")
}

func TestOneHandAndSingleKeysAreEnoughToCook(t *testing.T) {
	needBrowser(t)
	h := newHouse(t)
	base, _ := h.furnish()
	dish := h.paste(base, "Two pots\n\nServes 2\n\nIngredients\n1 cup rice\n2 cups water\n\nMethod\nBoil the water for 10 minutes, then simmer the rice in it for 1 second.\nServe the rice.\n")
	b := newTab(t, h, screens()[0])
	b.open(dish + "/cook?step=1")
	assert.Contains(t, b.words(), "the rice (1 cup in all)")
	b.do(chromedp.KeyEvent(kb.Enter), chromedp.KeyEvent(kb.Enter))
	b.wait(`document.title.startsWith("Time is up")`)
	b.do(chromedp.Reload())
	b.wait(`document.querySelectorAll(".clock").length === 2`)
	b.follow(chromedp.KeyEvent(kb.ArrowRight))
	b.wait(`document.querySelectorAll(".clock").length === 2`)
	assert.Contains(t, b.words(), "Time is up.")
	b.do(chromedp.KeyEvent(kb.Escape))
	b.wait(`document.querySelectorAll(".clock").length === 1 && !document.title.startsWith("Time is up")`)
	b.wait(`document.querySelector("[data-awake]").textContent.includes("screen")`)
	b.follow(chromedp.KeyEvent(kb.Home))
	assert.Contains(t, b.words(), "Set out first")
	reached, err := chromedp.Run(b.ctx, chromedp.Evaluate[bool](`(r => r.top > innerHeight / 2 && r.bottom <= innerHeight)(document.querySelector(".turn").getBoundingClientRect())`))
	require.NoError(t, err)
	assert.True(t, reached, "what turns the steps lies where a thumb reaches, however long the list is")
}

func TestCookingAndShoppingFitEveryScreen(t *testing.T) {
	needBrowser(t)
	h := newHouse(t)
	base, dish := h.furnish()
	long := strings.Repeat("Wundertopf", 8)
	h.must(dish+"/edit", "text", strings.Replace(potText, "1 tsp salt", "1/4 tsp salt, "+long+"\n1 cup "+long, 1))
	q := base + "/shopping?dish=" + dish[strings.LastIndex(dish, "/")+1:]
	for _, s := range append(screens(), screen{"a small phone", 320, 600, true}) {
		t.Run(s.name, func(t *testing.T) {
			b := newTab(t, h, s)
			for _, path := range []string{q, base + "/shopping", dish + "/portions", dish + "/card", dish + "/cook?step=4"} {
				b.open(path)
			}
			b.open(dish + "/cook")
			assert.Contains(t, b.words(), "Set out first")
			b.click(`a[rel="next"]`)
			assert.Contains(t, b.words(), "Step 1 of 3")
			tall, err := chromedp.Run(b.ctx, chromedp.Evaluate[bool](`[...document.querySelectorAll(".turn a")].every(e => e.getBoundingClientRect().height >= 64 && e.getBoundingClientRect().width >= 64)`))
			require.NoError(t, err)
			assert.True(t, tall, "what turns the steps is at least 64 px each way")
			if !s.scripts {
				assert.NotContains(t, b.words(), "Start a timer")
				b.click(`a[rel="next"]`)
				b.click(`a[rel="prev"]`)
				assert.Contains(t, b.words(), "Step 1 of 3")
				return
			}
			b.do(chromedp.Click(chromedp.CSS("button[data-seconds]")))
			assert.Regexp(t, `0[78]:[05]\d`, b.words())
			b.follow(chromedp.KeyEvent(kb.ArrowRight))
			assert.Contains(t, b.words(), "Step 2 of 3")
			assert.Contains(t, b.words(), "Step 1, 8 minutes")
			assert.Regexp(t, `0[78]:\d\d`, b.words(), "the timer goes on")
			b.follow(chromedp.KeyEvent(kb.ArrowLeft))
			assert.Contains(t, b.words(), "Step 1 of 3")
			b.do(chromedp.Click(chromedp.CSS(".clock button")))
			assert.NotContains(t, b.words(), "Stop")
		})
	}
}

// TestOneLabelIsShownAndAllArePrintedInABrowser divides a dish, finds the containers
// in the freezer, and looks at the sheet as it is printed.
func TestOneLabelIsShownAndAllArePrintedInABrowser(t *testing.T) {
	needBrowser(t)
	h := newHouse(t)
	base, dish := h.furnish()
	b := newTab(t, h, screens()[1])
	b.open(dish + "/portions")
	labels := func() string {
		return b.run(`[...document.querySelectorAll(".container-label")].filter(e => e.getClientRects().length).length`)
	}
	assert.Equal(t, "1", labels())
	assert.Contains(t, b.words(), "The first of 4, alike but for their number")
	for _, want := range []string{"Made: ", "Chilled, use by: ", "sodium", "Eaten whole: Ana"} {
		assert.Contains(t, b.words(), want)
	}
	b.click(`main form[method=post] button`)
	b.open(base + "/freezer")
	assert.Contains(t, b.words(), "4 containers")
	b.open(dish + "/portions")
	b.onPaper()
	assert.Equal(t, "4", labels())
	assert.NotContains(t, b.words(), "Write them down as frozen", "a form is not printed")
}

// onPaper shows this page and those after it as they are printed.
func (b *tab) onPaper() {
	b.t.Helper()
	_, err := chromedp.Call(b.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"})
	require.NoError(b.t, err)
}
