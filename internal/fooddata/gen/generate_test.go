package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
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
}

func TestMeasuresComeInNormalForm(t *testing.T) {
	for _, c := range []struct{ text, food, unit, qualifier string }{
		{"cup, chopped or diced", "celery, raw", "cup", "chopped or diced"},
		{"cup slices", "cucumber, raw", "cup", "sliced"},
		{"Tbsp", "butter, salted", "tbsp", ""},
		{"tablespoon", "butter, salted", "tbsp", ""},
		{`medium (2-1/2" dia)`, "onion, raw", "medium", ""},
		{"potato medium (2-1/4\" to 3-1/4\" dia)", "potato, with skin, raw", "medium", ""},
		{"pepper, large (2-1/4 per lb)", "green bell pepper, raw", "large", ""},
		{`stalk, large (11"-12" long)`, "celery, raw", "stalk", "large"},
		{"can (15.5 oz)", "beans", "can", "15.5 oz"},
		{"fl oz", "milk, whole", "fl oz", ""},
		{"cucumber (8-1/4\")", "cucumber, raw", "each", ""},
		{"cloves", "garlic, raw", "clove", ""},
	} {
		m, ok := normalMeasure(c.text, c.food)
		require.True(t, ok, c.text)
		assert.Equal(t, c.unit, m.Unit, c.text)
		assert.Equal(t, c.qualifier, m.Qualifier, c.text)
	}
	for _, text := range []string{"cup (1 NLEA serving)", "cubic inch", "", "breast, bone removed", "whatsit"} {
		_, ok := normalMeasure(text, "chicken")
		assert.False(t, ok, text)
	}
}

func TestLatin1AndEmptyFieldsAreRead(t *testing.T) {
	var got []string
	err := eachRecord(strings.NewReader("~01001~^~cr\xe8me~^^5.5\r\n"), "x", func(f []string) error { got = f; return nil })
	require.NoError(t, err)
	assert.Equal(t, []string{"01001", "crème", "", "5.5"}, got)
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
