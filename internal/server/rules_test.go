package server_test

import (
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/fooddata"
	"potwright/internal/ruleset"
	"potwright/internal/server"
	"potwright/internal/testkit"
	"potwright/rules"
)

func TestEveryRuleHasItsPageWithWhatItDoesAndItsSource(t *testing.T) {
	h := newHouse(t)
	base, _ := h.furnish()
	for path, want := range map[string][]string{
		"/rules":                         {"The rules", "Words in it", "More of them"},
		"/rules?sort=balance":            {"Creaminess", "Acidity"},
		"/rules?q=bouillon&sort=swap":    {"rules</h2>", "swap"},
		"/rules?need=without+milk":       {"rules</h2>"},
		"/rules?q=nothing+at+all+zzyzx":  {"0 rules", "Take one choice away"},
		"/rules?from=99999999":           {"Earlier ones"},
		"/rules?from=-3":                 {"More of them"},
		base + "/rules":                  {`aria-current="page"`},
		"/rules/avoid.milk":              {"On the lists", "FALCPA 2004", "many margarines hold whey or casein", "built in: need/avoid.yaml"},
		"/rules/keeping.keep_soup":       {"In the fridge", "3 to 4 days", "FoodSafety.gov", "built in: keeping/storing.yaml"},
		"/rules?sort=keeping":            {"Keep soup"},
		"/rules/taste.fall":              {"How far salt may fall", "built in: taste/salt.yaml"},
		"/rules?sort=taste":              {"taste with less salt"},
		"/rules/balance.salt":            {"How far it may move", "What foods bring"},
		"/rules/texture.stringy":         {"What helps", "IDDSI"},
		"/rules/limit.dga_2020_sodium":   {"sodium: at most", "clinician&#39;s figure comes first"},
		"/rules/butter-olive-oil":        {"How far from the dish", "of 10)", "It fits, for example", "It does not fit, for example", "Source", "built in: swap/"},
		base + "/rules/butter-olive-oil": {"What it does", "puts in its place"},
	} {
		r := h.get(path)
		require.Equal(t, http.StatusOK, r.StatusCode, path)
		for _, w := range want {
			assert.Contains(t, r.body, w, path)
		}
		checkPage(t, path, parse(t, r))
	}
	for _, path := range []string{"/rules/no-such-rule", "/h/99/rules", "/h/99/rules/butter-olive-oil"} {
		assert.Equal(t, http.StatusNotFound, h.get(path).StatusCode, path)
	}
}

func TestTheFiltersLeaveOnlyWhatFits(t *testing.T) {
	h := newHouse(t)
	swaps := h.get("/rules?need=without+milk&sort=swap").body
	assert.NotContains(t, swaps, "<p>something avoided</p>")
	assert.Contains(t, swaps, "<p>swap</p>")
	theme := h.get("/rules?theme=No+such+theme").body
	assert.Contains(t, theme, "0 rules")
}

func TestOwnRulesAreShownWithWhereTheyStandAndWhatIsWrongWithThem(t *testing.T) {
	k := testkit.Kitchen(t)
	retentions, err := fooddata.LoadRetentions()
	require.NoError(t, err)
	own := fstest.MapFS{"ours.yaml": {Data: []byte(`theme: Ours
rules:
  - id: butter-olive-oil
    title: Our oil <for> butter
    match: {foods: ["butter, salted"]}
    do: replace
    with: [{food: olive oil, ratio: 0.8, by: volume, say: olive oil}]
    change: 6
    why: So we do.
    source: common practice
    examples: {fires: ["1/2 cup butter"], not: ["1 cup water"]}
  - id: broken
    titel: Broken
`)}}
	book, err := ruleset.Library(ruleset.Folder{FS: rules.FS}, []ruleset.Folder{{Name: "ours", FS: own}},
		ruleset.Stock{Foods: k.Table.Foods(), Retentions: retentions})
	require.NoError(t, err)
	cfg := config(t, newHouse(t).store)
	cfg.Rulebook = book
	handler, err := server.New(cfg)
	require.NoError(t, err)
	ts := httptest.NewServer(handler)
	t.Cleanup(ts.Close)
	h := &house{t: t, url: ts.URL}
	list := h.get("/rules?q=ours").body
	assert.Contains(t, list, "Our oil &lt;for&gt; butter")
	assert.Contains(t, list, "your own, in place of the built-in one")
	assert.Contains(t, list, "ours/ours.yaml:13:5: rules[1]: unknown key &#34;titel&#34;; expected &#34;title&#34;")
	assert.Contains(t, list, "all other rules stand")
	assert.Contains(t, h.get("/rules/butter-olive-oil").body, "your own, in place of the built-in one: ours/ours.yaml, line 3")
}

// TestTheRulebookInABrowser searches, filters and opens a rule, with and without
// scripts.
func TestTheRulebookInABrowser(t *testing.T) {
	needBrowser(t)
	for _, s := range screens() {
		t.Run(s.name, func(t *testing.T) {
			h := newHouse(t)
			base, _ := h.furnish()
			b := newTab(t, h, s)
			b.open(base + "/table")
			b.click(`nav a[href$="/rules"]`)
			b.fill("q", "broth")
			b.choose("sort", "swap")
			b.click("main form button")
			words := strings.ToLower(b.words())
			assert.Contains(t, words, "broth")
			b.click(".rules .written a")
			words = b.words()
			for _, w := range []string{"How far from the dish", "It fits, for example", "Source", "built in: swap/"} {
				assert.Contains(t, words, w)
			}
			b.click(`main a[href$="/rules"]`)
			b.click(`main .actions a.button`)
			assert.Contains(t, b.words(), "Earlier ones")
			b.open("/rules/avoid.milk")
		})
	}
}
