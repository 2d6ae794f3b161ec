// Package taste is what keeps a dish with less salt worth eating: how far salt
// may fall before the cook should be told, and what makes up for it.
package taste

import (
	"slices"

	"potwright/internal/foodmatch"
)

// Fall is how far the salt of a dish may drop, as shares of its sodium before,
// 0..1, and why.
type Fall struct {
	// Unnoticed goes by in most dishes, Helped where something makes up for it.
	Unnoticed, Helped float64
	Why, Source       string
}

// Helper is something that lets a dish do with less salt.
type Helper struct {
	ID, Title string
	// Food is a row of the table by name; it decides whether someone at the table
	// avoids the helper.
	Food string
	// Say is what to add, how much and when, for people.
	Say string
	// With are kinds one of which the dish must hold, Without kinds that it must
	// not: acid curdles cream, and a dish with lemon has its lemon.
	With, Without []string
	Why, Source   string
}

// Book is the fall and the helpers, best first.
type Book struct {
	Fall    Fall
	Helpers []Helper
}

// Advice is what to tell the cook of a dish that lost salt.
type Advice struct {
	// Fall is the share of the sodium that is gone, 0..1.
	Fall float64
	// Far is set where even with helpers people notice.
	Far     bool
	Helpers []Helper
}

// mostHelpers is how many are offered at once: more than a few are a list, not
// advice.
const mostHelpers = 3

// Advise compares the sodium of a serving in mg before and after a change. ok is
// false where too little is gone to speak of. dish are the lines afterwards;
// avoided tells a food that someone at the table must not have.
func (b *Book) Advise(before, after float64, dish []foodmatch.Matched, avoided func(food string) bool) (a Advice, ok bool) {
	if b == nil || before <= 0 || after >= before {
		return Advice{}, false
	}
	a.Fall = 1 - after/before
	if a.Fall <= b.Fall.Unnoticed {
		return Advice{}, false
	}
	a.Far = a.Fall > b.Fall.Helped
	kinds := kindsOf(dish)
	for _, h := range b.Helpers {
		if len(a.Helpers) < mostHelpers && h.suits(kinds) && !avoided(h.Food) {
			a.Helpers = append(a.Helpers, h)
		}
	}
	return a, true
}

func (h Helper) suits(kinds map[string]bool) bool {
	has := func(k string) bool { return kinds[k] }
	return (len(h.With) == 0 || slices.ContainsFunc(h.With, has)) && !slices.ContainsFunc(h.Without, has)
}

// kindsOf are the kinds of what is in the dish.
func kindsOf(dish []foodmatch.Matched) map[string]bool {
	kinds := map[string]bool{}
	for _, m := range dish {
		for _, i := range m.Items {
			for _, k := range i.Food.Kinds {
				kinds[k] = true
			}
		}
	}
	return kinds
}
