package portion

import (
	"fmt"

	"potwright/internal/label"
	"potwright/internal/measure"
	"potwright/internal/nutrient"
	"potwright/internal/spread"
)

// Amount is what a portion weighs and fills when it is dished up. A zero range
// is not known.
type Amount struct{ Grams, Millilitres spread.Range }

// Dished is the amount of a share of one serving of the finished dish; what is
// offered at the table is not in it.
func Dished(pot nutrient.Pot, share float64) Amount {
	if pot.Servings <= 0 {
		return Amount{}
	}
	k := share / pot.Servings
	return Amount{pot.YieldGrams.Scale(k), pot.YieldMillilitres.Scale(k)}
}

// tellable is how many times its low end the high end of a volume may be and
// still be worth a cook's while: a slice or a muffin fills no cup. A design
// choice.
const tellable = 1.6

func tellableVolume(ml spread.Range) bool { return ml.Low > 0 && ml.High <= tellable*ml.Low }

// Text such as "about 310 g (270 to 350), 1 1/3 cups"; "" where nothing is known.
// Weights are to 10 g (under 100 g to 5 g), cups are those of the system.
func (a Amount) Text(system measure.System) string {
	if a.Grams.Mid <= 0 {
		return ""
	}
	step := 10.0
	if a.Grams.Mid < 100 {
		step = 5
	}
	to := func(x float64) string { return label.Figure(label.Nearest(x, step)) }
	text := fmt.Sprintf("about %s g", to(a.Grams.Mid))
	if to(a.Grams.Low) != to(a.Grams.High) {
		text += fmt.Sprintf(" (%s to %s)", to(a.Grams.Low), to(a.Grams.High))
	}
	if cups := a.Cups(system); cups != "" {
		return text + ", " + cups
	}
	return text
}

// Cups such as "1 1/3 cups" of the system; "" where nobody would measure it so.
func (a Amount) Cups(system measure.System) string {
	cup, ok := measure.FindUnitIn("cup", system)
	if !ok || !tellableVolume(a.Millilitres) {
		return ""
	}
	cups := measure.Nearest(a.Millilitres.Mid, cup)
	if cups.High.IsZero() {
		return ""
	}
	return measure.Format(cups, cup)
}
