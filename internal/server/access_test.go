package server_test

import (
	"encoding/json"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/gin-gonic/gin"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/access"
	"potwright/internal/server"
)

const passphrase = "four plain words here"

// street is a server for two households with all roles, each signed in as needed.
type street struct {
	*house
	routes gin.RoutesInfo
	mine   map[string]string // what the names in my household's routes stand for
	theirs map[string]string
	dish   string
	share  string // address of a share link to my dish
}

func newStreet(t *testing.T) *street {
	t.Helper()
	s := &street{}
	s.house = newHouse(t, func(r gin.IRouter) {
		r.POST("/h/:hid/novel", func(c *gin.Context) { c.String(http.StatusOK, "done") })
		s.routes = r.(*gin.Engine).Routes()
	})
	base, dish := s.furnish()
	s.dish = dish
	other, _, _ := strings.Cut(s.must("/", "name", "Mill Row"), "/people")
	theirDish, _, _ := strings.Cut(s.must(other+"/recipes/new", "text", potText), "?")
	s.mine, s.theirs = placesOf(base, dish), placesOf(other, theirDish)
	s.share = madeIn(t, s.post(dish+"/share"))
	gate := access.NewGate(s.store, time.Now)
	for _, a := range []access.Account{{Name: "ana", HouseholdID: 1, Role: access.Keeper}, {Name: "cora", HouseholdID: 1, Role: access.Cook},
		{Name: "ed", HouseholdID: 1, Role: access.Eater}, {Name: "mel", HouseholdID: 2, Role: access.Keeper}} {
		_, err := gate.Open(t.Context(), a, passphrase)
		require.NoError(t, err)
	}
	return s
}

func placesOf(base, dish string) map[string]string {
	_, hid, _ := strings.Cut(base, "/h/")
	_, rid, _ := strings.Cut(dish, "/recipes/")
	return map[string]string{":hid": hid, ":household_id": hid, ":rid": rid, ":recipe_id": rid, ":vid": rid, ":version_id": rid}
}

var routeName = regexp.MustCompile(`:[a-z_]+`)

// path is an address of a route, with 1 for what stands for nothing else.
func path(route string, names map[string]string) string {
	return routeName.ReplaceAllStringFunc(route, func(name string) string {
		if v, ok := names[name]; ok {
			return v
		}
		return "1"
	})
}

// madeIn is the address or token that a page shows this once.
func madeIn(t *testing.T, r reply) string {
	t.Helper()
	require.Equal(t, http.StatusOK, r.StatusCode)
	return valueOf(parse(t, r), "made")
}

// as is the server as one who signed in.
func (s *street) as(name string) *house {
	s.t.Helper()
	r := s.post("/login", "name", name, "passphrase", passphrase)
	require.Equal(s.t, http.StatusSeeOther, r.StatusCode, r.body)
	h := *s.house
	h.cookie = cookieOf(r)
	return &h
}

func cookieOf(r reply) string {
	for _, c := range r.Cookies() {
		return c.Name + "=" + c.Value
	}
	return ""
}

// try asks a route with a body of its kind.
func (h *house) try(route gin.RouteInfo, names map[string]string) reply {
	kind, body := "application/x-www-form-urlencoded", ""
	if strings.HasPrefix(route.Path, "/api/") {
		kind, body = "application/json", "{}"
	}
	return h.ask(route.Method, path(route.Path, names), kind, body)
}

// held is all that a household keeps, as text.
func (s *street) held(id int64) string {
	s.t.Helper()
	h, err := s.store.Holdings(s.t.Context(), id)
	require.NoError(s.t, err)
	b, err := json.Marshal(h)
	require.NoError(s.t, err)
	return string(b)
}

func TestWhoIsNotSignedInSeesNothing(t *testing.T) {
	s := newStreet(t)
	before := s.held(1)
	for _, route := range s.routes {
		if slices.Contains([]string{"/healthz", "/static/:file", "/login", "/share/:secret", "/share/:secret/photos/:digest/:file", "/api/v1/shared/:secret"}, route.Path) {
			continue
		}
		r := s.try(route, s.mine)
		switch {
		case strings.HasPrefix(route.Path, "/api/"):
			assert.Equal(t, http.StatusUnauthorized, r.StatusCode, "%s %s", route.Method, route.Path)
			assert.Contains(t, r.Header.Get("WWW-Authenticate"), "Bearer")
		case route.Method == http.MethodGet:
			assert.Equal(t, http.StatusSeeOther, r.StatusCode, "%s %s", route.Method, route.Path)
			assert.Contains(t, r.Header.Get("Location"), "/login?next=")
		default:
			assert.Equal(t, http.StatusUnauthorized, r.StatusCode, "%s %s", route.Method, route.Path)
			assert.Contains(t, r.body, "Nothing was saved")
		}
		assert.NotContains(t, r.body, "Quay Lane", route.Path)
	}
	assert.Equal(t, before, s.held(1))
}

func TestAnotherHouseholdIsNotThereOnAnyRoute(t *testing.T) {
	s := newStreet(t)
	ana, before, walked := s.as("ana"), s.held(2), 0
	for _, route := range s.routes {
		if !strings.Contains(route.Path, ":hid") && !strings.Contains(route.Path, ":household_id") {
			continue
		}
		walked++
		r := ana.try(route, s.theirs)
		assert.Equal(t, http.StatusNotFound, r.StatusCode, "%s %s", route.Method, route.Path)
		assert.NotContains(t, r.body, "Mill Row")
		// Their things under my own household's address.
		mixed := map[string]string{}
		for k, v := range s.theirs {
			mixed[k] = v
		}
		mixed[":hid"], mixed[":household_id"] = s.mine[":hid"], s.mine[":household_id"]
		if strings.Contains(route.Path, ":rid") || strings.Contains(route.Path, ":recipe_id") || strings.Contains(route.Path, ":version_id") {
			status := ana.try(route, mixed).StatusCode
			assert.Contains(t, []int{http.StatusNotFound, http.StatusBadRequest, http.StatusUnprocessableEntity, http.StatusUnsupportedMediaType}, status, "%s %s", route.Method, route.Path)
		}
	}
	assert.Greater(t, walked, 80)
	assert.Equal(t, before, s.held(2))
	assert.NotContains(t, ana.get("/?list").body, "Mill Row")
	assert.NotContains(t, ana.get("/api/v1/households").body, "Mill Row")
	assert.Contains(t, ana.get("/api/v1/households").body, "Quay Lane")
}

// eaters and keepers are the routes that change something for each; the rest is the
// cook's too. A route that is new and not the keeper's belongs into permission.go.
var (
	eaters = []string{"/h/:hid/sweep/stop", "/logout", "/login", "/h/:hid/day/dish", "/h/:hid/day/food", "/h/:hid/day/entries/:eid", "/h/:hid/freezer/:cid",
		"/h/:hid/account/passphrase", "/h/:hid/account/sessions/:sid/end",
		ofDoor + "/day/dish", ofDoor + "/day/food", ofDoor + "/entries/:entry_id", ofDoor + "/freezer/:container_id/out"}
	keepers = []string{"/", "/demo", "/h/:hid/novel", "/h/:hid/people", "/h/:hid/people/new", "/h/:hid/people/:mid", "/h/:hid/people/:mid/remove",
		"/h/:hid/accounts/new", "/h/:hid/accounts/:aid", "/h/:hid/accounts/:aid/remove", "/h/:hid/tokens/new", "/h/:hid/tokens/:tid/revoke",
		"/h/:hid/recipes/:rid/share", "/h/:hid/recipes/:rid/share/:link/revoke", "/api/v1/households", "/api/v1/archives", "/api/v1/demo", ofDoor,
		ofDoor + "/accounts", ofDoor + "/accounts/:account_id", ofDoor + "/tokens", ofDoor + "/tokens/:token_id",
		ofDoor + "/recipes/:recipe_id/links", ofDoor + "/recipes/:recipe_id/links/:link_id"}
	onlyRead  = []string{"/analyse", "/check", "/adapt", "/report", "/tradeoff", "/meal", "/alike", "/products/read"} // of the JSON door
	keepersOf = []string{"/archive", "/accounts", "/tokens", "/recipes/:recipe_id/links"}                             // what is only looked at
)

const ofDoor = "/api/v1/households/:household_id"

func TestEachRoleDoesWhatIsItsOwn(t *testing.T) {
	s := newStreet(t)
	ed, cora, before := s.as("ed"), s.as("cora"), s.held(1)
	for _, route := range s.routes {
		reads := strings.HasPrefix(route.Path, "/api/") && slices.ContainsFunc(onlyRead, func(end string) bool { return strings.HasSuffix(route.Path, ":household_id"+end) })
		if route.Method == http.MethodGet || slices.Contains(eaters, route.Path) || reads {
			continue
		}
		r := ed.try(route, s.mine)
		assert.Equal(t, http.StatusForbidden, r.StatusCode, "an eater: %s %s", route.Method, route.Path)
		assert.Regexp(t, "(?i)only a keeper|only whoever keeps", r.body)
		if slices.Contains(keepers, route.Path) {
			assert.Equal(t, http.StatusForbidden, cora.try(route, s.mine).StatusCode, "a cook: %s %s", route.Method, route.Path)
		}
	}
	assert.Equal(t, before, s.held(1))
	for _, route := range s.routes {
		if route.Method == http.MethodGet && strings.HasPrefix(route.Path, "/h/:hid") {
			assert.NotEqual(t, http.StatusForbidden, ed.try(route, s.mine).StatusCode, "an eater reads %s", route.Path)
		}
		if route.Method != http.MethodGet && !slices.Contains(keepers, route.Path) && !strings.Contains(route.Path, "account") && route.Path != "/logout" {
			assert.NotEqual(t, http.StatusForbidden, cora.try(route, s.mine).StatusCode, "a cook: %s %s; name it in permission.go, or here as the keeper's", route.Method, route.Path)
		}
	}
	for _, end := range keepersOf {
		route := gin.RouteInfo{Method: http.MethodGet, Path: ofDoor + end}
		assert.Equal(t, http.StatusForbidden, cora.try(route, s.mine).StatusCode, "a cook looks at %s", end)
		assert.Equal(t, http.StatusOK, s.as("ana").try(route, s.mine).StatusCode, "a keeper looks at %s", end)
	}
	assert.Equal(t, http.StatusOK, s.as("ana").post("/h/1/novel").StatusCode, "what no table knows is the keeper's")
	assert.Equal(t, http.StatusForbidden, s.as("ana").post("/", "name", "Third").StatusCode)
}

func TestASessionEndsWhenItIsRevoked(t *testing.T) {
	s := newStreet(t)
	one, two, other := s.as("ana"), s.as("ana"), s.as("mel")
	page := two.get("/h/1/account")
	require.Equal(t, http.StatusOK, page.StatusCode)
	ends := regexp.MustCompile(`/h/1/account/sessions/([1-9]\d*)/end`).FindAllStringSubmatch(page.body, -1)
	require.Len(t, ends, 2)
	assert.Equal(t, http.StatusNotFound, other.post(strings.Replace(ends[1][0], "/h/1/", "/h/2/", 1)).StatusCode, "someone else's")
	two.must(ends[1][0])
	open := 0
	for _, h := range []*house{one, two} {
		if h.get("/h/1/table").StatusCode == http.StatusOK {
			open++
		}
	}
	assert.Equal(t, 1, open)
	again := s.as("ana")
	again.must("/h/1/account/sessions/0/end")
	for _, h := range []*house{one, two, again} {
		assert.Equal(t, http.StatusSeeOther, h.get("/h/1/table").StatusCode)
	}
	out := s.as("ana")
	out.must("/logout")
	assert.Equal(t, http.StatusSeeOther, out.get("/h/1/table").StatusCode, "the secret opens nothing once signed out")
}

func TestANewPassphraseSignsOutEverywhereElse(t *testing.T) {
	s := newStreet(t)
	one, two := s.as("ed"), s.as("ed")
	assert.Equal(t, http.StatusUnprocessableEntity, one.post("/h/1/account/passphrase", "old", "not the right one here", "new", "five other plain words here").StatusCode)
	r := one.post("/h/1/account/passphrase", "old", passphrase, "new", "five other plain words here")
	require.Equal(t, http.StatusSeeOther, r.StatusCode, alertOf(t, r.body))
	assert.Equal(t, http.StatusSeeOther, one.get("/h/1/table").StatusCode, "the secret is a new one")
	one.cookie = cookieOf(r)
	assert.Equal(t, http.StatusOK, one.get("/h/1/table").StatusCode)
	assert.Equal(t, http.StatusSeeOther, two.get("/h/1/table").StatusCode)
	assert.Equal(t, http.StatusUnauthorized, s.post("/login", "name", "ed", "passphrase", passphrase).StatusCode)
}

func TestTheSecretIsNewAtEachLogin(t *testing.T) {
	s := newStreet(t)
	planted := *s.house
	planted.cookie = "potwright=" + access.NewSecret()
	r := planted.post("/login", "name", "ana", "passphrase", passphrase)
	require.Equal(t, http.StatusSeeOther, r.StatusCode)
	assert.NotEqual(t, planted.cookie, cookieOf(r), "a secret that someone else put there is not taken")
	assert.Equal(t, http.StatusSeeOther, planted.get("/h/1/table").StatusCode)
	first := *s.house
	first.cookie = cookieOf(r)
	r = first.post("/login", "name", "ana", "passphrase", passphrase)
	assert.NotEqual(t, first.cookie, cookieOf(r))
	assert.Equal(t, http.StatusSeeOther, first.get("/h/1/table").StatusCode, "the one before opens nothing any more")
	c := r.Cookies()[0]
	assert.True(t, c.HttpOnly)
	assert.Equal(t, http.SameSiteLaxMode, c.SameSite)
	assert.Equal(t, "/", c.Path)
}

func TestAFloodOfLoginsIsHeldBack(t *testing.T) {
	s := newStreet(t)
	signed := s.as("ana")
	unknown := s.post("/login", "name", "nobody", "passphrase", "wrong wrong wrong wrong")
	wrong := s.post("/login", "name", "ana", "passphrase", "wrong wrong wrong wrong")
	assert.Equal(t, unknown.StatusCode, wrong.StatusCode)
	assert.Equal(t, strings.Replace(unknown.body, "nobody", "ana", 1), wrong.body, "the answer tells nobody which names exist")
	statuses := map[int]int{}
	for range 20 {
		statuses[s.post("/login", "name", "ana", "passphrase", "wrong wrong wrong wrong").StatusCode]++
	}
	assert.Equal(t, map[int]int{http.StatusUnauthorized: 7, http.StatusTooManyRequests: 13}, statuses)
	r := s.post("/login", "name", "ana", "passphrase", passphrase)
	assert.Equal(t, http.StatusTooManyRequests, r.StatusCode, "also with the right one")
	assert.NotEmpty(t, r.Header.Get("Retry-After"))
	assert.Equal(t, http.StatusOK, signed.get("/h/1/table").StatusCode, "who is in stays in")
}

func TestAFloodFromElsewhereLocksTheOwnerNotOut(t *testing.T) {
	var moved atomic.Int64
	s := newStreet(t)
	cfg := config(t, s.store)
	cfg.Access, cfg.Front, cfg.Log = s.store, server.Front{Address: "127.0.0.1:0", Forwarded: true}, slog.New(slog.DiscardHandler)
	cfg.Now = func() time.Time { return time.Now().Add(time.Duration(moved.Load())) }
	handler, err := server.New(cfg)
	require.NoError(t, err)
	ts := httptest.NewServer(handler)
	defer ts.Close()
	try := func(from, passphrase string) reply {
		req, err := http.NewRequestWithContext(t.Context(), http.MethodPost, ts.URL+"/login", strings.NewReader(url.Values{"name": {"ana"}, "passphrase": {passphrase}}.Encode()))
		require.NoError(t, err)
		req.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		req.Header.Set("X-Forwarded-For", "203.0.113.99, "+from) // what a visitor sends stands before what the server in front adds
		return s.send(req)
	}
	in := try("192.0.2.1", passphrase)
	require.Equal(t, http.StatusSeeOther, in.StatusCode)
	signed := &house{t: t, url: ts.URL, store: s.store, cookie: cookieOf(in)}
	for hour := range 2 {
		for range 12 {
			try("198.51.100.7", "wrong wrong wrong wrong")
		}
		assert.Equal(t, http.StatusTooManyRequests, try("198.51.100.7", passphrase).StatusCode, "where the flood comes from")
		assert.Equal(t, http.StatusSeeOther, try("192.0.2.1", passphrase).StatusCode, "hour %d: the owner at home", hour)
		r := signed.post("/h/1/account/passphrase", "old", "wrong wrong wrong wrong", "new", "four other plain words")
		assert.Contains(t, r.body, "not the passphrase so far", "who is signed in may try")
		moved.Add(int64(time.Hour))
	}
}

func TestATokenOpensTheJSONDoorUntilItIsRevoked(t *testing.T) {
	s := newStreet(t)
	ana := s.as("ana")
	r := ana.post("/h/1/tokens/new", "client", "<script>clock</script>", "token_role", "eater")
	assert.NotContains(t, r.body, "<script>clock")
	client := *s.house
	client.token = madeIn(t, r)
	assert.Equal(t, http.StatusOK, client.get("/api/v1/households/1").StatusCode)
	assert.Equal(t, http.StatusNotFound, client.get("/api/v1/households/2").StatusCode)
	assert.Equal(t, http.StatusSeeOther, client.get("/h/1/table").StatusCode, "no page")
	assert.Equal(t, http.StatusForbidden, client.ask(http.MethodPost, "/api/v1/households/1/recipes", "application/json", "{}").StatusCode)
	page := ana.get("/h/1/account").body
	assert.NotContains(t, page, client.token, "shown once")
	assert.Contains(t, page, "last used")
	ana.must("/h/1/tokens/1/revoke")
	assert.Equal(t, http.StatusUnauthorized, client.get("/api/v1/households/1").StatusCode)
}

func TestAShareLinkShowsTheCardAndNothingOfTheHousehold(t *testing.T) {
	s := newStreet(t)
	address := strings.TrimPrefix(s.share, s.url)
	r := s.get(address)
	require.Equal(t, http.StatusOK, r.StatusCode)
	for _, said := range []string{"Harbour bean pot", "kidney beans", "sodium", "Allergens"} {
		assert.Contains(t, r.body, said)
	}
	for _, secret := range []string{"Quay Lane", "Ana", "Ben", "600", "from the quay", "/h/1", "Onto each plate"} {
		assert.NotContains(t, r.body, secret)
	}
	assert.Equal(t, "no-referrer", r.Header.Get("Referrer-Policy"))
	assert.Contains(t, r.Header.Get("X-Robots-Tag"), "noindex")
	assert.Equal(t, "no-store", r.Header.Get("Cache-Control"))
	checkPage(t, address, parse(t, r))
	ana := s.as("ana")
	ana.must(s.dish+"/edit", "text", strings.Replace(potText, "1 tsp salt", "Saffron, for Ana", 1))
	assert.NotContains(t, s.get(address).body, "Saffron", "what is saved later is not shown")
	ana.must(s.dish + "/share/1/revoke")
	assert.Equal(t, http.StatusNotFound, s.get(address).StatusCode)
	assert.Equal(t, http.StatusNotFound, s.get("/share/"+access.NewSecret()).StatusCode)
}

func TestForgedAndOversizedFormsDoNothing(t *testing.T) {
	s := newStreet(t)
	ana := s.as("ana")
	before := s.held(1)
	for _, route := range s.routes {
		if route.Method == http.MethodGet {
			continue
		}
		req, err := http.NewRequestWithContext(t.Context(), route.Method, s.url+path(route.Path, s.mine), strings.NewReader("name=x"))
		require.NoError(t, err)
		req.Header.Set("Origin", "https://elsewhere.example")
		req.Header.Set("Cookie", ana.cookie)
		req.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		assert.Equal(t, http.StatusForbidden, s.send(req).StatusCode, "%s %s", route.Method, route.Path)
	}
	for _, to := range []string{"/login", "/h/1/accounts/new", "/h/1/tokens/new"} {
		r := ana.post(to, "name", strings.Repeat("a", 9<<20))
		assert.Contains(t, []int{http.StatusUnauthorized, http.StatusRequestEntityTooLarge, http.StatusUnprocessableEntity}, r.StatusCode, to)
		assert.Less(t, len(r.body), 1<<16, to)
	}
	assert.Equal(t, before, s.held(1))
}

func TestAnAccountsNameIsTextOnEveryPage(t *testing.T) {
	s := newStreet(t)
	ana := s.as("ana")
	const script = `"><script>alert(1)</script>`
	ana.must("/h/1/accounts/new", "name", script, "role", "keeper", "passphrase", passphrase)
	evil := s.as(script)
	for _, h := range []*house{ana, evil} {
		r := h.get("/h/1/account")
		require.Equal(t, http.StatusOK, r.StatusCode)
		assert.NotContains(t, r.body, "<script>alert")
		checkPage(t, "/h/1/account", parse(t, r))
	}
	assert.NotContains(t, s.post("/login", "name", script, "passphrase", script, "next", script).body, "<script>alert")
	assert.NotContains(t, s.get("/login?next="+script).body, "<script>alert")
	for typed, want := range map[string]string{"//elsewhere.example": "/", "https://elsewhere.example": "/", "/\\elsewhere.example": "/", "/h/1/week": "/h/1/week"} {
		r := s.post("/login", "name", "mel", "passphrase", passphrase, "next", typed)
		assert.Equal(t, want, r.Header.Get("Location"), typed)
	}
}

func TestTheLastKeeperStays(t *testing.T) {
	s := newStreet(t)
	mel := s.as("mel")
	r := mel.post("/h/2/accounts/4", "role_4", "eater")
	assert.Equal(t, http.StatusUnprocessableEntity, r.StatusCode)
	assert.Contains(t, r.body, "no keeper")
}

func TestNamesTheServerAnswersTo(t *testing.T) {
	for _, c := range []struct {
		front server.Front
		host  string
		want  bool
	}{
		{server.Front{Address: "127.0.0.1:8097"}, "192.168.1.7:8097", false},
		{server.Front{Address: "127.0.0.1:8097"}, "localhost:8097", true},
		{server.Front{Address: "0.0.0.0:8097"}, "192.168.1.7:8097", true},
		{server.Front{Address: ":8097"}, "192.168.1.7:8097", true},
		{server.Front{Address: "192.168.1.7:8097"}, "192.168.1.7:8097", true},
		{server.Front{Address: "192.168.1.7:8097"}, "192.168.1.8:8097", false},
		{server.Front{Address: "0.0.0.0:8097"}, "kitchen.home", false},
		{server.Front{Address: "0.0.0.0:8097", Hosts: []string{"kitchen.home"}}, "Kitchen.Home:8097", true},
		{server.Front{Address: "0.0.0.0:8097", Hosts: []string{"kitchen.home"}}, "evil.example", false},
		{server.Front{Address: "kitchen.home:8097"}, "Kitchen.Home:8097", true},
		{server.Front{Address: "kitchen.home:8097"}, "evil.example", false},
		{server.Front{Address: ":8097"}, "", false},
	} {
		assert.Equal(t, c.want, c.front.Answers(c.host), "%+v %s", c.front, c.host)
	}
	ln, err := server.Listen(t.Context(), "0.0.0.0:0", true)
	require.NoError(t, err, "with a passphrase others may connect")
	require.NoError(t, ln.Close())
}
