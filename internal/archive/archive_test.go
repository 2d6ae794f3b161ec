package archive_test

import (
	"archive/zip"
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"image"
	"image/jpeg"
	"image/png"
	"io"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"potwright/internal/adaptation"
	"potwright/internal/archive"
	"potwright/internal/composition"
	"potwright/internal/daybook"
	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/measure"
	"potwright/internal/nutrient"
	"potwright/internal/photo"
	"potwright/internal/product"
	"potwright/internal/recipe"
	"potwright/internal/spread"
	"potwright/internal/testkit"
)

var written = time.Date(2026, 3, 1, 9, 30, 0, 123456789, time.UTC)

func read(t require.TestingT, b []byte) archive.Archive {
	a, err := archive.Read(bytes.NewReader(b), int64(len(b)), archive.WholeLimits())
	require.NoError(t, err)
	for i, h := range a.Households {
		a.Households[i] = testkit.WithFiles(t, h)
	}
	return a
}

func pack(t require.TestingT, all ...kitchen.Holdings) []byte {
	var b bytes.Buffer
	require.NoError(t, archive.Write(context.Background(), &b, all, written))
	return b.Bytes()
}

func drawVersions(t *rapid.T) []recipe.Version {
	text := rapid.String()
	vs := make([]recipe.Version, rapid.IntRange(1, 4).Draw(t, "versions"))
	for i := range vs {
		vs[i] = recipe.Version{ID: int64(i + 1), Number: i + 1, Text: text.Draw(t, "text"), Note: text.Draw(t, "note"),
			PanelJSON: text.Draw(t, "panel"), PlatesJSON: text.Draw(t, "plates"),
			SavedAt: time.Unix(0, rapid.Int64Range(0, 4e18).Draw(t, "saved")).UTC()}
		if i > 0 {
			vs[i].ParentID = int64(rapid.IntRange(1, i).Draw(t, "parent"))
		}
		if rapid.Bool().Draw(t, "fixed") {
			grams := spread.Range{Low: rapid.Float64Range(0, 1e6).Draw(t, "low"), Mid: 1.0 / 3, High: 2e6}
			vs[i].Corrections = []recipe.LineCorrection{{Words: text.Draw(t, "words"), Correction: recipe.Correction{FoodID: "own:3", Grams: &grams}},
				{At: rapid.IntRange(1, 99).Draw(t, "line"), Correction: recipe.Correction{Skip: true}}}
			vs[i].Changes = []recipe.Change{{Line: -1, From: text.Draw(t, "from"), To: []string{text.Draw(t, "to")}, RuleID: "r", Why: []string{}, For: nil}}
		}
	}
	return vs
}

// drawDaybook is what is written down of one of so many versions.
func drawDaybook(t *rapid.T, versions int64) kitchen.Daybook {
	version := rapid.Int64Range(1, versions).Draw(t, "version")
	var counted nutrient.Panel
	counted[composition.Energy] = nutrient.Amount{Range: spread.Range{Low: 1.0 / 3, Mid: 0.5, High: rapid.Float64Range(0.5, 1e6).Draw(t, "kcal")}, Unknown: 2}
	return kitchen.Daybook{
		Eaten: []daybook.Entry{{MemberID: 4, Date: "2026-03-01", Meal: daybook.Evening, State: daybook.Planned, VersionID: version, Title: rapid.String().Draw(t, "dish"),
			Portion: 1.0 / 3, Grams: spread.Exact(120), Panel: counted, Counted: &counted}},
		Freezer: []daybook.Container{{VersionID: version, Title: "Soup", Portion: 1, Frozen: "2026-03-01", BestBy: "2026-06-01", Out: "2026-04-02"}},
		Made:    []daybook.Made{{VersionID: version, Date: "2026-03-01", Rating: 2, Remark: rapid.String().Draw(t, "remark")}},
	}
}

// picture is one of a width, as it is kept.
func picture(t require.TestingT, width int) photo.Picture {
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, image.NewGray(image.Rect(0, 0, width, 3))))
	p, err := photo.Develop(b.Bytes())
	require.NoError(t, err)
	return p
}

// drawPhotos are up to three photos, of which one stands for the dish.
func drawPhotos(t *rapid.T) (out []photo.Photo) {
	for i := range rapid.IntRange(0, 3).Draw(t, "photos") {
		p := picture(t, 5+i)
		out = append(out, photo.Photo{ID: int64(i + 1), Digest: p.Digest(), Picture: p, Caption: rapid.StringN(0, photo.MostCaption, -1).Draw(t, "caption"),
			Main: i == 0, OnCard: rapid.Bool().Draw(t, "on the card"), AddedAt: written})
	}
	return out
}

func drawHoldings(t *rapid.T) kitchen.Holdings {
	text := rapid.String()
	amount := rapid.Float64Range(0, 1e6).Draw(t, "amount")
	h := kitchen.Holdings{
		Household: household.Household{Name: "H" + text.Draw(t, "name"), MealShare: 1.0 / 3, Measures: rapid.SampledFrom([]measure.System{measure.US, measure.UK, measure.Metric}).Draw(t, "measures"),
			Cook:      household.Cook{Spare: []string{"grip"}, LiftLimitKg: amount},
			Equipment: household.Equipment{Pots: []household.Pot{{Name: text.Draw(t, "pot"), Litres: amount}}, NoScales: rapid.Bool().Draw(t, "no scales"), NoOven: rapid.Bool().Draw(t, "no oven")},
			Members: []household.Member{{ID: 4, Name: text.Draw(t, "member"), Age: 71, Limits: []household.Limit{{Nutrient: composition.Sodium, AtMost: &amount, Per: household.PerMeal, SetBy: household.Clinician}},
				Plan:    &household.Plan{Unit: text.Draw(t, "unit"), Weights: map[composition.Nutrient]float64{composition.Carbohydrate: 1.0 / 15}, Per: household.PerDay},
				Texture: &household.Texture{Level: 6, Avoid: []string{"husks"}}, Avoid: []string{"milk"}, Dislikes: []string{"food:liver"}, Cautions: []string{"grapefruit"}, Portion: 0.5, PortionMin: 0.25, PortionMax: 1}, {ID: 5, Name: "Ben"}}},
		Choices:  map[string]recipe.Correction{text.Draw(t, "phrase"): {FoodID: "sr:1"}},
		Products: []product.Product{{ID: 3, SavedAt: written, Label: product.Label{Name: text.Draw(t, "product"), Panel: product.US, Figures: map[string]string{"sodium_mg": text.Draw(t, "figure")}}}},
	}
	if rapid.Bool().Draw(t, "ate a food") {
		h.Eaten = []daybook.Entry{{MemberID: 5, Date: "2026-03-02", Meal: daybook.Between, State: daybook.Eaten, FoodID: "own:3", Title: "tomatoes", Grams: spread.Exact(amount)}}
	}
	for range rapid.IntRange(0, 4).Draw(t, "recipes") {
		r := kitchen.HeldRecipe{Title: text.Draw(t, "title"), CreatedAt: written, Versions: drawVersions(t)}
		if rapid.Bool().Draw(t, "wished") {
			r.Wishes = &adaptation.Wishes{Lock: []int{0}, MaxChanges: 2}
		}
		if rapid.Bool().Draw(t, "made") {
			r.Daybook = drawDaybook(t, int64(len(r.Versions)))
		}
		r.Photos = drawPhotos(t)
		h.Recipes = append(h.Recipes, r)
	}
	return h
}

func TestWhatIsWrittenIsReadBackTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		all := []kitchen.Holdings{drawHoldings(t), {Household: household.Household{Name: "Empty"}}}
		a := read(t, pack(t, all...))
		require.Equal(t, all, a.Households)
		require.Empty(t, a.NotTaken)
		require.Nil(t, a.Recipes)
	})
}

func TestManyRecipesKeepTheirOrder(t *testing.T) {
	h := kitchen.Holdings{Household: household.Household{Name: "H"}}
	for i := range 120 {
		h.Recipes = append(h.Recipes, kitchen.HeldRecipe{Title: fmt.Sprint(200 - i), Versions: []recipe.Version{{ID: 1, Number: 1}}})
	}
	assert.Equal(t, []kitchen.Holdings{h}, read(t, pack(t, h)).Households)
}

func photoOf(t require.TestingT, width int, caption string) photo.Photo {
	p := picture(t, width)
	return photo.Photo{Digest: p.Digest(), Picture: p, Caption: caption, AddedAt: written}
}

// What is given away with a recipe tells nothing of the people it came from.
func TestASharedRecipeHoldsNoHousehold(t *testing.T) {
	h := kitchen.Holdings{
		Household: household.Household{Name: "Quay Lane", Members: []household.Member{{Name: "Ana"}}},
		Choices:   map[string]recipe.Correction{"broth": {FoodID: "sr:6013"}},
		Products:  []product.Product{{ID: 3, Label: product.Label{Name: "plain tomatoes"}}, {ID: 4, Label: product.Label{Name: "our bread"}}},
		Recipes: []kitchen.HeldRecipe{{Title: "Soup", Wishes: &adaptation.Wishes{MaxChanges: 1},
			Photos: []photo.Photo{photoOf(t, 5, "Ana stirs"), photoOf(t, 6, "the pot")}, Versions: []recipe.Version{
				{ID: 1, Number: 1, Text: "Soup\n", Corrections: []recipe.LineCorrection{{Words: "tomatoes", Correction: recipe.Correction{FoodID: "own:3"}}}},
				{ID: 2, Number: 2, ParentID: 1, Text: "Soup, less salt\n", PanelJSON: "{}", PlatesJSON: `[{"name":"Ana"}]`,
					Changes: []recipe.Change{{From: "salt", To: []string{"less salt"}, Why: []string{"sodium"}, For: []string{"Ana"}}}}}}}}
	h.Recipes[0].Photos[0].Main, h.Recipes[0].Photos[1].OnCard = true, true
	var b bytes.Buffer
	require.NoError(t, archive.WriteRecipes(t.Context(), &b, h.Shared(h.Recipes[0]), written))
	a := read(t, b.Bytes())
	require.NotNil(t, a.Recipes)
	assert.Empty(t, a.Households)
	require.Len(t, a.Recipes.Recipes[0].Versions, 2)
	assert.Equal(t, "Soup, less salt\n", a.Recipes.Recipes[0].Versions[1].Text)
	assert.Equal(t, "{}", a.Recipes.Recipes[0].Versions[1].PanelJSON)
	assert.Equal(t, []string{"sodium"}, a.Recipes.Recipes[0].Versions[1].Changes[0].Why)
	assert.Equal(t, h.Products[:1], a.Recipes.Products)
	require.Len(t, a.Recipes.Recipes[0].Photos, 1, "a photo goes along where a cook lets it")
	assert.Equal(t, "the pot", a.Recipes.Recipes[0].Photos[0].Caption)
	for name, content := range unzipped(t, b.Bytes()) {
		for _, private := range []string{"Ana", "Quay Lane", "our bread", "max_changes", "sr:6013"} {
			assert.NotContains(t, content, private, name)
		}
	}
	assert.Equal(t, []string{"Ana"}, h.Recipes[0].Versions[1].Changes[0].For, "the household's own is not touched")
}

func unzipped(t *testing.T, b []byte) map[string]string {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(b), int64(len(b)))
	require.NoError(t, err)
	out := map[string]string{}
	for _, f := range z.File {
		r, err := f.Open()
		require.NoError(t, err)
		content, err := io.ReadAll(r)
		require.NoError(t, err)
		out[f.Name] = string(content)
	}
	return out
}

// zipped packs files of any name.
func zipped(t *testing.T, files map[string]string) []byte {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for name, content := range files {
		f, err := z.Create(name)
		require.NoError(t, err)
		_, err = f.Write([]byte(content))
		require.NoError(t, err)
	}
	require.NoError(t, z.Close())
	return b.Bytes()
}

func TestTheReadmeNamesEveryFile(t *testing.T) {
	files := unzipped(t, pack(t, kitchen.Holdings{Household: household.Household{Name: "H"}, Recipes: []kitchen.HeldRecipe{{Title: "Soup", Versions: []recipe.Version{{ID: 1, Number: 1, PanelJSON: "{}", PlatesJSON: "[]"}}, Photos: []photo.Photo{photoOf(t, 5, "")}}}}))
	require.Contains(t, files, "households/01-h/recipes/0001-soup/version-1.txt")
	for name := range files {
		base := name[strings.LastIndex(name, "/")+1:]
		assert.Contains(t, files["README.txt"], strings.Replace(base, "-1.", "-N.", 1), name)
	}
}

func TestReadRefuses(t *testing.T) {
	whole := unzipped(t, pack(t, kitchen.Holdings{Household: household.Household{Name: "H"}, Recipes: []kitchen.HeldRecipe{{Title: "Soup", Versions: []recipe.Version{{ID: 1, Number: 1, Text: "Soup"}}}}}))
	with := func(name, content string) []byte {
		files := map[string]string{}
		for k, v := range whole {
			files[k] = v
		}
		if files[name] = content; content == "" {
			delete(files, name)
		}
		return zipped(t, files)
	}
	const text = "households/01-h/recipes/0001-soup/version-1.txt"
	small := archive.Limits{Files: 10, File: 3_500, Words: 7_000, Total: 7_000}
	for name, c := range map[string]struct {
		archive []byte
		within  archive.Limits
		want    string
	}{
		"nothing":               {nil, archive.WholeLimits(), "this is not an archive"},
		"text":                  {[]byte("a shopping list"), archive.WholeLimits(), "expected a file that potwright export"},
		"half an archive":       {with("", "")[:400], archive.WholeLimits(), "its end is missing"},
		"no manifest":           {with("manifest.json", ""), archive.WholeLimits(), "there is no manifest"},
		"a manifest of words":   {with("manifest.json", "hello"), archive.WholeLimits(), "manifest.json:1:1: \"hello\" can't stand here"},
		"another format":        {with("manifest.json", `{"format":"x","version":1,"holds":"recipes","files":[]}`), archive.WholeLimits(), `the format is "x"; expected "potwright archive"`},
		"a newer version":       {with("manifest.json", strings.Replace(whole["manifest.json"], `"version": 1`, `"version": 2`, 1)), archive.WholeLimits(), "use a newer program"},
		"an unknown holding":    {with("manifest.json", strings.Replace(whole["manifest.json"], `"holds": "households"`, `"holds": "tides"`, 1)), archive.WholeLimits(), `it holds "tides"`},
		"a changed text":        {with(text, "Soup!"), archive.WholeLimits(), "version-1.txt: the file is damaged, or was changed"},
		"a missing text":        {with(text, ""), archive.WholeLimits(), "version-1.txt: the file is missing"},
		"a path out of it":      {with("../../etc/passwd", "x"), archive.WholeLimits(), "no name of a file in an archive"},
		"a path from the root":  {with("/etc/passwd", "x"), archive.WholeLimits(), "no name of a file in an archive"},
		"a path of backslashes": {with(`..\..\x`, "x"), archive.WholeLimits(), "no name of a file in an archive"},
		"a file too long":       {with("big.txt", strings.Repeat("0", 3_501)), archive.Limits{Files: 10, File: 3_500, Words: 20_000, Total: 20_000}, "big.txt: the archive holds too much; expected at most 3500 bytes a file"},
		"too much in all":       {with("big.txt", strings.Repeat("0", 3_400)), small, "the archive holds too much; expected at most 3500 bytes a file, 7000 in all"},
		"too many files":        {with("", ""), archive.Limits{Files: 3, File: 1 << 20, Words: 1 << 20, Total: 1 << 20}, "holds 9 files; expected at most 3"},
	} {
		t.Run(name, func(t *testing.T) {
			a, err := archive.Read(bytes.NewReader(c.archive), int64(len(c.archive)), c.within)
			require.ErrorContains(t, err, c.want)
			assert.Empty(t, a.Households, "nothing is half read")
		})
	}
}

// An archive comes from outside: a photo in it is a picture and nothing else, or it is
// not taken in.
func TestPhotosOfAnArchiveAreLookedInto(t *testing.T) {
	wide := func(w int) []byte {
		var b bytes.Buffer
		require.NoError(t, jpeg.Encode(&b, image.NewGray(image.Rect(0, 0, w, 1)), nil))
		return b.Bytes()
	}
	good := photoOf(t, 5, "")
	noted := bytes.Clone(good.Picture.Large.JPEG[:2])
	noted = append(noted, "\xff\xfe\x00\x05Ana"...)
	noted = append(noted, good.Picture.Large.JPEG[2:]...)
	with := func(change func(*photo.Photo)) []photo.Photo {
		p := good
		change(&p)
		return []photo.Photo{p}
	}
	many := make([]photo.Photo, photo.MostPhotos+1)
	for i := range many {
		many[i] = good
	}
	for name, c := range map[string]struct {
		photos []photo.Photo
		want   string
	}{
		"a page":           {with(func(p *photo.Photo) { p.Picture.Large.JPEG = []byte("<!doctype html><script>alert(1)</script>") }), "photo-1.jpg: the photo can't be taken in"},
		"a comment":        {with(func(p *photo.Photo) { p.Picture.Large.JPEG = noted }), "nothing but the picture"},
		"too wide":         {with(func(p *photo.Photo) { p.Picture.Large.JPEG = wide(1601) }), "at most 1600 pixels"},
		"no small one":     {with(func(p *photo.Photo) { p.Picture.Small.JPEG = nil }), "can't be taken in"},
		"a long caption":   {with(func(p *photo.Photo) { p.Caption = strings.Repeat("a", 201) }), "over 200 characters"},
		"the same twice":   {[]photo.Photo{good, good}, "expected each photo once"},
		"more than may be": {many, "the recipe has 13 photos; expected at most 12"},
	} {
		t.Run(name, func(t *testing.T) {
			b := pack(t, kitchen.Holdings{Household: household.Household{Name: "H"}, Recipes: []kitchen.HeldRecipe{{Title: "Soup", Photos: c.photos, Versions: []recipe.Version{{ID: 1, Number: 1}}}}})
			_, err := archive.Read(bytes.NewReader(b), int64(len(b)), archive.WholeLimits())
			require.ErrorContains(t, err, c.want)
		})
	}
}

// A zip that says its file is short, and is not, is not believed: 20 MB of zeros in
// 20 kB.
func TestABombIsNotUnpacked(t *testing.T) {
	bomb := zipped(t, map[string]string{"a.txt": strings.Repeat("\x00", 20<<20)})
	require.Less(t, len(bomb), 100_000)
	_, err := archive.Read(bytes.NewReader(bomb), int64(len(bomb)), archive.SharedLimits())
	assert.ErrorContains(t, err, "holds too much")
}

// Archives of before held corrections by the number of their line.
func TestAnOlderArchiveBringsItsCorrections(t *testing.T) {
	const text = "Soup\n\n1 can beans\n2 cups broth\n"
	skip := recipe.Correction{Skip: true}
	old := []recipe.Version{{ID: 1, Number: 1, Text: text}, {ID: 2, Number: 2, ParentID: 1, Text: text,
		Changes: []recipe.Change{{Line: 1, From: "2 cups broth", To: []string{"2 cups broth"}}}}}
	files := unzipped(t, pack(t, kitchen.Holdings{Household: household.Household{Name: "H"}, Recipes: []kitchen.HeldRecipe{{Title: "Soup", Versions: old}}}))
	const list, name = "manifest.json", "households/01-h/recipes/0001-soup/recipe.json"
	was := files[name]
	first, second, ok := strings.Cut(was, `"corrections": null`)
	require.True(t, ok)
	files[name] = first + `"fixes": {}` + strings.Replace(second, `"corrections": null`, `"fixes": {"1": {"skip": true}, "7": {"skip": true}}`, 1)
	files[list] = strings.Replace(strings.Replace(files[list], digest(was), digest(files[name]), 1), fmt.Sprintf(`"bytes": %d,`, len(was)), fmt.Sprintf(`"bytes": %d,`, len(files[name])), 1)
	a := read(t, zipped(t, files))
	vs := a.Households[0].Recipes[0].Versions
	assert.Empty(t, vs[0].Corrections)
	assert.Equal(t, []recipe.LineCorrection{{Words: "2 cups broth", Correction: skip}, {At: 8, Correction: skip}}, vs[1].Corrections)
	assert.Empty(t, a.NotTaken)
}

func digest(content string) string {
	sum := sha256.Sum256([]byte(content))
	return hex.EncodeToString(sum[:])
}

func TestWhatANewerProgramAddedIsListed(t *testing.T) {
	files := unzipped(t, pack(t, kitchen.Holdings{Household: household.Household{Name: "H"}}))
	files["notes.txt"] = "mine"
	a := read(t, zipped(t, files))
	assert.Equal(t, []string{"notes.txt is not listed in the manifest"}, a.NotTaken)
	assert.Equal(t, "H", a.Households[0].Household.Name)
}

func FuzzRead(f *testing.F) {
	f.Add(pack(f, kitchen.Holdings{Household: household.Household{Name: "H"}, Recipes: []kitchen.HeldRecipe{{Title: "Soup", Versions: []recipe.Version{{ID: 1, Number: 1}}}}}))
	f.Add([]byte("PK\x05\x06"))
	f.Fuzz(func(t *testing.T, b []byte) {
		a, err := archive.Read(bytes.NewReader(b), int64(len(b)), archive.Limits{Files: 100, File: 1 << 16, Words: 1 << 18, Total: 1 << 18})
		if err != nil {
			return
		}
		var again bytes.Buffer
		require.NoError(t, archive.Write(t.Context(), &again, a.Households, written))
	})
}
