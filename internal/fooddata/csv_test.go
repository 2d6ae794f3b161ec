package fooddata

import (
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/composition"
)

func TestACSVFileOfFoodsIsReadByItsHeadings(t *testing.T) {
	in, err := ReadCSV(strings.NewReader("\ufeffName,kinds,sodium_mg,energy_kcal,tbsp_grams,fl_oz_grams,refuse,synonyms\n"+
		"\"Miso, barley\",condiment; fermented soy,4300,200,17.5,,,barley miso\n"+
		"Seaweed flakes,,,150,,,0,\n"), "mine.csv")
	require.NoError(t, err)
	require.Empty(t, in.Rejected)
	require.Len(t, in.Foods, 2)
	miso := in.Foods[0]
	assert.Equal(t, "miso, barley", miso.Name)
	assert.Equal(t, []string{"condiment", "fermented_soy"}, miso.Kinds)
	assert.Equal(t, composition.Content{Known: true, Mid: 4300}, miso.Nutrients[composition.Sodium])
	assert.Equal(t, []composition.Measure{{Amount: 1, Unit: "tbsp", Grams: 17.5}}, miso.Measures)
	assert.False(t, in.Foods[1].Nutrients[composition.Sodium].Known, "an empty cell is unknown")

	files := fstest.MapFS{}
	for name, text := range in.Files() {
		files[name] = &fstest.MapFile{Data: []byte(text)}
	}
	back, err := Read(files)
	require.NoError(t, err)
	require.Len(t, back, len(in.Foods))
	for i, f := range in.Foods {
		assert.Equal(t, FoodLine(f, ""), FoodLine(back[i], ""), "what is written reads back the same")
		assert.Equal(t, f.Measures, back[i].Measures)
	}
}

func TestARowThatCantBeUsedIsRejectedWithItsLine(t *testing.T) {
	for name, c := range map[string]struct{ row, want string }{
		"too few cells":       {"x", "f.csv:2: record on line 2: wrong number of fields"},
		"no name":             {",1,,", "f.csv:2: no name; expected one"},
		"not an amount":       {"x,salty,,", `f.csv:2: sodium_mg "salty"; expected an amount of 0 or more`},
		"more than fits":      {"x,200000,,", "f.csv:2: sodium of 200000 mg in 100 g; expected 0 to 100000"},
		"a measure of zero":   {"x,1,0,", `f.csv:2: cup_grams "0"; expected grams over 0`},
		"a share over one":    {"x,1,,7", `f.csv:2: refuse "7"; expected a share from 0 to 1`},
		"not a single figure": {"x,,,", `csv:x: no figure for "x"`},
	} {
		t.Run(name, func(t *testing.T) {
			in, err := ReadCSV(strings.NewReader("name,sodium_mg,cup_grams,refuse\n"+c.row+"\n"), "f.csv")
			require.NoError(t, err)
			assert.Empty(t, in.Foods)
			require.Len(t, in.Rejected, 1)
			assert.Equal(t, c.want, in.Rejected[0].String())
		})
	}
}

func TestHeadingsThatAreNotKnownFailTheWhole(t *testing.T) {
	for head, want := range map[string]string{
		"sodium_mg":      `no column "name"`,
		"name,sodiun_mg": `did you mean "sodium_mg"?`,
		"name,_grams":    `there is no column "_grams"`,
		"":               "the line of headings can't be read",
	} {
		_, err := ReadCSV(strings.NewReader(head), "f.csv")
		assert.ErrorContains(t, err, want, head)
	}
}

func FuzzReadCSV(f *testing.F) {
	f.Add("name,kinds,sodium_mg,cup_grams\n\"Miso, barley\",a; b,4300,17.5\n")
	f.Add("name,energy_kcal\n\"a\nb\",1\nx,1e300\n")
	f.Fuzz(func(t *testing.T, text string) {
		in, err := ReadCSV(strings.NewReader(text), "f.csv")
		if err != nil {
			return
		}
		files := fstest.MapFS{}
		for name, text := range in.Files() {
			files[name] = &fstest.MapFile{Data: []byte(text)}
		}
		back, err := Read(files)
		require.NoError(t, err)
		require.Len(t, back, len(in.Foods))
	})
}
