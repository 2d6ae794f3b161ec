package kitchen_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/composition"
	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/label"
	"potwright/internal/product"
	"potwright/internal/recipe"
	"potwright/internal/store/sqlite"
	"potwright/internal/testkit"
	"potwright/internal/testkit/datafile"
)

const brothSoup = `Harbour soup

Serves 4

Ingredients
4 cups quay broth
1 onion, chopped

Method
Simmer the onion in the broth for 20 minutes.
`

func pantry(t *testing.T) (k *kitchen.Kitchen, householdID int64) {
	t.Helper()
	store, err := sqlite.Open(datafile.Empty(t), testkit.Now)
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, store.Close()) })
	k = testkit.Kitchen(t)
	k.Store = store
	h, err := store.CreateHousehold(t.Context(), household.Household{Name: "Quay Lane", Members: []household.Member{{Name: "Ana", Portion: 1}}})
	require.NoError(t, err)
	return k, h.ID
}

// quayBroth is an invented label.
func quayBroth(likeID string) product.Label {
	return product.Label{Name: "Quay broth", LikeID: likeID, Panel: product.US, Serving: "1 cup (240 g)", Servings: "4", Container: "carton",
		Figures: map[string]string{"energy_kcal": "10", "fat_g": "0", "sodium_mg": "40", "carbohydrate_g": "1", "protein_g": "1"}}
}

func stock(t *testing.T, k *kitchen.Kitchen, householdID int64, l product.Label) product.Product {
	t.Helper()
	_, _, err := k.ReadProduct(l)
	require.NoError(t, err)
	p, err := storeOf(k).SaveProduct(context.Background(), householdID, product.Product{Label: l}, "")
	require.NoError(t, err)
	return p
}

// 4 cups at 240 g (a label's cup) in 4 servings are a serving of the label each: the
// true sodium of a printed 40 mg lies between 37.5 and 42.5 mg (21 CFR 101.9(c)(4)).
func TestAHouseholdsProductIsReadWhereItsRecipesAre(t *testing.T) {
	k, id := pantry(t)
	broth, ok := k.Table.ByName("chicken broth, low sodium, canned")
	if !ok {
		broth = k.Table.Search("chicken broth", 1)[0]
	}
	p := stock(t, k, id, quayBroth(broth.ID))

	a, err := k.ReadFor(t.Context(), id, brothSoup, nil)
	require.NoError(t, err)
	item := a.Pot.Lines[0].Matched.Items[0]
	assert.Equal(t, p.FoodID(), item.Food.ID)
	na := a.Pot.Lines[0].Panel[composition.Sodium]
	assert.InDelta(t, 160*236.588/240, na.Mid, 1)
	assert.Equal(t, broth.Kinds, item.Food.Kinds)

	plain, err := k.Read(brothSoup, nil, nil)
	require.NoError(t, err)
	for _, it := range plain.Pot.Lines[0].Matched.Items {
		assert.NotEqual(t, p.FoodID(), it.Food.ID, "the table itself knows nothing of it")
	}
	v, err := k.SaveNew(t.Context(), id, a, "")
	require.NoError(t, err)
	_, again, err := k.Open(t.Context(), id, v.ID)
	require.NoError(t, err)
	assert.Equal(t, p.FoodID(), again.Pot.Lines[0].Matched.Items[0].Food.ID)
}

func TestALineTiedToAProductFallsBackWhenItIsGone(t *testing.T) {
	k, id := pantry(t)
	p := stock(t, k, id, quayBroth(""))
	corrections := []recipe.LineCorrection{{Words: "4 cups chicken broth", Correction: recipe.Correction{FoodID: p.FoodID()}}}
	text := "Soup\n\n4 cups chicken broth\n"
	a, err := k.ReadFor(t.Context(), id, text, corrections)
	require.NoError(t, err)
	assert.Equal(t, p.FoodID(), a.Pot.Lines[0].Matched.Items[0].Food.ID)
	assert.Positive(t, a.Pot.Serving[composition.Potassium].Unknown, "what its label does not say is unknown")
	require.NoError(t, storeOf(k).DeleteProduct(t.Context(), id, p.ID))
	a, err = k.ReadFor(t.Context(), id, text, corrections)
	require.NoError(t, err)
	assert.NotEqual(t, p.FoodID(), a.Pot.Lines[0].Matched.Items[0].Food.ID)
	assert.Contains(t, a.Pot.Lines[0].Matched.Notes[0], "no longer in the table")
}

func TestALabelThatNoLongerReadsIsSaidAndLeftOut(t *testing.T) {
	k, id := pantry(t)
	l := quayBroth("sr:00000")
	_, err := storeOf(k).SaveProduct(t.Context(), id, product.Product{Label: l}, "")
	require.NoError(t, err)
	stocked, err := k.Pantry(t.Context(), id)
	require.NoError(t, err)
	require.Len(t, stocked, 1)
	require.ErrorContains(t, stocked[0].Err, "no food of the table")
	_, err = k.ReadFor(t.Context(), id, brothSoup, nil)
	require.NoError(t, err)
}

func met(c kitchen.Claims) []string {
	var terms []string
	for _, j := range c.Of(label.Meets) {
		terms = append(terms, j.Term)
	}
	return terms
}

// 40 mg in 240 g is under 140 mg and over 35 mg per 245 g (21 CFR 101.61(b)).
func TestAProductIsHeldAgainstTheDefinitionsByItsKind(t *testing.T) {
	k, _ := pantry(t)
	f, _, err := k.ReadProduct(quayBroth(k.Table.Search("chicken broth", 1)[0].ID))
	require.NoError(t, err)
	c, ok := kitchen.FoodClaims(f)
	require.True(t, ok)
	assert.Contains(t, c.Basis, "245 g")
	assert.Contains(t, met(c), "low sodium")
	assert.NotContains(t, met(c), "very low sodium")
	assert.Contains(t, met(c), "low fat")
}

func TestADishIsHeldAgainstTheDefinitionsForItsSize(t *testing.T) {
	k, _ := pantry(t)
	a, err := k.Read("Rice and beans\n\nServes 2\n\n1 cup rice\n2 cups water\n2 cups cooked black beans\n1 cup chopped tomatoes\n", nil, nil)
	require.NoError(t, err)
	c := kitchen.DishClaims(a, nil)
	assert.Contains(t, c.Basis, "a meal of about")
	assert.Contains(t, met(c), "low fat")
	assert.Empty(t, c.Disclosures)
	a, err = k.Read("Tea\n\nServes 1\n\n1 cup tea\n", nil, nil)
	require.NoError(t, err)
	assert.Contains(t, kitchen.DishClaims(a, nil).Basis, "neither a main dish nor a meal")
}

// A quarter less in 100 g, 21 CFR 101.61(b)(7); barred where the dish was low before.
func TestADishIsComparedWithItsEarlierVersion(t *testing.T) {
	k, _ := pantry(t)
	read := func(salt string) kitchen.Analysis {
		a, err := k.Read("Rice and beans\n\nServes 2\n\n1 cup rice\n2 cups water\n2 cups cooked black beans\n1 cup chopped tomatoes\n"+salt+"\n", nil, nil)
		require.NoError(t, err)
		return a
	}
	salty, less := read("10 g salt"), read("2 g salt")
	var terms []string
	for _, j := range kitchen.DishClaims(less, &salty).Compared {
		terms = append(terms, j.Term)
	}
	assert.Equal(t, []string{"reduced sodium"}, terms)
	assert.Empty(t, kitchen.DishClaims(salty, &less).Compared)
}

// A can of a product weighs what its label says: 4 servings of 120 g.
func TestACanOfAProductWeighsWhatItsLabelSays(t *testing.T) {
	k, id := pantry(t)
	stock(t, k, id, product.Label{Name: "Quay beans", LikeID: "sr:16145", Panel: product.US, Serving: "1/2 cup (120 g)", Servings: "4", Container: "can",
		Figures: map[string]string{"energy_kcal": "110", "fat_g": "0", "sodium_mg": "140", "carbohydrate_g": "20", "protein_g": "7"}})
	a, err := k.ReadFor(t.Context(), id, "Beans\n\nServes 2\n\nIngredients\n1 can quay beans\n", nil)
	require.NoError(t, err)
	assert.InDelta(t, 480, a.Pot.Lines[0].Grams.Mid, 5)
}
