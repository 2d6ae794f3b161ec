package ruleset

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"potwright/internal/composition"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "rewrite the .out files")

// pantry is a small food table: enough words for the rules under testdata.
func pantry() []*composition.Food {
	return []*composition.Food{
		{Name: "chicken broth", Kinds: []string{"broth"}},
		{Name: "chicken broth, unsalted", Kinds: []string{"broth"}, States: []string{"unsalted"}},
		{Name: "salt", Kinds: []string{"salt"}},
		{Name: "lemon juice", Kinds: []string{"citrus_juice"}},
		{Name: "potassium salt", Kinds: []string{"salt"}, Nutrients: potassium(50000)},
	}
}

func potassium(mg float64) (n [composition.NutrientCount]composition.Content) {
	n[composition.Potassium] = composition.Content{Known: true, Mid: mg}
	return n
}

func files(t *testing.T, pattern string) []string {
	t.Helper()
	names, err := filepath.Glob(filepath.FromSlash("../../testdata/" + pattern))
	require.NoError(t, err)
	require.NotEmpty(t, names)
	return names
}

func golden(t *testing.T, file, got string) {
	t.Helper()
	out := strings.TrimSuffix(file, filepath.Ext(file)) + ".out"
	if *update {
		require.NoError(t, os.WriteFile(out, []byte(got+"\n"), 0o644))
	}
	want, err := os.ReadFile(out)
	require.NoError(t, err)
	assert.Equal(t, string(want), got+"\n")
}

func TestFaultyRuleFilesNameEveryFaultAndItsPlace(t *testing.T) {
	for _, file := range files(t, "rules/err/*.yaml") {
		t.Run(filepath.Base(file), func(t *testing.T) {
			data, err := os.ReadFile(file)
			require.NoError(t, err)
			dir := "swap/"
			if strings.HasPrefix(filepath.Base(file), "balance") {
				dir = "balance/"
			}
			_, err = Swaps(fstest.MapFS{dir + filepath.Base(file): {Data: data}}, pantry())
			require.Error(t, err)
			golden(t, file, err.Error())
		})
	}
}

func TestSoundRuleFilesAreReadWithoutAFault(t *testing.T) {
	for _, file := range files(t, "rules/ok/*.yaml") {
		t.Run(filepath.Base(file), func(t *testing.T) {
			data, err := os.ReadFile(file)
			require.NoError(t, err)
			book, err := Swaps(fstest.MapFS{"swap/" + filepath.Base(file): {Data: data}}, pantry())
			require.NoError(t, err)
			assert.NotEmpty(t, book.Rules())
		})
	}
}

func TestFaultyHouseholdFilesNameEveryFaultAndItsPlace(t *testing.T) {
	for _, file := range files(t, "households/err/*.yaml") {
		t.Run(filepath.Base(file), func(t *testing.T) {
			data, err := os.ReadFile(file)
			require.NoError(t, err)
			_, err = ReadHousehold(bytes.NewReader(data), filepath.Base(file))
			require.Error(t, err)
			golden(t, file, err.Error())
		})
	}
}
