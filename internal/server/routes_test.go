package server_test

import (
	"net/http"
	"net/url"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"
)

func TestEveryAddressAnswersAsItShould(t *testing.T) {
	h := newHouse(t)
	base, dish := h.furnish()
	for _, c := range []struct {
		method, path string
		want         int
	}{
		{"GET", "/healthz", 200}, {"GET", "/?list", 200}, {"GET", "/", 303}, {"GET", base, 303},
		{"GET", base + "/people", 200}, {"GET", base + "/people/new", 200}, {"GET", base + "/people/1", 200}, {"GET", base + "/people/1/remove", 200},
		{"GET", base + "/table", 200}, {"GET", base + "/recipes", 200}, {"GET", base + "/recipes/new", 200},
		{"GET", base + "/pantry", 200}, {"GET", base + "/pantry/new", 200}, {"GET", base + "/pantry/9", 404},
		{"GET", dish, 200}, {"GET", dish + "/edit", 200}, {"GET", dish + "/scale?servings=3", 200}, {"GET", dish + "/scale", 422}, {"GET", dish + "/lines/1", 200}, {"GET", dish + "/lines/1?q=beans", 200},
		{"GET", dish + "/adapt", 200}, {"GET", dish + "/versions", 200}, {"GET", dish + "/versions/1", 200},
		{"GET", dish + "/versions/1/figures", 200}, {"GET", dish + "/versions/1/figures?format=csv", 200}, {"GET", dish + "/versions/1/figures?format=json", 200},
		{"GET", dish + "/versions/1/figures?format=xml", 404}, {"GET", dish + "/versions/99/figures", 404},
		{"GET", dish + "/versions/1/text", 200}, {"GET", dish + "/compare?a=1&b=1", 200},
		{"GET", "/static/ledger.css", 200}, {"GET", "/static/ledger.js", 200}, {"GET", "/static/icon.svg", 200},
		{"GET", "/static/none.css", 404}, {"GET", "/static/..%2fembed.go", 404}, {"GET", "/nothing", 404}, {"GET", "/h/99/table", 404}, {"GET", "/h/x/table", 404},
		{"GET", "/h/-1/people", 404}, {"GET", base + "/people/99", 404}, {"GET", base + "/recipes/99", 404}, {"GET", base + "/recipes/abc", 404},
		{"GET", dish + "/lines/0", 404}, {"GET", dish + "/lines/999", 404}, {"GET", dish + "/versions/99", 404}, {"GET", dish + "/compare", 404},
		{"GET", dish + "/compare?a=1&b=99", 404}, {"GET", "/h/99999999999999999999/table", 404},
		{"DELETE", base + "/people", 405}, {"PUT", "/", 405},
	} {
		r := h.ask(c.method, c.path, "", "")
		assert.Equal(t, c.want, r.StatusCode, "%s %s", c.method, c.path)
	}
}

func TestAnotherHouseholdsThingsAreNotFound(t *testing.T) {
	h := newHouse(t)
	_, dish := h.furnish()
	other, _, _ := strings.Cut(h.must("/", "name", "Mill Row"), "/people")
	_, inside, _ := strings.Cut(dish, "/recipes/")
	for _, path := range []string{"/recipes/" + inside, "/recipes/" + inside + "/versions/1", "/recipes/" + inside + "/adapt", "/people/1"} {
		assert.Equal(t, http.StatusNotFound, h.get(other+path).StatusCode, path)
	}
	// A version of the other recipe under this recipe's address.
	second, _, _ := strings.Cut(h.must(strings.Split(dish, "/recipes/")[0]+"/recipes/new", "text", potText), "?")
	assert.Equal(t, http.StatusNotFound, h.get(second+"/versions/1").StatusCode)
}

// TestEveryPageIsWellMade walks every link from the front door.
func TestEveryPageIsWellMade(t *testing.T) {
	h := newHouse(t)
	_, dish := h.furnish()
	h.must(strings.Split(dish, "/recipes/")[0]+"/pantry/new", beansLabel...)
	h.must(dish+"/edit", "text", strings.Replace(potText, "1 tsp salt", "1/4 tsp salt", 1))
	seen := map[string]bool{}
	todo := []string{"/?list"}
	for len(todo) > 0 {
		path := todo[0]
		todo = todo[1:]
		if seen[path] {
			continue
		}
		seen[path] = true
		r := h.get(path)
		if r.StatusCode == http.StatusSeeOther {
			todo = append(todo, r.Header.Get("Location"))
			continue
		}
		require.Equal(t, http.StatusOK, r.StatusCode, path)
		if !strings.HasPrefix(r.Header.Get("Content-Type"), "text/html") {
			continue
		}
		doc := parse(t, r)
		checkPage(t, path, doc)
		for _, a := range elements(doc, "a") {
			link, err := url.Parse(attr(a, "href"))
			require.NoError(t, err)
			if link.Path != "" {
				link.Fragment = ""
				todo = append(todo, link.String())
			}
		}
	}
	assert.Greater(t, len(seen), 15, "the walk came round")
}

// checkPage holds a page against the rules of the house for markup.
func checkPage(t *testing.T, path string, doc *html.Node) {
	t.Helper()
	ids, labels := map[string]bool{}, map[string]bool{}
	count := map[string]int{}
	for _, n := range elements(doc, "") {
		count[n.Data]++
		if id := attr(n, "id"); id != "" {
			assert.False(t, ids[id], "%s: id %q stands twice", path, id)
			ids[id] = true
		}
		if n.Data == "label" && has(n, "for") {
			labels[attr(n, "for")] = true
		}
		for _, a := range n.Attr {
			assert.False(t, a.Key == "style" || strings.HasPrefix(a.Key, "on"), "%s: %s has %s=%q", path, n.Data, a.Key, a.Val)
			assert.NotContains(t, a.Val, "ZgotmplZ", "%s: a value was refused by the template", path)
		}
		if n.Data == "script" {
			assert.NotEmpty(t, attr(n, "src"), "%s: a script in the page", path)
		}
	}
	for name, want := range map[string]int{"main": 1, "h1": 1, "title": 1 + count["svg"], "style": 0, "header": 1} {
		assert.Equal(t, want, count[name], "%s: how many %s", path, name)
	}
	for _, n := range elements(doc, "") {
		switch n.Data {
		case "html":
			assert.Equal(t, "en", attr(n, "lang"))
		case "input", "select", "textarea":
			ok := attr(n, "type") == "hidden" || labels[attr(n, "id")] || n.Parent.Data == "label"
			assert.True(t, ok, "%s: %s %q has no label", path, n.Data, attr(n, "name"))
			for _, id := range strings.Fields(attr(n, "aria-describedby")) {
				assert.True(t, ids[id], "%s: described by %q, which is not there", path, id)
			}
		case "svg":
			for _, id := range strings.Fields(attr(n, "aria-labelledby")) {
				assert.True(t, ids[id], "%s: drawing named by %q, which is not there", path, id)
			}
		case "form":
			assert.Contains(t, []string{"get", "post"}, attr(n, "method"), path)
		case "fieldset":
			assert.Len(t, elements(n, "legend"), 1, "%s: a fieldset without its legend", path)
		case "table":
			assert.Len(t, elements(n, "caption"), 1, "%s: a table without its caption", path)
		}
	}
}

func TestEveryPageWithAVerdictCarriesTheCaution(t *testing.T) {
	h := newHouse(t)
	base, dish := h.furnish()
	for _, path := range []string{base + "/table", base + "/recipes", dish, dish + "/adapt", dish + "/versions/1", dish + "/versions/1/text", dish + "/compare?a=1&b=1"} {
		body := h.get(path).body
		assert.Contains(t, body, "not medical advice", path)
		assert.Contains(t, body, "Allergens: always check the labels", path)
		assert.Contains(t, body, "test each plate", path)
	}
}
