package server_test

import (
	"database/sql"
	"io"
	"net"
	"net/http"
	"net/url"
	"sync"
	"testing"
	"time"

	"github.com/jackc/pgx/v5/pgconn"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/store/postgres"
	"potwright/internal/testkit"
)

// wire is the way to a database, which a test may cut.
type wire struct {
	listener net.Listener
	mu       sync.Mutex
	cut      bool
	open     []net.Conn
}

// wireTo opens a way to the server of a database's URL and gives the URL by that way.
func wireTo(t *testing.T, at string) (w *wire, by string) {
	t.Helper()
	to, err := pgconn.ParseConfig(at)
	require.NoError(t, err)
	network, address := pgconn.NetworkAddress(to.Host, to.Port)
	w = &wire{}
	w.listener, err = net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	t.Cleanup(func() { w.set(true); _ = w.listener.Close() })
	go func() {
		for {
			near, err := w.listener.Accept()
			if err != nil {
				return
			}
			far, err := net.Dial(network, address)
			if err != nil || !w.holds(near, far) {
				_ = near.Close()
				continue
			}
			go func() { _, _ = io.Copy(far, near); _ = far.Close() }()
			go func() { _, _ = io.Copy(near, far); _ = near.Close() }()
		}
	}()
	u, err := url.Parse(at)
	require.NoError(t, err)
	u.Host = w.listener.Addr().String()
	query := u.Query()
	query.Del("host")
	query.Set("lock_timeout", "50ms")
	u.RawQuery = query.Encode()
	return w, u.String()
}

// holds keeps both ends of a connection; false where the way is cut.
func (w *wire) holds(ends ...net.Conn) bool {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.open = append(w.open, ends...)
	return !w.cut
}

func (w *wire) set(cut bool) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.cut = cut
	for _, c := range w.open {
		_ = c.Close()
	}
	w.open = nil
}

func TestADatabaseThatIsBusyOrAwayIsToldInASentence(t *testing.T) {
	if testing.Short() {
		t.Skip("starts a database server")
	}
	at := testkit.Postgres(t)
	way, by := wireTo(t, at)
	store, err := postgres.Open(by, time.Now)
	require.NoError(t, err)
	defer store.Close()
	h := houseOver(t, store, time.Now)
	base, dish := h.furnish()
	ask := func(h *house, page, door int, says string) {
		t.Helper()
		r := h.post(dish+"/tags", "tags", "soup")
		assert.Equal(t, page, r.StatusCode)
		assert.Regexp(t, "(?i)what was saved before is safe|nothing saved before is lost", r.body)
		assert.Equal(t, "5", r.Header.Get("Retry-After"))
		r = h.ask(http.MethodPut, "/api/v1/households/1/recipes/1/tags", "application/json", `{"tags":["soup"]}`)
		assert.Equal(t, door, r.StatusCode)
		assert.Equal(t, "application/problem+json", r.Header.Get("Content-Type"))
		assert.Equal(t, "5", r.Header.Get("Retry-After"))
		assert.Contains(t, r.body, says)
		testkit.InWords(t, r.body)
	}

	pool, err := sql.Open("pgx", at)
	require.NoError(t, err)
	defer pool.Close()
	held, err := pool.BeginTx(t.Context(), nil)
	require.NoError(t, err)
	_, err = held.ExecContext(t.Context(), "SELECT pg_advisory_xact_lock(1349481591, hashtext(current_schema()))")
	require.NoError(t, err)
	ask(h, http.StatusServiceUnavailable, http.StatusServiceUnavailable, "another program holds the data: end it or wait, and do it again; nothing was saved")
	assert.Equal(t, http.StatusOK, h.get(base+"/recipes").StatusCode, "it can be read meanwhile")
	require.NoError(t, held.Rollback())
	h.must(dish+"/tags", "tags", "stew")

	way.set(true)
	ask(h, http.StatusBadGateway, http.StatusServiceUnavailable, "the database does not answer")
	newcomer := houseOver(t, store, time.Now)
	newcomer.cookie = "potwright=someone"
	ask(newcomer, http.StatusBadGateway, http.StatusServiceUnavailable, "the database does not answer")
	way.set(false)
	require.Eventually(t, func() bool { return h.get(base+"/recipes").StatusCode == http.StatusOK }, 5*time.Second, 10*time.Millisecond, "it is found again")
	h.must(dish+"/tags", "tags", "soup")
}
