package server_test

import (
	"net/http"
	"net/url"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"
)

// formOf is a page's form that posts to an address, as a browser sends it untouched.
func formOf(t *testing.T, r reply, action string) url.Values {
	t.Helper()
	v := url.Values{}
	for _, f := range elements(parse(t, r), "form") {
		if attr(f, "method") != "post" || attr(f, "action") != action {
			continue
		}
		for _, n := range elements(f, "") {
			if name := attr(n, "name"); name != "" && n.Data != "button" && (attr(n, "type") != "checkbox" && attr(n, "type") != "radio" || has(n, "checked")) {
				v.Add(name, fieldValue(n))
			}
		}
		return v
	}
	require.Fail(t, "no form", "posts to %s", action)
	return v
}

func fieldValue(n *html.Node) string {
	if n.Data == "input" {
		return attr(n, "value")
	}
	return valueOf(n.Parent, attr(n, "name"))
}

// retyped is a form with one field typed anew.
func retyped(v url.Values, name, typed string) url.Values {
	out := url.Values{}
	for k, all := range v {
		out[k] = all
	}
	out.Set(name, typed)
	return out
}

func (h *house) sendForm(path string, v url.Values) reply {
	h.t.Helper()
	return h.ask(http.MethodPost, path, "application/x-www-form-urlencoded", v.Encode())
}

// Each form is opened by two people; both change something and send it. The second is
// shown both, has lost nothing, and may send it again or leave it.
func TestTwoWhoSaveTheSameAreShownBoth(t *testing.T) {
	h := newHouse(t)
	base, dish := h.furnish()
	h.must(base+"/pantry/new", "name", "quay broth", "panel", "us", "serving", "1 cup (240 g)", "f_energy_kcal", "10", "f_sodium_mg", "500")
	require.Equal(t, http.StatusSeeOther, h.sendPhotos(dish, "", "a.jpg", string(aPhoto(t, 90, 60, 1))).StatusCode)
	h.must(base+"/day/dish", "version", "1", "meal", "evening", "state", "planned", "date", "2026-03-01", "m", "1", "seated", "1")
	for name, c := range map[string]struct{ page, action, field, first, second, theirs, mine string }{
		"a member":             {base + "/people/1", base + "/people/1", "limit_amount_0", "500", "400", "at most 500 mg", "at most 400 mg"},
		"a member's name":      {base + "/people/2", base + "/people/2", "name", "Benno", "Benedikt", "called Benno", "called Benedikt"},
		"the kitchen's ways":   {base + "/people", base + "/people", "lift", "2", "4", "lift at most 2 kg", "lift at most 4 kg"},
		"a label":              {base + "/pantry/1", base + "/pantry/1", "f_sodium_mg", "480", "430", "sodium: 480", "sodium: 430"},
		"what is asked for":    {dish + "/adapt", dish + "/adapt", "cap", "2", "3", "change at most 2 lines", "change at most 3 lines"},
		"a caption":            {dish + "/photos", dish + "/photos/1", "caption1", "the pot", "the plate", "under it: the pot", "under it: the plate"},
		"when it is eaten":     {base + "/day/entries/1", base + "/day/entries/1", "meal", "morning", "midday", "morning", "midday"},
		"what matters in them": {dish + "/adapt", dish + "/adapt", "aim", "effort", "room", "Least work", "Most room"},
	} {
		t.Run(name, func(t *testing.T) {
			form := formOf(t, h.get(c.page), c.action)
			require.Equal(t, http.StatusSeeOther, h.sendForm(c.action, retyped(form, c.field, c.first)).StatusCode)
			assert.Equal(t, http.StatusSeeOther, h.sendForm(c.action, retyped(form, c.field, c.first)).StatusCode, "sent twice is no collision")
			r := h.sendForm(c.action, retyped(form, c.field, c.second))
			require.Equal(t, http.StatusConflict, r.StatusCode)
			alert := alertOf(t, r.body)
			assert.Contains(t, alert, "Someone else saved this while you were writing")
			assert.Contains(t, alert, c.theirs)
			assert.Contains(t, alert, c.mine)
			checkPage(t, name, parse(t, r))
			again := formOf(t, r, c.action)
			assert.Equal(t, c.second, again.Get(c.field), "what was typed is still there")
			assert.Equal(t, c.first, formOf(t, h.get(c.page), c.action).Get(c.field), "theirs is saved")
			require.Equal(t, http.StatusSeeOther, h.sendForm(c.action, again).StatusCode, "sent again it is saved")
			assert.Equal(t, c.second, formOf(t, h.get(c.page), c.action).Get(c.field))
		})
	}
}

// What two change of the same, each in another place, is both kept without a word.
func TestWhatTwoChangeInDifferentPlacesIsBothKept(t *testing.T) {
	h := newHouse(t)
	base, dish := h.furnish()
	require.Equal(t, http.StatusSeeOther, h.sendPhotos(dish, "", "a.jpg", string(aPhoto(t, 90, 60, 1))).StatusCode)
	h.must(base+"/day/dish", "version", "1", "meal", "evening", "state", "planned", "date", "2026-03-01", "m", "1", "seated", "1")
	for name, c := range map[string]struct{ page, action, field, first, other, second string }{
		"a caption, and who may see it":  {dish + "/photos", dish + "/photos/1", "caption1", "the pot", "card", "yes"},
		"a meal, and the day of it":      {base + "/day/entries/1", base + "/day/entries/1", "meal", "morning", "date", "2026-03-02"},
		"a line locked, and how many":    {dish + "/adapt", dish + "/adapt", "lock", "0", "cap", "3"},
		"what matters, and another line": {dish + "/adapt", dish + "/adapt", "aim", "effort", "lock", "1"},
	} {
		t.Run(name, func(t *testing.T) {
			form := formOf(t, h.get(c.page), c.action)
			require.Equal(t, http.StatusSeeOther, h.sendForm(c.action, retyped(form, c.field, c.first)).StatusCode)
			require.Equal(t, http.StatusSeeOther, h.sendForm(c.action, retyped(form, c.other, c.second)).StatusCode)
			now := formOf(t, h.get(c.page), c.action)
			assert.Contains(t, now[c.field], c.first)
			assert.Contains(t, now[c.other], c.second)
		})
	}
}

// A day that someone else moved is not taken off unseen.
func TestAnEntryMovedMeanwhileIsShownBeforeItIsTakenOff(t *testing.T) {
	h := newHouse(t)
	base, _ := h.furnish()
	h.must(base+"/day/dish", "version", "1", "meal", "evening", "state", "planned", "date", "2026-03-01", "m", "1", "seated", "1")
	entry := base + "/day/entries/1"
	form := formOf(t, h.get(entry), entry)
	h.sendForm(entry, retyped(form, "meal", "morning"))
	r := h.sendForm(entry, retyped(form, "do", "remove"))
	require.Equal(t, http.StatusConflict, r.StatusCode)
	assert.Contains(t, alertOf(t, r.body), "off the day")
	assert.Equal(t, http.StatusSeeOther, h.sendForm(entry, retyped(formOf(t, r, entry), "do", "remove")).StatusCode)
	assert.Equal(t, http.StatusNotFound, h.get(entry).StatusCode)
}

// A day that someone else took off is told of, and what was chosen is kept.
func TestAnEntryTakenOffMeanwhileIsTold(t *testing.T) {
	h := newHouse(t)
	base, _ := h.furnish()
	h.must(base+"/day/dish", "version", "1", "meal", "evening", "state", "planned", "date", "2026-03-01", "m", "1", "seated", "1")
	h.must(base+"/day/food", "food", "sr:09003", "amount", "100", "unit", "g", "meal", "morning", "state", "eaten", "date", "2026-03-01", "m", "1")
	for entry, again := range map[string]string{
		base + "/day/entries/1": base + "/day/dish?date=2026-03-02&meal=midday&state=planned&version=1",
		base + "/day/entries/2": base + "/day/food?date=2026-03-02&meal=midday&q=",
	} {
		form := formOf(t, h.get(entry), entry)
		require.Equal(t, http.StatusSeeOther, h.sendForm(entry, retyped(form, "do", "remove")).StatusCode)
		assert.Equal(t, http.StatusSeeOther, h.sendForm(entry, retyped(form, "do", "remove")).StatusCode, "off is off")
		r := h.sendForm(entry, retyped(retyped(form, "date", "2026-03-02"), "meal", "midday"))
		require.Equal(t, http.StatusConflict, r.StatusCode)
		alert := alertOf(t, r.body)
		assert.Contains(t, alert, "Someone else took “"+form.Get("what")+"” off the day while you were writing")
		assert.Contains(t, alert, "Monday 2 March 2026")
		assert.Contains(t, alert, "at midday")
		doc := parse(t, r)
		checkPage(t, "gone", doc)
		link := ""
		for _, a := range elements(doc, "a") {
			if strings.HasPrefix(attr(a, "href"), again) {
				link = attr(a, "href")
			}
		}
		require.NotEmpty(t, link, "it can be written down again")
		assert.Equal(t, http.StatusOK, h.get(link).StatusCode)
		assert.Equal(t, http.StatusNotFound, h.post(entry, "date", "2026-03-02").StatusCode, "no form was made of it")
	}
	assert.Equal(t, http.StatusNotFound, h.post("/h/9/day/entries/1", "seen", "x", "date", "2026-03-02").StatusCode, "another household's")
}

// What someone else took away while a form was filled in is told of, and nothing that
// was written is lost.
func TestWhatIsTakenAwayMeanwhileIsTold(t *testing.T) {
	h := newHouse(t)
	base, dish := h.furnish()
	h.must(base+"/pantry/new", "name", "quay broth", "panel", "us", "serving", "1 cup (240 g)", "f_energy_kcal", "10", "f_sodium_mg", "500")
	require.Equal(t, http.StatusSeeOther, h.sendPhotos(dish, "", "a.jpg", string(aPhoto(t, 90, 60, 1))).StatusCode)
	h.must(dish+"/portions", "version", "1", "count", "1", "size", "1", "by", "servings", "made", "2026-03-01")
	for name, c := range map[string]struct {
		page, action, remove, field, typed string
		says, kept                         string
	}{
		"a label":     {base + "/pantry/1", base + "/pantry/1", base + "/pantry/1/remove", "f_sodium_mg", "480", "took this out of the pantry", `value="480"`},
		"a photo":     {dish + "/photos", dish + "/photos/1", dish + "/photos/1/remove", "caption1", "the pot at noon", "removed this photo", "under it: the pot at noon"},
		"a container": {base + "/freezer/1", base + "/freezer/1", base + "/freezer/1", "meal", "midday", "taken out already", "at midday"},
	} {
		t.Run(name, func(t *testing.T) {
			form := formOf(t, h.get(c.page), c.action)
			require.Equal(t, http.StatusSeeOther, h.sendForm(c.remove, form).StatusCode)
			r := h.sendForm(c.action, retyped(form, c.field, c.typed))
			require.Equal(t, http.StatusConflict, r.StatusCode)
			assert.Contains(t, alertOf(t, r.body), c.says)
			assert.Contains(t, r.body, c.kept)
			checkPage(t, name, parse(t, r))
			for _, a := range elements(parse(t, r), "a") {
				if strings.HasPrefix(attr(a, "href"), base) {
					assert.Equal(t, http.StatusOK, h.get(attr(a, "href")).StatusCode, attr(a, "href"))
				}
			}
			assert.Equal(t, http.StatusNotFound, h.post(c.action, c.field, c.typed).StatusCode, "no form was made of it")
		})
	}
	gone := formOf(t, h.sendForm(base+"/pantry/1", url.Values{"seen": {"x"}, "name": {"pier broth"}, "panel": {"us"}, "serving": {"1 cup (240 g)"}, "f_sodium_mg": {"480"}}), base+"/pantry/new")
	assert.Equal(t, http.StatusSeeOther, h.sendForm(base+"/pantry/new", gone).StatusCode, "sent again it is in the pantry")
}

// Two tell the program what the same words mean.
func TestTwoWhoRememberDifferentFoodsAreShownBoth(t *testing.T) {
	h := newHouse(t)
	_, dish := h.furnish()
	line := dish + "/lines/5"
	form := retyped(formOf(t, h.get(line), line), "remember", "yes")
	require.Equal(t, http.StatusSeeOther, h.sendForm(line, retyped(form, "food", "sr:02047")).StatusCode)
	assert.Equal(t, http.StatusSeeOther, h.sendForm(line, retyped(form, "food", "sr:02047")).StatusCode, "the same twice is no collision")
	other := retyped(form, "food", "sr:02030")
	r := h.sendForm(line, other)
	require.Equal(t, http.StatusConflict, r.StatusCode)
	assert.Contains(t, alertOf(t, r.body), "means salt, table")
	assert.Contains(t, alertOf(t, r.body), "means pepper, black, ground")
	again := formOf(t, r, line)
	assert.Equal(t, "sr:02030", again.Get("food"), "what was chosen is still there")
	assert.Equal(t, http.StatusSeeOther, h.sendForm(line, again).StatusCode)
	choices, err := h.store.Choices(t.Context(), 1)
	require.NoError(t, err)
	assert.Equal(t, "sr:02030", choices["salt"].FoodID)
}

func TestAMistypedFormStillCollides(t *testing.T) {
	h := newHouse(t)
	base, _ := h.furnish()
	form := formOf(t, h.get(base+"/people/1"), base+"/people/1")
	h.sendForm(base+"/people/1", retyped(form, "age", "72"))
	r := h.sendForm(base+"/people/1", retyped(form, "age", "seventy"))
	require.Equal(t, http.StatusUnprocessableEntity, r.StatusCode)
	r = h.sendForm(base+"/people/1", retyped(formOf(t, r, base+"/people/1"), "age", "70"))
	assert.Equal(t, http.StatusConflict, r.StatusCode)
}

func TestAMemberTakenOffMeanwhileIsNotLost(t *testing.T) {
	h := newHouse(t)
	base, _ := h.furnish()
	form := formOf(t, h.get(base+"/people/1"), base+"/people/1")
	h.must(base + "/people/1/remove")
	r := h.sendForm(base+"/people/1", retyped(form, "age", "72"))
	require.Equal(t, http.StatusConflict, r.StatusCode)
	assert.Contains(t, alertOf(t, r.body), "took this person off the table")
	again := formOf(t, r, base+"/people/new")
	assert.Equal(t, "72", again.Get("age"))
	require.Equal(t, http.StatusSeeOther, h.sendForm(base+"/people/new", again).StatusCode)
	saved, err := h.store.FindHousehold(t.Context(), 1)
	require.NoError(t, err)
	assert.Equal(t, "Ana", saved.Members[1].Name)
}

// Twelve people each change another member at the same moment: nobody's change goes
// over another's.
func TestDifferentMembersSavedAtOnceAreAllKept(t *testing.T) {
	h := newHouse(t)
	base, _ := h.furnish()
	const people = 12
	for i := range people - 2 {
		h.must(base+"/people/new", "name", "Guest "+strings.Repeat("i", i+1), "portion", "1")
	}
	saved, err := h.store.FindHousehold(t.Context(), 1)
	require.NoError(t, err)
	var asking sync.WaitGroup
	for _, m := range saved.Members {
		asking.Go(func() {
			h.post(base+"/people/"+strconv.FormatInt(m.ID, 10), "name", m.Name, "age", "50", "portion", "1")
		})
	}
	asking.Wait()
	saved, err = h.store.FindHousehold(t.Context(), 1)
	require.NoError(t, err)
	require.Len(t, saved.Members, people)
	for _, m := range saved.Members {
		assert.Equal(t, 50, m.Age, m.Name)
	}
}

func TestWhatTwoFileARecipeUnderIsAllKept(t *testing.T) {
	h := newHouse(t)
	base, dish := h.furnish()
	h.must(dish+"/tags", "tags", "soup, winter")
	mine := formOf(t, h.get(dish), dish+"/tags")
	h.sendForm(dish+"/tags", retyped(mine, "tags", "soup, for guests"))
	assert.Equal(t, http.StatusSeeOther, h.sendForm(dish+"/tags", retyped(mine, "tags", "soup, winter, freezer")).StatusCode)
	assert.Equal(t, "for guests, freezer, soup", formOf(t, h.get(dish), dish+"/tags").Get("tags"), "each added one, one took winter off")

	many := strings.Repeat("t,", 30) + strings.Repeat("x", 50)
	r := h.sendForm(dish+"/tags", retyped(formOf(t, h.get(dish), dish+"/tags"), "tags", many))
	require.Equal(t, http.StatusUnprocessableEntity, r.StatusCode)
	assert.Contains(t, alertOf(t, r.body), "1 to 40 characters")
	assert.Equal(t, many, formOf(t, r, dish+"/tags").Get("tags"), "what was typed is still there")
	checkPage(t, "tags", parse(t, r))
	assert.Contains(t, h.get(base+"/recipes?tag=freezer").body, "Harbour bean pot")
}

// A page and another program change the same: whoever comes second is told, whichever
// way they come.
func TestAPageAndAnotherProgramDoNotUndoEachOther(t *testing.T) {
	h := newHouse(t)
	base, dish := h.furnish()
	h.must(base+"/pantry/new", "name", "quay broth", "panel", "us", "serving", "1 cup (240 g)", "f_energy_kcal", "10", "f_sodium_mg", "500")
	h.must(dish+"/adapt", "cap", "4", "aim", "change")
	const door = "/api/v1/households/1"
	for name, c := range map[string]struct{ page, field, typed, door, body string }{
		"a label": {base + "/pantry/1", "f_sodium_mg", "430", "/products/1",
			`{"name":"quay broth","panel":"us","serving":"1 cup (240 g)","figures":{"energy_kcal":"10","sodium_mg":"480"}}`},
		"what is asked for": {dish + "/adapt", "cap", "3", "/recipes/1/wishes", `{"max_changes":2}`},
		"the household":     {base + "/people", "lift", "4", "", `{"name":"Quay Lane","meal_share":0.5,"members":[{"id":1,"name":"Ana"}]}`},
	} {
		t.Run(name, func(t *testing.T) {
			form := formOf(t, h.get(c.page), c.page)
			tag := h.get(door + c.door).Header.Get("ETag")
			send := func() reply {
				req, err := http.NewRequestWithContext(t.Context(), http.MethodPut, h.url+door+c.door, strings.NewReader(c.body))
				require.NoError(t, err)
				req.Header.Set("Content-Type", "application/json")
				req.Header.Set("If-Match", tag)
				return h.send(req)
			}
			r := send()
			require.Equal(t, http.StatusOK, r.StatusCode, r.body)
			r = h.sendForm(c.page, retyped(form, c.field, c.typed))
			require.Equal(t, http.StatusConflict, r.StatusCode, "the page came second")
			assert.Contains(t, alertOf(t, r.body), "Someone else saved this while you were writing")
			tag = h.get(door + c.door).Header.Get("ETag")
			require.Equal(t, http.StatusSeeOther, h.sendForm(c.page, formOf(t, r, c.page)).StatusCode)
			r = send()
			assert.Equal(t, http.StatusPreconditionFailed, r.StatusCode, "the program came second")
			assert.Contains(t, r.body, "nothing was saved; read it again")
			assert.Equal(t, c.typed, formOf(t, h.get(c.page), c.page).Get(c.field))
		})
	}
}
