package server_test

import (
	"log/slog"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/gin-gonic/gin"
	"github.com/stretchr/testify/require"

	"potwright/internal/access"
	"potwright/internal/server"
	"potwright/internal/store/sqlite"
)

// target is the whole server over a furnished household, asked without a network.
type target struct {
	http.Handler
	changing []gin.RouteInfo // what is not only looked at, of the pages
	doors    []gin.RouteInfo // the same of the JSON door
	looked   []gin.RouteInfo // what is only looked at
	names    map[string]string
}

func newTarget(f *testing.F) target {
	f.Helper()
	store, err := sqlite.Open(filepath.Join(f.TempDir(), "potwright.db"), time.Now)
	require.NoError(f, err)
	f.Cleanup(func() { _ = store.Close() })
	var out target
	cfg := config(f, store)
	cfg.Log = slog.New(slog.DiscardHandler)
	cfg.Doors = []func(gin.IRouter){func(r gin.IRouter) {
		for _, route := range r.(*gin.Engine).Routes() {
			switch {
			case route.Method == http.MethodGet:
				out.looked = append(out.looked, route)
			case strings.HasPrefix(route.Path, "/api/"):
				out.doors = append(out.doors, route)
			default:
				out.changing = append(out.changing, route)
			}
		}
	}}
	out.Handler, err = server.New(cfg)
	require.NoError(f, err)
	for _, all := range [][]gin.RouteInfo{out.changing, out.doors, out.looked} {
		slices.SortFunc(all, func(a, b gin.RouteInfo) int { return strings.Compare(a.Method+a.Path, b.Method+b.Path) })
	}
	ts := httptest.NewServer(out.Handler)
	defer ts.Close()
	base, dish := (&house{t: f, url: ts.URL, store: store}).furnish()
	out.names = placesOf(base, dish)
	return out
}

// takes fails where the server breaks on a request; any answer that says what is
// wrong with it will do.
func (g target) takes(t *testing.T, r *http.Request) {
	t.Helper()
	w := httptest.NewRecorder()
	g.ServeHTTP(w, r)
	require.Less(t, w.Code, http.StatusInternalServerError, "%s %s: %s", r.Method, r.URL, w.Body)
	require.NotContains(t, w.Body.String(), "goroutine ")
}

// FuzzForms sends forms to every page that takes one.
func FuzzForms(f *testing.F) {
	g := newTarget(f)
	for i := range g.changing {
		f.Add(uint8(i), "name=Ana&age=7%C2%BD&portion=1&limit_nutrient_0=sodium_mg&limit_bound_0=most&limit_amount_0=600&limit_per_0=meal&limit_by_0=clinician&avoid=milk&plan_on=yes&plan_unit=u&plan_allowance=4&plan_per=day&weight_nutrient_0=sodium_mg&weight_amount_0=100")
		f.Add(uint8(i), "text=Soup%0AServes+4%0A%0A1+cup+milk&note=x&from=1&grams=1%2F2&food=sr%3A02047&skip=yes&remember=yes&tags=a%2Cb")
		f.Add(uint8(i), "lock=0&cap=3&aim=room&swap-4-salt-omit=must&swap-dish-lemon=not&mark=x&seated=1&m=1&p1=0.5&serving=1+cup+(240+g)&panel=us&f_sodium_mg=%3C5&day=2026-11-25&servings=2")
	}
	f.Fuzz(func(t *testing.T, which uint8, body string) {
		route := g.changing[int(which)%len(g.changing)]
		r := httptest.NewRequest(http.MethodPost, "http://localhost"+path(route.Path, g.names), strings.NewReader(body))
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		g.takes(t, r)
	})
}

// FuzzBodies sends bodies to every operation of the JSON door.
func FuzzBodies(f *testing.F) {
	g := newTarget(f)
	for i := range g.doors {
		for _, body := range []string{`{}`, `[]`, `null`, `{"text":"Soup\n\n1 cup milk","fixes":{"0":{"grams":{"low":1,"mid":2,"high":3}}},"parent":1}`,
			`{"name":"H","members":[{"id":1,"name":"A","limits":[{"nutrient":"sodium_mg","at_most":600,"per":"meal","set_by":"clinician"}],"plan":{"unit":"u","weights":{"sodium_mg":0.1},"allowance":3,"per":"day"}}]}`,
			`{"lock":[0,-1],"refuse":[{"line":99,"rule":"x"}],"max_changes":-1,"aim":"room"}`, `{"version":1,"members":["Ana"],"wishes":{"lock":[0]},"nutrient":"sodium_mg"}`,
			`{"name":"quay broth","panel":"us","serving":"1 cup (240 g)","figures":{"sodium_mg":"<5"}}`, `{"day":"2026-11-25","member":1,"servings":0.5,"phrase":"salt","food":"sr:02047"}`} {
			f.Add(uint8(i), body)
		}
	}
	f.Fuzz(func(t *testing.T, which uint8, body string) {
		route := g.doors[int(which)%len(g.doors)]
		r := httptest.NewRequest(route.Method, "http://localhost"+path(route.Path, g.names), strings.NewReader(body))
		r.Header.Set("Content-Type", "application/json")
		g.takes(t, r)
	})
}

// FuzzAddresses asks for every page with queries and headings of all sorts.
func FuzzAddresses(f *testing.F) {
	g := newTarget(f)
	for i := range g.looked {
		f.Add(uint8(i), "q=salt&servings=6&a=1&b=2&m=1&p1=0.5&seated=1&nutrient=sodium_mg&day=2026-11-25&from=0&most=3&on=1", "Mozilla/5.0 (X11; Linux x86_64)", "1.2.3.4, ::1", "potwright="+access.NewSecret())
	}
	f.Fuzz(func(t *testing.T, which uint8, query, agent, from, cookie string) {
		r := httptest.NewRequest(http.MethodGet, "http://localhost"+path(g.looked[int(which)%len(g.looked)].Path, g.names), nil)
		r.URL.RawQuery = query
		r.Header.Set("User-Agent", agent)
		r.Header.Set("X-Forwarded-For", from)
		r.Header.Set("Cookie", cookie)
		g.takes(t, r)
	})
}
