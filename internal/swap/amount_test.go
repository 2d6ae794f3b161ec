package swap

import (
	"testing"

	"potwright/internal/measure"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestAmountsOfAnotherSortAreWeighedAndCounted(t *testing.T) {
	onion := []string{"onion"}
	flakes := replace(onion, with("onion flakes", 2, ByPiece, "tbsp", ""))
	frozen := replace(onion, with("frozen onion", 1, ByWeight, "cup", "frozen onion"))
	whites := replace([]string{"egg"}, with("egg whites", 2, ByPiece, "", "egg whites"))
	water := replace([]string{"broth"}, with("water", 1, ByWeight, "", ""))
	grams := replace([]string{"broth"}, with("water", .3, ByWeight, "oz", ""))
	for _, c := range []struct {
		name string
		rule Rule
		in   string
		want string
	}{
		// State extension substitution lists: 1 medium onion is 2 tbsp dried
		// minced onion; a large one weighs 150 g to its 110 (USDA SR28).
		{"a medium onion is two spoons of flakes", flakes, "1 medium onion, chopped", "2 tbsp onion flakes"},
		{"an onion without a size is a medium one", flakes, "1 onion", "2 tbsp onion flakes"},
		{"a large onion is more", flakes, "1 large onion", "2 1/2 tbsp onion flakes"},
		{"a cup of onion is counted by its weight", flakes, "1 cup onion", "3 tbsp onion flakes"},
		{"a row without a volume takes that of the food it replaces", frozen, "1 medium onion", "2/3 cup frozen onion"},
		// State extension substitution lists: 1 egg is 2 whites.
		{"an egg is two whites", whites, "3 large eggs", "6 egg whites"},
		{"weight is written in cups where the new food has them", water, "2 cups chicken broth", "2 cups water"},
		{"weight keeps the line's own unit of weight", water, "1 lb chicken broth", "1 lb water"},
		{"ounces come in quarters", grams, "10 oz chicken broth", "3 oz water"},
	} {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, [][]string{{c.want}}, texts(c.rule, c.in))
		})
	}
}

func TestAnAmountThatCantBeToldIsAFault(t *testing.T) {
	read := reader()
	pieces := replace([]string{"broth"}, with("water", 1, ByPiece, "cup", ""))
	book := NewBook([]Rule{pieces}, nil, nil)
	assert.Empty(t, book.Options(read("2 cups chicken broth"), nil, read))
	assert.Equal(t, []string{`no amount of "water" can be told for "2 cups chicken broth"`},
		whyNot(book, "r", read("2 cups chicken broth"), nil, read))
	assert.Equal(t, []string{"no rule x"}, whyNot(book, "x", read("1 cup water"), nil, read))
	assert.Equal(t, []string{"the rule does not fit the line"}, whyNot(book, "r", read("1 cup water"), nil, read))
}

func TestLinesWithoutAnAmountStayToTaste(t *testing.T) {
	pepper := replace([]string{"salt"}, with("garlic powder", 1, ByLine, "", ""))
	assert.Equal(t, [][]string{{"garlic powder, to taste"}}, texts(pepper, "salt to taste"))
	half := Rule{ID: "half", Do: Reduce, Keep: []float64{.5}, Match: Match{Kinds: []string{"salt"}}, Change: 4}
	assert.Equal(t, [][]string{{"1/4 tsp salt"}}, texts(half, "salt to taste"), "half of the 3 g that the reader assumes")
}

// A kitchen measure may be off: 1 3/4 tablespoons become 2, a seventh more. From
// half a teaspoon up that is the worst.
func TestSpoonsAreNearWhatIsMeant(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ml := rapid.Float64Range(2.5, 3000).Draw(t, "ml")
		q, u := measure.Spoonfuls(ml, measure.US)
		require.InEpsilon(t, ml, q.Mid()*u.Size, 0.145, "%v %s", q, u.Name)
	})
}

func TestWeightsAreNearWhatIsMeant(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		grams := rapid.Float64Range(5, 3000).Draw(t, "g")
		name := rapid.SampledFrom([]string{"g", "oz", "lb", "kg"}).Draw(t, "unit")
		unit, ok := measure.FindUnit(name)
		require.True(t, ok)
		q, u := measure.Weighed(grams, unit)
		if u.IsMetric() && u.Name == "kg" && grams < 500 {
			return // a line in kilograms is not one of spoonfuls
		}
		require.InEpsilon(t, grams, q.Mid()*u.Size, 0.125, "%v %s", q, u.Name)
	})
}
