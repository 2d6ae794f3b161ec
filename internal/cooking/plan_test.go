package cooking_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/composition"
	"potwright/internal/cooking"
	"potwright/internal/fooddata"
	"potwright/internal/foodmatch"
	"potwright/internal/ingredient"
	"potwright/internal/recipe"
	"potwright/internal/ruleset"
	"potwright/rules"
)

// realBook is the table and the factors that the program carries.
func realBook(t testing.TB) (*composition.Table, *cooking.Book) {
	t.Helper()
	table, err := fooddata.Load()
	require.NoError(t, err)
	retentions, err := fooddata.LoadRetentions()
	require.NoError(t, err)
	book, err := ruleset.Factors(rules.FS, table.Foods(), retentions)
	require.NoError(t, err)
	return table, book
}

func matched(table *composition.Table, lines ...string) []foodmatch.Matched {
	var out []foodmatch.Matched
	for _, l := range lines {
		out = append(out, foodmatch.Weigh(ingredient.Read(l), table, nil, nil))
	}
	return out
}

func steps(text string) []recipe.Step {
	var out []recipe.Step
	for _, s := range strings.Split(text, "|") {
		out = append(out, recipe.Step{Text: strings.TrimSpace(s)})
	}
	return out
}

// treated is one line with how it must be treated; "?" behind the treatment
// where that may not be sure.
type treated struct{ line, as string }

func TestHowEachLineIsTreated(t *testing.T) {
	table, book := realBook(t)
	for name, c := range map[string]struct {
		method string
		lines  []treated
	}{
		"potatoes boiled apart, the dressing raw": {
			"Boil the potatoes in water 15 minutes; drain and cool. | Mix the mayonnaise and mustard; toss with the potatoes. | Fold in the celery and chill.",
			[]treated{{"1 lb potatoes", "boiled and drained"}, {"1/2 cup mayonnaise", "raw"}, {"1 teaspoon mustard", "raw"}, {"1 stalk celery", "raw"}}},
		"a soup keeps its liquid": {
			"Saute the onion and carrots in the oil 5 minutes. | Add the broth and simmer 20 minutes.",
			[]treated{{"1 onion, chopped", "stewed"}, {"2 carrots", "stewed"}, {"1 tablespoon oil", "stewed"}, {"4 cups chicken broth", "stewed"}}},
		"pasta drained, then baked with the sauce": {
			"Cook the pasta according to package directions and drain. | Mix the pasta with the tomato sauce in a baking dish. | Bake 30 minutes.",
			[]treated{{"1 lb penne pasta", "boiled, drained and baked"}, {"2 cups tomato sauce", "baked in the dish"}}},
		"pasta cooked in the soup": {
			"Bring the broth to a boil. | Add the macaroni and simmer 10 minutes.",
			[]treated{{"4 cups chicken broth", "stewed"}, {"1 cup macaroni", "stewed"}}},
		"a roast alone": {
			"Rub the chicken with salt and pepper. | Roast 1 hour 20 minutes.",
			[]treated{{"1 whole chicken (4 lb)", "baked"}, {"1 teaspoon salt", "baked"}, {"1/2 teaspoon pepper", "baked"}}},
		"a salad": {
			"Chop the lettuce and tomatoes. | Toss with the oil and vinegar.",
			[]treated{{"1 head lettuce", "raw"}, {"2 tomatoes", "raw"}, {"2 tablespoons olive oil", "raw"}, {"1 tablespoon vinegar", "raw"}}},
		"grilled fish, the salsa beside it raw": {
			"Mix the tomatoes, onion and lime juice in a small bowl. | Grill the salmon 5 minutes a side. | Serve with the salsa.",
			[]treated{{"2 tomatoes", "raw"}, {"1/2 onion", "raw"}, {"1 tablespoon lime juice", "raw"}, {"1 lb salmon fillets", "grilled"}}},
		"what is fried in the oil was made before": {
			"Coat the tofu with cornstarch. | Fry in the oil 8 minutes.",
			[]treated{{"1 lb firm tofu", "fried"}, {"1/4 cup cornstarch", "fried"}, {"2 tablespoons oil", "fried"}}},
		"a batter": {
			"Heat the oven to 350 F. | Beat the eggs and milk. | Mix the flour and sugar in another bowl. | Combine, pour into a pan and bake 40 minutes.",
			[]treated{{"2 eggs", "baked in the dish"}, {"1 cup milk", "baked in the dish"}, {"2 cups flour", "baked in the dish"}, {"1 cup sugar", "baked in the dish"}}},
		"a slow cooker": {
			"Put everything in a slow cooker with the beef and carrots; cook on low 7-8 hours.",
			[]treated{{"2 lb beef chuck", "stewed"}, {"4 carrots", "stewed"}}},
		"a can that is drained boils nothing": {
			"Brown the sausage 5 minutes. | Drain and rinse the beans. | Add the beans and tomatoes and simmer 20 minutes.",
			[]treated{{"12 oz smoked sausage", "stewed"}, {"1 (15 oz) can white beans", "stewed"}, {"1 (14.5 oz) can diced tomatoes", "stewed"}}},
		"what is made smooth beside the pot comes back to it": {
			"Brown the carrots in the oil 5 minutes. | Cook the squash until very soft, blend until smooth and press through a sieve. | Add the broth and squash and simmer 20 minutes.",
			[]treated{{"2 carrots", "stewed"}, {"1 tablespoon oil", "stewed"}, {"2 cups winter squash", "stewed"}, {"4 cups chicken broth", "stewed"}}},
		"pasta boiled by itself is drained, said or not": {
			"Simmer the tomatoes 20 minutes. | Boil the spaghetti 10 minutes; serve with the tomatoes.",
			[]treated{{"1 (14.5 oz) can diced tomatoes", "stewed"}, {"8 oz spaghetti", "boiled and drained"}}},
		"everything": {
			"Put everything in a baking dish. | Bake 40 minutes.",
			[]treated{{"1 lb potatoes", "baked in the dish"}, {"1 cup milk", "baked in the dish"}}},
		"a line that no step names": {
			"Simmer the beans and broth 1 hour.",
			[]treated{{"1 lb dry pinto beans", "stewed"}, {"6 cups chicken broth", "stewed"}, {"2 cups spinach", "stewed?"}}},
	} {
		t.Run(name, func(t *testing.T) {
			var lines []string
			for _, l := range c.lines {
				lines = append(lines, l.line)
			}
			plan := book.Read(steps(c.method), matched(table, lines...))
			for i, l := range c.lines {
				got := string(plan.Of(i).Treatment)
				if !plan.Of(i).Sure && plan.Of(i).Heated() {
					got += "?"
				}
				assert.Equal(t, l.as, got, l.line)
			}
		})
	}
}

func TestWithoutAMethodNothingIsTakenButVitaminsAreLessSure(t *testing.T) {
	table, book := realBook(t)
	ms := matched(table, "2 cups broccoli florets")
	plan := book.Read(nil, ms)
	assert.False(t, plan.Told)
	require.NotEmpty(t, plan.Notes)
	bare, cooked := nutrientLine(ms[0]), book.Panel("0", plan, 0, &ms[0], 1)
	for _, n := range composition.Nutrients() {
		assert.Equal(t, bare.Panel[n].Mid, cooked.Panel[n].Mid, n)
		if n != composition.VitaminC && n != composition.Folate {
			assert.Equal(t, bare.Panel[n].Range, cooked.Panel[n].Range, n)
		}
	}
	assert.Less(t, cooked.Panel[composition.VitaminC].Low, bare.Panel[composition.VitaminC].Low)
	assert.Equal(t, bare.Panel[composition.VitaminC].High, cooked.Panel[composition.VitaminC].High)
}

func TestARemarkOnOneLineIsNoMethod(t *testing.T) {
	table, book := realBook(t)
	ms := matched(table, "1 lb chicken breast", "2 carrots", "1 onion", "1 teaspoon thyme", "1/2 cup water")
	assert.False(t, book.Read(steps("Breast dries out: take it from the heat as soon as it is 165 F in the middle."), ms).Told)
	assert.True(t, book.Read(steps("Toss the chicken and carrots with the onion."), ms).Told)
}

func TestWhatIsPouredOff(t *testing.T) {
	table, book := realBook(t)
	lines := []string{"4 chicken breasts", "1/2 cup soy sauce", "2 tablespoons honey", "2 cloves garlic"}
	ms := matched(table, lines...)
	plan := book.Read(steps("Mix the soy sauce, honey and garlic; add the chicken and chill 4 hours. | Remove the chicken and discard the marinade. | Grill the chicken 6 minutes a side."), ms)
	assert.Equal(t, 0.0, plan.Of(0).Away.Mid, "the chicken is eaten")
	for i := 1; i < len(lines); i++ {
		assert.InDelta(t, 0.90, plan.Of(i).Away.Mid, 1e-9, lines[i])
	}
	whole, eaten := nutrientLine(ms[1]).Panel[composition.Sodium], book.Panel("1", plan, 1, &ms[1], 1).Panel[composition.Sodium]
	assert.InDelta(t, 0.10*whole.Mid, eaten.Mid, 1e-6*whole.Mid)
	assert.GreaterOrEqual(t, eaten.High, 0.25*whole.Mid, "up to a quarter may be taken up")

	kept := book.Read(steps("Mix the soy sauce, honey and garlic; add the chicken and chill 4 hours. | Remove the chicken from the marinade. | Boil the marinade 5 minutes. | Grill the chicken, basting with the marinade."), ms)
	assert.Equal(t, 0.0, kept.Of(1).Away.Mid, "a marinade that is boiled and brushed on is eaten")
	assert.Positive(t, kept.Of(1).Away.High, "how much of it is not known")
}

// Bianchi et al. 2019, Food Chemistry 271:479: some 14 % of the salt in the pot
// is in the drained pasta.
func TestSaltOfCookingWaterIsTakenUpOnceOnly(t *testing.T) {
	table, book := realBook(t)
	method := steps("Bring the water and salt to a boil. | Add the spaghetti and boil 10 minutes; drain.")
	for _, salt := range []string{"2 tablespoons salt", "2 tablespoons salt, for the pasta water"} {
		ms := matched(table, "1 lb spaghetti", salt, "6 quarts water")
		plan := book.Read(method, ms)
		got := book.Panel("1", plan, 1, &ms[1], 1).Panel[composition.Sodium]
		assert.InDelta(t, 0.14*2*3*2325.5, got.Mid, 30, salt)
		assert.Equal(t, cooking.Boiled, plan.Of(0).Treatment)
	}
}

// USDA Table of Cooking Yields for Meat and Poultry, Release 2, 23575: minced
// beef of 12 to 22 % fat in crumbles loses 5.3 g of fat of 100 g raw.
func TestFatIsTakenOnlyWhereItIsPouredOff(t *testing.T) {
	table, book := realBook(t)
	ms := matched(table, "1 lb ground beef (80% lean)", "1 onion")
	bare := nutrientLine(ms[0]).Panel
	for method, lost := range map[string]float64{
		"Brown the beef 8 minutes; drain off the fat. | Add the onion and cook 5 minutes.": 5.5,
		"Brown the beef 8 minutes. | Add the onion and cook 5 minutes.":                    0,
		"Cook the beef; drain. | Add the onion and cook 5 minutes.":                        5.5,
		"Brown the beef; drain fat. | Add the onion and 2 cups water; simmer 20 minutes.":  5.5,
	} {
		plan := book.Read(steps(method), ms)
		got := book.Panel("0", plan, 0, &ms[0], 1).Panel
		assert.InDelta(t, lost*4.536, bare[composition.Fat].Mid-got[composition.Fat].Mid, 0.2, method)
		assert.InDelta(t, 9*lost*4.536, bare[composition.Energy].Mid-got[composition.Energy].Mid, 2, method)
		assert.Equal(t, bare[composition.Protein].Mid, got[composition.Protein].Mid)
	}
}
