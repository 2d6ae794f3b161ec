package server_test

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestAnEarlierVersionIsTakenUpAgain goes back, changes it, and sees the branch.
func TestAnEarlierVersionIsTakenUpAgain(t *testing.T) {
	needBrowser(t)
	h := newHouse(t)
	_, dish := h.furnish()
	h.must(dish+"/edit", "text", strings.Replace(potText, "1 tsp salt", "2 tsp salt", 1), "note", "saltier")
	for _, s := range []screen{screens()[0], screens()[3]} {
		t.Run(s.name, func(t *testing.T) {
			b := newTab(t, h, s)
			b.open(dish + "/versions/1")
			assert.Contains(t, b.words(), "This is an earlier version")
			b.do(chromedp.Click(chromedp.CSS("main form summary")))
			b.fill("note", "too salty after all")
			b.click(`form[action$="/again"] button`)
			words := b.words()
			assert.Contains(t, words, "The earlier version is the newest again.")
			assert.Contains(t, words, "too salty after all")
			assert.NotContains(t, words, "While this version was being written", "nobody else was at work")
			b.click(`main a[href$="/versions"]`)
			assert.Contains(t, b.words(), "Branch from version 1")
			assert.Contains(t, h.get(dish).body, "1 tsp salt")
			vs, err := h.store.ListVersions(t.Context(), 1, 1)
			require.NoError(t, err)
			assert.Equal(t, vs[0].ID, vs[len(vs)-1].ParentID)
		})
	}
}

// TestAComparisonNamesTheWordsThatDiffer reads what two versions have not in common.
func TestAComparisonNamesTheWordsThatDiffer(t *testing.T) {
	h := newHouse(t)
	_, dish := h.furnish()
	h.must(dish+"/edit", "text", strings.Replace(strings.Replace(potText, "1 tsp salt", "2 tsp salt", 1), "1 onion, chopped\n", "", 1))
	r := h.get(dish + "/compare?a=1&b=2")
	doc := parse(t, r)
	marked := func(name string) (out []string) {
		for _, n := range elements(doc, name) {
			out = append(out, text(n))
		}
		return out
	}
	assert.Equal(t, []string{"taken out: 1"}, marked("del"))
	assert.Equal(t, []string{"put in: 2"}, marked("ins"))
	assert.Contains(t, r.body, "1 line changed, 1 line taken out.")
	assert.Contains(t, r.body, "Every step is the same.")
}
