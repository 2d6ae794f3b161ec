package kitchen_test

import (
	"sort"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"potwright/internal/foodmatch"
	"potwright/internal/ingredient"
	"potwright/internal/testkit"
)

// twenty is a recipe of twenty lines, every kind of line among them.
const twenty = `Pot for a crowd
Serves 8
Ingredients
2 tablespoons olive oil
1 large onion, chopped
3 cloves garlic, minced
2 stalks celery, sliced
3 carrots, peeled and diced
1 lb ground beef
2 (15 oz) cans kidney beans, drained and rinsed
1 (14.5 oz) can diced tomatoes
1 (6 oz) can tomato paste
4 cups chicken broth
1 cup frozen corn
1 green bell pepper, chopped
2 teaspoons chili powder
1 teaspoon ground cumin
1/2 teaspoon dried oregano
1/4 teaspoon black pepper
1 bay leaf
salt to taste
1/2 cup shredded cheddar cheese
2 tablespoons chopped fresh cilantro, for serving
Method
1. Heat the oil and brown the beef with the onion, garlic, celery and carrots, 8 minutes.
2. Add the beans, tomatoes, tomato paste, broth, corn, pepper and spices and simmer for 25 minutes.
3. Serve with the cheese and cilantro.
`

// BenchmarkAnalyse is one recipe of twenty lines from its text to its panels; the
// bar is 1 ms on one core.
func BenchmarkAnalyse(b *testing.B) {
	k := testkit.Kitchen(b)
	a, err := k.Read(twenty, nil, nil)
	require.NoError(b, err)
	require.Len(b, a.Recipe.Lines, 20)
	for b.Loop() {
		_, err = k.Read(twenty, nil, nil)
	}
	require.NoError(b, err)
}

// BenchmarkReadAndMatch is ingredient lines from their words to grams; the bar is
// 10,000 lines/s.
func BenchmarkReadAndMatch(b *testing.B) {
	k := testkit.Kitchen(b)
	a, err := k.Read(twenty, nil, nil)
	require.NoError(b, err)
	lines := 0
	for b.Loop() {
		for _, l := range a.Recipe.Lines {
			foodmatch.Weigh(ingredient.Read(l.Reading.Text), k.Table, nil, nil)
			lines++
		}
	}
	b.ReportMetric(float64(lines)/b.Elapsed().Seconds(), "lines/s")
}

// BenchmarkSearch is the food search as somebody types, letter by letter; the bar
// is 1 ms for 99 of 100.
func BenchmarkSearch(b *testing.B) {
	k := testkit.Kitchen(b)
	var typed []string
	for _, words := range []string{"milk", "chicken broth", "canned beans low sodium", "tomato", "cheddar cheese", "salt"} {
		for i := 1; i <= len(words); i++ {
			typed = append(typed, words[:i])
		}
	}
	k.Table.Search("warm", 20)
	var took []time.Duration
	for i := 0; b.Loop(); i++ {
		start := time.Now()
		k.Table.Search(typed[i%len(typed)], 20)
		took = append(took, time.Since(start))
	}
	sort.Slice(took, func(i, j int) bool { return took[i] < took[j] })
	b.ReportMetric(float64(took[len(took)*99/100].Microseconds()), "p99-µs")
}
