package ruleset

import (
	"strings"
	"testing"

	"potwright/internal/household"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// dish makes lines of "text|food|grams".
func dish(t *testing.T, foods rows, lines ...string) []household.LineFood {
	t.Helper()
	var out []household.LineFood
	for i, l := range lines {
		parts := strings.Split(l, "|")
		lf := household.LineFood{Line: i, Text: parts[0], Grams: 100}
		if len(parts) > 1 {
			lf.Food = foods.find(t, parts[1])
		} else {
			lf.Unread = true
		}
		out = append(out, lf)
	}
	return out
}

func at(level, age int, avoid ...string) household.Member {
	return household.Member{Age: age, Texture: &household.Texture{Level: level, Avoid: avoid}}
}

func textureOf(t *testing.T, m household.Member) household.TextureNeed {
	t.Helper()
	needs, _ := realNeeds(t)
	need, ok := needs.Texture(m)
	require.True(t, ok)
	return need
}

// The sizes are those of the IDDSI Framework 2.0 (July 2019).
func TestPieceSizesAreThePublishedOnes(t *testing.T) {
	for _, c := range []struct {
		level, age int
		want       household.Piece
		sized      bool
	}{
		{5, 40, household.Piece{Width: 4, Length: 15}, true},
		{5, 9, household.Piece{Width: 2, Length: 8}, true},
		{6, 0, household.Piece{Width: 15, Length: 15}, true},
		{6, 9, household.Piece{Width: 8, Length: 8}, true},
		{4, 40, household.Piece{}, false},
		{7, 40, household.Piece{}, false},
	} {
		p, sized := textureOf(t, at(c.level, c.age)).PieceSize()
		assert.Equal(t, c.want, p)
		assert.Equal(t, c.sized, sized)
	}
}

func TestTheRemedyOfALevelIsDoneToThePlate(t *testing.T) {
	assert.Contains(t, textureOf(t, at(4, 80)).PlateRemedy(), "Puree this portion")
	assert.Contains(t, textureOf(t, at(5, 80)).PlateRemedy(), "no wider than 4 mm and no longer than 15 mm")
	assert.Contains(t, textureOf(t, at(6, 9)).PlateRemedy(), "8 mm by 8 mm")
	assert.Empty(t, textureOf(t, at(7, 80)).PlateRemedy())
	assert.True(t, strings.HasSuffix(textureOf(t, at(6, 80)).Test(), household.TestEachPlate))
}

func TestFeaturesOfALineBreakANeedUnlessTheRecipeTakesThemAway(t *testing.T) {
	_, foods := realNeeds(t)
	for _, c := range []struct {
		name, line, step, feature string
		want                      household.TextureAnswer
	}{
		{"celery is stringy", "2 stalks celery, sliced|celery, raw", "Cook until soft.", "stringy", household.Breaks},
		{"celery pureed in the soup is not", "2 stalks celery|celery, raw", "Puree the soup until smooth.", "stringy", household.AimsAt},
		{"a puree of something can't be told", "2 stalks celery|celery, raw", "Puree half.", "stringy", household.CantTell},
		{"kidney beans have skins", "1 can kidney beans|kidney beans, canned, drained", "Simmer.", "skins", household.Breaks},
		{"a peeled potato has none", "3 potatoes, peeled|potato, with skin, raw", "Boil.", "skins", household.AimsAt},
		{"an unpeeled potato may have one", "3 potatoes|potato, with skin, raw", "Boil.", "skins", household.CantTell},
		{"walnuts are hard", "1/2 cup walnuts|walnuts", "Sprinkle on top.", "hard", household.Breaks},
		{"a carrot may be hard", "1 carrot, sliced|carrot, raw", "Serve.", "hard", household.CantTell},
		{"a carrot simmered for an hour is not", "1 carrot, sliced|carrot, raw", "Simmer 1 hour.", "hard", household.AimsAt},
		{"bone-in chicken has bones", "2 chicken drumsticks|chicken drumstick, with skin, raw", "Bake 40 minutes.", "bones", household.Breaks},
		{"a sausage is round", "2 hot dogs|hot dog, beef, unheated", "Grill.", "round", household.Breaks},
		{"a sliced sausage is not", "2 hot dogs, sliced|hot dog, beef, unheated", "Add.", "round", household.AimsAt},
		{"stew meat simmered for two hours is tender", "1 lb stew meat|beef stew meat, raw", "Simmer 2 hours.", "tough", household.AimsAt},
		{"stew meat simmered for ten minutes is not", "1 lb stew meat|beef stew meat, raw", "Simmer 10 minutes.", "tough", household.Breaks},
		{"corn has husks", "1 cup corn|corn, frozen", "Stir in.", "husks", household.Breaks},
		{"crackers are crumbly", "10 crackers, crushed|saltine crackers", "Top with crackers.", "crumbly", household.Breaks},
		{"raisins are chewy", "1/4 cup raisins|raisins", "Stir in.", "chewy", household.Breaks},
		{"bread is not for levels up to 6", "2 slices bread|white bread", "Serve.", "soft_white_bread", household.Breaks},
		{"honey is sticky perhaps", "1 tbsp honey|honey", "Drizzle.", "sticky", household.CantTell},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := textureOf(t, at(6, 80)).Features(dish(t, foods, c.line), []string{c.step})
			for _, a := range got {
				if a.Feature == c.feature && a.Line == 0 {
					assert.Equal(t, c.want, a.Answer, a.Text)
					if a.Answer != household.AimsAt {
						assert.NotEmpty(t, a.Remedy)
					}
					return
				}
			}
			assert.Fail(t, "feature not found", "%s in %v", c.feature, got)
		})
	}
}

func TestWhatIsBrokenIsWhatAllAnswersSayNoPlateMends(t *testing.T) {
	needs, foods := realNeeds(t)
	lines := dish(t, foods, "2 stalks celery|celery, raw", "10 crackers, crushed|saltine crackers", "1/4 cup raisins|raisins", "1 tbsp honey|honey", "2 slices bread|white bread", "1 cup of the usual")
	for _, steps := range [][]string{nil, {"Stir in."}, {"Simmer the celery for 2 hours.", "Puree the soup."}} {
		for level := 3; level <= 7; level++ {
			need := textureOf(t, at(level, 80, "stringy"))
			for i := range lines {
				var want []household.LineTexture
				for _, a := range need.Features(lines[i:i+1], steps) {
					if a.Line >= 0 && a.Answer == household.Breaks && !a.ByPlate {
						want = append(want, a)
					}
				}
				assert.ElementsMatch(t, want, need.Broken(lines[i:i+1], needs.Method(steps)), "%s at level %d", lines[i].Text, level)
			}
		}
	}
}

func TestSmoothFoodsCarryNoPieces(t *testing.T) {
	_, foods := realNeeds(t)
	lines := dish(t, foods, "1 tbsp olive oil|olive oil", "1 cup orange juice|orange juice, raw", "2 cups tomato puree|tomato puree, canned, salted",
		"1 tsp nutmeg|nutmeg, ground", "1/2 cup flour|flour, all-purpose, unbleached")
	got := textureOf(t, at(4, 80)).Features(lines, nil)
	require.Len(t, got, 1)
	assert.Equal(t, household.AimsAt, got[0].Answer)
}

func TestADishWithPiecesIsDoneToThePlateAtLevelsUpToFive(t *testing.T) {
	_, foods := realNeeds(t)
	lines := dish(t, foods, "2 potatoes, peeled|potato, with skin, raw")
	for level, want := range map[int]household.TextureAnswer{3: household.Breaks, 4: household.Breaks, 5: household.Breaks, 6: household.AimsAt, 7: household.AimsAt} {
		got := textureOf(t, at(level, 80)).Features(lines, []string{"Boil until tender."})[0]
		assert.Equal(t, want, got.Answer, "level %d", level)
		assert.Equal(t, level < 7, got.ByPlate, "level %d", level)
	}
	got := textureOf(t, at(4, 80)).Features(lines, []string{"Puree the soup."})[0]
	assert.Equal(t, household.AimsAt, got.Answer)
}

// IDDSI Framework 2.0 (2019): up to 15 by 15 mm at level 6 (8 by 8 for children),
// 4 by 15 at level 5 (2 by 8). An inch is 25.4 mm.
func TestPiecesAreJudgedByTheSizeThatTheRecipeStates(t *testing.T) {
	_, foods := realNeeds(t)
	for _, c := range []struct {
		name       string
		level, age int
		line, step string
		want       household.TextureAnswer
		byPlate    bool
	}{
		{"an inch is too large for level 6", 6, 80, "2 potatoes, cut in 1-inch cubes|potato, with skin, raw", "Boil until tender.", household.Breaks, true},
		{"half an inch is not", 6, 80, "2 potatoes, cut into 1/2-inch dice|potato, with skin, raw", "Boil until tender.", household.AimsAt, false},
		{"half an inch is for a child", 6, 9, "2 potatoes, cut into ½ inch dice|potato, with skin, raw", "Boil until tender.", household.Breaks, true},
		{"half an inch is too wide for level 5", 5, 80, "2 potatoes, cut into 1/2-inch dice|potato, with skin, raw", "Boil until tender.", household.Breaks, true},
		{"minced is fine enough for level 5", 5, 80, "2 carrots, minced|carrot, raw", "Simmer 1 hour.", household.AimsAt, false},
		{"minced is not for a child", 5, 9, "2 carrots, minced|carrot, raw", "Simmer 1 hour.", household.Breaks, true},
		{"a step may state it", 6, 80, "2 potatoes|potato, with skin, raw", "Cut the potatoes into 2 cm chunks.", household.Breaks, true},
		{"how thick a slice is tells not how wide", 6, 80, "2 carrots, sliced 1/4 inch thick|carrot, raw", "Simmer 1 hour.", household.AimsAt, true},
		{"a pan is no piece", 6, 80, "2 potatoes|potato, with skin, raw", "Put the potatoes in a 9-inch pan.", household.AimsAt, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := textureOf(t, at(c.level, c.age)).Features(dish(t, foods, c.line), []string{c.step})[0]
			assert.Equal(t, "pieces", got.Feature)
			assert.Equal(t, c.want, got.Answer, got.Text)
			assert.Equal(t, c.byPlate, got.ByPlate, got.Text)
			assert.Equal(t, c.byPlate, got.Remedy != "", "what is to be done is said")
		})
	}
}

func TestThinLiquidWithPiecesIsMixed(t *testing.T) {
	_, foods := realNeeds(t)
	lines := dish(t, foods, "4 cups broth|chicken broth, ready to serve", "2 potatoes, peeled|potato, with skin, raw")
	mixed := func(steps ...string) household.TextureAnswer {
		for _, a := range textureOf(t, at(6, 80)).Features(lines, steps) {
			if a.Feature == "mixed_thin_and_thick" {
				return a.Answer
			}
		}
		return ""
	}
	assert.Equal(t, household.Breaks, mixed("Simmer until tender."))
	assert.Equal(t, household.AimsAt, mixed("Puree the soup until smooth."))
	lines[0].Grams = 5
	assert.Empty(t, mixed("Simmer."), "a splash of broth is no soup")
}

func TestWhatIsSaidOfTheDishEndsWithTheCautionAndNothingSaysALevelIsReached(t *testing.T) {
	_, foods := realNeeds(t)
	lines := dish(t, foods, "2 stalks celery|celery, raw", "1 cup of the usual")
	for _, level := range []int{3, 4, 5, 6, 7} {
		for _, f := range textureOf(t, at(level, 80, "stringy")).Judge(lines, []string{"Simmer."}) {
			assert.Equal(t, len(f.Shares) == 0, strings.HasSuffix(f.Text, household.TestEachPlate), f.Text)
			assert.NotContains(t, f.Text, "is level")
			assert.Equal(t, "texture", f.Kind)
		}
	}
}

func TestALineThatWasNotReadCantBeTold(t *testing.T) {
	_, foods := realNeeds(t)
	got := textureOf(t, at(6, 80)).Judge(dish(t, foods, "1 cup of the usual"), nil)
	require.NotEmpty(t, got)
	assert.Equal(t, household.Unknown, got[len(got)-1].Fit)
}

func TestAtLevelSevenOnlyListedFeaturesCount(t *testing.T) {
	_, foods := realNeeds(t)
	lines := dish(t, foods, "2 stalks celery|celery, raw")
	assert.Len(t, textureOf(t, at(7, 80)).Judge(lines, nil), 1)
	assert.Greater(t, len(textureOf(t, at(7, 80, "stringy")).Judge(lines, nil)), 1)
}

func TestEveryFeatureThatTheFilesMayNameIsDescribed(t *testing.T) {
	needs, _ := realNeeds(t)
	assert.ElementsMatch(t, textureFeatures(), needs.FeatureIDs())
}
