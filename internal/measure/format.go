package measure

import (
	"math"
	"strconv"
	"strings"
)

// String writes the quantity as a cook does, exactly: "1 1/3", "2 to 3",
// "about 4". ScanQuantity reads it back to the same quantity.
func (q Quantity) String() string { return q.text(Ratio.String) }

// Format writes a quantity of a unit: "1 1/3 cups", "0.5 kg", "2 to 3 cloves".
// Things that are simply counted get no unit word.
func Format(q Quantity, u Unit) string {
	number := q.String()
	if u.IsMetric() {
		number = q.text(Ratio.decimal)
	}
	if u.Name == "each" || u.Name == "" {
		return number
	}
	return number + " " + u.Written(q)
}

func (q Quantity) text(write func(Ratio) string) string {
	var b strings.Builder
	if q.About {
		b.WriteString("about ")
	}
	b.WriteString(write(q.Low))
	if q.IsRange() {
		b.WriteString(" to " + write(q.High))
	}
	return b.String()
}

// String writes a whole number, a fraction or a mixed number: "2", "1/3",
// "1 1/3"; a ratio whose fraction has a long denominator is written as a
// decimal where that is exact ("0.05", "14.5").
func (r Ratio) String() string {
	if r.Den <= 1 {
		return strconv.FormatInt(r.Num, 10)
	}
	if r.Den > 16 || r.Den == 5 || r.Den == 10 {
		if s, ok := r.exactDecimal(); ok {
			return s
		}
	}
	frac := strconv.FormatInt(r.Num%r.Den, 10) + "/" + strconv.FormatInt(r.Den, 10)
	if whole := r.Num / r.Den; whole > 0 {
		return strconv.FormatInt(whole, 10) + " " + frac
	}
	return frac
}

func (r Ratio) decimal() string {
	if s, ok := r.exactDecimal(); ok {
		return s
	}
	return r.String()
}

// exactDecimal writes the ratio as a decimal of at most six places, if that is
// exact.
func (r Ratio) exactDecimal() (string, bool) {
	if r.Den <= 1 {
		return strconv.FormatInt(r.Num, 10), true
	}
	const places = 1_000_000
	if places%r.Den != 0 {
		return "", false
	}
	frac := strconv.FormatInt(places+r.Num%r.Den*(places/r.Den), 10)[1:]
	return strconv.FormatInt(r.Num/r.Den, 10) + "." + strings.TrimRight(frac, "0"), true
}

// Nearest is the quantity of the unit nearest to so many millilitres or grams
// that a kitchen can measure: eighths and quarters of a teaspoon, halves of a
// tablespoon, quarters and thirds of a cup, whole grams and millilitres. A unit
// without a size counts: then size is the number of units.
func Nearest(size float64, u Unit) Quantity {
	x := size
	if u.Size > 0 {
		x = size / u.Size
	}
	if x <= 0 || math.IsNaN(x) || math.IsInf(x, 0) || x > 1e6 {
		return Exactly(Whole(0))
	}
	best := Whole(int64(math.Round(x)))
	for _, den := range steps(u, x) {
		r := NewRatio(int64(math.Round(x*float64(den))), den)
		if closer(r, best, x) {
			best = r
		}
	}
	return Exactly(best)
}

// closer prefers the nearer ratio, in relative terms; zero is never near.
func closer(r, best Ratio, x float64) bool {
	if best.IsZero() {
		return true
	}
	return !r.IsZero() && math.Abs(r.Float()-x) < math.Abs(best.Float()-x)-1e-9
}

// steps are the denominators a unit is measured in around x.
func steps(u Unit, x float64) []int64 {
	switch u.Name {
	case "tsp":
		if x < 1 {
			return []int64{8, 4}
		}
		return []int64{4}
	case "tbsp", "fl oz", "dessertspoon":
		return []int64{2}
	case "cup":
		if x < 0.2 {
			return []int64{8}
		}
		return []int64{4, 3}
	case "pint", "quart", "gallon", "lb", "oz":
		return []int64{4}
	case "kg", "l":
		return []int64{20}
	case "g", "ml":
		if x < 10 {
			return []int64{2}
		}
		return []int64{1}
	case "dash", "pinch", "smidgen":
		return []int64{1}
	}
	if x < 0.3 && u.Kind == Count {
		return []int64{4, 6, 8}
	}
	return []int64{2, 3, 4}
}

// Spoons is the kitchen amount nearest to so many millilitres in US spoons and
// cups: from an eighth of a teaspoon up.
func Spoons(millilitres float64) (Quantity, Unit) { return SpoonsIn(millilitres, US) }

// SpoonsIn is Spoons in the spoons and cups of a system.
func SpoonsIn(millilitres float64, system System) (Quantity, Unit) {
	unit := bySpelling["cup"]
	tbsp := bySpelling["tbsp"].In(system).Size
	switch {
	case millilitres < teaspoon/10:
		unit = bySpelling["pinch"]
	case millilitres < 0.93*tbsp:
		unit = bySpelling["tsp"]
	case millilitres < 3.5*tbsp:
		unit = bySpelling["tbsp"]
	}
	unit = unit.In(system)
	return Nearest(millilitres, unit), unit
}

// Scales is the amount nearest to so many grams that kitchen scales show.
func Scales(grams float64) (Quantity, Unit) {
	if grams >= 1000 {
		return Nearest(grams, bySpelling["kg"]), bySpelling["kg"]
	}
	return Nearest(grams, bySpelling["g"]), bySpelling["g"]
}
