package api

import (
	"bytes"
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/gin-gonic/gin"
	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/access"
	"potwright/internal/demo"
	"potwright/internal/recipe"
	"potwright/internal/store/sqlite"
	"potwright/internal/testkit"
	"potwright/internal/testkit/datafile"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// door is the JSON door over a real database, with every body sent and every answer
// held against the document by a JSON Schema validator that is not ours.
type door struct {
	t      *testing.T
	server *httptest.Server
	// bodies and answers are the schemas of operations, "GET /path".
	bodies, answers map[string]*jsonschema.Schema
	// files are the kinds of answers that are no JSON.
	files    map[string]string
	problems *jsonschema.Schema
	// asked are the operations asked for so far.
	asked map[string]bool
}

func newDoor(t *testing.T, change func(*Config)) *door {
	t.Helper()
	gin.SetMode(gin.TestMode)
	store, err := sqlite.Open(datafile.Empty(t), testkit.Now)
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, store.Close()) })
	k := testkit.Kitchen(t)
	k.Store, k.Now = store, testkit.Now
	cfg := Config{Kitchen: k, Store: store, Needs: k.Needs, Rulebook: testkit.Rulebook(t), Formats: testFormats{}, Now: testkit.Now,
		Gate: access.NewGate(store, testkit.Now), Demo: func(ctx context.Context) error { return demo.Fill(ctx, k) }}
	if change != nil {
		change(&cfg)
	}
	a, err := New(cfg)
	require.NoError(t, err)
	r := gin.New()
	a.Register(r)
	d := &door{t: t, server: httptest.NewServer(r), asked: map[string]bool{},
		files: map[string]string{}, bodies: map[string]*jsonschema.Schema{}, answers: map[string]*jsonschema.Schema{}}
	t.Cleanup(d.server.Close)
	d.compile()
	return d
}

// compile takes the schemas of every operation out of the document.
func (d *door) compile() {
	d.t.Helper()
	text, err := json.Marshal(Document())
	require.NoError(d.t, err)
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	require.NoError(d.t, err)
	c := jsonschema.NewCompiler()
	c.DefaultDraft(jsonschema.Draft2020)
	require.NoError(d.t, c.AddResource("mem:openapi", doc))
	at := func(path ...string) *jsonschema.Schema {
		pointer := ""
		for _, p := range path {
			pointer += "/" + strings.NewReplacer("~", "~0", "/", "~1").Replace(p)
		}
		s, err := c.Compile("mem:openapi#" + pointer)
		require.NoError(d.t, err)
		return s
	}
	for _, op := range operations() {
		path, method := Base+pathName.ReplaceAllString(op.path, "{$1}"), strings.ToLower(op.method)
		name := op.method + " " + Base + pathName.ReplaceAllString(op.path, "N")
		if op.body != nil && op.takes == "" {
			d.bodies[name] = at("paths", path, method, "requestBody", "content", "application/json", "schema")
		}
		if op.gives != "" {
			d.files[name] = op.gives
		}
		if op.answer != nil {
			d.answers[name] = at("paths", path, method, "responses", strconv.Itoa(op.status), "content", "application/json", "schema")
		}
		d.problems = at("paths", path, method, "responses", "default", "content", "application/problem+json", "schema")
	}
}

// holds checks a text against a schema.
func (d *door) holds(s *jsonschema.Schema, text []byte, what string) {
	d.t.Helper()
	value, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	require.NoError(d.t, err, what)
	assert.NoError(d.t, s.Validate(value), what)
}

// remembered are two who say at once what a phrase means: the second is told.
func remembered(d *door, choice, food string) {
	d.t.Helper()
	var c recipe.Correction
	tag := d.ask("GET", choice, nil, &c).Header.Get("ETag")
	assert.Equal(d.t, food, c.FoodID)
	require.NotEmpty(d.t, tag)
	d.ask("PUT", choice, recipe.Correction{FoodID: food, Skip: true}, nil)
	for _, method := range []string{"PUT", "DELETE"} {
		status, text := d.conditional(method, choice, tag)
		assert.Equal(d.t, http.StatusPreconditionFailed, status, text)
		assert.Contains(d.t, text, "read it again", method)
	}
	nothing := d.ask("GET", choice+"%20never", nil, nil).Header.Get("ETag")
	status, text := d.conditional("PUT", choice, nothing)
	assert.Equal(d.t, http.StatusPreconditionFailed, status, text)
	status, text = d.conditional("DELETE", choice, d.ask("GET", choice, nil, nil).Header.Get("ETag"))
	assert.Equal(d.t, http.StatusNoContent, status, text)
}

// ask sends a JSON body, nil for none, and reads the answer into to.
func (d *door) ask(method, path string, body, to any) *http.Response {
	d.t.Helper()
	var sent []byte
	if body != nil {
		var err error
		sent, err = json.Marshal(body)
		require.NoError(d.t, err)
	}
	resp, text := d.send(method, path, "application/json", sent)
	if to != nil {
		require.NoError(d.t, json.Unmarshal(text, to), string(text))
	}
	return resp
}

func (d *door) send(method, path, kind string, body []byte) (*http.Response, []byte) {
	d.t.Helper()
	req, err := http.NewRequest(method, d.server.URL+path, bytes.NewReader(body))
	require.NoError(d.t, err)
	if body != nil {
		req.Header.Set("Content-Type", kind)
	}
	resp, err := http.DefaultClient.Do(req)
	require.NoError(d.t, err)
	defer resp.Body.Close()
	text, err := io.ReadAll(resp.Body)
	require.NoError(d.t, err)
	name := method + " " + d.sortOf(path)
	d.asked[name] = d.asked[name] || resp.StatusCode < 400
	switch answer := d.answers[name]; {
	case resp.StatusCode >= 400:
		d.holds(d.problems, text, "the problem of "+name)
		return resp, text
	case answer != nil:
		d.holds(answer, text, "the answer to "+name)
	case d.files[name] != "":
		assert.Equal(d.t, d.files[name], resp.Header.Get("Content-Type"), name)
		assert.NotEmpty(d.t, text, name)
	default:
		assert.Empty(d.t, text, name)
	}
	if s := d.bodies[name]; s != nil {
		d.holds(s, body, "the body of "+name)
	}
	return resp, text
}

// sortOf is a path with what stands for any other taken out.
func (d *door) sortOf(path string) string {
	path, _, _ = strings.Cut(path, "?")
	parts := strings.Split(strings.TrimPrefix(path, Base), "/")
	best, bestFixed := path, -1
	for _, op := range operations() {
		names := strings.Split(op.path, "/")
		fixed := 0
		same := len(names) == len(parts)
		for i := 0; same && i < len(names); i++ {
			if strings.HasPrefix(names[i], ":") {
				continue
			}
			same = names[i] == parts[i]
			fixed++
		}
		if same && fixed > bestFixed {
			best, bestFixed = Base+pathName.ReplaceAllString(op.path, "N"), fixed
		}
	}
	return best
}

// TestTheDocumentIsOpenAPI31 holds it against the schema that the OpenAPI Initiative
// publishes for version 3.1 (spec.openapis.org/oas/3.1, Apache 2.0).
func TestTheDocumentIsOpenAPI31(t *testing.T) {
	text, err := json.MarshalIndent(Document(), "", "  ")
	require.NoError(t, err)
	c := jsonschema.NewCompiler()
	published, err := c.Compile("testdata/oas31.schema.json")
	require.NoError(t, err)
	value, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	require.NoError(t, err)
	assert.NoError(t, published.Validate(value))
	const golden = "testdata/openapi.json"
	if *update {
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(golden, append(text, '\n'), 0o644))
	}
	want, err := os.ReadFile(golden)
	require.NoError(t, err)
	assert.Equal(t, string(want), string(text)+"\n", "what other programs rely on has changed: run with -update, and say so in the release")
}

// TestEveryOperationAnswersAsTheDocumentSays goes through the whole job.
func TestEveryOperationAnswersAsTheDocumentSays(t *testing.T) {
	d := newDoor(t, nil)
	var house householdAnswer
	body := map[string]any{"name": "Quay Lane", "cook": map[string]any{"spare": []string{"lift"}, "lift_limit_kg": 3}, "meal_share": 0.4, "measures": "us",
		"members": []any{
			map[string]any{"id": 0, "name": "Ana", "age": 71, "limits": []any{map[string]any{"nutrient": "sodium_mg", "at_most": 600, "per": "meal", "set_by": "clinician"}},
				"plan": nil, "avoid": []string{"milk"}, "texture": nil, "cautions": []string{}, "portion": 1, "portion_min": 0, "portion_max": 0},
		}}
	resp := d.ask("POST", "/api/v1/households", body, &house)
	require.Equal(t, http.StatusCreated, resp.StatusCode)
	base := resp.Header.Get("Location")
	require.Equal(t, fmt.Sprintf("/api/v1/households/%d", house.ID), base)
	assert.NotZero(t, house.Members[0].ID)

	house.Members[0].Age = 72
	d.ask("PUT", base, householdBody{house.Household}, &house)
	assert.Equal(t, 72, house.Members[0].Age)
	var all householdList
	d.ask("GET", "/api/v1/households", nil, &all)
	assert.Len(t, all.Households, 1)
	d.ask("GET", base, nil, &house)

	var found foodList
	d.ask("GET", "/api/v1/foods?q=kidney+beans&limit=3", nil, &found)
	require.Len(t, found.Foods, 3)
	d.ask("GET", "/api/v1/foods/"+found.Foods[0].ID, nil, &foodDocument{})
	d.ask("GET", "/api/v1/rules", nil, &ruleList{})
	d.ask("GET", "/api/v1/limits", nil, &presetList{})
	d.ask("GET", "/api/v1/openapi.json", nil, &map[string]any{})

	chowder, err := demo.Dish("fish-chowder")
	require.NoError(t, err)
	var analysis struct {
		PerServing map[string]struct{ Mid float64 } `json:"per_serving"`
	}
	d.ask("POST", base+"/analyse", map[string]any{"text": chowder}, &analysis)
	require.Greater(t, analysis.PerServing["sodium_mg"].Mid, 600.0, "the dish is over Ana's limit")

	var version versionAnswer
	resp = d.ask("POST", base+"/recipes", map[string]any{"text": chowder, "note": "from the quay"}, &version)
	require.Equal(t, http.StatusCreated, resp.StatusCode)
	assert.InDelta(t, analysis.PerServing["sodium_mg"].Mid, version.PerServing["sodium_mg"].Mid, 1e-9)
	dish := fmt.Sprintf("%s/recipes/%d", base, version.RecipeID)
	d.ask("GET", base+"/recipes", nil, &recipeList{})
	d.ask("GET", dish, nil, &recipeAnswer{})
	d.ask("GET", resp.Header.Get("Location"), nil, &versionAnswer{})

	ofVersion := map[string]any{"version": version.ID, "members": []string{"Ana"}}
	var checked struct{ Fits string }
	d.ask("POST", base+"/check", ofVersion, &checked)
	assert.NotEqual(t, "inside", checked.Fits)
	d.ask("POST", base+"/report", ofVersion, nil)
	var answer struct {
		Fits    bool
		Changes []any
	}
	d.ask("POST", base+"/adapt", ofVersion, &answer)
	require.True(t, answer.Fits)
	assert.NotEmpty(t, answer.Changes)
	var curve tradeoffAnswer
	d.ask("POST", base+"/tradeoff", map[string]any{"version": version.ID, "member": "Ana", "nutrient": "sodium_mg"}, &curve)
	assert.NotEmpty(t, curve.Points)

	d.ask("PUT", dish+"/wishes", map[string]any{"lock": []int{0}, "max_changes": 9}, nil)
	var kept struct{ Lock []int }
	d.ask("GET", dish+"/wishes", nil, &kept)
	assert.Equal(t, []int{0}, kept.Lock)

	var adapted versionAnswer
	resp = d.ask("POST", fmt.Sprintf("%s/versions/%d/adapted", base, version.ID), map[string]any{"note": "for Sunday"}, &adapted)
	require.Equal(t, http.StatusCreated, resp.StatusCode)
	assert.Equal(t, version.ID, adapted.ParentID)
	assert.NotEmpty(t, adapted.Changes)
	d.ask("POST", dish+"/versions", map[string]any{"parent": adapted.ID, "text": adapted.Text + "\n", "note": "by hand"}, &versionAnswer{})
	var history versionList
	d.ask("GET", dish+"/versions", nil, &history)
	assert.Len(t, history.Versions, 3)
	var swept sweepAnswer
	d.ask("GET", base+"/sweep?swaps=true&most=5&q=chowder", nil, &swept)
	require.Len(t, swept.Recipes, 1)
	assert.EqualValues(t, "suits", swept.Recipes[0].Standing, "the newest version was made to suit")

	label := map[string]any{"name": "quay beans", "panel": "us", "serving": "1/2 cup (130 g)", "figures": map[string]string{"sodium_mg": "20", "energy_kcal": "110"}}
	var kit struct{ ID int64 }
	d.ask("POST", base+"/products", label, &kit)
	d.ask("PUT", fmt.Sprintf("%s/products/%d", base, kit.ID), label, nil)
	d.ask("GET", base+"/products", nil, &productList{})
	d.ask("DELETE", fmt.Sprintf("%s/products/%d", base, kit.ID), nil, nil)
	d.ask("PUT", base+"/choices/white%20fish", map[string]any{"food_id": found.Foods[0].ID}, nil)
	var choices choiceList
	d.ask("GET", base+"/choices", nil, &choices)
	assert.Contains(t, choices.Choices, "white fish")
	remembered(d, base+"/choices/white%20fish", found.Foods[0].ID)
	d.ask("DELETE", base+"/choices/white%20fish", nil, nil)

	place := furnished{door: d, base: base, dish: dish, version: version.ID, member: house.Members[0].ID, text: chowder}
	for _, part := range []func(furnished, *testing.T){library, photos, versions, forms, meals, days, freezer, pantry, entrance, book} {
		part(place, t)
	}
	for _, op := range operations() {
		path := Base + pathName.ReplaceAllString(op.path, "N")
		assert.True(t, d.asked[op.method+" "+path], "%s %s was never answered", op.method, path)
	}
}

func TestWhatCantBeUsedIsToldAsAProblem(t *testing.T) {
	d := newDoor(t, nil)
	var house householdAnswer
	d.ask("POST", "/api/v1/households", map[string]any{"name": "Quay Lane"}, &house)
	d.ask("POST", "/api/v1/households/1/recipes", map[string]any{"text": "Beans\nServes 2\n\nIngredients\n1 can kidney beans\n\nMethod\nWarm them."}, nil)
	for name, c := range map[string]struct {
		method, path, kind, body string
		status                   int
		detail                   string
	}{
		"no JSON":              {"POST", "/api/v1/households", "application/json", "{", 400, "it ends in the middle of a JSON value"},
		"a field nobody knows": {"POST", "/api/v1/households", "application/json", `{"nmae":"x"}`, 400, `nmae: there is no such field`},
		"two values":           {"POST", "/api/v1/households", "application/json", `{"name":"x"}{}`, 400, "there is more behind the JSON value"},
		"a form":               {"POST", "/api/v1/households", "application/x-www-form-urlencoded", "name=x", 415, "expected application/json"},
		"a wrong type":         {"POST", "/api/v1/households", "application/json", `{"name":7}`, 400, "name: it is a JSON number; expected words in"},
		"a weight without end": {"POST", "/api/v1/households/1/recipes", "application/json",
			`{"text":"Beans\nServes 2\n\nIngredients\n1 can kidney beans\n\nMethod\nWarm them.","fixes":{"0":{"grams":{"low":1e308,"mid":1e308,"high":1e308}}}}`, 422, "fixes.0.grams: 1e+308 to 1e+308 to 1e+308 is no weight of a line; expected low, mid and high grams"},
		"a fix of a line that is not there": {"POST", "/api/v1/households/1/recipes", "application/json",
			`{"text":"Beans\nServes 2\n\nIngredients\n1 can kidney beans\n\nMethod\nWarm them.","fixes":{"1":{"skip":true}}}`, 422, "fixes.1: there is no ingredient line 1; expected 0 to 0, counted from 0"},
		"a correction without words": {"POST", "/api/v1/households/1/recipes", "application/json",
			`{"text":"Beans\nServes 2\n\nIngredients\n1 can kidney beans\n\nMethod\nWarm them.","corrections":[{"skip":true}]}`, 422, "corrections.0.words: no words; expected those of the ingredient line that is corrected"},
		"a correction's weight without end": {"POST", "/api/v1/households/1/recipes", "application/json",
			`{"text":"Beans\nServes 2\n\nIngredients\n1 can kidney beans\n\nMethod\nWarm them.","corrections":[{"words":"1 can kidney beans","grams":{"low":1,"mid":1,"high":1e308}}]}`, 422, "corrections.0.grams: 1 to 1 to 1e+308 is no weight of a line"},
		"more corrections than lines": {"POST", "/api/v1/households/1/recipes", "application/json",
			`{"text":"Beans\n\n1 can kidney beans","corrections":[` + strings.Repeat(`{"words":"x"},`, recipe.MaxLines) + `{"words":"x"}]}`, 422, "corrections: there are"},
		"corrections in two ways": {"POST", "/api/v1/households/1/recipes", "application/json",
			`{"text":"Beans\nServes 2\n\nIngredients\n1 can kidney beans\n\nMethod\nWarm them.","corrections":[{"words":"1 can kidney beans","skip":true}],"fixes":{"0":{"skip":true}}}`, 422, "fixes: corrections and fixes say the same in two ways"},
		"a weight below nothing": {"PUT", "/api/v1/households/1/choices/beans", "application/json", `{"grams":{"low":-5,"mid":-5,"high":-5}}`, 422, "is no weight of a line"},
		"a limit without end": {"PUT", "/api/v1/households/1", "application/json",
			`{"name":"Quay Lane","members":[{"name":"Ana","limits":[{"nutrient":"sodium_mg","at_most":1e308,"per":"meal","set_by":"clinician"}]}]}`, 422, "expected a number from 0 to 1000000"},
		"a number too long for one": {"POST", "/api/v1/households/1/analyse", "application/json", `{"text":"x","version":` + strings.Repeat("9", 400) + `}`, 400, "version"},
		"a note of a thousand letters": {"POST", "/api/v1/households/1/recipes", "application/json",
			`{"text":"Beans\nServes 2\n\nIngredients\n1 can kidney beans\n\nMethod\nWarm them.","note":"` + strings.Repeat("x", 1000) + `"}`, 422, "note: the note has 1000 characters; expected at most 500"},
		"a name that is taken":     {"POST", "/api/v1/households", "application/json", `{"name":"Quay Lane"}`, 409, "expected another name"},
		"a body without end":       {"POST", "/api/v1/households", "application/json", `{"name":"` + strings.Repeat("x", maxBody) + `"}`, 413, "expected less"},
		"a limit nobody knows":     {"POST", "/api/v1/households", "application/json", `{"name":"y","members":[{"name":"A","limits":[{"nutrient":"zinc_mg","per":"day","set_by":"clinician"}]}]}`, 400, `unknown nutrient "zinc_mg"`},
		"a member out of range":    {"PUT", "/api/v1/households/1", "application/json", `{"name":"y","members":[{"name":"A","portion":99}]}`, 422, "members[0]"},
		"a stranger's member":      {"PUT", "/api/v1/households/1", "application/json", `{"name":"y","members":[{"id":77,"name":"A"}]}`, 422, "which nobody of this household has"},
		"no such household":        {"GET", "/api/v1/households/9", "", "", 404, "household 9"},
		"no number":                {"GET", "/api/v1/households/ours", "", "", 404, `"ours" is no number of a household`},
		"no such recipe":           {"GET", "/api/v1/households/1/recipes/7", "", "", 404, "recipe 7"},
		"no such version":          {"GET", "/api/v1/households/1/versions/7", "", "", 404, "version 7"},
		"no such food":             {"GET", "/api/v1/foods/sr:1", "", "", 404, "expected an id such as sr:01001"},
		"no words":                 {"GET", "/api/v1/foods", "", "", 400, "no words to search"},
		"too many foods":           {"GET", "/api/v1/foods?q=a&limit=1000", "", "", 400, "expected a whole number from 1 to 100"},
		"neither text nor version": {"POST", "/api/v1/households/1/check", "application/json", `{}`, 422, "expected either text or version"},
		"text that is no recipe":   {"POST", "/api/v1/households/1/analyse", "application/json", `{"text":"hello"}`, 422, "ingredient"},
		"nobody of that name":      {"POST", "/api/v1/households/1/check", "application/json", `{"version":1,"members":["Zoe"]}`, 422, `nobody of the household is called "Zoe"`},
		"a line that is not there": {"PUT", "/api/v1/households/1/recipes/1/wishes", "application/json", `{"lock":[5]}`, 422, "there is no line 5; expected 0 to 0"},
		"an aim nobody knows":      {"PUT", "/api/v1/households/1/recipes/1/wishes", "application/json", `{"aim":"cheap"}`, 422, `aim "cheap"`},
		"a label that says little": {"POST", "/api/v1/households/1/products", "application/json", `{"name":"x","panel":"us"}`, 422, ""},
		"a parent elsewhere":       {"POST", "/api/v1/households/1/recipes/1/versions", "application/json", `{"parent":4,"text":"x"}`, 404, "version 4"},
		"a food nobody knows":      {"PUT", "/api/v1/households/1/choices/x", "application/json", `{"food_id":"sr:0"}`, 422, `there is no food "sr:0"`},
		"swaps of no kind":         {"GET", "/api/v1/households/1/sweep?swaps=maybe", "", "", 400, "expected true or false"},
	} {
		t.Run(name, func(t *testing.T) {
			var body []byte
			if c.kind != "" {
				body = []byte(c.body)
			}
			resp, text := d.send(c.method, c.path, c.kind, body)
			assert.Equal(t, c.status, resp.StatusCode, string(text))
			assert.Equal(t, "application/problem+json", strings.Split(resp.Header.Get("Content-Type"), ";")[0])
			var p problem
			require.NoError(t, json.Unmarshal(text, &p))
			assert.Equal(t, c.status, p.Status)
			assert.NotEmpty(t, p.Detail)
			assert.Contains(t, p.Detail, c.detail)
			assert.NotContains(t, p.Detail, "goroutine")
		})
	}
}

func TestACallerSeesOnlyWhatItMay(t *testing.T) {
	may := int64(1)
	d := newDoor(t, func(c *Config) {
		c.Allow = func(r *http.Request, householdID int64, change bool) error {
			switch {
			case r.Header.Get("Authorization") == "" && householdID == 0 && r.Method == http.MethodDelete:
				return ErrSignIn
			case householdID != 0 && householdID != may, change && householdID != 0:
				return ErrNotAllowed
			}
			return nil
		}
	})
	d.ask("POST", "/api/v1/households", map[string]any{"name": "Ours"}, nil)
	d.ask("POST", "/api/v1/households", map[string]any{"name": "Theirs"}, nil)
	var list householdList
	d.ask("GET", "/api/v1/households", nil, &list)
	require.Len(t, list.Households, 1)
	assert.Equal(t, "Ours", list.Households[0].Name)
	for _, op := range operations() {
		if !strings.Contains(op.path, "household_id") {
			continue
		}
		path := Base + strings.ReplaceAll(pathName.ReplaceAllString(op.path, "1"), "/households/1", "/households/2")
		resp, _ := d.send(op.method, path, "application/json", []byte("{}"))
		assert.Equal(t, http.StatusForbidden, resp.StatusCode, "%s %s", op.method, path)
		if op.changes {
			resp, _ := d.send(op.method, strings.Replace(path, "/households/2", "/households/1", 1), "application/json", []byte("{}"))
			assert.Equal(t, http.StatusForbidden, resp.StatusCode, "%s changes something", op.id)
		}
	}
}

func TestOperationsThatSaveSaySo(t *testing.T) {
	reading := []string{"analyse", "check", "adapt", "report", "tradeoff", "sumMeal", "findAlike", "readProduct"}
	for _, op := range operations() {
		safe := op.method == http.MethodGet || slices.Contains(reading, op.id)
		assert.Equal(t, !safe, op.changes, op.id)
	}
}
