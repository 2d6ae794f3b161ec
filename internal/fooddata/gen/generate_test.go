package main

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/composition"
)

// usdaData is where the USDA files lie when they are at hand.
const usdaData = "../../../../shared/data"

func TestGeneratingAgainGivesTheSameBytes(t *testing.T) {
	if _, err := os.Stat(filepath.Join(usdaData, "usda-sr28")); err != nil {
		t.Skip("the USDA files are not at " + usdaData + ": nothing to generate from")
	}
	files, err := generate(os.DirFS(usdaData), os.DirFS(".."))
	require.NoError(t, err)
	on, err := filepath.Glob("../table/*.tsv")
	require.NoError(t, err)
	assert.Len(t, files, len(on))
	for name, want := range files {
		got, err := os.ReadFile(filepath.Join("../table", name))
		require.NoError(t, err)
		assert.True(t, bytes.Equal(want, got), "%s differs: run go generate ./internal/fooddata", name)
		assert.Less(t, len(want), 1_400_000, name)
	}
	want, err := langual(os.DirFS(usdaData), os.DirFS(".."))
	require.NoError(t, err)
	got, err := os.ReadFile("../identifier/" + langualFile)
	require.NoError(t, err)
	assert.True(t, bytes.Equal(want, got), "%s differs: run go generate ./internal/fooddata", langualFile)
}

func TestARowOfOurOwnIsMixedFromOthers(t *testing.T) {
	salt, garlic := &row{}, &row{}
	salt.ID, garlic.ID = "sr:1", "sr:2"
	salt.Nutrients[composition.Sodium] = composition.Content{Known: true, Mid: 40000, N: 3}
	garlic.Nutrients[composition.Sodium] = composition.Content{Known: true, Mid: 60}
	garlic.Nutrients[composition.Iron] = composition.Content{Known: true, Mid: 5}
	line := "pw:x\tx, y\tsalt\t\t\t\tsr:1*0.75 + sr:2*0.25\tcalcium_mg=7\ttsp=5; cup chopped=40\tmade up"
	own, err := readOwn(fstest.MapFS{"names/own.tsv": {Data: []byte("# head\n" + line + "\n")}}, []*row{salt, garlic})
	require.NoError(t, err)
	require.Len(t, own, 1)
	x := own[0]
	assert.InDelta(t, 30015, x.Nutrients[composition.Sodium].Mid, 1e-6)
	assert.False(t, x.Nutrients[composition.Iron].Known, "unknown in one part is unknown in the mix")
	assert.Equal(t, 7.0, x.Nutrients[composition.Calcium].Mid)
	assert.Equal(t, []composition.Measure{{Amount: 1, Unit: "tsp", Grams: 5}, {Amount: 1, Unit: "cup", Qualifier: "chopped", Grams: 40}}, x.Measures)
}

func TestAFaultyOwnRowIsReportedWithItsLine(t *testing.T) {
	salt := &row{}
	salt.ID = "sr:1"
	for name, c := range map[string]struct{ line, want string }{
		"shares that miss one": {"pw:x\tx\t\t\t\t\tsr:1*0.5\t\t\tmade up", "own.tsv:1: the shares sum to 0.5"},
		"an unknown row":       {"pw:x\tx\t\t\t\t\tsr:7\t\t\tmade up", `no food "sr:7" above`},
		"an unknown nutrient":  {"pw:x\tx\t\t\t\t\tsr:1\tzinc=1\t\tmade up", `unknown nutrient "zinc"`},
		"no source":            {"pw:x\tx\t\t\t\t\tsr:1\t\t\t", "expected an id that begins with pw: and a source"},
		"too few fields":       {"pw:x\tx", "2 fields; expected 10"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := readOwn(fstest.MapFS{"names/own.tsv": {Data: []byte(c.line + "\n")}}, []*row{salt})
			require.ErrorContains(t, err, c.want)
		})
	}
}
