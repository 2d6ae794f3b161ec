package taste_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/taste"
)

var book = &taste.Book{Fall: taste.Fall{Unnoticed: 0.25, Helped: 0.40}}

// Soups with 22 and 32 % less salt were liked as before at home: Willems 2013
// (PMC10282450). The steps of 25 and 40 % are a design choice.
func TestAQuarterLessSaltIsNotSpokenOf(t *testing.T) {
	for after, want := range map[float64]bool{1000: false, 800: false, 751: false, 700: true, 300: true, 1200: false} {
		_, ok := book.Advise(1000, after)
		assert.Equal(t, want, ok, after)
	}
	_, ok := book.Advise(0, 0)
	assert.False(t, ok, "nothing to lose")
	_, ok = (*taste.Book)(nil).Advise(1000, 100)
	assert.False(t, ok, "nothing is known of it")
}

func TestAFarFallIsNoticedWhateverMakesUpForIt(t *testing.T) {
	a, ok := book.Advise(1000, 650)
	require.True(t, ok)
	assert.InDelta(t, 0.35, a.Fall, 1e-12)
	assert.False(t, a.Far)
	a, _ = book.Advise(1000, 500)
	assert.True(t, a.Far)
}
