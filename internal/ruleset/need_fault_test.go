package ruleset

import (
	"errors"
	"io/fs"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"potwright/internal/composition"
	"potwright/internal/cooking"
	"potwright/internal/diagnostic"
	"potwright/internal/household"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// realFiles are the real files of rules/need, for a test to spoil one.
func realFiles(t testing.TB) fstest.MapFS {
	t.Helper()
	out, err := needFiles()
	require.NoError(t, err)
	return out
}

func needFiles() (fstest.MapFS, error) {
	out := fstest.MapFS{}
	for _, name := range []string{"need/avoid.yaml", "need/texture.yaml", "need/hands.yaml", "need/presets.yaml", "need/cautions.yaml"} {
		data, err := os.ReadFile("../../rules/" + name)
		if err != nil {
			return nil, err
		}
		out[name] = &fstest.MapFile{Data: data}
	}
	return out, nil
}

func TestAFaultInANeedFileIsNamedWithItsPlace(t *testing.T) {
	foods, err := realRows()
	require.NoError(t, err)
	for _, c := range []struct{ name, file, old, new, problem, expected string }{
		{"an unknown kind", "avoid", "kinds: [egg]", "kinds: [eggg]", `unknown kind "eggg"`, `"egg"`},
		{"an unknown list", "avoid", "lists: [US nine, EU fourteen]", "lists: [US ten]", `unknown list "US ten"`, "US nine"},
		{"an unknown include", "avoid", "includes: [wheat]", "includes: [wheet]", `unknown avoidance "wheet"`, `"wheat"`},
		{"an id written twice", "avoid", "- id: egg\n", "- id: milk\n", `id "milk" is taken`, "an id of its own"},
		{"a word of two avoidances", "avoid", "also: [eggs,", "also: [dairy,", `the word "dairy" belongs to milk and to egg`, "a word of its own"},
		{"a key that does not exist", "avoid", "says_free: [egg free", "says_fre: [egg free", `unknown key "says_fre"`, `"says_free"`},
		{"a carrier without a reason", "avoid", `, why: "many margarines hold whey or casein"`, "", `missing "why"`, "a value for it"},
		{"a level outside 3 to 7", "texture", "- level: 3", "- level: 2", `"2" is out of range`, "number from 3 to 7"},
		{"a level that is missing", "texture", "- level: 5", "- level: 4", "level 4 is written twice", "one of each"},
		{"an unknown feature", "texture", "id: stringy", "id: strings", `unknown texture feature "strings"`, `"stringy"`},
		{"a piece of no width", "texture", "width_mm: 4,", "width_mm: 0,", "out of range", "a number above 0"},
		{"an unknown load", "hands", "loads: {grip: 3, pinch: 1, tight_twist: 3}", "loads: {grib: 3}", `unknown key "grib"`, `"grip"`},
		{"a load above 3", "hands", "loads: {grip: 3, pinch: 1,", "loads: {grip: 4, pinch: 1,", `"4" is out of range`, "number from 0 to 3"},
		{"an unknown nutrient", "presets", "nutrient: sodium_mg", "nutrient: sodium_g", `"sodium_g"`, "sodium_mg"},
		{"a limit without a figure", "presets", "{nutrient: sodium_mg, at_most: 2300, per: day}", "{nutrient: sodium_mg, per: day}", "no figure", "at_most or at_least"},
		{"a note that forgets the clinician", "presets", "has since been published. A starting point: your clinician's figure comes first.", "has since been published.", "does not end with", household.YourClinicianFirst},
		{"ages the wrong way round", "presets", "age_to: 3", "age_to: -3", "out of range", "number from 0 to 120"},
		{"an unknown food of a caution", "cautions", "foods: [blue cheese,", "foods: [blue cheeze,", `unknown food "blue cheeze"`, `"blue cheese"`},
		{"an unknown caution that one includes", "cautions", "includes: [raw_egg,", "includes: [raw_eg,", `unknown caution "raw_eg"`, `"raw_egg"`},
		{"a caution that does not say what to do", "cautions", "    say: \"Your clinician says which", "    why: \"Your clinician says which", `unknown key "why"`, ""},
		{"words that heat leaves, without heat", "cautions", "    heat_mends: true\n    still: [soft boiled", "    still: [soft boiled", "still without heat_mends", "heat_mends: true"},
		{"an amount of no nutrient", "cautions", "amount: {nutrient: vitamin_k_ug", "amount: {nutrient: vitamin_k", `"vitamin_k"`, "vitamin_k_ug"},
		{"an age that is none", "cautions", "under_age: 4", "under_age: 40", `"40" is out of range`, "number from 1 to 18"},
		{"not YAML", "hands", "actions:", "actions: [", "not readable as YAML", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			fsys := realFiles(t)
			name := "need/" + c.file + ".yaml"
			was := string(fsys[name].Data)
			require.Contains(t, was, c.old)
			fsys[name] = &fstest.MapFile{Data: []byte(strings.Replace(was, c.old, c.new, 1))}
			_, err := loadNeeds(fsys, foods)
			var faults diagnostic.Faults
			require.True(t, errors.As(err, &faults))
			for _, f := range faults {
				if strings.Contains(f.Problem, c.problem) && strings.Contains(f.Expected, c.expected) {
					assert.Equal(t, name, f.File)
					assert.Positive(t, f.Line)
					return
				}
			}
			assert.Fail(t, "fault not reported", err.Error())
		})
	}
}

// loadNeeds reads the needs of a folder that has nothing else.
func loadNeeds(fsys fs.FS, foods []*composition.Food) (*household.Needs, error) {
	r := newFolderReader(newVocabulary(foods), nil, cooking.Retentions{})
	r.all(Folder{FS: fsys})
	if err := r.faults.Err(); err != nil {
		return nil, err
	}
	return household.NewNeeds(r.needs.book, foods), nil
}

func FuzzNeedFilesAreReadWithoutPanic(f *testing.F) {
	files := realFiles(f)
	for name, file := range files {
		_ = name
		f.Add(string(file.Data[:min(len(file.Data), 2000)]))
	}
	f.Add("avoidances: [{id: milk, stands: [{}]}]\nlevels: [{level: 4}]\nactions: [{loads: {grip: x}}]\nlimits: [{}]\nplans: [{weights: {a: 1}}]")
	f.Fuzz(func(t *testing.T, text string) {
		fsys := fstest.MapFS{}
		for name := range files {
			fsys[name] = &fstest.MapFile{Data: []byte(text)}
		}
		needs, err := loadNeeds(fsys, nil)
		if (needs == nil) == (err == nil) {
			t.Fatal("neither needs nor faults")
		}
	})
}

func TestChildrenAreOfferedTheBandOfTheirAge(t *testing.T) {
	needs, _ := realNeeds(t)
	for age, want := range map[int]string{2: "child_sodium_1_3", 6: "child_sodium_4_8", 12: "child_sodium_9_13"} {
		var bands []string
		for _, p := range needs.Presets() {
			if p.ForAge(age) && strings.HasPrefix(p.ID, "child_sodium") {
				bands = append(bands, p.ID)
			}
		}
		assert.Equal(t, []string{want}, bands)
	}
	for _, p := range needs.Presets() {
		if p.ForAge(0) {
			assert.Zero(t, p.AgeTo, p.ID)
		}
	}
}

func TestPlansCountAsPublished(t *testing.T) {
	needs, _ := realNeeds(t)
	for _, p := range needs.Plans() {
		assert.True(t, strings.HasSuffix(p.Note, household.YourClinicianFirst), p.ID)
		one := map[string]struct {
			nutrient composition.Nutrient
			amount   float64
			cost     float64
		}{
			"energy":              {composition.Energy, 236, 240},        // 21 CFR 101.9(c)(1)
			"carbohydrate_choice": {composition.Carbohydrate, 45, 3},     // 15 g a choice
			"fat_exchange":        {composition.Fat, 10, 2},              // 5 g an exchange
			"protein_exchange":    {composition.Protein, 21, 3},          // 7 g an exchange
			"saturated_fat_share": {composition.SaturatedFat, 22.2, 100}, // 10 % of 2,000 kcal at 9 kcal/g
		}[p.ID]
		assert.Equal(t, one.cost, p.Plan.Price(p.Plan.Weights[one.nutrient]*one.amount), p.ID)
	}
}
