package measure_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"potwright/internal/measure"
)

func TestQuantitiesAsCooksWriteThem(t *testing.T) {
	r := measure.NewRatio
	cases := []struct {
		text      string
		low, high measure.Ratio
		about     bool
	}{
		{"1", r(1, 1), r(1, 1), false},
		{"1 1/2", r(3, 2), r(3, 2), false},
		{"1-1/2", r(3, 2), r(3, 2), false},
		{"1 and 1/2", r(3, 2), r(3, 2), false},
		{"1½", r(3, 2), r(3, 2), false},
		{"1 ½", r(3, 2), r(3, 2), false},
		{"½", r(1, 2), r(1, 2), false},
		{"⅔", r(2, 3), r(2, 3), false},
		{"1⁄4", r(1, 4), r(1, 4), false},
		{"1.5", r(3, 2), r(3, 2), false},
		{".5", r(1, 2), r(1, 2), false},
		{"1,5", r(3, 2), r(3, 2), false},
		{"0,125", r(1, 8), r(1, 8), false},
		{"1,000", r(1000, 1), r(1000, 1), false},
		{"2-3", r(2, 1), r(3, 1), false},
		{"2–3", r(2, 1), r(3, 1), false},
		{"2 to 3", r(2, 1), r(3, 1), false},
		{"2 or 3", r(2, 1), r(3, 1), false},
		{"1/4-1/2", r(1, 4), r(1, 2), false},
		{"1 1/2 - 2", r(3, 2), r(2, 1), false},
		{"one to two", r(1, 1), r(2, 1), false},
		{"one", r(1, 1), r(1, 1), false},
		{"a", r(1, 1), r(1, 1), false},
		{"half a", r(1, 2), r(1, 2), false},
		{"a dozen", r(12, 1), r(12, 1), false},
		{"a couple of", r(2, 1), r(2, 1), false},
		{"a few", r(2, 1), r(4, 1), true},
		{"about 2", r(2, 1), r(2, 1), true},
		{"heaping 1", r(1, 1), r(1, 1), true},
		{"~2", r(2, 1), r(2, 1), true},
	}
	for _, c := range cases {
		t.Run(c.text, func(t *testing.T) {
			q, n, ok := measure.ScanQuantity(c.text)
			require.True(t, ok)
			assert.Len(t, c.text, n)
			assert.Equal(t, measure.Quantity{Low: c.low, High: c.high, About: c.about}, q)
		})
	}
}

func TestScanStopsWhereTheQuantityEnds(t *testing.T) {
	cases := []struct{ text, taken string }{
		{"1 14.5-ounce can", "1"},
		{"2 14-oz cans", "2"},
		{"2-15 oz cans", "2"},
		{"4 4-ounce fillets", "4"},
		{"1 1/2 cups", "1 1/2"},
		{"12/3 cups", "12/3"},
		{"1 1/2-2 lb", "1 1/2-2"},
		{"2-inch piece", "2"},
		{"one-half cup", "one-half"},
	}
	for _, c := range cases {
		_, n, ok := measure.ScanQuantity(c.text)
		require.True(t, ok, c.text)
		assert.Equal(t, c.taken, c.text[:n])
	}
	for _, text := range []string{"", "salt", "100% bran", "1 % milk", "half-and-half", "apple", "1234567890123"} {
		_, _, ok := measure.ScanQuantity(text)
		assert.False(t, ok, text)
	}
}

// Sizes: NIST Handbook 44, Appendix C.
func TestCustomaryUnitsAreExact(t *testing.T) {
	sizes := map[string]float64{
		"cup": 236.5882365, "tablespoon": 14.78676478125, "tsp.": 4.92892159375,
		"fl. oz.": 29.5735295625, "quart": 946.352946, "gallon": 3785.411784,
		"lbs": 453.59237, "Ounces": 28.349523125, "kg": 1000, "T": 14.78676478125, "t": 4.92892159375,
	}
	for spelling, want := range sizes {
		u, ok := measure.FindUnit(spelling)
		require.True(t, ok, spelling)
		assert.InEpsilon(t, want, u.Size, 1e-12, spelling)
	}
	u, ok := measure.FindUnitIn("tablespoon", measure.Australian)
	require.True(t, ok)
	assert.Equal(t, 20.0, u.Size)
	_, ok = measure.FindUnit("onion")
	assert.False(t, ok)
}

func quantities(t *rapid.T) measure.Quantity {
	den := rapid.SampledFrom([]int64{1, 2, 3, 4, 5, 6, 7, 8, 10, 12, 16, 20, 32, 100}).Draw(t, "den")
	low := measure.NewRatio(rapid.Int64Range(1, 5000).Draw(t, "low"), den)
	q := measure.Exactly(low)
	if rapid.Bool().Draw(t, "range") {
		more, _ := low.Plus(measure.NewRatio(rapid.Int64Range(1, 500).Draw(t, "more"), den))
		q.High = more
	}
	q.About = rapid.Bool().Draw(t, "about")
	return q
}

func TestWhatIsWrittenIsReadBackTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := quantities(t)
		got, n, ok := measure.ScanQuantity(q.String())
		require.True(t, ok)
		require.Len(t, q.String(), n)
		require.Equal(t, q, got)
		require.Less(t, math.Abs(got.Mid()-q.Mid()), 1e-9)
	})
}

func TestKitchenAmounts(t *testing.T) {
	cases := []struct {
		millilitres float64
		want        string
	}{
		{0.31, "1 pinch"}, {0.6, "1/8 tsp"}, {2.4, "1/2 tsp"}, {3.7, "3/4 tsp"}, {7.4, "1 1/2 tsp"},
		{14.8, "1 tbsp"}, {29, "2 tbsp"}, {59, "1/4 cup"}, {79, "1/3 cup"}, {315, "1 1/3 cups"}, {473, "2 cups"},
	}
	for _, c := range cases {
		assert.Equal(t, c.want, measure.Format(measure.Spoons(c.millilitres)), c.millilitres)
	}
	assert.Equal(t, "250 g", measure.Format(measure.Scales(250.3)))
	assert.Equal(t, "1.25 kg", measure.Format(measure.Scales(1251)))
}

func TestScalingStaysExact(t *testing.T) {
	third := measure.Exactly(measure.NewRatio(1, 3))
	back, ok := third.Scale(measure.Whole(3))
	require.True(t, ok)
	assert.Equal(t, measure.Exactly(measure.Whole(1)), back)
}

func FuzzScanQuantity(f *testing.F) {
	for _, s := range []string{"1 1/2 cups", "½", "1,5 kg", "2 to 3", "a few", "about ~ 2", "1/0", "99999999999"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		q, n, ok := measure.ScanQuantity(s)
		if n < 0 || n > len(s) {
			t.Fatalf("took %d of %d bytes", n, len(s))
		}
		if ok && (q.Low.Den < 1 || q.High.Den < 1 || q.High.Less(q.Low)) {
			t.Fatalf("invalid quantity %+v from %q", q, s)
		}
	})
}

func TestTextThatBeginsWithNoWordOfAQuantityIsNone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		first := rapid.SampledFrom([]string{"about", "one", "half", "a", "an", "up", "dozen", "several", "ca", "circa", "the", "onion", "anise", "halves", "couple", "at", "twelve", "quarters"}).Draw(t, "first")
		rest := rapid.SampledFrom([]string{"", " few", " to 3", ". 2", "-third", " dozen", " least 1/2", " 5", " half", "-and-half"}).Draw(t, "rest")
		if _, _, ok := measure.ScanQuantity(first + rest); ok {
			assert.True(t, measure.BeginsQuantity(first), first+rest)
		}
	})
	assert.False(t, measure.BeginsQuantity("onion"))
}
