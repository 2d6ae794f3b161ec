package server_test

import (
	"bytes"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/access"
	"potwright/internal/server"
)

// TestScriptInEveryFieldIsText fills every field of every form that a keeper's links
// lead to, sends it, and then looks at every page again.
func TestScriptInEveryFieldIsText(t *testing.T) {
	s := newStreet(t)
	ana := s.as("ana")
	const script = `"'><script>alert(1)</script>`
	sent := map[string]bool{}
	pages := ana.crawl("/h/1/table")
	for _, address := range pages {
		r := ana.get(address)
		if r.StatusCode != http.StatusOK || !strings.HasPrefix(r.Header.Get("Content-Type"), "text/html") {
			continue
		}
		for _, f := range elements(parse(t, r), "form") {
			action, values := attr(f, "action"), url.Values{}
			if attr(f, "method") != "post" || strings.Contains(action, "log") || strings.Contains(action, "/end") || strings.Contains(action, "remove") || sent[action] {
				continue
			}
			sent[action] = true
			for _, n := range elements(f, "") {
				if n.Data == "textarea" || n.Data == "select" || n.Data == "input" && attr(n, "type") != "hidden" {
					values.Set(attr(n, "name"), script)
				} else if n.Data == "input" {
					values.Set(attr(n, "name"), attr(n, "value"))
				}
			}
			if action == "" {
				action = address
			}
			answer := ana.ask(http.MethodPost, action, "application/x-www-form-urlencoded", values.Encode())
			assert.NotContains(t, answer.body, "<script>alert", action)
			assert.Less(t, answer.StatusCode, http.StatusInternalServerError, action)
		}
	}
	assert.Greater(t, len(sent), 15)
	for _, address := range ana.crawl("/h/1/table") {
		r := ana.get(address)
		if strings.HasPrefix(r.Header.Get("Content-Type"), "text/html") {
			assert.NotContains(t, r.body, "<script>alert", address)
		}
	}
}

func TestASessionIsOverAfterAWeekUnusedAndAfterThirtyDays(t *testing.T) {
	var moved atomic.Int64
	h := newHouseAt(t, func() time.Time { return time.Now().Add(time.Duration(moved.Load())) })
	h.furnish()
	_, err := access.NewGate(h.store, time.Now).Open(t.Context(), access.Account{HouseholdID: 1, Name: "ana", Role: access.Keeper}, passphrase)
	require.NoError(t, err)
	s := &street{house: h}
	const day = 24 * time.Hour
	idle := s.as("ana")
	moved.Store(int64(6 * day))
	assert.Equal(t, http.StatusOK, idle.get("/h/1/people").StatusCode)
	moved.Store(int64(12 * day))
	assert.Equal(t, http.StatusOK, idle.get("/h/1/people").StatusCode, "each use counts")
	moved.Store(int64(20 * day))
	assert.Equal(t, http.StatusSeeOther, idle.get("/h/1/people").StatusCode, "eight days unused")
	busy := s.as("ana")
	for d := 25; d <= 49; d += 6 {
		moved.Store(int64(time.Duration(d) * day))
		assert.Equal(t, http.StatusOK, busy.get("/h/1/people").StatusCode)
	}
	moved.Store(int64(51 * day))
	assert.Equal(t, http.StatusSeeOther, busy.get("/h/1/people").StatusCode, "31 days after it began")
	back := s.as("ana")
	moved.Store(int64(49 * day))
	assert.Equal(t, http.StatusOK, back.get("/h/1/people").StatusCode, "a clock set back signs nobody out")
}

func TestTheCookieIsSecureWhereTheWayIs(t *testing.T) {
	h := newHouse(t)
	h.furnish()
	_, err := access.NewGate(h.store, time.Now).Open(t.Context(), access.Account{HouseholdID: 1, Name: "ana", Role: access.Keeper}, passphrase)
	require.NoError(t, err)
	cfg := config(t, h.store)
	cfg.Access, cfg.Front = h.store, server.Front{Address: "127.0.0.1:0", Forwarded: true}
	handler, err := server.New(cfg)
	require.NoError(t, err)
	ts := httptest.NewServer(handler)
	defer ts.Close()
	front := &house{t: t, url: ts.URL, store: h.store}
	c := front.post("/login", "name", "ana", "passphrase", passphrase).Cookies()[0]
	assert.Equal(t, "__Host-potwright", c.Name)
	assert.True(t, c.Secure)
	assert.Empty(t, c.Domain)
	front.cookie = c.Name + "=" + c.Value
	assert.Equal(t, http.StatusOK, front.get("/h/1/people").StatusCode)
	for _, f := range []server.Front{{Address: "127.0.0.1:0", Forwarded: true}, {Address: "127.0.0.1:0", Hosts: []string{"kitchen.home"}}} {
		assert.ErrorIs(t, server.Run(t.Context(), f, false, handler, nil), server.ErrNotLoopback, "others would come by the server in front")
	}
}

func TestTheLogSaysNothingOfWhatPeopleTyped(t *testing.T) {
	s := newStreet(t)
	var log bytes.Buffer
	cfg := config(t, s.store)
	cfg.Access, cfg.Log = s.store, slog.New(slog.NewTextHandler(&log, nil))
	handler, err := server.New(cfg)
	require.NoError(t, err)
	ts := httptest.NewServer(handler)
	s.house.url = ts.URL
	ana := s.as("ana")
	_, secret, _ := strings.Cut(s.share, "/share/")
	ana.get(s.dish + "?nutrient=potassium_mg")
	ana.get("/share/" + secret)
	ana.get("/for-the-renal-clinic")
	ana.get("/api/v1/households/1/choices")
	ana.ask(http.MethodDelete, "/api/v1/households/1/choices/thickener", "application/json", "")
	ana.must("/h/1/recipes/new", "text", strings.Replace(potText, "Harbour", "Dialysis", 1))
	ts.Close()
	said := log.String()
	assert.Contains(t, said, "path=/h/1/recipes/1 ")
	assert.Contains(t, said, "path=/share/:secret")
	for _, private := range []string{secret, "potassium", "renal", "thickener", "Dialysis", "beans", "Ana", "ana ", passphrase, strings.TrimPrefix(ana.cookie, "potwright=")} {
		assert.NotContains(t, said, private)
	}
}
