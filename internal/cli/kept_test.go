package cli_test

import (
	"context"
	"log/slog"
	"net/http/httptest"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/access"
	"potwright/internal/demo"
	"potwright/internal/kitchen"
	"potwright/internal/server"
	"potwright/internal/store/sqlite"
	"potwright/internal/testkit"
)

// kept is a data file with the demo household in it, and a server over it.
type kept struct {
	data, url string
	// keeper, cook and eater are tokens of the household.
	keeper, cook, eater string
}

// larder is what data files and servers of a test are made with, and where: guarded
// is set where the server asks for a token, cleanup runs what is put off.
type larder struct {
	kitchen *kitchen.Kitchen
	book    *kitchen.Rulebook
	dir     string
	guarded bool
	cleanup func(func())
}

func (l larder) keep(ctx context.Context) (kept, error) {
	k := kept{data: filepath.Join(l.dir, "kitchen.db")}
	store, err := sqlite.Open(k.data, time.Now)
	if err != nil {
		return k, err
	}
	l.cleanup(func() { _ = store.Close() })
	mine := *l.kitchen
	mine.Store = store
	if err := demo.Fill(ctx, &mine); err != nil {
		return k, err
	}
	if l.guarded {
		if err := k.guard(ctx, access.NewGate(store, time.Now)); err != nil {
			return k, err
		}
	}
	handler, err := server.New(server.Config{Kitchen: &mine, Store: store, Access: store, Foods: mine.Table, Needs: mine.Needs, Rulebook: l.book, Log: slog.New(slog.DiscardHandler)})
	if err != nil {
		return k, err
	}
	s := httptest.NewServer(handler)
	l.cleanup(s.Close)
	k.url = s.URL
	return k, nil
}

// guard makes an account, so that the server asks, and a token for each role.
func (k *kept) guard(ctx context.Context, gate *access.Gate) error {
	_, err := gate.Open(ctx, access.Account{HouseholdID: 1, Name: "ana", Role: access.Keeper}, "four plain words here")
	for to, role := range map[*string]access.Role{&k.keeper: access.Keeper, &k.cook: access.Cook, &k.eater: access.Eater} {
		if err == nil {
			*to, err = gate.MakeToken(ctx, 1, string(role), role)
		}
	}
	return err
}

func newKept(t *testing.T, guarded bool) kept {
	t.Helper()
	k, err := larder{testkit.Kitchen(t), testkit.Rulebook(t), t.TempDir(), guarded, t.Cleanup}.keep(t.Context())
	require.NoError(t, err)
	return k
}

// TestAServerPrintsWhatItsDataFileDoes runs each command over both.
func TestAServerPrintsWhatItsDataFileDoes(t *testing.T) {
	k := newKept(t, true)
	t.Setenv("POTWRIGHT_TOKEN", k.cook)
	dish := filepath.Join("..", "demo", "dishes", "stir-fry.txt")
	commands := [][]string{
		{"recipes", "--format", "json"}, {"adapt", "--recipe", "1", "--max-changes", "5"}, {"check", "--format", "json", dish},
		{"analyse", "--format", "json", "--recipe", "1", dish}, {"report", "--format", "csv", "--recipe", "2"}, {"convert", "--format", "markdown", "--recipe", "3"},
		{"sweep"}, {"check", "--recipe", "stir fyr"},
	}
	if testing.Short() {
		commands = commands[:3]
	}
	for _, args := range commands {
		t.Run(strings.Join(args, " "), func(t *testing.T) {
			there := append([]string{args[0], "--server", k.url}, args[1:]...)
			here := append([]string{args[0], "--data", k.data}, args[1:]...)
			wantStatus, wantOut, wantErrs := run(t, here...)
			status, out, errs := run(t, there...)
			assert.Equal(t, wantStatus, status)
			assert.Equal(t, wantOut, out)
			assert.Equal(t, wantErrs, errs)
		})
	}
}

// TestKeptScripts runs each script on a server, and, the short run aside, on the data
// file itself. $PLACE is the flag that says which.
func TestKeptScripts(t *testing.T) {
	cook, book := testkit.Kitchen(t), testkit.Rulebook(t)
	places := []string{"server", "data"}
	if slowed {
		t.Skip("see TestScripts; the other tests here use a server of this process")
	}
	if testing.Short() {
		places = places[:1]
	}
	for _, place := range places {
		t.Run(place, func(t *testing.T) {
			testscript.Run(t, testscript.Params{
				Dir:                 "../../testdata/scripts/kept",
				RequireExplicitExec: true,
				Cmds:                map[string]func(*testscript.TestScript, bool, []string){"status": status, "json": jsonKeys},
				Setup: func(e *testscript.Env) error {
					k, err := larder{cook, book, e.WorkDir, true, e.Defer}.keep(context.Background())
					e.Setenv("PLACE", map[string]string{"data": "--data=" + k.data, "server": "--server=" + k.url}[place])
					e.Setenv("POTWRIGHT_TOKEN", k.keeper)
					return err
				},
			})
		})
	}
}

func TestWhatATokenMayNotIsRefusedByTheServer(t *testing.T) {
	k := newKept(t, true)
	dish := filepath.Join("..", "demo", "dishes", "stir-fry.txt")
	file := filepath.Join(t.TempDir(), "token")
	require.NoError(t, os.WriteFile(file, []byte(k.eater+"\n"), 0o600))
	open := filepath.Join(t.TempDir(), "open")
	require.NoError(t, os.WriteFile(open, []byte(k.keeper), 0o600))
	require.NoError(t, os.Chmod(open, 0o644))
	slow := httptest.NewServer(nil)
	slow.Close()
	for name, c := range map[string]struct {
		token string
		args  []string
		want  int
		said  string
	}{
		"no token":              {"", []string{"sweep", "--server", k.url}, 1, "asks for a token: a keeper makes one on the account page; put it into the environment as POTWRIGHT_TOKEN, or into a file for --token-file"},
		"a token of elsewhere":  {"x" + k.cook, []string{"sweep", "--server", k.url}, 1, "does not know this token"},
		"an eater saves":        {k.eater, []string{"save", "--server", k.url, dish}, 1, "only a keeper or a cook of the household may change recipes"},
		"an eater looks":        {"", []string{"recipes", "--server", k.url, "--token-file", file}, 0, ""},
		"a cook exports":        {k.cook, []string{"export", "--server", k.url, filepath.Join(t.TempDir(), "a.zip")}, 1, "only a keeper of the household"},
		"a token that is open":  {"", []string{"recipes", "--server", k.url, "--token-file", open}, 2, "others may read the token file"},
		"a token file missing":  {"", []string{"recipes", "--server", k.url, "--token-file", "nowhere"}, 2, `there is no token file "nowhere"`},
		"two places":            {"", []string{"recipes", "--server", k.url, "--data", k.data}, 2, "two places; expected one of them"},
		"no place":              {"", []string{"recipes"}, 2, "expected --data FILE, or --server URL"},
		"no address":            {"", []string{"recipes", "--server", "kitchen.home"}, 2, "expected one such as http://127.0.0.1:8097"},
		"nothing there":         {"", []string{"recipes", "--server", slow.URL}, 1, "see that potwright serve runs there"},
		"the address of a page": {k.cook, []string{"recipes", "--server", k.url + "/h/1"}, 1, "what answers there is not Potwright"},
		"no time":               {k.cook, []string{"recipes", "--server", k.url, "--timeout", "0s"}, 2, "no time to wait"},
		"a moment too short":    {k.cook, []string{"recipes", "--server", k.url, "--timeout", "1ns"}, 1, "took longer than 1ns to answer"},
		"a backup":              {k.keeper, []string{"backup", "--server", k.url, "copy.db"}, 2, "backup works on the data file itself and on no server"},
		"a diagnosis":           {k.keeper, []string{"diagnose", "-server=" + k.url}, 2, "run it with --data FILE where that file lies"},
		"saved nowhere":         {"", []string{"read", "--recipe", "stew"}, 2, "kept nowhere"},
	} {
		t.Run(name, func(t *testing.T) {
			t.Setenv("POTWRIGHT_TOKEN", c.token)
			status, _, errs := run(t, c.args...)
			assert.Equal(t, c.want, status, errs)
			assert.Contains(t, errs, c.said)
			for _, secret := range []string{k.keeper, k.cook, k.eater} {
				assert.NotContains(t, errs, secret)
			}
			assert.LessOrEqual(t, len(regexp.MustCompile(`(?m)^potwright `).FindAllString(errs, -1)), 1, "one sentence")
		})
	}
}

func TestAServerWithOtherRulesIsToldOf(t *testing.T) {
	k := newKept(t, false)
	dir := t.TempDir()
	require.NoError(t, os.MkdirAll(filepath.Join(dir, "swap"), 0o700))
	text, err := os.ReadFile("../../rules/swap/salt.yaml")
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "swap", "salt.yaml"), []byte(strings.Replace(string(text), "effort: 1", "effort: 2", 1)), 0o600))
	t.Setenv("POTWRIGHT_SERVER", k.url)
	status, _, errs := run(t, "sweep")
	assert.Contains(t, []int{0, 3}, status)
	assert.Empty(t, errs, "an environment that names a server is enough")
	_, _, errs = run(t, "sweep", "--rules", dir)
	assert.Contains(t, errs, "goes by other rules or foods than are in force here")
}
