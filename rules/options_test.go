package rules_test

import (
	"testing"

	"potwright/internal/foodmatch"
	"potwright/internal/ruleset"
	"potwright/internal/swap"
	"potwright/rules"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// chowder is a dish with most kinds of line.
func chowder() []string {
	return []string{
		"4 slices bacon, chopped", "2 tablespoons butter", "1 medium onion, finely chopped",
		"2 stalks celery, sliced", "3 tablespoons all-purpose flour", "4 cups chicken broth",
		"1 1/2 pounds potatoes, peeled and diced", "1 teaspoon dried thyme", "1 cup heavy cream",
		"1 cup frozen corn", "1 teaspoon salt", "salt and pepper to taste", "2 tablespoons chopped fresh parsley",
		"1 (15 oz) can white beans", "1/3 cup soy sauce", "2 cups shredded cheddar cheese",
	}
}

func TestEveryOptionIsItsOwnTextReadAfresh(t *testing.T) {
	book, read := realBook(t), reader(realTable(t))
	dish := readAll(read, chowder())
	for _, line := range dish {
		for _, o := range book.Options(line, dish, read) {
			require.Len(t, o.Lines, len(o.Text))
			for i, text := range o.Text {
				assert.Equal(t, read(text), o.Lines[i], "%s on %q", o.Rule.ID, line.Reading.Text)
				assert.NotEqual(t, foodmatch.Unread, o.Lines[i].State)
			}
			assert.GreaterOrEqual(t, o.Change, 1)
		}
	}
}

func TestTheSameLineAlwaysHasTheSameOptions(t *testing.T) {
	book, read := realBook(t), reader(realTable(t))
	dish := readAll(read, chowder())
	rapid.Check(t, func(t *rapid.T) {
		line := rapid.SampledFrom(dish).Draw(t, "line")
		shuffled := rapid.Permutation(dish).Draw(t, "dish")
		require.Equal(t, book.Options(line, dish, read), book.Options(line, shuffled, read))
	})
}

func TestLessOfALineWeighsLess(t *testing.T) {
	book, read := realBook(t), reader(realTable(t))
	rapid.Check(t, func(t *rapid.T) {
		amount := rapid.SampledFrom([]string{"1/4", "1/3", "1/2", "3/4", "1", "1 1/2", "2", "7"}).Draw(t, "amount")
		unit := rapid.SampledFrom([]string{"tsp", "tbsp", "cups", "oz"}).Draw(t, "unit")
		food := rapid.SampledFrom([]string{"salt", "sugar", "butter", "soy sauce", "miso", "honey", "olive oil"}).Draw(t, "food")
		line := read(amount + " " + unit + " " + food)
		for _, o := range book.Options(line, nil, read) {
			if o.Rule.Do == swap.Reduce {
				kept := o.Lines[0].Items[0].Grams.Mid / line.Items[0].Grams.Mid
				require.InDelta(t, o.Rule.Keep[0], kept, 0.15, "%s: %q", o.Rule.ID, o.Text)
			}
		}
	})
}

func FuzzOptions(f *testing.F) {
	for _, text := range chowder() {
		f.Add(text)
	}
	table := realTable(f)
	book, read := realBook(f), reader(table)
	f.Fuzz(func(t *testing.T, text string) {
		for _, o := range book.Options(read(text), nil, read) {
			require.Len(t, o.Lines, len(o.Text))
		}
	})
}

func BenchmarkOptionsOfADish(b *testing.B) {
	book, read := realBook(b), reader(realTable(b))
	dish := readAll(read, chowder())
	for b.Loop() {
		for _, line := range dish {
			book.Options(line, dish, read)
		}
	}
}

// The rules held against a dish of twenty lines, without reading the new lines
// afresh: 2 ms is the bound.
func BenchmarkRulesHeldAgainstADish(b *testing.B) {
	book, read := realBook(b), reader(realTable(b))
	dish := readAll(read, append(chowder(), "2 large eggs", "1 cup milk", "8 flour tortillas", "1 (10.5 oz) can cream of chicken soup"))
	unread := func(string) foodmatch.Matched { return foodmatch.Matched{} }
	for b.Loop() {
		for _, line := range dish {
			book.Options(line, dish, unread)
		}
	}
}

// All rules read from their files and checked: 100 ms is the bound.
func BenchmarkRulesLoaded(b *testing.B) {
	foods := realTable(b).Foods()
	for b.Loop() {
		if _, err := ruleset.Swaps(rules.FS, foods); err != nil {
			b.Fatal(err)
		}
	}
}

// Of what raises a batter a quarter less still lifts (extension baking guides: a
// teaspoon of baking powder to a cup of flour is enough; from memory): a rule that
// asks for less than the dish's band allows would never be taken.
func TestSwapsOfLeaveningStayWithinTheBandOfTheDish(t *testing.T) {
	book, read := realBook(t), reader(realTable(t))
	band := book.Balances()[swap.Leavening]
	seen := 0
	for _, text := range []string{"1 teaspoon baking powder", "1 1/2 teaspoons baking powder", "2 teaspoons baking powder",
		"1 tablespoon baking powder", "1 teaspoon baking soda", "1/2 teaspoon baking soda", "2 cups self-rising flour", "2 cups biscuit mix"} {
		line := read(text)
		dish := append(readAll(read, []string{"2 cups all-purpose flour"}), line)
		before := book.LineContribution(line)[swap.Leavening]
		require.Positive(t, before, text)
		for _, o := range book.Options(line, dish, read) {
			if o.Rule.Manual {
				continue // a person insists on it
			}
			after := 0.0
			for _, l := range o.Lines {
				after += book.LineContribution(l)[swap.Leavening]
			}
			assert.GreaterOrEqual(t, after/before, band.Low, "%s on %q", o.Rule.ID, text)
			assert.LessOrEqual(t, after/before, band.High, "%s on %q", o.Rule.ID, text)
			seen++
		}
	}
	assert.GreaterOrEqual(t, seen, 15)
}
