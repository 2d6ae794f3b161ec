package rules_test

import (
	"testing"

	"potwright/internal/composition"
	"potwright/internal/foodmatch"
	"potwright/internal/ingredient"
	"potwright/internal/swap"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func reader(table *composition.Table) swap.Reader {
	return func(text string) foodmatch.Matched {
		return foodmatch.Weigh(ingredient.Read(text), table, nil, nil)
	}
}

func readAll(read swap.Reader, texts []string) []foodmatch.Matched {
	var out []foodmatch.Matched
	for _, text := range texts {
		out = append(out, read(text))
	}
	return out
}

func offers(book *swap.Book, id, text string, dish []foodmatch.Matched, read swap.Reader) (options []swap.Option) {
	for _, o := range book.Options(read(text), dish, read) {
		if o.Rule.ID == id {
			options = append(options, o)
		}
	}
	return options
}

// Every rule's own examples: where it must be offered, every new line reading
// back as the food it means with a weight, and where it must not.
func TestEveryRuleFiresOnItsExamplesAndNotElsewhere(t *testing.T) {
	book, read := realBook(t), reader(realTable(t))
	for _, rule := range book.Rules() {
		t.Run(rule.ID, func(t *testing.T) {
			if rule.Do == swap.Add {
				triesOnDishes(t, book, rule, read)
				return
			}
			dish := readAll(read, rule.Examples.Dish)
			require.NotEmpty(t, rule.Examples.Fires)
			require.NotEmpty(t, rule.Examples.Not)
			for _, text := range rule.Examples.Fires {
				line := read(text)
				require.Empty(t, whyNot(book, rule.ID, line, dish, read), "%q is %s", text, nameOf(line))
				assert.NotEmpty(t, offers(book, rule.ID, text, dish, read), text)
			}
			for _, text := range rule.Examples.Not {
				assert.Empty(t, offers(book, rule.ID, text, dish, read), "must not fire on %q", text)
			}
		})
	}
}

// triesOnDishes is the same for additions, whose examples are dishes.
func triesOnDishes(t *testing.T, book *swap.Book, rule swap.Rule, read swap.Reader) {
	require.NotEmpty(t, rule.Examples.Fires)
	require.NotEmpty(t, rule.Examples.Not)
	for _, text := range rule.Examples.Fires {
		offered, why := book.TryAddition(rule.ID, swap.ExampleDish(text, read), read)
		require.Empty(t, why, text)
		assert.NotEmpty(t, offered, text)
	}
	for _, text := range rule.Examples.Not {
		offered, _ := book.TryAddition(rule.ID, swap.ExampleDish(text, read), read)
		assert.Empty(t, offered, "must not fire on %q", text)
	}
}

func nameOf(m foodmatch.Matched) string {
	if len(m.Items) == 0 || m.Items[0].Food == nil {
		return "no food"
	}
	return m.Items[0].Food.Name
}

// whyNot are the reasons why a rule can't open its options on a line.
func whyNot(b *swap.Book, id string, line foodmatch.Matched, dish []foodmatch.Matched, read swap.Reader) []string {
	_, why := b.Try(id, line, dish, read)
	return why
}
