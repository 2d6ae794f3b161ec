package foodmatch

import (
	"fmt"
	"slices"
	"strings"

	"potwright/internal/composition"
	"potwright/internal/measure"
	"potwright/internal/spread"
)

// byPiece weighs things that are counted: by the food's measure of that unit and
// size, that of a like food, or a usual weight.
func (w *weigher) byPiece() bool {
	if !w.pieces() {
		return false
	}
	if w.food.Refuse > 0 && w.says([]string{"peeled", "pared"}) && (w.unpeeled || hasWord(w.food.Name, "with skin") || hasWord(w.food.Name, "with peel")) {
		w.grams = w.grams.Scale(1 - w.food.Refuse)
		w.notes = append(w.notes, fmt.Sprintf("%.0f %% is taken off for the peel", 100*w.food.Refuse))
	}
	return true
}

func (w *weigher) pieces() bool {
	r := w.reading
	unit := r.Amount.Unit.Name
	if p, ok := longestMatch(variedPieces, nil, r, unit); ok {
		w.usual(p, unit)
		return true
	}
	p, ok := usualPiece(w.food, r, unit)
	// "cherry tomatoes" are not the medium tomato of the table's row.
	ownSort := ok && strings.Contains(p.word, " ") && hasWord(strings.ToLower(r.Food), p.word) && !hasWord(w.food.Name, p.word)
	if !ownSort && w.pieceOf(w.food, unit, "measure of this food") {
		return true
	}
	if ok {
		w.usual(p, unit)
		return true
	}
	for _, c := range w.like {
		if shareKind(c.Food, w.food) && w.pieceOf(c.Food, unit, "measure of a like food") {
			w.doubt(0.8)
			w.notes = append(w.notes, "weighed like "+c.Food.Name)
			return true
		}
	}
	return false
}

// usual takes the usual weight of one.
func (w *weigher) usual(p pieceWeight, unit string) {
	w.set(times(w.reading.Amount.Quantity, p.grams, p.sd), "usual weight")
	if unit == "each" {
		unit = "one"
	} else {
		unit = "one " + unit
	}
	w.assume(0.9, "the usual weight of %s is taken: %s", unit, gramsText(p.grams))
}

// sizes in order, for the one that stands in for a size that is not written.
var sizes = []string{"medium", "each", "large", "small", "piece", "extra large"}

// pieceOf weighs by a measure of food f.
func (w *weigher) pieceOf(f *composition.Food, unit, from string) bool {
	r := w.reading
	wanted := r.Size
	if unit == "each" {
		if w.tortilla(f, from) {
			return true
		}
		if wanted != "" {
			if m, ok := w.findPiece(f, wanted); ok {
				w.set(times(r.Amount.Quantity, m.Grams/m.Amount, pieceDeviation(m)), from)
				return true
			}
		}
		return w.unsized(f, from)
	}
	m, ok := w.findPiece(f, unit)
	if !ok {
		return false
	}
	each := m.Grams / m.Amount
	if !strings.Contains(m.Qualifier, r.Size) {
		each *= sizeFactor(r.Size)
	}
	w.set(times(r.Amount.Quantity, each, pieceDeviation(m)), from)
	return true
}

// flourTortillas are grams by diameter in inches (USDA SR28 18364).
var flourTortillas = []struct{ inches, grams float64 }{{6, 30}, {8, usualTortilla}, {10, 72}, {12, 117}}

// usualTortilla is a flour tortilla of 8 inches, g.
const usualTortilla = 49

// tortillaInches are the diameters that sizes stand for (common practice).
var tortillaInches = map[string]float64{"small": 6, "medium": 8, "large": 10, "extra large": 12}

// tortilla weighs tortillas of wheat by their diameter; one of unknown size is
// taken as 8 inches across.
func (w *weigher) tortilla(f *composition.Food, from string) bool {
	if !f.HasKind("tortilla") || hasWord(f.Name, "corn tortilla") || hasWord(f.Name, "chips") || hasWord(f.Name, "mix") {
		return false
	}
	inches, known := 8.0, false
	if in, ok := tortillaInches[w.reading.Size]; ok {
		inches, known = in, true
	}
	for _, o := range w.reading.Other {
		if o.Unit.Name == "inch" {
			inches, known = o.Quantity.Mid(), true
		}
	}
	grams := 0.0
	for _, t := range flourTortillas {
		if grams == 0 || inches >= t.inches-0.5 {
			grams = t.grams
		}
	}
	if grams == usualTortilla && !hasWord(f.Name, "flour tortilla") { // other kinds by their own one of usual size
		if m, ok := w.findPiece(f, "each"); ok {
			grams = m.Grams / m.Amount
		}
	}
	w.set(times(w.reading.Amount.Quantity, grams, noSize), from)
	if !known {
		w.assume(0.9, "no size is written; 8-inch tortillas are taken: %s each", gramsText(grams))
	}
	return true
}

// unsized weighs one of unknown size: as medium, between small and large.
func (w *weigher) unsized(f *composition.Food, from string) bool {
	r := w.reading
	small, okSmall := w.findPiece(f, "small")
	large, okLarge := w.findPiece(f, "large")
	if r.Size == "small" && okLarge || r.Size == "large" && okSmall {
		okSmall, okLarge = false, false
	}
	order := append(w.nouns(), sizes...)
	if f.HasKind("egg") { // recipes mean large eggs (USDA FSIS guidance; common practice)
		order = []string{"large", "each", "medium"}
	}
	for _, size := range order {
		m, ok := w.findPiece(f, size)
		if !ok {
			continue
		}
		mid := m.Grams / m.Amount
		if unsized := size != "medium" && size != "large" && size != "small" && size != "extra large"; unsized && (f.HasKind("vegetable") || f.HasKind("fruit")) {
			mid *= sizeFactor(r.Size)
		}
		sd := noSize
		if f.HasKind("egg") {
			sd = 0.05
		}
		grams := times(r.Amount.Quantity, mid, sd)
		if okSmall && okLarge && size == "medium" {
			lo, hi := small.Grams/small.Amount, large.Grams/large.Amount
			grams = spread.Between(r.Amount.Quantity.Low.Float()*lo*0.9, r.Amount.Quantity.Mid()*mid, r.Amount.Quantity.High.Float()*hi*1.1)
		}
		w.set(grams, from)
		w.unpeeled = strings.Contains(m.Qualifier, "unpeeled")
		if (size == "medium" || size == "large" || size == "small" || size == "extra large") && !f.HasKind("egg") {
			w.assume(0.9, "no size is written; %s is taken: %s each", size, gramsText(mid))
		}
		return true
	}
	return false
}

// nouns are the last words of the line's food in the singular: "pork chops" are
// counted by the measure "chop".
func (w *weigher) nouns() []string {
	var list []string
	for _, word := range strings.Fields(w.reading.Food) {
		list = append([]string{strings.TrimSuffix(word, "s")}, list...)
	}
	if slices.Contains(w.reading.Preparation, "halves") {
		list = append([]string{"half"}, list...)
	}
	return list
}

func pieceDeviation(m composition.Measure) float64 {
	if m.SD > 0 && m.N > 2 {
		return min(max(m.SD/m.Grams, 0.03), widestSD)
	}
	return pieceSD
}

// findPiece finds the measure of a unit that fits the line's words best.
func (w *weigher) findPiece(f *composition.Food, unit string) (composition.Measure, bool) {
	want := append(w.forms(), w.inches()...)
	best, bestScore := -1, 0
	for i, m := range f.Measures {
		if m.Unit != unit || m.Grams <= 0 || m.Amount <= 0 || m.Qualifier == "balls" && !slices.Contains(want, "balls") {
			continue
		}
		score := 1000 + formScore(m.Qualifier, want)
		if w.reading.Size == "" && strings.Contains(m.Qualifier, "medium") {
			score += 6
		}
		if score > bestScore {
			best, bestScore = i, score
		}
	}
	if best < 0 {
		return composition.Measure{}, false
	}
	return f.Measures[best], true
}

// inches are the words a size in inches may match in a measure: `8"`.
func (w *weigher) inches() []string {
	var list []string
	for _, o := range w.reading.Other {
		if o.Unit.Name == "inch" {
			list = append(list, o.Quantity.Low.String()+"\"", o.Quantity.High.String()+"\"")
		}
	}
	return list
}

// seasoningPiece reads "1 salt" or "2 pepper": a number without a unit before a
// seasoning is taken as pinches.
func (w *weigher) seasoningPiece() bool {
	r := w.reading
	if r.Amount.Unit.Name != "each" && r.Amount.Unit.Kind != measure.Count {
		return false
	}
	for _, kind := range []string{"spice", "salt", "herb_dried", "leavening", "herb", "sweetener"} {
		if w.food.HasKind(kind) && r.Amount.Unit.Name == "each" {
			pinch, _ := measure.FindUnit("pinch")
			a := r.Amount
			a.Unit = pinch
			if !w.byVolume(a) {
				return false
			}
			w.grams = spread.Between(0, w.grams.Mid, 6*w.grams.High)
			w.assume(0.4, "no unit is written; a pinch is taken")
			return true
		}
	}
	return false
}
