package api

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/archive"
	"potwright/internal/composition"
	"potwright/internal/kitchen"
	"potwright/internal/schemaorg"
	"potwright/internal/testkit"
)

// testFormats are the real files.
type testFormats struct{}

func (testFormats) Markup(text string) (string, []string, error) {
	found, ok, err := schemaorg.Read(text)
	if err != nil || !ok {
		return text, nil, err
	}
	return found.Text, found.Lost, nil
}

func (testFormats) JSONLD(w io.Writer, a kitchen.Analysis) ([]string, error) {
	return schemaorg.Write(w, a)
}

func (testFormats) Pack(ctx context.Context, w io.Writer, h kitchen.Holdings) error {
	return archive.WriteRecipes(ctx, w, h, testkit.Now())
}

func (testFormats) Unpack(r io.ReaderAt, size int64) (kitchen.Holdings, []string, error) {
	a, err := archive.Read(r, size, archive.SharedLimits())
	if err != nil || a.Recipes == nil {
		return kitchen.Holdings{}, nil, err
	}
	return *a.Recipes, a.NotTaken, nil
}

func (testFormats) PackAll(ctx context.Context, w io.Writer, all []kitchen.Holdings) error {
	return archive.Write(ctx, w, all, testkit.Now())
}

func (testFormats) UnpackAll(r io.ReaderAt, size int64) ([]kitchen.Holdings, []string, error) {
	a, err := archive.Read(r, size, archive.WholeLimits())
	return a.Households, a.NotTaken, err
}

// furnished is a door with a household, a member and a dish of some versions.
type furnished struct {
	*door
	base, dish string
	version    int64
	member     int64
	text       string
}

// of is an address below the first version.
func (f furnished) of(rest string) string {
	return fmt.Sprintf("%s/versions/%d/%s", f.base, f.version, rest)
}

func library(f furnished, t *testing.T) {
	f.ask("PUT", f.dish+"/tags", map[string]any{"tags": []string{"Friday ", "soup"}}, nil)
	var tags tagList
	f.ask("GET", f.base+"/tags", nil, &tags)
	assert.Equal(t, []string{"Friday", "soup"}, tags.Tags)
	f.ask("GET", f.dish+"/tags", nil, &tags)
	var found recipeList
	f.ask("GET", f.base+"/recipes?tag=soup&q=chowder", nil, &found)
	assert.Equal(t, 1, found.All)
	f.ask("GET", f.base+"/recipes?tag=cake", nil, &found)
	assert.Zero(t, found.All)

	var like alikeAnswer
	f.ask("POST", f.base+"/alike", map[string]any{"text": f.text}, &like)
	require.NotNil(t, like.Recipe)
	f.ask("POST", f.base+"/alike", map[string]any{"text": f.text, "except": like.Recipe.ID}, &like)

	var made madeAnswer
	f.ask("POST", f.dish+"/made", map[string]any{"version": f.version, "rating": 4, "remark": "thicker next time"}, &made)
	assert.Equal(t, "gladly again", made.Words)
	assert.EqualValues(t, "2026-03-01", made.Date, "today where no day is said")
	f.ask("GET", f.dish+"/made", nil, &madeList{})
	f.ask("DELETE", fmt.Sprintf("%s/made/%d", f.dish, made.ID), nil, nil)

	var rules ruleList
	f.ask("GET", "/api/v1/rules", nil, &rules)
	f.ask("PUT", f.base+"/refusals/"+rules.Rules[0].ID, nil, nil)
	var never refusalList
	f.ask("GET", f.base+"/refusals", nil, &never)
	assert.Equal(t, []string{rules.Rules[0].ID}, never.Rules)
	f.ask("DELETE", f.base+"/refusals/"+rules.Rules[0].ID, nil, nil)
}

func versions(f furnished, t *testing.T) {
	var history versionList
	resp := f.ask("GET", f.dish+"/versions?most=1", nil, &history)
	require.Len(t, history.Versions, 1)
	assert.Greater(t, history.All, 1)
	assert.NotEmpty(t, resp.Header.Get("ETag"))
	f.ask("GET", history.Next, nil, &history)
	require.Len(t, history.Versions, 1)
	second := history.Versions[0]
	assert.NotEmpty(t, second.Plates, "an adapted version keeps everyone's plate")
	var two compareAnswer
	f.ask("GET", fmt.Sprintf("%s/compare?a=%d&b=%d", f.dish, f.version, second.ID), nil, &two)
	assert.NotEmpty(t, two.Lines)
	assert.Greater(t, two.PerServingA["sodium_mg"].Mid, two.PerServingB["sodium_mg"].Mid)
	var again versionAnswer
	f.ask("POST", f.of("again"), map[string]any{"note": "as it was"}, &again)
	assert.Equal(t, f.version, again.ParentID)
	fixed := map[string]any{"parent": again.ID, "text": f.text, "fixes": map[string]any{"0": map[string]any{"skip": true}}}
	f.ask("POST", f.dish+"/versions", fixed, &again)
	f.ask("POST", f.dish+"/versions", map[string]any{"parent": again.ID, "text": f.text + "\nServe warm."}, &again)
	assert.True(t, again.Fixes[0].Skip, "the line did not change, so its correction stays")
	assert.Contains(t, f.text, again.Corrections[0].Words)
	var bare versionAnswer
	f.ask("POST", f.dish+"/versions", map[string]any{"parent": again.ID, "text": f.text, "fixes": map[string]any{}}, &bare)
	assert.Empty(t, bare.Fixes, "none are sent")
	var stray versionAnswer
	gone := map[string]any{"words": "9 left shoes", "food_id": "sr:01001"}
	f.ask("POST", f.dish+"/versions", map[string]any{"parent": bare.ID, "text": f.text, "corrections": []any{gone, map[string]any{"at": 1, "words": "", "skip": true}}}, &stray)
	assert.Len(t, stray.Corrections, 2, "what has no line is kept")
	assert.Empty(t, stray.Fixes, "and is of no other line")
	var read kitchen.AnalysisDocument
	f.ask("POST", f.base+"/analyse", map[string]any{"version": stray.ID}, &read)
	assert.Contains(t, read.Notes, "The correction made for “9 left shoes” no longer has its line, so it is not used.")
	var scaled kitchen.ScaledRecipe
	f.ask("GET", f.of("scaled?servings=9"), nil, &scaled)
	assert.Contains(t, scaled.Text, "9")
	var cooking cookingAnswer
	f.ask("GET", f.of("cook?servings=12"), nil, &cooking)
	assert.NotEmpty(t, cooking.Notes, "what a larger batch changes")
	assert.NotEmpty(t, cooking.Steps)
	assert.NotEmpty(t, cooking.Plates)
	f.ask("GET", fmt.Sprintf("%s/versions/%d/claims", f.base, second.ID), nil, &claimsAnswer{})
}

func forms(f furnished, t *testing.T) {
	for _, name := range []string{"text", "markdown", "jsonld", "figures.csv", "figures.txt"} {
		resp, text := f.send("GET", f.of(name), "", nil)
		assert.Equal(t, http.StatusOK, resp.StatusCode, name)
		assert.Contains(t, resp.Header.Get("Content-Disposition"), "attachment")
		if name == "jsonld" {
			var back versionAnswer
			f.ask("POST", f.base+"/recipes", map[string]any{"text": string(text)}, &back)
			assert.NotZero(t, back.ID, "what is written for others is read again")
		}
	}
	_, given := f.send("GET", f.dish+"/file", "", nil)
	resp, text := f.send("POST", f.base+"/recipes/file", archiveKind, given)
	require.Equal(t, http.StatusCreated, resp.StatusCode, string(text))
	_, whole := f.send("GET", f.base+"/archive", "", nil)
	resp, text = f.send("POST", "/api/v1/archives", archiveKind, whole)
	require.Equal(t, http.StatusCreated, resp.StatusCode, string(text))
	var taken takenHouseholds
	require.NoError(t, json.Unmarshal(text, &taken))
	require.Len(t, taken.Households, 1)
	assert.Equal(t, "Quay Lane (2)", taken.Households[0].Name)
	resp, _ = f.send("POST", "/api/v1/archives", archiveKind, []byte("no zip"))
	assert.Equal(t, http.StatusUnprocessableEntity, resp.StatusCode)
	resp, _ = f.send("POST", "/api/v1/archives", "text/plain", whole)
	assert.Equal(t, http.StatusUnsupportedMediaType, resp.StatusCode)
}

func meals(f furnished, t *testing.T) {
	var whole, half struct{ Members []kitchen.MemberDocument }
	f.ask("POST", f.base+"/check", map[string]any{"version": f.version}, &whole)
	f.ask("POST", f.base+"/check", map[string]any{"version": f.version, "portions": map[string]float64{"Ana": 0.5}, "today": true}, &half)
	assert.InEpsilon(t, whole.Members[0].Plate["sodium_mg"].Mid/2, half.Members[0].Plate["sodium_mg"].Mid, 0.01)
	var p problem
	f.ask("POST", f.base+"/check", map[string]any{"version": f.version, "portions": map[string]float64{"Ana": 50}}, &p)
	require.Len(t, p.Faults, 1)
	assert.Equal(t, "portions.Ana", p.Faults[0].Field)
	var meal mealAnswer
	f.ask("POST", f.base+"/meal", map[string]any{"dishes": []any{map[string]any{"version": f.version}, map[string]any{"text": f.text, "servings": 0.5}}, "members": []string{"Ana"}}, &meal)
	require.Len(t, meal.Members, 1)
	var alone struct {
		PerServing kitchen.Amounts `json:"per_serving"`
	}
	f.ask("POST", f.base+"/analyse", map[string]any{"version": f.version}, &alone)
	assert.InEpsilon(t, 1.5*alone.PerServing["sodium_mg"].Mid, meal.Members[0].Sum[composition.Sodium].Mid, 0.01, "one and a half servings")
	resp := f.ask("POST", f.base+"/meal", map[string]any{"dishes": []any{}}, nil)
	assert.Equal(t, http.StatusUnprocessableEntity, resp.StatusCode)
	var list recipeList
	f.ask("GET", f.base+"/recipes", nil, &list)
	var bought purchasesAnswer
	f.ask("GET", fmt.Sprintf("%s/shopping?recipe=%d&recipe=%d", f.base, list.Recipes[0].ID, list.Recipes[len(list.Recipes)-1].ID), nil, &bought)
	assert.NotEmpty(t, bought.Items)
	resp = f.ask("GET", f.base+"/shopping", nil, nil)
	assert.Equal(t, http.StatusBadRequest, resp.StatusCode)
}

func days(f furnished, t *testing.T) {
	helping := []any{map[string]any{"member": f.member, "servings": 0.5}}
	var eaten entryList
	f.ask("POST", f.base+"/day/dish", map[string]any{"version": f.version, "meal": "evening", "helpings": helping}, &eaten)
	require.Len(t, eaten.Entries, 1)
	assert.EqualValues(t, "eaten", eaten.Entries[0].State)
	f.ask("POST", f.base+"/day/dish", map[string]any{"version": f.version, "meal": "midday", "date": "2026-03-03",
		"helpings": []any{map[string]any{"member": f.member, "grams": 200}}}, &eaten)
	require.Len(t, eaten.Entries, 1)
	assert.EqualValues(t, "planned", eaten.Entries[0].State)
	assert.InDelta(t, 200, eaten.Entries[0].Grams.Mid, 1e-9)
	f.ask("POST", f.base+"/day/food", map[string]any{"food": "sr:01001", "meal": "morning", "grams": 10, "members": []int64{f.member}}, &eaten)
	entry := fmt.Sprintf("%s/entries/%d", f.base, eaten.Entries[0].ID)
	f.ask("POST", f.base+"/day/food", map[string]any{"food": "sr:01001", "meal": "morning", "count": 1, "members": []int64{f.member}}, &eaten)
	resp := f.ask("GET", entry, nil, &entryAnswer{})
	tag := resp.Header.Get("ETag")
	f.ask("PUT", entry, map[string]any{"date": "2026-02-28", "meal": "between"}, nil)
	status, text := f.conditional("DELETE", entry, tag)
	assert.Equal(t, http.StatusPreconditionFailed, status, text)
	assert.Contains(t, text, "read it again")
	var day dayAnswer
	f.ask("GET", f.base+"/day", nil, &day)
	assert.EqualValues(t, "2026-03-01", day.Date)
	require.NotEmpty(t, day.Members)
	assert.NotZero(t, day.Members[0].Sum[composition.Sodium].Mid)
	var week weekAnswer
	f.ask("GET", f.base+"/week?date=2026-03-03", nil, &week)
	require.Len(t, week.Days, 7)
	assert.EqualValues(t, "2026-03-02", week.Days[0].Date, "Monday first")
	assert.Len(t, week.Planned, 1)
	f.ask("DELETE", entry, nil, nil)
	for _, wrong := range []map[string]any{
		{"version": f.version, "meal": "brunch", "helpings": helping},
		{"version": f.version, "meal": "evening", "helpings": []any{}},
		{"version": f.version, "meal": "evening", "helpings": []any{map[string]any{"member": 999}}},
		{"version": f.version, "meal": "evening", "date": "1 March", "helpings": helping},
		{"version": f.version, "meal": "evening", "helpings": []any{map[string]any{"member": f.member, "servings": 99}}},
	} {
		var p problem
		resp := f.ask("POST", f.base+"/day/dish", wrong, &p)
		assert.Equal(t, http.StatusUnprocessableEntity, resp.StatusCode, "%v", wrong)
		assert.Contains(t, p.Detail, "expected", "%v", wrong)
	}
}

// conditional sends a request that only holds for what had the tag.
func (d *door) conditional(method, path, tag string) (status int, text string) {
	d.t.Helper()
	req, err := http.NewRequest(method, d.server.URL+path, strings.NewReader("{}"))
	require.NoError(d.t, err)
	req.Header.Set("If-Match", tag)
	req.Header.Set("Content-Type", "application/json")
	resp, err := http.DefaultClient.Do(req)
	require.NoError(d.t, err)
	defer resp.Body.Close()
	b, err := io.ReadAll(resp.Body)
	require.NoError(d.t, err)
	return resp.StatusCode, string(b)
}

func freezer(f furnished, t *testing.T) {
	var parts portionsAnswer
	f.ask("GET", f.of("portions?size=2&made=2026-03-01"), nil, &parts)
	assert.Positive(t, parts.Full)
	assert.NotEmpty(t, parts.Members)
	var in containerList
	f.ask("POST", f.of("containers"), map[string]any{"count": 2, "size": 1, "made": "2026-02-01"}, &in)
	require.Len(t, in.Containers, 2)
	f.ask("GET", f.base+"/freezer", nil, &in)
	box := fmt.Sprintf("%s/freezer/%d", f.base, in.Containers[0].ID)
	f.ask("GET", box, nil, &containerAnswer{})
	f.ask("POST", box+"/out", map[string]any{"meal": "evening", "helpings": []any{map[string]any{"member": f.member}}}, nil)
	resp := f.ask("POST", box+"/out", map[string]any{}, nil)
	assert.Equal(t, http.StatusNotFound, resp.StatusCode, "it is out")
	resp = f.ask("POST", f.of("containers"), map[string]any{"count": 1, "size": 1, "by": "stones"}, nil)
	assert.Equal(t, http.StatusUnprocessableEntity, resp.StatusCode)
}

func pantry(f furnished, t *testing.T) {
	label := map[string]any{"name": "pier beans", "panel": "us", "serving": "1/2 cup (130 g)", "figures": map[string]string{"sodium_mg": "20", "energy_kcal": "110"}}
	var reading readingAnswer
	f.ask("POST", f.base+"/products/read", label, &reading)
	assert.NotEmpty(t, reading.Food.Per100g)
	var kept struct{ ID int64 }
	f.ask("POST", f.base+"/products", label, &kept)
	var product keptProduct
	f.ask("GET", fmt.Sprintf("%s/products/%d", f.base, kept.ID), nil, &product)
	assert.NotNil(t, product.Reading)
	var found foodList
	f.ask("GET", f.base+"/foods?q=pier+beans", nil, &found)
	require.NotEmpty(t, found.Foods)
	assert.Equal(t, fmt.Sprintf("own:%d", kept.ID), found.Foods[0].ID)
}

func entrance(f furnished, t *testing.T) {
	var account accountAnswer
	f.ask("POST", f.base+"/accounts", map[string]any{"name": "ana", "role": "keeper", "passphrase": "four plain words here"}, &account)
	f.ask("GET", f.base+"/accounts", nil, &accountList{})
	one := fmt.Sprintf("%s/accounts/%d", f.base, account.ID)
	resp := f.ask("DELETE", one, nil, nil)
	assert.Equal(t, http.StatusConflict, resp.StatusCode, "the last keeper stays")
	f.ask("POST", f.base+"/accounts", map[string]any{"name": "ben", "role": "cook", "passphrase": "four other words here"}, &account)
	resp = f.ask("POST", f.base+"/accounts", map[string]any{"name": "ben", "role": "cook", "passphrase": "four other words here"}, nil)
	assert.Equal(t, http.StatusConflict, resp.StatusCode)
	one = fmt.Sprintf("%s/accounts/%d", f.base, account.ID)
	f.ask("PUT", one, map[string]any{"role": "eater", "passphrase": "five quite other words"}, nil)
	f.ask("DELETE", one, nil, nil)
	resp = f.ask("POST", f.base+"/accounts", map[string]any{"name": "cora", "role": "cook", "passphrase": "short"}, nil)
	assert.Equal(t, http.StatusUnprocessableEntity, resp.StatusCode)

	var secret secretAnswer
	f.ask("POST", f.base+"/tokens", map[string]any{"name": "clock", "role": "eater"}, &secret)
	assert.NotEmpty(t, secret.Secret)
	var tokens tokenList
	f.ask("GET", f.base+"/tokens", nil, &tokens)
	require.Len(t, tokens.Tokens, 1)
	f.ask("DELETE", fmt.Sprintf("%s/tokens/%d", f.base, tokens.Tokens[0].ID), nil, nil)
	f.ask("GET", "/api/v1/me", nil, &callerAnswer{})

	f.ask("POST", f.dish+"/links", map[string]any{"version": f.version}, &secret)
	var shown sharedAnswer
	f.ask("GET", "/api/v1/shared/"+secret.Secret, nil, &shown)
	assert.NotEmpty(t, shown.Text)
	var links linkList
	f.ask("GET", f.dish+"/links", nil, &links)
	require.Len(t, links.Links, 1)
	f.ask("DELETE", fmt.Sprintf("%s/links/%d", f.dish, links.Links[0].ID), nil, nil)
	resp = f.ask("GET", "/api/v1/shared/"+secret.Secret, nil, nil)
	assert.Equal(t, http.StatusNotFound, resp.StatusCode)
}

func book(f furnished, t *testing.T) {
	var entries bookAnswer
	f.ask("GET", "/api/v1/rulebook", nil, &entries)
	for _, e := range entries.Entries {
		assert.NotEmpty(t, e.Source, "%s %s", e.Sort, e.ID)
		assert.NotEmpty(t, e.File, "%s %s", e.Sort, e.ID)
	}
	f.ask("GET", "/api/v1/rulebook?sort=keeping", nil, &entries)
	assert.NotEmpty(t, entries.Entries)
	var said aboutAnswer
	f.ask("GET", "/api/v1/about", nil, &said)
	assert.Equal(t, Version, said.API)
	f.ask("POST", "/api/v1/demo", nil, nil)
}
