package ingredient

import (
	"math"
	"strings"

	"potwright/internal/measure"
)

// offScale is how far, as a share, a scaled line read back may be from what is
// meant: a kitchen measures no finer (a seventh is the worst of spoons). A design
// choice.
const offScale = 0.15

// offLittle is the same for less than a third of a teaspoon, in millilitres, or of
// a thing: there the finest measure is coarse.
const offLittle = 0.35

// Scaled is the line's text with every amount in it times k > 0, as a kitchen can
// measure them; its other words stay as they were written. A line without an
// amount ("to taste") stays as it is. ok is false, with the text unchanged, where
// the amount is too small to measure or the line would no longer mean the same.
func Scaled(r Reading, k float64) (text string, ok bool) {
	if !r.HasAmount || k == 1 {
		return r.Text, true
	}
	for _, try := range []func(Reading, float64) string{inPlace, anew} {
		text = try(r, k)
		if text != "" && means(Read(text), r, k) {
			return text, true
		}
	}
	return r.Text, false
}

// edit is a stretch of the line, in runes, and what comes in its place.
type edit struct {
	from, to int
	text     string
}

// inPlace exchanges the parts of the line that tell amounts.
func inPlace(r Reading, k float64) string {
	runes := []rune(r.Text)
	var edits []edit
	q, u := measure.Scaled(r.Amount.Quantity, r.Amount.Unit, k)
	amount, others := edit{from: -1}, ofParts(r)
	unit, numbered := edit{from: -1}, r.hasPart("quantity")
	for _, p := range r.Parts {
		if p.To > len(runes) {
			return ""
		}
		words := string(runes[p.From:p.To])
		switch p.Name {
		case "quantity": // a later one is a sum: "1 cup plus 2 tablespoons"
			if amount.from < 0 {
				amount.from = p.From
			}
			amount.to = p.To
		case "unit":
			if unit.from < 0 {
				unit = edit{p.From, p.To, ""}
			}
		case "other":
			if len(others) == 0 {
				return ""
			}
			edits = append(edits, edit{p.From, p.To, otherText(words, others[0], k)})
			others = others[1:]
		case "food":
			if u.Name == measure.Each().Name {
				edits = append(edits, edit{p.From, p.To, counted(words, q)})
			}
		case "alternative", "further":
			if other, ok := Scaled(Read(words), k); ok {
				edits = append(edits, edit{p.From, p.To, other})
			}
		}
	}
	if amount.from < 0 && !numbered {
		amount.from, amount.to = r.Parts[0].From, r.Parts[0].From // "small onion", "clove of garlic"
	}
	if amount.from < 0 || r.HasContainer && !r.hasPart("container") {
		return ""
	}
	beside := unit.from >= 0 && unit.from <= amount.to+1
	switch {
	case beside:
		amount.text, amount.to = measure.Format(q, u), max(amount.to, unit.to)
	case unit.from >= 0:
		amount.text = measure.Format(q, measure.Each())
		edits = append(edits, edit{unit.from, unit.to, u.Written(q)})
	default:
		amount.text = measure.Format(q, u)
	}
	if amount.from == amount.to {
		amount.text += " "
	}
	return applied(runes, append(edits, amount))
}

// ofParts are the further measures that stand on the line as parts of their own;
// lengths in inches are sizes, which do not scale.
func ofParts(r Reading) []Amount {
	var out []Amount
	for _, o := range r.Other {
		if o.Unit.Name != "inch" {
			out = append(out, o)
		}
	}
	return out
}

// otherText is a further measure times k: "about 3 medium" becomes "about 6
// medium".
func otherText(words string, a Amount, k float64) string {
	q, u := measure.Scaled(a.Quantity, a.Unit, k)
	q.About = q.About || strings.HasPrefix(strings.ToLower(words), "about ")
	if u.Kind != measure.Count {
		return measure.Format(q, u)
	}
	_, n, ok := measure.ScanQuantity(words)
	if !ok {
		return words
	}
	return q.String() + words[n:]
}

// counted is a food's words as they stand behind a number of it: "large egg" twice is
// two "large eggs". Only the things a cook counts change.
func counted(words string, q measure.Quantity) string {
	start := strings.LastIndexByte(words, ' ') + 1
	one, many := oneAndMany(words[start:])
	switch {
	case one == "":
		return words
	case q.High.Float() > 1:
		return words[:start] + many
	}
	return words[:start] + one
}

// oneAndMany are the singular and the plural of a word for a thing that a cook counts,
// "" for another word.
func oneAndMany(word string) (one, many string) {
	one = strings.TrimSuffix(word, "s")
	if !things[strings.ToLower(one)] {
		one = strings.TrimSuffix(word, "es")
	}
	if !things[strings.ToLower(one)] {
		return "", ""
	}
	switch one[len(one)-1] {
	case 'o', 'h', 'x':
		if low := strings.ToLower(one); low != "avocado" {
			return one, one + "es"
		}
	}
	return one, one + "s"
}

// sameFood reports whether two foods are one, in the singular or the plural.
func sameFood(a, b string) bool {
	one := measure.Exactly(measure.Whole(1))
	return a == b || counted(a, one) == counted(b, one)
}

func (r *Reading) hasPart(name string) bool {
	for _, p := range r.Parts {
		if p.Name == name {
			return true
		}
	}
	return false
}

// applied makes the edits, the last in the line first; "" where two overlap.
func applied(runes []rune, edits []edit) string {
	text, end := "", len(runes)
	for len(edits) > 0 {
		last := 0
		for i, e := range edits {
			if e.from > edits[last].from {
				last = i
			}
		}
		e := edits[last]
		if e.to > end {
			return ""
		}
		text = e.text + string(runes[e.to:end]) + text
		end = e.from
		edits = append(edits[:last:last], edits[last+1:]...)
	}
	return string(runes[:end]) + text
}

// anew writes the line from its parts.
func anew(r Reading, k float64) string {
	if r.Food == "" || len(r.Together) > 0 || len(r.Alternatives) > 0 {
		return ""
	}
	q, u := measure.Scaled(r.Amount.Quantity, r.Amount.Unit, k)
	food := strings.Join(append(append([]string{}, r.States...), r.Food), " ")
	if r.HasContainer {
		return WriteContained(Amount{q, u}, r.Container, food, r.Preparation)
	}
	return Write(Amount{q, u}, food, r.Preparation)
}

// means reports whether a line means another times k.
func means(got, was Reading, k float64) bool {
	if !got.HasAmount || !sameFood(got.Food, was.Food) || got.HasContainer != was.HasContainer || len(got.Other) != len(was.Other) ||
		len(got.Together) != len(was.Together) || len(got.Alternatives) != len(was.Alternatives) || got.Size != was.Size {
		return false
	}
	if was.HasContainer && got.Container != was.Container {
		return false
	}
	if !isTimes(got.Amount, was.Amount, k) {
		return false
	}
	for i, o := range was.Other {
		if o.Unit.Name != "inch" && !isTimes(got.Other[i], o, k) {
			return false
		}
	}
	for i, t := range was.Together {
		if got.Together[i].Food != t.Food || t.HasAmount && !isTimes(got.Together[i].Amount, t.Amount, k) {
			return false
		}
	}
	for i, a := range was.Alternatives {
		if got.Alternatives[i].Food != a.Food || a.HasAmount && !isTimes(got.Alternatives[i].Amount, a.Amount, k) {
			return false
		}
	}
	return true
}

func isTimes(got, was Amount, k float64) bool {
	if got.Unit.Kind != was.Unit.Kind || got.Unit.Size == 0 && got.Unit.Name != was.Unit.Name {
		return false
	}
	want, off := k*size(was), offScale
	if was.Unit.Kind == measure.Volume && want < 5.0/3 || was.Unit.Size == 0 && want < 1.0/3 {
		off = offLittle
	}
	return math.Abs(size(got)-want) <= off*want
}

// size is an amount in millilitres, grams or units.
func size(a Amount) float64 {
	if a.Unit.Size > 0 {
		return a.Quantity.Mid() * a.Unit.Size
	}
	return a.Quantity.Mid()
}

// Times is how many times the amount of one line that of another is; ok is false
// where they can't be compared.
func Times(is, was Reading) (k float64, ok bool) {
	a, b := is.Amount, was.Amount
	if !is.HasAmount || !was.HasAmount || a.Unit.Kind != b.Unit.Kind || a.Unit.Size == 0 && a.Unit.Name != b.Unit.Name || size(b) <= 0 {
		return 0, false
	}
	return size(a) / size(b), true
}
