package server_test

import (
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/gin-gonic/gin"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"potwright/internal/access"
	"potwright/internal/kitchen"
	"potwright/internal/recipe"
	"potwright/internal/server"
	"potwright/internal/store/sqlite"
	"potwright/internal/testkit"
	"potwright/internal/testkit/datafile"
)

// keeper is a database of any engine.
type keeper interface {
	kitchen.Store
	access.Store
}

// house is a server over a real database in a temporary folder.
type house struct {
	t     testing.TB
	url   string
	store keeper
	// file is where its data are, "" where nobody asks.
	file string
	// handler is the server without its network.
	handler http.Handler
	// cookie and token are what is sent to be known by, "" for nothing.
	cookie, token string
}

func newHouse(t testing.TB, doors ...func(gin.IRouter)) *house {
	t.Helper()
	return newHouseAt(t, time.Now, doors...)
}

// newHouseAt is newHouse with a clock of its own.
func newHouseAt(t testing.TB, now func() time.Time, doors ...func(gin.IRouter)) *house {
	t.Helper()
	store, err := sqlite.Open(datafile.Empty(t), time.Now)
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, store.Close()) })
	return houseOver(t, store, now, doors...)
}

// houseOver is a server over a store of the test's own, with a clock.
func houseOver(t testing.TB, store keeper, now func() time.Time, doors ...func(gin.IRouter)) *house {
	t.Helper()
	cfg := config(t, store)
	cfg.Access, cfg.Doors, cfg.Log, cfg.Now = store, doors, slog.New(slog.DiscardHandler), now
	handler, err := server.New(cfg)
	require.NoError(t, err)
	ts := httptest.NewServer(handler)
	t.Cleanup(ts.Close)
	return &house{t: t, url: ts.URL, store: store, handler: handler}
}

// reply is an answer read whole.
type reply struct {
	*http.Response
	body string
}

// ask sends a request without following redirects, as a browser's own page
// would.
func (h *house) ask(method, path, contentType, body string) reply {
	h.t.Helper()
	req, err := http.NewRequestWithContext(h.t.Context(), method, h.url+path, strings.NewReader(body))
	require.NoError(h.t, err)
	if contentType != "" {
		req.Header.Set("Content-Type", contentType)
	}
	req.Header.Set("Sec-Fetch-Site", "same-origin")
	if h.cookie != "" {
		req.Header.Set("Cookie", h.cookie)
	}
	if h.token != "" {
		req.Header.Set("Authorization", "Bearer "+h.token)
	}
	return h.send(req)
}

func (h *house) send(req *http.Request) reply {
	h.t.Helper()
	client := http.Client{CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
	resp, err := client.Do(req)
	require.NoError(h.t, err)
	defer resp.Body.Close()
	b, err := io.ReadAll(resp.Body)
	require.NoError(h.t, err)
	return reply{resp, string(b)}
}

func (h *house) get(path string) reply { h.t.Helper(); return h.ask(http.MethodGet, path, "", "") }

// post sends a form of names and values in turn.
func (h *house) post(path string, pairs ...string) reply {
	h.t.Helper()
	v := url.Values{}
	for i := 0; i+1 < len(pairs); i += 2 {
		v.Add(pairs[i], pairs[i+1])
	}
	return h.ask(http.MethodPost, path, "application/x-www-form-urlencoded", v.Encode())
}

// must is post that has to be taken; it gives the address it leads to.
func (h *house) must(path string, pairs ...string) string {
	h.t.Helper()
	r := h.post(path, pairs...)
	require.Equal(h.t, http.StatusSeeOther, r.StatusCode, "post %s: %s", path, alertOf(h.t, r.body))
	return r.Header.Get("Location")
}

// correctionOf is what a version says of the line of these words.
func correctionOf(t *testing.T, v recipe.Version, words string) recipe.Correction {
	t.Helper()
	for _, c := range v.Corrections {
		if c.Words == words {
			return c.Correction
		}
	}
	require.Fail(t, "no correction", "of %s in %v", words, v.Corrections)
	return recipe.Correction{}
}

// potText is a dish written for these tests: salty, with a line no table knows.
const potText = `Harbour bean pot

Serves 4

Ingredients
1 tbsp olive oil
1 onion, chopped
2 (15 oz) cans kidney beans
2 cups chicken broth
1 tsp salt
1/2 cup grated moonroot

Method
Soften the onion in the oil for 8 minutes.
Add the beans, the broth, the moonroot and the salt.
Simmer for 20 minutes and serve.
`

// furnish makes a household of two with one dish and gives its addresses.
func (h *house) furnish() (base, dish string) {
	h.t.Helper()
	base, _, _ = strings.Cut(h.must("/", "name", "Quay Lane"), "/people")
	h.must(base+"/people/new", "name", "Ana", "age", "71", "portion", "1",
		"limit_nutrient_0", "sodium_mg", "limit_bound_0", "most", "limit_amount_0", "600", "limit_per_0", "meal", "limit_by_0", "clinician",
		"avoid", "milk")
	h.must(base+"/people/new", "name", "Ben", "portion", "1 1/2", "least", "1",
		"plan_on", "yes", "plan_unit", "choice", "plan_allowance", "4", "plan_per", "meal", "weight_nutrient_0", "carbohydrate_g", "weight_amount_0", "15")
	dish, _, _ = strings.Cut(h.must(base+"/recipes/new", "text", potText, "note", "from the quay"), "?")
	return base, dish
}

// parse reads an answer that must be a page.
func parse(t testing.TB, r reply) *html.Node {
	t.Helper()
	require.Contains(t, r.Header.Get("Content-Type"), "text/html")
	doc, err := html.Parse(strings.NewReader(r.body))
	require.NoError(t, err)
	return doc
}

// elements are the elements of a name, all of them for "".
func elements(n *html.Node, name string) (out []*html.Node) {
	for d := range n.Descendants() {
		if d.Type == html.ElementNode && (name == "" || d.Data == name) {
			out = append(out, d)
		}
	}
	return out
}

func attr(n *html.Node, name string) string {
	for _, a := range n.Attr {
		if a.Key == name {
			return a.Val
		}
	}
	return ""
}

func has(n *html.Node, name string) bool {
	for _, a := range n.Attr {
		if a.Key == name {
			return true
		}
	}
	return false
}

func text(n *html.Node) string {
	var b strings.Builder
	for d := range n.Descendants() {
		if d.Type == html.TextNode {
			b.WriteString(d.Data)
		}
	}
	return strings.Join(strings.Fields(b.String()), " ")
}

// alertOf is what a page has to say about a form.
func alertOf(t testing.TB, body string) string {
	t.Helper()
	doc, err := html.Parse(strings.NewReader(body))
	require.NoError(t, err)
	for _, n := range elements(doc, "") {
		if attr(n, "role") == "alert" {
			return text(n)
		}
	}
	return ""
}

var (
	loadOnce  sync.Once
	rulesOnce sync.Once
	keptRules *kitchen.Rulebook
	kept      *kitchen.Kitchen
)

// loaded is the real table and rules, read once for all tests.
func loaded(t testing.TB) *kitchen.Kitchen {
	t.Helper()
	loadOnce.Do(func() { kept = testkit.Kitchen(t) })
	require.NotNil(t, kept, "the table and the rules load")
	return kept
}

// loadedRules is the built-in rulebook, read once.
func loadedRules(t testing.TB) *kitchen.Rulebook {
	t.Helper()
	rulesOnce.Do(func() { keptRules = testkit.Rulebook(t) })
	require.NotNil(t, keptRules, "the rulebook loads")
	return keptRules
}

// config is the real kitchen over the store given.
func config(t testing.TB, store kitchen.Store) server.Config {
	t.Helper()
	k := *loaded(t)
	k.Store, k.Memory = store, kitchen.NewMemory(100, 100)
	return server.Config{Kitchen: &k, Store: store, Foods: k.Table, Needs: k.Needs, Rulebook: loadedRules(t)}
}
