package rules_test

import (
	"testing"

	"potwright/internal/household"
	"potwright/internal/swap"
	"potwright/internal/testkit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// free are the rules that give a line a way without what someone avoids, as far
// as the words tell, without leaving it out.
func free(t *testing.T, avoid, text string, dish ...string) (ids []string) {
	t.Helper()
	table := realTable(t)
	book, read := realBook(t), reader(table)
	needs := testkit.Rulebook(t).Needs
	a, err := needs.Avoidance(avoid)
	require.NoError(t, err)
	for _, o := range book.Options(read(text), readAll(read, dish), read) {
		ok := o.Rule.Do != swap.Omit && o.Rule.Do != swap.ToTable && !o.Rule.Manual
		for _, m := range o.Lines {
			for _, i := range m.Items {
				ok = ok && a.Judge(household.LineFood{Food: i.Food, Text: m.Reading.Text}).Presence == household.FreeSoFar
			}
		}
		if ok {
			ids = append(ids, o.Rule.ID)
		}
	}
	return ids
}

func TestWhatCarriesAnAllergenHasAWayWithoutIt(t *testing.T) {
	for _, c := range []struct{ avoid, line, dish string }{
		{"wheat", "2 cups all-purpose flour", "1 tbsp baking powder"},
		{"wheat", "1 pound penne", ""},
		{"wheat", "4 slices whole wheat bread", ""},
		{"wheat", "1 cup panko bread crumbs", ""},
		{"wheat", "8 flour tortillas", ""},
		{"wheat", "20 saltine crackers", ""},
		{"milk", "1 cup plain low-fat yogurt", ""},
		{"milk", "1 cup sour cream", ""},
		{"milk", "8 oz cream cheese", ""},
		{"milk", "1/2 cup margarine", "2 cups flour"},
		{"milk", "1 cup buttermilk", ""},
		{"milk", "2 cups shredded cheddar cheese", ""},
		{"milk", "1 (12 oz) can evaporated milk", ""},
		{"milk", "1 (10.5 oz) can condensed cream of chicken soup", ""},
		{"egg", "2 eggs", "1 tbsp baking powder"},
		{"egg", "1/2 cup light mayonnaise", ""},
		{"soy", "1/4 cup soy sauce", ""},
		{"fish", "1 lb cod fillets", ""},
		{"fish", "2 cans tuna (5 ounces each), drained", ""},
		{"peanut", "1/2 cup peanut butter", ""},
		{"tree_nut", "1/2 cup chopped pecans", ""},
	} {
		var dish []string
		if c.dish != "" {
			dish = []string{c.dish}
		}
		assert.NotEmpty(t, free(t, c.avoid, c.line, dish...), "%s without %s", c.line, c.avoid)
	}
}

// Gluten holds the gas of yeast, and whites whipped by the dozen are the cake:
// there is no honest way without them, so none is offered.
func TestWhatCannotBeReplacedIsNotPretended(t *testing.T) {
	assert.Empty(t, free(t, "wheat", "4 cups bread flour", "2 1/4 tsp active dry yeast"))
	assert.Empty(t, free(t, "wheat", "3 cups all-purpose flour", "1 package active dry yeast"))
	assert.Empty(t, free(t, "egg", "12 egg whites", "1 1/2 cups sugar"))
	assert.Empty(t, free(t, "egg", "6 eggs", "1 tsp baking powder", "1 cup sugar"))
}
