package pages

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"potwright/internal/adaptation"
	"potwright/internal/swap"
)

func TestAPickInAnAddressReadsBackAsItself(t *testing.T) {
	for _, p := range []adaptation.Pick{
		{Line: 0, Rule: "salt-half"}, {Line: 2, Rule: "butter-less", Share: 0.75},
		{Line: adaptation.WholeDish, Rule: "add-lemon-late"}, {Line: adaptation.WholeDish, Rule: "add-water", Share: 0.5},
	} {
		got, ok := readTake(takeText(p), 3)
		assert.True(t, ok, "%+v", p)
		assert.Equal(t, p, got)
	}
	for _, v := range []string{"", "3-salt-half", "-1-salt-half", "x-salt-half", "dish"} {
		_, ok := readTake(v, 3)
		assert.False(t, ok, "%q", v)
	}
}

func TestAChangeSaysThatTheDishIsNamedForWhatItLoses(t *testing.T) {
	var line changedLine
	line.dress(adaptation.Change{Option: swap.Option{Change: 7, Titled: 3}})
	assert.Contains(t, line.Taste, "(7 of 10), 3 of them because the dish is named for it")
	line.dress(adaptation.Change{Option: swap.Option{Change: 4}})
	assert.NotContains(t, line.Taste, "named")
}
