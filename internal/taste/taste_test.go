package taste_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"potwright/internal/composition"
	"potwright/internal/foodmatch"
	"potwright/internal/taste"
)

var book = &taste.Book{
	Fall: taste.Fall{Unnoticed: 0.25, Helped: 0.40},
	Helpers: []taste.Helper{
		{ID: "lemon", Food: "lemon juice, raw", With: []string{"fish"}, Without: []string{"cream"}},
		{ID: "herbs", Food: "parsley, fresh"},
		{ID: "mushrooms", Food: "mushrooms, white, raw", Without: []string{"mushroom"}},
		{ID: "spice", Food: "cumin seed"},
	},
}

func dish(kinds ...string) []foodmatch.Matched {
	return []foodmatch.Matched{{Items: []foodmatch.Item{{Food: &composition.Food{Kinds: kinds}}}}}
}

func nobody(string) bool { return false }

func ids(a taste.Advice) []string {
	var list []string
	for _, h := range a.Helpers {
		list = append(list, h.ID)
	}
	return list
}

// Soups with 22 and 32 % less salt were liked as before at home: Willems 2013
// (PMC10282450). The steps of 25 and 40 % are a design choice.
func TestAQuarterLessSaltIsNotSpokenOf(t *testing.T) {
	for after, want := range map[float64]bool{1000: false, 800: false, 751: false, 700: true, 300: true, 1200: false} {
		_, ok := book.Advise(1000, after, dish("fish"), nobody)
		assert.Equal(t, want, ok, "%v mg of 1000", after)
	}
	_, ok := book.Advise(0, 0, dish("fish"), nobody)
	assert.False(t, ok, "a dish without salt has none to lose")
}

func TestMoreThanTwoFifthsIsFar(t *testing.T) {
	near, _ := book.Advise(1000, 650, dish("fish"), nobody)
	far, _ := book.Advise(1000, 500, dish("fish"), nobody)
	assert.False(t, near.Far)
	assert.True(t, far.Far)
	assert.InDelta(t, 0.5, far.Fall, 1e-12)
}

func TestHelpersGoWithTheDishAndAreAtMostThree(t *testing.T) {
	a, _ := book.Advise(1000, 500, dish("fish"), nobody)
	assert.Equal(t, []string{"lemon", "herbs", "mushrooms"}, ids(a))
	a, _ = book.Advise(1000, 500, dish("fish", "cream", "mushroom"), nobody)
	assert.Equal(t, []string{"herbs", "spice"}, ids(a))
}

func TestWhatSomeoneAvoidsIsNoHelper(t *testing.T) {
	a, _ := book.Advise(1000, 500, dish("fish"), func(food string) bool { return food == "lemon juice, raw" })
	assert.Equal(t, []string{"herbs", "mushrooms", "spice"}, ids(a))
}

func TestNoBookGivesNoAdvice(t *testing.T) {
	var none *taste.Book
	_, ok := none.Advise(1000, 100, nil, nobody)
	assert.False(t, ok)
}
