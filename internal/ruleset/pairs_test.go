package ruleset_test

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/rogpeppe/go-internal/txtar"

	"potwright/internal/diagnostic"
	"potwright/internal/ruleset"
	"potwright/rules"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// pairs are the names of the kinds of fault under testdata/rules/err.
func pairs(t testing.TB) []string {
	t.Helper()
	files, err := filepath.Glob("../../testdata/rules/err/*.txtar")
	require.NoError(t, err)
	var out []string
	for _, f := range files {
		out = append(out, strings.TrimSuffix(filepath.Base(f), ".txtar"))
	}
	return out
}

func folderOf(t testing.TB, file string) fstest.MapFS {
	t.Helper()
	data, err := os.ReadFile(file)
	require.NoError(t, err)
	out := fstest.MapFS{}
	for _, f := range txtar.Parse(data).Files {
		out[f.Name] = &fstest.MapFile{Data: f.Data}
	}
	return out
}

// Every kind of fault has a folder of own rules with it and one without, which
// differ in little else. The exact words are in golden files.
func TestEveryKindOfFaultIsToldInItsOwnWordsAndItsPlace(t *testing.T) {
	check := ruleset.Checker(ruleset.Folder{FS: rules.FS}, stock(t))
	update := flag.Lookup("update").Value.String() == "true"
	names := pairs(t)
	require.GreaterOrEqual(t, len(names), 40)
	for _, name := range names {
		t.Run(name, func(t *testing.T) {
			sound := check(ruleset.Folder{FS: folderOf(t, "../../testdata/rules/ok/"+name+".txtar")})
			assert.Empty(t, sound)
			faults := check(ruleset.Folder{FS: folderOf(t, "../../testdata/rules/err/"+name+".txtar")})
			require.NotEmpty(t, faults)
			golden := "../../testdata/rules/err/" + name + ".out"
			if update {
				require.NoError(t, os.WriteFile(golden, []byte(faults.Error()+"\n"), 0o600))
			}
			want, err := os.ReadFile(golden)
			require.NoError(t, err)
			assert.Equal(t, string(want), faults.Error()+"\n")
			for _, f := range faults {
				assert.NotEmpty(t, f.Expected, f.Problem)
			}
		})
	}
}

// What a text file can't hold, and what it may.
func TestBytesThatAreNoPlainTextAreTold(t *testing.T) {
	checkFolder := ruleset.Checker(ruleset.Folder{FS: rules.FS}, stock(t))
	sound, err := os.ReadFile("../../testdata/rules/ok/unknown-key.txtar")
	require.NoError(t, err)
	text := txtar.Parse(sound).Files[0].Data
	check := func(data string) diagnostic.Faults {
		return checkFolder(ruleset.Folder{Name: "own", FS: fstest.MapFS{"swap/a.yaml": {Data: []byte(data)}}})
	}
	assert.Empty(t, check("\ufeff"+string(text)), "a byte order mark is no fault")
	assert.Empty(t, check(strings.ReplaceAll(string(text), "\n", "\r\n")), "nor are the line ends of another system")
	for name, c := range map[string]struct{ data, want string }{
		"latin-1":    {"theme: caf\xe9\nrules: []\n", "own/swap/a.yaml:1:11: byte 0xe9 is not UTF-8 text; expected a file saved as UTF-8"},
		"utf-16":     {"\xff\xfet\x00h\x00", "own/swap/a.yaml:1:1: the text is in UTF-16; expected a file saved as UTF-8"},
		"zero bytes": {"theme: a\nrules: \x00\n", "own/swap/a.yaml:2:8: control character 0x00 in the text; expected plain text"},
		"too large":  {strings.Repeat("# words\n", 1<<18), "own/swap/a.yaml: the file is too large; expected at most 1048576 bytes"},
	} {
		faults := check(c.data)
		require.Len(t, faults, 1, name)
		assert.Equal(t, c.want, faults[0].Error(), name)
	}
}
