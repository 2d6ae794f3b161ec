package foodmatch

import (
	"fmt"
	"strings"

	"potwright/internal/spread"
)

// uptake is the share of something that ends up in what is eaten, where the
// line itself says that most of it is thrown away.
type uptake struct {
	kinds []string // of the food; nil for any
	words []string // phrases of the line, in lower case
	share spread.Range
	say   string
}

var uptakes = []uptake{
	// Bianchi et al. 2019, Food Chemistry 271:479: pasta boiled in salted water
	// holds the salt of about a tenth of a litre of it a serving, some 14 % of the
	// salt in that pot; the range is over water, shape and rinsing.
	{[]string{"salt"}, []string{"pasta water", "pasta cooking water", "cooking water", "boiling water", "for boiling", "for the water", "for water", "potato water", "noodle water", "to salt the water", "for cooking pasta", "for cooking the pasta", "for the pot"},
		spread.Range{Low: 0.08, Mid: 0.14, High: 0.28}, "of the salt in the cooking water is taken up"},
	// Frying fat taken up is told by the weight of the food, not of the fat; of a
	// deep pot of it a small share. From memory, no source read.
	{[]string{"oil", "fat"}, []string{"for deep frying", "for deep-frying", "for deep fat frying"},
		spread.Range{Low: 0.03, Mid: 0.10, High: 0.20}, "of the frying fat is taken up"},
	// A design choice for what is thrown away after soaking.
	{nil, []string{"for the brine", "for brining", "for brine"},
		spread.Range{Low: 0.05, Mid: 0.10, High: 0.25}, "of the brine is taken up"},
}

// takenUp lowers the weight to what is eaten where the line says that the food
// is cooked in and poured off.
func (w *weigher) takenUp() {
	if !w.ok || !w.reading.HasAmount {
		return
	}
	text := strings.ToLower(w.reading.Text)
	for _, u := range uptakes {
		if u.kinds != nil && !w.hasAny(u.kinds) {
			continue
		}
		for _, phrase := range u.words {
			if strings.Contains(text, phrase) {
				w.grams, w.pouredOff = w.grams.Times(u.share), true
				w.assume(0.8, "%s", fmt.Sprintf("about %.0f %% (%.0f to %.0f) %s; the rest is poured off", 100*u.share.Mid, 100*u.share.Low, 100*u.share.High, u.say))
				return
			}
		}
	}
}
