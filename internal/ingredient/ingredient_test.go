package ingredient_test

import (
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"potwright/internal/ingredient"
	"potwright/internal/measure"
)

var someFoods = []string{
	"chicken broth", "onion", "ground beef", "cream of tartar", "half-and-half", "baking powder", "salt pork",
	"sweet potato", "cracked wheat", "black pepper", "whole wheat flour", "kidney beans", "diced tomatoes",
	"olive oil", "cheddar cheese", "brown sugar", "egg whites", "evaporated milk", "cooking spray", "bay leaves",
}

var somePreparations = []string{"chopped", "finely chopped", "peeled", "melted", "cut into cubes", "toasted", "thinly sliced"}

func TestWrittenLinesReadBackTheSame(t *testing.T) {
	units := []string{"cup", "tbsp", "tsp", "oz", "lb", "g", "kg", "ml", "can", "package", "each", "slice", "fl oz", "quart"}
	rapid.Check(t, func(t *rapid.T) {
		u, ok := measure.FindUnit(rapid.SampledFrom(units).Draw(t, "unit"))
		require.True(t, ok)
		den := rapid.SampledFrom([]int64{1, 2, 3, 4, 8}).Draw(t, "den")
		q := measure.Exactly(measure.NewRatio(rapid.Int64Range(1, 40).Draw(t, "num"), den))
		a := ingredient.Amount{Quantity: q, Unit: u}
		food := rapid.SampledFrom(someFoods).Draw(t, "food")
		preparation := rapid.SliceOfNDistinct(rapid.SampledFrom(somePreparations), 0, 2, rapid.ID).Draw(t, "preparation")

		line := ingredient.Write(a, food, preparation)
		got := ingredient.Read(line)
		require.Equal(t, a, got.Amount, line)
		require.Equal(t, food, got.Food, line)
		require.Len(t, got.Preparation, len(preparation), line)
		for i := range preparation {
			require.Equal(t, preparation[i], got.Preparation[i], line)
		}
	})
}

func TestTheSizeOfACanIsWrittenAndReadBack(t *testing.T) {
	oz, _ := measure.FindUnit("oz")
	can, _ := measure.FindUnit("can")
	two := ingredient.Amount{Quantity: measure.Exactly(measure.Whole(2)), Unit: can}
	size := ingredient.Amount{Quantity: measure.Exactly(measure.NewRatio(29, 2)), Unit: oz}
	line := ingredient.WriteContained(two, size, "diced tomatoes", nil)
	require.Equal(t, "2 cans (14 1/2 oz) diced tomatoes", line)
	got := ingredient.Read(line)
	require.Equal(t, two, got.Amount)
	require.Equal(t, size, got.Container)
}

func FuzzRead(f *testing.F) {
	for _, s := range []string{
		"1 (14.5 oz) can diced tomatoes, drained", "salt & pepper to taste", "½ cup butter or margarine", "- [x] juice of 1 lemon",
		"2 cups (or 3", ")(,,or", "1 cup or or or", "plus more", "１ ｃｕｐ", "1 cup\u00a0milk",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		r := ingredient.Read(s)
		n := utf8.RuneCountInString(s)
		check(t, r, n)
	})
}

func check(t *testing.T, r ingredient.Reading, runes int) {
	end := 0
	for _, p := range r.Parts {
		if r.Text != "" && runes == utf8.RuneCountInString(r.Text) && p.From < end {
			t.Fatalf("part %+v of %q lies over another", p, r.Text)
		}
		end = p.To
		if p.From < 0 || p.To < p.From || p.To > runes {
			t.Fatalf("part %+v of %q lies outside the line", p, r.Text)
		}
	}
	if r.Confidence < 0 || r.Confidence > 1 {
		t.Fatalf("confidence %v of %q", r.Confidence, r.Text)
	}
	for _, o := range append(append([]ingredient.Reading{}, r.Alternatives...), r.Together...) {
		check(t, o, runes)
	}
}

func BenchmarkRead(b *testing.B) {
	lines := []string{"1 (14.5 oz) can diced tomatoes, drained", "2 cups cooked brown rice", "1 medium onion, chopped", "salt and pepper to taste"}
	for i := 0; i < b.N; i++ {
		ingredient.Read(lines[i%len(lines)])
	}
}
