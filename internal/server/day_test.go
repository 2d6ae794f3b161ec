package server_test

import (
	"net/http"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// sunday is the day of the test's clock, late in the evening west of Greenwich: in UTC
// it is Monday already.
var sunday = time.Date(2026, 3, 1, 21, 30, 0, 0, time.FixedZone("EST", -5*3600))

// newDayHouse is a house whose clock stands, with a dish that is read in full and a
// limit by day.
func newDayHouse(t *testing.T) (h *house, base, dish string) {
	t.Helper()
	h = newHouseAt(t, func() time.Time { return sunday })
	base, dish = h.furnish()
	h.must(dish+"/lines/6", "food", "", "skip", "yes")
	h.must(base+"/people/1", "name", "Ana", "age", "71", "portion", "1",
		"limit_nutrient_0", "sodium_mg", "limit_bound_0", "most", "limit_amount_0", "1500", "limit_per_0", "day", "limit_by_0", "clinician")
	return h, base, dish
}

func TestTheDayIsTheHouseholdsOwn(t *testing.T) {
	h, base, _ := newDayHouse(t)
	body := h.get(base + "/day").body
	assert.Contains(t, body, "<h1>Sunday 1 March 2026</h1>")
	assert.Contains(t, h.get(base+"/day?date=2026-02-30").body, "Sunday 1 March 2026", "no day is today")
	assert.Contains(t, h.get(base+"/day?date=3+March+2026").body, "Tuesday 3 March 2026")
	assert.Contains(t, h.get(base+"/week").body, "The week of 23 February 2026")
}

func TestADishIsWrittenDownForTheWholeTableAndNothingJudges(t *testing.T) {
	h, base, _ := newDayHouse(t)
	to := h.must(base+"/day/dish", "version", "2", "seated", "1", "m", "1", "m", "2", "p1", "1/2", "by", "servings", "date", "2026-03-01", "meal", "midday", "state", "eaten")
	assert.Equal(t, base+"/day?date=2026-03-01&done=logged", to)
	h.must(base+"/day/dish", "version", "2", "seated", "1", "m", "1", "p1", "250", "by", "grams", "date", "2026-03-01", "meal", "evening", "state", "planned")
	body := h.get(to).body
	assert.Contains(t, body, "half a serving")
	assert.Contains(t, body, "1.5 of a serving", "nothing typed is the usual portion")
	assert.Contains(t, body, "250 g")
	assert.Regexp(t, `Eaten: about [\d,]+ mg \([\d,]+ to [\d,]+\); with what is planned: about [\d,]+ mg .*, of at most 1500 mg a day, set by a clinician`, body)
	h.must(base+"/day/dish", "version", "2", "seated", "1", "m", "1", "p1", "5", "by", "servings", "date", "2026-03-01", "meal", "evening", "state", "eaten")
	body = h.get(to).body
	assert.Contains(t, body, "Nothing is left of it: it comes to about")
	for _, word := range []string{"mark-over", "bar-past", "verdict", "too much", "exceed", "bad", "fail"} {
		assert.NotContains(t, strings.Split(body, "<main")[1], word)
	}
}

func TestAFoodIsWrittenDownByItsOwnMeasures(t *testing.T) {
	h, base, _ := newDayHouse(t)
	found := h.get(base + "/day/food?q=apple+raw").body
	require.Contains(t, found, "/day/food?food=sr%3a09003")
	form := h.get(base + "/day/food?food=sr:09003").body
	assert.Contains(t, form, "cup")
	r := h.post(base+"/day/food", "food", "sr:09003", "amount", "lots", "unit", "g", "date", "2026-03-01", "meal", "between", "state", "eaten", "m", "1")
	assert.Equal(t, http.StatusUnprocessableEntity, r.StatusCode)
	assert.Contains(t, r.body, "lots")
	r = h.post(base+"/day/food", "food", "sr:09003", "amount", "1", "unit", "0", "date", "2026-03-01", "meal", "lunch", "state", "eaten")
	assert.Equal(t, http.StatusUnprocessableEntity, r.StatusCode)
	assert.Contains(t, alertOf(t, r.body), "Tick at least one person.")
	to := h.must(base+"/day/food", "food", "sr:09003", "amount", "2", "unit", "0", "date", "2026-03-01", "meal", "between", "state", "eaten", "m", "1")
	assert.Contains(t, h.get(to).body, "between meals")
	assert.Equal(t, http.StatusNotFound, h.post(base+"/day/food", "food", "sr:x", "amount", "2").StatusCode)
}

func TestWhatTheDayHoldsCountsAtTheTable(t *testing.T) {
	h, base, _ := newDayHouse(t)
	before := h.get(base + "/table?seated=1&m=1&dish=1&today=1").body
	h.must(base+"/day/dish", "version", "2", "seated", "1", "m", "1", "p1", "1", "date", "2026-03-01", "meal", "midday", "state", "eaten")
	after := h.get(base + "/table?seated=1&m=1&dish=1&today=1").body
	assert.NotEqual(t, before, after)
	assert.Equal(t, h.get(base+"/table?seated=1&m=1&dish=1").body, h.get(base+"/table?seated=1&m=1&dish=1").body)
	adapt := h.get(strings.Replace(base, "/h/", "/h/", 1) + "/recipes/1/adapt?seated=1&m=1&today=1")
	assert.Equal(t, http.StatusOK, adapt.StatusCode)
	assert.Contains(t, adapt.body, `name="today" value="1" checked`)
}

func TestAnotherHouseholdsDaysAreNotFound(t *testing.T) {
	h, base, dish := newDayHouse(t)
	h.must(base+"/day/dish", "version", "2", "seated", "1", "m", "1", "date", "2026-03-01", "meal", "midday", "state", "eaten")
	h.must(dish+"/portions", "version", "2", "size", "1", "by", "servings", "made", "1 March 2026", "count", "1")
	h.must(dish+"/made", "version", "2", "date", "2026-03-01", "rating", "2", "remark", "too thin")
	other, _, _ := strings.Cut(h.must("/", "name", "Mill Row"), "/people")
	for _, path := range []string{"/day/entries/1", "/freezer/1", "/recipes/1/made", "/day/dish?version=2"} {
		assert.Equal(t, http.StatusNotFound, h.get(other+path).StatusCode, path)
	}
	for _, path := range []string{"/day/entries/1", "/freezer/1", "/recipes/1/made", "/recipes/1/made/1/remove", "/recipes/1/portions"} {
		assert.Equal(t, http.StatusNotFound, h.post(other+path, "version", "2", "do", "remove").StatusCode, path)
	}
	assert.Equal(t, http.StatusNotFound, h.post(other+"/day/dish", "version", "2").StatusCode)
	assert.Contains(t, h.get(base+"/day").body, "Harbour bean pot")
}

// TestDaysInABrowser writes a dish down, plans one, moves it in the week, freezes two
// containers, takes one out, and says how it turned out.
func TestDaysInABrowser(t *testing.T) {
	needBrowser(t)
	for _, s := range screens() {
		t.Run(s.name, func(t *testing.T) {
			h, base, dish := newDayHouse(t)
			b := newTab(t, h, s)
			b.open(base + "/table")
			b.click(`.dish a[href*="/day/dish"]`)
			b.fill("p2", "1/2")
			b.click("main form button")
			assert.Contains(t, b.words(), "Written down.")
			assert.Contains(t, b.words(), "Sunday 1 March 2026")
			assert.Contains(t, b.words(), "in the evening")

			b.click(`main a[href$="/day/food?date=2026-03-01"]`)
			b.fill("q", "apple raw")
			b.click("main form button")
			b.click(`main .index a`)
			b.fill("amount", "150")
			b.click(`main form button`)
			assert.Contains(t, b.words(), "150 g")

			b.click(`main a[href*="/week"]`)
			assert.Contains(t, b.words(), "The week of 23 February 2026")
			b.choose("version", "2")
			b.do(chromedp.SetValue(chromedp.CSS(`select[name="date"]`), "2026-03-01"))
			b.click(`form[action$="/day/dish"] button`)
			b.choose("date", "2026-03-03")
			b.click("main form button")
			assert.Contains(t, b.words(), "Tuesday 3 March 2026")
			assert.Contains(t, b.words(), "planned")
			b.click(`main .eaten a`)
			b.choose("date", "2026-03-05")
			b.click("main form button")
			assert.Contains(t, b.words(), "Thursday 5 March 2026")
			b.click(`main a[href*="/week"]`)
			assert.Contains(t, b.words(), "Shopping list for what is planned")
			assert.Contains(t, b.words(), "Sodium, day by day")
			b.click(`main a[href*="/shopping"]`)
			assert.Contains(t, b.words(), "kidney beans")
			b.open(base + "/day?date=2026-03-05")
			b.click(`main .eaten button`)
			assert.NotContains(t, b.words(), "; planned")

			b.open(dish)
			b.click(`main a[href*="/portions"]`)
			b.fill("count", "2")
			b.click(`form[method="post"] button`)
			assert.Contains(t, b.words(), "2 containers")
			b.click(`main .ledger a`)
			b.do(chromedp.Click(chromedp.CSS(`input[name="m"][value="1"]`)))
			b.click("main form button")
			assert.Contains(t, b.words(), "1 container,")
			b.open(base + "/day")
			assert.Equal(t, 2, strings.Count(b.words(), "one serving, about"), "from the pot and from the freezer")

			b.open(dish)
			b.click(`main a[href*="/made"]`)
			b.choose("rating", "2")
			b.fill("remark", "too thin")
			b.click(`form[action$="/made"] button`)
			assert.Contains(t, b.words(), "1 March 2026: wants changing. “too thin”")
			b.open(dish + "/adapt")
			assert.Contains(t, b.words(), "“too thin”")
			b.open(dish + "/versions")
			assert.Contains(t, b.words(), "too thin")
			b.open(base + "/people/1")
			assert.Contains(t, b.words(), "What a usual portion means: Harbour bean pot")
		})
	}
}
