package server_test

import (
	"net/http"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"potwright/internal/testkit"
)

// mistyped are what people and programs put into a field where something else belongs.
func mistyped() []string {
	return []string{
		"quite a lot", `"'><script>alert(1)</script>`, "NaN", "1e999", "1/0", "-5", "1 2 3", strings.Repeat("9", 400),
		"soup\x07of\x00the day", "soup \xff\xfe", strings.Repeat("long ", 1200), "🥣", "\u202eevil\u202c",
	}
}

// typable are the fields of a form that a person types into, but for the boxes to look
// something up, with the most characters a browser takes, 0 for no end.
func typable(f *html.Node) map[string]int {
	out := map[string]int{}
	for _, n := range elements(f, "") {
		words := n.Data == "input" && (attr(n, "type") == "text" || attr(n, "type") == "") && attr(n, "inputmode") != "search"
		if n.Data == "textarea" || words {
			most, _ := strconv.Atoi(attr(n, "maxlength"))
			out[attr(n, "name")] = most
		}
	}
	return out
}

// legible is a text without what no keyboard writes.
func legible(s string) string {
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		if r == unicode.ReplacementChar || unicode.IsControl(r) {
			return -1
		}
		return r
	}, s))
}

// stands reports whether a page has what was typed in its field; a row of several may have
// moved up.
func stands(doc *html.Node, field, typed string) bool {
	row := strings.TrimRight(field, "0123456789")
	return slices.ContainsFunc(elements(doc, ""), func(n *html.Node) bool {
		name := attr(n, "name")
		return (n.Data == "input" || n.Data == "textarea") && strings.HasPrefix(name, row) && legible(valueOf(doc, name)) == legible(typed)
	})
}

// Every field of every form gets mistyped things in turn: either it is taken, or the page
// says what is wrong and what was typed still stands in its field.
func TestNothingThatIsTypedIsLost(t *testing.T) {
	s := newStreet(t)
	ana := s.as("ana")
	ana.must("/h/1/pantry/new", "name", "quay broth", "panel", "us", "serving", "1 cup (240 g)", "f_energy_kcal", "10", "f_sodium_mg", "500")
	const perField = 2 // all of them take half a minute
	next, told, seen := 0, map[string]bool{}, map[string]bool{}
	for _, address := range ana.crawl("/h/1/table") {
		r := ana.get(address)
		if r.StatusCode != http.StatusOK || !strings.HasPrefix(r.Header.Get("Content-Type"), "text/html") {
			continue
		}
		for _, f := range elements(parse(t, r), "form") {
			action := attr(f, "action")
			if attr(f, "method") != "post" || seen[action] || attr(f, "enctype") != "" {
				continue
			}
			seen[action] = true
			whole := formOf(t, r, action)
			whole.Del("seen") // others have saved since, this test itself
			for field, most := range typable(f) {
				for range perField {
					next++
					typed := mistyped()[next%len(mistyped())]
					if signs := []rune(typed); most > 0 && len(signs) > most {
						typed = string(signs[:most])
					}
					answer := ana.sendForm(action, retyped(whole, field, typed))
					if answer.StatusCode == http.StatusSeeOther {
						continue
					}
					what := action + " " + field + " " + strconv.Quote(typed)
					told[action] = true
					said := alertOf(t, answer.body)
					if assert.True(t, slices.Contains([]int{http.StatusUnprocessableEntity, http.StatusConflict}, answer.StatusCode), what) && assert.NotEmpty(t, said, what) {
						testkit.InWords(t, said)
						assert.True(t, stands(parse(t, answer), field, typed), what)
					}
				}
			}
		}
	}
	assert.Greater(t, next, 150)
	assert.Greater(t, len(told), 12, "forms that told of something: %v", told)
}

// What is longer than can be kept is refused with how long it may be, and stands where it
// was typed, to the last character; nothing is cut in silence.
func TestNothingThatIsTypedIsCut(t *testing.T) {
	h := newHouse(t)
	base, dish := h.furnish()
	h.must(base+"/pantry/new", "name", "quay broth", "panel", "us", "serving", "1 cup (240 g)", "f_energy_kcal", "10", "f_sodium_mg", "500")
	h.must(dish+"/lines/6", "food", "", "skip", "yes") // the line no table knows
	long := strings.Repeat("well ", 199) + "done."
	for name, c := range map[string]struct{ page, action, field, says string }{
		"a note to a new recipe": {base + "/recipes/new", base + "/recipes/new", "note", "1000 characters; write at most 500"},
		"a note to a change":     {dish + "/edit", dish + "/edit", "note", "1000 characters; write at most 500"},
		"a note to an answer":    {dish + "/adapt", dish + "/adapt/save", "note", "1000 characters; write at most 500"},
		"a remark":               {dish + "/made", dish + "/made", "remark", "at most 500 characters"},
		"a household's name":     {"/?list", "/", "name", "at most 80 characters"},
		"a person's name":        {base + "/people/new", base + "/people/new", "name", "at most 80 characters"},
		"a plan's unit":          {base + "/people/1", base + "/people/1", "plan_unit", "at most 80 characters"},
		"a pot's name":           {base + "/people", base + "/people", "pot_name_0", "at most 80 characters"},
		"a label's name":         {base + "/pantry/1", base + "/pantry/1", "name", "at most 80 characters"},
		"a label's figure":       {base + "/pantry/1", base + "/pantry/1", "f_sodium_mg", "what is printed, at most 80"},
		"a serving":              {base + "/pantry/1", base + "/pantry/1", "serving", "what is printed, at most 80"},
		"tags":                   {dish, dish + "/tags", "tags", "1 to 40 characters"},
		"someone's portion":      {dish + "/adapt", dish + "/adapt", "p1", "is not a number"},
	} {
		t.Run(name, func(t *testing.T) {
			form := formOf(t, h.get(c.page), c.action)
			form.Set("text", potText)
			form.Set("plan_on", "yes")
			form.Set("version", "1")
			form.Set("rating", "0")
			r := h.sendForm(c.action, retyped(form, c.field, long))
			require.Equal(t, http.StatusUnprocessableEntity, r.StatusCode)
			assert.Contains(t, r.body, c.says)
			assert.Equal(t, long, valueOf(parse(t, r), c.field), "what was typed is still there")
		})
	}
	r := h.post(base+"/people", "name", "Quay Lane", "spare", strings.Repeat("x", 9<<20))
	assert.Equal(t, http.StatusRequestEntityTooLarge, r.StatusCode, "a form is not cut either")
}

func TestATooLongNoteOnAnEarlierVersionIsToldAndKept(t *testing.T) {
	h := newHouse(t)
	_, dish := h.furnish()
	h.must(dish+"/edit", "text", strings.Replace(potText, "1 tsp salt", "2 tsp salt", 1), "note", "saltier")
	long := strings.Repeat("a", 10_000)
	r := h.post(dish+"/versions/1/again", "note", long)
	assert.Equal(t, http.StatusUnprocessableEntity, r.StatusCode)
	assert.True(t, strings.Contains(r.body, long), "what was typed still stands")
	h.must(dish+"/versions/1/again", "note", "too salty after all")
	assert.Contains(t, h.get(dish).body, "too salty after all")
}
