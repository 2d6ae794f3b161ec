package testkit

import (
	"context"
	"crypto/rand"
	"database/sql"
	"errors"
	"fmt"
	"net/url"
	"os"
	"os/exec"
	"os/user"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	_ "github.com/jackc/pgx/v5/stdlib" // the driver "pgx"
)

// postgresVariable is the URL of a server in one of whose databases tests may make
// schemas. Where it is not set, a server of the tests' own is started.
const postgresVariable = "POTWRIGHT_POSTGRES"

// PostgresPassword is the password of the tests' own server.
const PostgresPassword = "only-of-this-test-9"

// Postgres is the URL of an empty schema that is dropped when the test ends. Where no
// server is to be had the test is skipped, and with CI=true fails.
func Postgres(t testing.TB) string {
	t.Helper()
	server, err := postgresServer()
	if errors.Is(err, errNoPostgres) && os.Getenv("CI") != "true" {
		t.Skipf("%v", err)
	}
	if err != nil {
		t.Fatal(err)
	}
	pool, err := sql.Open("pgx", server)
	if err != nil {
		t.Fatal(err)
	}
	schema := "test_" + strings.ToLower(rand.Text())
	if _, err := pool.ExecContext(t.Context(), "CREATE SCHEMA "+schema); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		_, err := pool.ExecContext(context.Background(), "DROP SCHEMA "+schema+" CASCADE")
		if err = errors.Join(err, pool.Close()); err != nil {
			t.Error(err)
		}
	})
	u, err := url.Parse(server)
	if err != nil {
		t.Fatal(err)
	}
	query := u.Query()
	query.Set("search_path", schema)
	u.RawQuery = query.Encode()
	return u.String()
}

var errNoPostgres = errors.New("no PostgreSQL server: set " + postgresVariable + " to the URL of one where schemas may be made, or install Debian's postgresql")

// postgresServer is the server of this test binary.
var postgresServer = sync.OnceValues(func() (string, error) {
	if at := os.Getenv(postgresVariable); at != "" {
		return at, nil
	}
	found, err := filepath.Glob("/usr/lib/postgresql/*/bin/initdb")
	if err != nil || len(found) == 0 {
		return "", errNoPostgres
	}
	slices.Sort(found)
	return startPostgres(filepath.Dir(found[len(found)-1]))
})

// runServer makes a cluster in the folder $1 with the programs of $2, serves it on a
// socket there, and takes all away when its standard input ends, as it does however
// the test binary ends. Nothing of it need outlive a power cut.
const runServer = `
trap 'rm -rf "$1"' EXIT
printf %s "$3" > "$1/password" || exit
"$2/initdb" -D "$1/data" -U potwright --pwfile="$1/password" -A scram-sha-256 -E UTF8 --locale=C --no-sync >"$1/log" 2>&1 || { cat "$1/log" >&2; exit 1; }
"$2/postgres" -D "$1/data" -k "$1" -c listen_addresses= -c fsync=off -c full_page_writes=off -c max_connections=200 >"$1/log" 2>&1 </dev/null &
cat >/dev/null
kill -INT $! && wait
`

// startPostgres starts a server whose programs are in a folder, as the user postgres
// where the test runs as root, whom initdb refuses.
func startPostgres(programs string) (at string, err error) {
	dir, err := os.MkdirTemp("", "potwright-pg-") // short: the path of a socket has at most 107 bytes
	if err != nil {
		return "", err
	}
	args := []string{"sh", "-c", runServer, "sh", dir, programs, PostgresPassword}
	if os.Geteuid() == 0 {
		args = append([]string{"setpriv", "--reuid=postgres", "--regid=postgres", "--clear-groups"}, args...)
		if err := give(dir, "postgres"); err != nil {
			return "", err
		}
	}
	var said strings.Builder
	server := exec.Command(args[0], args[1:]...)
	server.Stderr = &said
	if _, err := server.StdinPipe(); err != nil { // never closed: it ends with this process
		return "", err
	}
	if err := server.Start(); err != nil {
		return "", err
	}
	ended := make(chan error, 1)
	go func() { ended <- server.Wait() }()
	at = fmt.Sprintf("postgres://potwright:%s@/postgres?host=%s", PostgresPassword, url.QueryEscape(dir))
	for deadline := time.Now().Add(time.Minute); time.Now().Before(deadline); time.Sleep(20 * time.Millisecond) {
		select {
		case err := <-ended:
			return "", fmt.Errorf("start PostgreSQL: %w: %s", err, said.String())
		default:
		}
		if answers(at) {
			return at, nil
		}
	}
	return "", errors.New("PostgreSQL did not start within a minute")
}

func answers(at string) bool {
	pool, err := sql.Open("pgx", at)
	if err != nil {
		return false
	}
	defer pool.Close()
	return pool.Ping() == nil
}

// give makes a folder a user's own.
func give(dir, name string) error {
	u, err := user.Lookup(name)
	if err != nil {
		return err
	}
	uid, err1 := strconv.Atoi(u.Uid)
	gid, err2 := strconv.Atoi(u.Gid)
	return errors.Join(err1, err2, os.Chown(dir, uid, gid))
}
