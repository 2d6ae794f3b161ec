package adaptation

import (
	"slices"

	"potwright/internal/composition"
	"potwright/internal/foodmatch"
	"potwright/internal/swap"
)

// namesDish is how much more it counts, on the scale of the rules' change, to take
// out of a dish a food that its title names: couscous salad without couscous is
// more of another dish than one without its onion. A design choice.
const namesDish = 3

// mostChange is the end of the scale of the rules' change: another dish.
const mostChange = 10

// countNamed counts more for options of a line after which a food of the title's
// words is no longer in the words of the line, nor at the table.
func countNamed(titled []string, line *foodmatch.Matched, options []swap.Option) {
	var named []string
	for _, word := range composition.Words(line.Reading.Food) {
		if slices.Contains(titled, word) {
			named = append(named, word)
		}
	}
	if len(named) == 0 {
		return
	}
	for k := range options {
		if o := &options[k]; loses(o, named) {
			o.Titled = min(namesDish, mostChange-o.Change)
			o.Change += o.Titled
		}
	}
}

// mainShare is the share of the pot's energy from which a line is what the dish is
// mostly made of, so that to leave it out makes another dish. A design choice.
const mainShare = 0.25

// countMain counts leaving out a line with a share of the pot's energy as another dish
// where the share is large.
func countMain(share float64, options []swap.Option) {
	if !(share >= mainShare) { // also where no energy is known
		return
	}
	for k := range options {
		if o := &options[k]; len(o.Text) == 0 && len(o.AtTable) == 0 {
			o.Main, o.Change = max(0, mostChange-o.Change), max(mostChange, o.Change)
		}
	}
}

// loses reports whether one of the words is in none of an option's new lines.
func loses(o *swap.Option, named []string) bool {
	var kept []string
	for _, text := range slices.Concat(o.Text, o.AtTable) {
		kept = append(kept, composition.Words(text)...)
	}
	return slices.ContainsFunc(named, func(word string) bool { return !slices.Contains(kept, word) })
}
