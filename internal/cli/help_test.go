package cli_test

import (
	"bytes"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/cli"
	"potwright/internal/household"
	"potwright/internal/store/sqlite"
)

// run is the program called in this process, with a line on its standard input for
// the command that asks for one.
func run(t *testing.T, args ...string) (status int, out, errs string) {
	t.Helper()
	var o, e bytes.Buffer
	status = cli.Main(args, strings.NewReader("four plain words here\n"), &o, &e)
	return status, o.String(), e.String()
}

// listed reads the names of commands from the usage.
func listed(t *testing.T) []string {
	t.Helper()
	_, out, _ := run(t, "help")
	var names []string
	for _, line := range strings.Split(out, "\n") {
		if strings.HasPrefix(line, "  ") {
			names = append(names, strings.Fields(line)[0])
		}
	}
	require.Greater(t, len(names), 10)
	return names
}

// TestEveryExampleOfTheHelpRuns calls each example of each command in a folder with
// the files they name, on a server where they name the usual address of one. Only
// serve is not called here: it would not end.
func TestEveryExampleOfTheHelpRuns(t *testing.T) {
	if testing.Short() {
		t.Skip("one example after the other, for seconds")
	}
	dir := t.TempDir()
	copyInto(t, dir, "chowder.txt", "../demo/dishes/fish-chowder.txt")
	copyInto(t, dir, "stew.txt", "../demo/dishes/bean-and-sausage-stew.txt")
	copyInto(t, dir, "household.yaml", "../demo/household.yaml")
	require.NoError(t, os.WriteFile(filepath.Join(dir, "mine.csv"), []byte("name,sodium_mg\nmillet puffs,3\n"), 0o600))
	require.NoError(t, os.MkdirAll(filepath.Join(dir, "my-rules", "swap"), 0o700))
	copyInto(t, dir, "my-rules/swap/salt.yaml", "../../rules/swap/salt.yaml")
	var pot bytes.Buffer
	require.NoError(t, png.Encode(&pot, image.NewGray(image.Rect(0, 0, 640, 480))))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "pot.png"), pot.Bytes(), 0o600))
	names := listed(t)
	t.Chdir(dir)
	newDataFile(t, "kitchen.db")
	require.NoError(t, os.WriteFile("token", []byte("of-an-account-page"), 0o600))
	running := newKept(t, false)

	for _, name := range names {
		status, out, _ := run(t, "help", name)
		require.Equal(t, 0, status)
		_, examples, found := strings.Cut(out, "\nexamples:\n")
		require.True(t, found, name)
		examples = strings.TrimSpace(examples)
		assert.NotEmpty(t, examples, "%s has an example", name)
		if name == "serve" {
			continue
		}
		for _, e := range strings.Split(examples, "\n") {
			t.Run(strings.TrimSpace(e), func(t *testing.T) {
				here := strings.ReplaceAll(e, "http://127.0.0.1:8097", running.url)
				status, out, errs := run(t, strings.Fields(here)[1:]...)
				assert.Contains(t, []int{0, 3}, status, "0 or, where someone is outside, 3: %s", errs)
				assert.NotEmpty(t, out+errs)
			})
		}
	}
}

// newDataFile makes a data file with a household of nobody.
func newDataFile(t *testing.T, name string) {
	t.Helper()
	store, err := sqlite.Open(name, time.Now)
	require.NoError(t, err)
	_, err = store.CreateHousehold(t.Context(), household.Household{Name: "Quay"})
	require.NoError(t, err)
	require.NoError(t, store.Close())
}

func copyInto(t *testing.T, dir, name, from string) {
	t.Helper()
	b, err := os.ReadFile(from)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(filepath.Join(dir, name), b, 0o600))
}

func TestTheCompletionScriptKnowsCommandsAndFlags(t *testing.T) {
	for shell, want := range map[string][]string{
		"bash": {"adapt) words=", "--household", "complete -o filenames -F _potwright potwright"},
		"zsh":  {"bashcompinit", "--household"},
		"fish": {"-a adapt", "-l household"},
	} {
		status, out, _ := run(t, "completion", shell)
		require.Equal(t, 0, status)
		for _, w := range want {
			assert.Contains(t, out, w, shell)
		}
	}
	status, _, errs := run(t, "completion", "tcsh")
	assert.Equal(t, 2, status)
	assert.Contains(t, errs, "expected bash, zsh or fish")
}

// TestBashCompletes asks bash itself what it would offer.
func TestBashCompletes(t *testing.T) {
	if _, err := exec.LookPath("bash"); err != nil {
		t.Skip("bash is not here")
	}
	_, script, _ := run(t, "completion", "bash")
	ask := script + "\nCOMP_WORDS=(potwright ad); COMP_CWORD=1; _potwright; echo \"${COMPREPLY[@]}\"\n" +
		"COMP_WORDS=(potwright adapt --house); COMP_CWORD=2; _potwright; echo \"${COMPREPLY[@]}\"\n"
	out, err := exec.Command("bash", "--norc", "-c", ask).CombinedOutput()
	require.NoError(t, err, string(out))
	assert.Equal(t, "adapt\n--household\n", string(out))
}

func TestVersionTellsLicenceAndSources(t *testing.T) {
	status, out, _ := run(t, "version")
	require.Equal(t, 0, status)
	assert.Contains(t, out, "MIT licence")
	assert.Contains(t, out, "Standard Reference, Release 28 (2015)")
	assert.Contains(t, out, "data file schema")
}
