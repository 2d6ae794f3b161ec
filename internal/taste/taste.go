// Package taste is how far the salt of a dish may fall before the cook should be
// told.
package taste

// Fall is how far the salt of a dish may drop, as shares of its sodium before,
// 0..1, and why.
type Fall struct {
	// Unnoticed goes by in most dishes, Helped where something makes up for it.
	Unnoticed, Helped float64
	// Counts is what a fall past Unnoticed adds to the change of the dish, on the
	// scale of the swap rules, where nothing makes up for it.
	Counts      int
	Why, Source string
}

// Book is what is known of taste.
type Book struct{ Fall Fall }

// Advice is what to tell the cook of a dish that lost salt.
type Advice struct {
	// Fall is the share of the sodium that is gone, 0..1.
	Fall float64
	// Far is set where people notice even if something makes up for it.
	Far bool
}

// Advise compares the sodium of a serving in mg before and after a change. ok is
// false where too little is gone to speak of.
func (b *Book) Advise(before, after float64) (a Advice, ok bool) {
	if b == nil || before <= 0 || after >= before {
		return Advice{}, false
	}
	a.Fall = 1 - after/before
	a.Far = a.Fall > b.Fall.Helped
	return a, a.Fall > b.Fall.Unnoticed
}
