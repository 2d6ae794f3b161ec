package server_test

import (
	"bytes"
	"database/sql"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/access"
	"potwright/internal/server"
	"potwright/internal/store/sqlite"
)

var withoutID = regexp.MustCompile(`request=[a-z0-9]+`)

// saves are forms and bodies of all that a household keeps, with words and figures that
// stand nowhere else.
func saves(h *house, base, dish string) {
	const door = "/api/v1/households/1"
	text := strings.NewReplacer("Harbour bean", "Zanzibar", "kidney beans", "zucchini", "moonroot", "zedoary").Replace(potText)
	h.post("/", "name", "Zeal Row")
	h.post(base+"/people", "name", "Zeal Row", "lift", "4.37")
	h.post(base+"/people/new", "name", "Zebedee", "age", "71", "portion", "1", "limit_nutrient_0", "potassium_mg", "limit_bound_0", "most",
		"limit_amount_0", "1437", "limit_per_0", "meal", "limit_by_0", "clinician", "avoid", "milk", "avoid_other", "zucchini")
	h.post(base+"/people/1", "name", "Zebedea", "portion", "1")
	h.post(base+"/recipes/new", "text", text, "note", "zenith")
	h.post(dish+"/edit", "text", text, "note", "zenith")
	h.post(dish+"/tags", "tags", "zealotry")
	h.post(dish+"/lines/3", "q", "zucchini", "food", "sr:16029", "grams", "437", "remember", "yes")
	h.post(dish+"/adapt", "cap", "3", "seated", "1", "m", "1")
	h.post(dish+"/adapt/never", "never", "salt-omit")
	h.post(dish+"/adapt/save", "note", "zenith", "version", "1", "seated", "1", "m", "1")
	h.post(dish+"/made", "version", "1", "rating", "4", "note", "zenith")
	h.post(dish+"/portions", "version", "1", "size", "1", "count", "2", "made", "2026-03-01")
	h.post(base+"/day/dish", "version", "1", "seated", "1", "by", "servings", "state", "eaten", "date", "2026-03-01", "meal", "evening", "m", "1", "p1", "0.437")
	h.post(base+"/day/food", "food", "sr:11477", "amount", "437", "unit", "g", "date", "2026-03-01", "meal", "evening", "state", "eaten", "m", "1")
	h.post(base+"/pantry/new", "name", "zephyr broth", "panel", "us", "serving", "1 cup (240 g)", "f_energy_kcal", "10", "f_sodium_mg", "437")
	h.post(base+"/accounts/new", "name", "zoe", "role", "cook", "passphrase", "zeal zest zone zinc")
	h.post(base+"/tokens/new", "client", "zither", "token_role", "eater")
	h.get(base + "/recipes?q=zucchini&tag=zealotry")
	h.get(base + "/day/food?q=zucchini")
	h.get(base + "/table?seated=1&m=1&p1=0.437&done=zenith")
	h.get("/for-zebedee")
	h.upload(base+"/recipes/file", "file", "zanzibar.zip", "Zanzibar")
	h.ask(http.MethodPut, door+"/choices/zucchini", "application/json", `{"food_id":"sr:11477"}`)
	h.ask(http.MethodDelete, door+"/choices/zucchini", "application/json", "")
	h.ask(http.MethodPut, door+"/recipes/1/tags", "application/json", `{"tags":["zealotry"]}`)
	h.ask(http.MethodPut, door+"/refusals/salt-omit", "application/json", "")
	h.ask(http.MethodPost, door+"/products", "application/json", `{"name":"zephyr","panel":"us","serving":"1 cup (240 g)","figures":{"sodium_mg":"437"}}`)
	h.ask(http.MethodPost, door+"/recipes", "application/json", `{"text":"Zanzibar pot\n\n2 cups zucchini"}`)
	h.ask(http.MethodPut, door, "application/json", `{"name":"Zeal Row","members":[{"id":1,"name":"Zebedee","limits":[{"nutrient":"potassium_mg","at_most":1437,"per":"meal","set_by":"clinician"}]}]}`)
	h.ask(http.MethodPut, door, "application/json", `{"zeal":`)
}

// Every page is looked at and everything is saved, once as usual and once with a database
// that takes nothing, so that every save fails into the log.
func TestTheLogTellsNothingOfAnyonesHealth(t *testing.T) {
	file := filepath.Join(t.TempDir(), "potwright.db")
	store, err := sqlite.Open(file, time.Now)
	require.NoError(t, err)
	defer store.Close()
	var log bytes.Buffer
	cfg := config(t, store)
	cfg.Access, cfg.Log = store, slog.New(slog.NewTextHandler(&log, nil))
	handler, err := server.New(cfg)
	require.NoError(t, err)
	ts := httptest.NewServer(handler)
	s := &street{house: &house{t: t, url: ts.URL, store: store}}
	base, dish := s.furnish()
	_, err = access.NewGate(store, time.Now).Open(t.Context(), access.Account{Name: "zora", HouseholdID: 1, Role: access.Keeper}, passphrase)
	require.NoError(t, err)
	zora := s.as("zora")

	saves(zora, base, dish)
	walked := zora.crawl(base + "/table")
	assert.Greater(t, len(walked), 40)
	all := log.String()
	assert.NotContains(t, all, "level=ERROR")

	db, err := sql.Open("sqlite", file)
	require.NoError(t, err)
	defer db.Close()
	for _, table := range tablesOf(t, db) {
		for _, change := range []string{"INSERT", "UPDATE", "DELETE"} {
			_, err := db.ExecContext(t.Context(), "CREATE TRIGGER stop_"+table+change+" BEFORE "+change+" ON "+table+" BEGIN SELECT RAISE(ABORT, 'it takes nothing'); END")
			require.NoError(t, err)
		}
	}
	log.Reset()
	saves(zora, base, dish)
	ts.Close()
	assert.Greater(t, strings.Count(log.String(), "it takes nothing"), 17, "saves that failed are in the log")
	all += log.String()
	for _, private := range []string{"zeal", "zebed", "zanzibar", "zucchini", "zedoary", "zenith", "zephyr", "zora", "zoe", "zither", "437", "potassium", "salt-omit", "sr:11477", "71", "ana", "quay", "bean", passphrase} {
		for _, line := range strings.Split(all, "\n") {
			_, said, _ := strings.Cut(line, "level=") // a time may hold any figure
			said, _, _ = strings.Cut(said, "bytes=")
			assert.NotContains(t, withoutID.ReplaceAllString(strings.ToLower(said), ""), private, line)
		}
	}
}

func tablesOf(t *testing.T, db *sql.DB) (names []string) {
	t.Helper()
	rows, err := db.QueryContext(t.Context(), "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%' AND name NOT IN ('sessions', 'accounts')")
	require.NoError(t, err)
	defer rows.Close()
	for rows.Next() {
		var name string
		require.NoError(t, rows.Scan(&name))
		names = append(names, name)
	}
	require.NoError(t, rows.Err())
	return names
}
