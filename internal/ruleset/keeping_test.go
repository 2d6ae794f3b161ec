package ruleset

import (
	"errors"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/diagnostic"
)

func keepingFiles(t testing.TB) fstest.MapFS {
	t.Helper()
	out := fstest.MapFS{}
	for _, name := range []string{"keeping/storing.yaml", "keeping/cooking.yaml"} {
		data, err := os.ReadFile("../../rules/" + name)
		require.NoError(t, err)
		out[name] = &fstest.MapFile{Data: data}
	}
	return out
}

func TestAFaultInAKeepingFileIsNamedWithItsPlace(t *testing.T) {
	foods, err := realRows()
	require.NoError(t, err)
	for _, c := range []struct{ name, file, old, new, problem, expected string }{
		{"an unknown topic", "storing", "topic: storing", "topic: stor", `unknown topic "stor"`, ""},
		{"an unknown kind", "storing", "kinds: [poultry]", "kinds: [poultri]", `unknown kind "poultri"`, `"poultry"`},
		{"a storing time of one number", "storing", "fridge_days: [3, 4]", "fridge_days: [3]", "not two numbers", "the least and the most"},
		{"the most before the least", "storing", "fridge_days: [3, 4]", "fridge_days: [4, 3]", "the least is more than the most", "the smaller first"},
		{"a storing advice without a time", "storing", "    fridge_days: [3, 4]\n    freezer_months: [2, 3]\n    say: \"Soup", "    say: \"Soup", "how long in the fridge is not said", "fridge_days"},
		{"an advice that is nowhere", "cooking", "instead: [keep_baked]", "instead: [keep_bread]", `unknown advice "keep_bread"`, ""},
		{"an inside temperature beyond boiling", "cooking", "inside_f: 165", "inside_f: 365", `"365" is out of range`, "number from 100 to 212"},
		{"an id of two files", "cooking", "- id: inside_fish", "- id: keep_fish", `id "keep_fish" is taken`, "an id of its own"},
		{"an advice without a source", "cooking", `    source: "USDA FSIS, The Big Thaw, from memory"` + "\n", "", `missing "source"`, ""},
		{"an advice without a dish that is silent", "cooking", "      silent: [{lines: [1 honeydew melon]", "      quiet: [{lines: [1 honeydew melon]", `missing "silent"`, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			fsys := keepingFiles(t)
			name := "keeping/" + c.file + ".yaml"
			was := string(fsys[name].Data)
			require.Contains(t, was, c.old)
			fsys[name] = &fstest.MapFile{Data: []byte(strings.Replace(was, c.old, c.new, 1))}
			_, err := Library(Folder{FS: fsys}, nil, Stock{Foods: foods})
			var faults diagnostic.Faults
			require.True(t, errors.As(err, &faults), "%v", err)
			for _, f := range faults {
				if strings.Contains(f.Problem, c.problem) && strings.Contains(f.Expected, c.expected) {
					assert.Contains(t, f.File, "keeping/")
					assert.Positive(t, f.Line)
					return
				}
			}
			assert.Fail(t, "fault not reported", err.Error())
		})
	}
}

func FuzzKeepingFilesAreReadWithoutPanic(f *testing.F) {
	for _, file := range keepingFiles(f) {
		f.Add(string(file.Data[:min(len(file.Data), 2000)]))
	}
	f.Add("theme: x\nadvice: [{id: a, fridge_days: [x], instead: [a], examples: {speaks: [{}]}}]")
	f.Fuzz(func(t *testing.T, text string) {
		book, err := Library(Folder{FS: fstest.MapFS{"keeping/a.yaml": &fstest.MapFile{Data: []byte(text)}}}, nil, Stock{})
		if (book == nil) == (err == nil) {
			t.Fatal("neither advice nor faults")
		}
	})
}
