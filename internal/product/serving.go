package product

import (
	"fmt"
	"math"
	"strings"
	"unicode"
	"unicode/utf8"

	"potwright/internal/composition"
	"potwright/internal/measure"
	"potwright/internal/spread"
)

// portion is a serving or a container as printed.
type portion struct {
	grams spread.Range
	// measures are its household measures, each in grams.
	measures []composition.Measure
	// millis is its volume, 0 where it is not printed.
	millis float64
}

// stated is one amount in a text: "1/2 cup" and "120 g" in "1/2 cup (120 g)".
type stated struct {
	quantity float64
	unit     measure.Unit
	text     string // the number as written
}

// mostStated is how many amounts a text may hold.
const mostStated = 6

// amountsIn finds every amount in a text: a number and the word or two after it. A
// word that is no unit is what is counted: "3 crackers".
func amountsIn(text string) []stated {
	var out []stated
	for i := 0; i < len(text) && len(out) < mostStated; {
		r, size := utf8.DecodeRuneInString(text[i:])
		if !unicode.IsDigit(r) && !unicode.IsNumber(r) && r != '.' {
			i += size
			continue
		}
		q, n, ok := measure.ScanQuantity(text[i:])
		if !ok {
			i += size
			continue
		}
		number := text[i : i+n]
		i += n
		unit, used := unitAfter(text[i:])
		i += used
		out = append(out, stated{q.Mid(), unit, number})
	}
	return out
}

// unitAfter finds the unit that a number is followed by, two words before one.
func unitAfter(rest string) (u measure.Unit, used int) {
	trimmed := strings.TrimLeft(rest, " -")
	blank := len(rest) - len(trimmed)
	end := strings.IndexFunc(trimmed, func(r rune) bool { return !unicode.IsLetter(r) && r != ' ' && r != '.' })
	if end < 0 {
		end = len(trimmed)
	}
	words := strings.Fields(trimmed[:end])
	for n := min(2, len(words)); n > 0; n-- {
		if u, ok := measure.FindUnit(strings.Join(words[:n], " ")); ok {
			return u, blank
		}
	}
	return measure.Each(), blank
}

// mass is the grams stated, metric units before others; ok is false where none is.
func mass(list []stated) (grams spread.Range, ok bool) {
	for _, s := range list {
		if s.unit.Kind == measure.Mass && s.unit.IsMetric() {
			g, half := s.quantity*s.unit.Size, s.unit.Size*gramStep(s)/2
			return spread.Between(g-half, g, g+half), true
		}
	}
	for _, s := range list {
		if s.unit.Kind == measure.Mass {
			return spread.Relative(s.quantity*s.unit.Size, ounceDoubt), true
		}
	}
	return spread.Range{}, false
}

// ounceDoubt is how far a weight that is printed in ounces alone is off: a label's
// ounce is 28 g (21 CFR 101.9(b)(5)(viii)), a pair of scales' 28.35.
const ounceDoubt = 0.03

// gramStep is the step of a printed metric weight in its own unit: 1 from 5, a half
// from 2, a tenth below (21 CFR 101.9(b)(7)(ii)), or that of the digits written.
func gramStep(s stated) float64 {
	if _, after, has := strings.Cut(s.text, "."); has {
		return math.Pow10(-min(len(strings.TrimSpace(after)), 6))
	}
	switch {
	case s.quantity >= 5:
		return 1
	case s.quantity >= 2:
		return 0.5
	default:
		return 0.1
	}
}

// volume is the millilitres stated, metric units before others; 0 for none.
func volume(list []stated) float64 {
	for _, s := range list {
		if s.unit.Kind == measure.Volume && s.unit.IsMetric() {
			return s.quantity * s.unit.Size
		}
	}
	for _, s := range list {
		if s.unit.Kind == measure.Volume {
			return s.quantity * s.unit.Size / kitchenCup
		}
	}
	return 0
}

// kitchenCup is a US cup, spoon or fluid ounce over that of a label, which counts a
// cup as 240 ml (21 CFR 101.9(b)(5)(viii); NIST Handbook 44, Appendix C).
const kitchenCup = 236.5882365 / 240

// Bounds of a portion in grams.
const (
	leastGrams = 0.05
	mostGrams  = 20_000
)

const servingExample = `such as "1/2 cup (120 g)", "30 g" or "240 mL"`

// readPortion reads a serving or a net weight. density is grams per millilitre, for
// a volume without a weight.
func readPortion(text string, density spread.Range, us bool) (p portion, problem, expected string) {
	list := amountsIn(text)
	if len(list) == 0 {
		return p, fmt.Sprintf("%q holds no amount", cut(text)), servingExample
	}
	p.millis = volume(list)
	grams, ok := mass(list)
	switch {
	case ok:
		p.grams = grams
	case p.millis > 0 && density.Low > 0:
		p.grams = spread.Exact(p.millis).Times(density)
	case p.millis > 0:
		return p, fmt.Sprintf("%q is a volume, and what it weighs is not known", cut(text)), "its grams too, or a food it is like that has a measure by volume"
	default:
		return p, fmt.Sprintf("%q holds no weight or volume", cut(text)), servingExample
	}
	if !p.grams.Valid() || p.grams.Low < leastGrams/2 || p.grams.High > mostGrams {
		return p, fmt.Sprintf("%q is no likely weight", cut(text)), fmt.Sprintf("from %g g to %g kg", leastGrams, mostGrams/1000.0)
	}
	p.measures = measuresOf(list, p.grams, us)
	return p, "", ""
}

// measuresOf are the household measures of a portion.
func measuresOf(list []stated, grams spread.Range, us bool) []composition.Measure {
	var out []composition.Measure
	for _, s := range list {
		if s.unit.Kind == measure.Mass || s.quantity <= 0 || s.unit.Name == "serving" {
			continue
		}
		g := grams.Mid
		if us && s.unit.Kind == measure.Volume && !s.unit.IsMetric() {
			g *= kitchenCup
		}
		out = append(out, composition.Measure{Amount: s.quantity, Unit: s.unit.Name, Grams: g})
	}
	return out
}

// densityDoubt is the relative half-width of the weight of a millilitre, where it is
// a like food's. A choice of ours.
const densityDoubt = 0.08

// densityOf is grams per millilitre of a food by its first measure by volume; zero
// where it has none.
func densityOf(f *composition.Food) spread.Range {
	if f == nil {
		return spread.Range{}
	}
	for _, m := range f.Measures {
		if u, ok := measure.FindUnit(m.Unit); ok && u.Kind == measure.Volume && m.Amount > 0 && m.Grams > 0 {
			return spread.Relative(m.Grams/(m.Amount*u.Size), densityDoubt)
		}
	}
	return spread.Range{}
}

// readServings reads how many servings a container holds; "" is none.
func readServings(text string) (n float64, problem string) {
	text = strings.TrimSpace(text)
	if text == "" {
		return 0, ""
	}
	q, used, ok := measure.ScanQuantity(text)
	rest := strings.TrimSpace(text[used:])
	if !ok || rest != "" && !strings.HasPrefix(strings.ToLower(rest), "serving") {
		return 0, fmt.Sprintf("%q is no number of servings", cut(text))
	}
	if n = q.Mid(); !(n > 0) || n > 1000 {
		return 0, fmt.Sprintf("%q is no likely number of servings", cut(text))
	}
	return n, ""
}
