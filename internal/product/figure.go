package product

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"potwright/internal/composition"
	"potwright/internal/label"
	"potwright/internal/spread"
)

// figure is an amount as printed.
type figure struct {
	value float64 // in the field's unit, or percent
	// last is the worth of half the last digit written, in the same unit.
	last    float64
	below   bool // "less than"
	percent bool // of the daily value
	// converted is set where another unit was typed than the field's.
	converted bool
}

// unitSizes are the units an amount may be typed in, as multiples of g or of kcal.
var unitSizes = map[string]struct {
	size   float64
	energy bool
}{
	"g": {1, false}, "gram": {1, false}, "grams": {1, false}, "mg": {1e-3, false},
	"µg": {1e-6, false}, "μg": {1e-6, false}, "mcg": {1e-6, false}, "ug": {1e-6, false},
	"kcal": {1, true}, "cal": {1, true}, "calories": {1, true}, "kj": {1 / kJPerKcal, true},
}

// kJPerKcal is the thermochemical calorie.
const kJPerKcal = 4.184

// mostFigure is the largest number a figure may be, in any unit.
const mostFigure = 100_000

// belowWords begin an amount of which only an upper bound is printed.
var belowWords = []string{"less than", "under", "below", "<"}

// readFigure reads what stands on one line of a label. problem is "" where it could
// be read.
func readFigure(text string, f Field) (fig figure, problem string) {
	rest := strings.ToLower(strings.TrimSpace(text))
	for _, w := range belowWords {
		if after, ok := strings.CutPrefix(rest, w); ok {
			fig.below, rest = true, strings.TrimSpace(after)
			break
		}
	}
	digits := strings.IndexFunc(rest, func(r rune) bool { return (r < '0' || r > '9') && r != '.' && r != ',' })
	if digits < 0 {
		digits = len(rest)
	}
	value, decimals, ok := readNumber(rest[:digits])
	if !ok {
		return figure{}, fmt.Sprintf("%q is no amount", cut(text))
	}
	if value > mostFigure {
		return figure{}, fmt.Sprintf("%q is too large", cut(text))
	}
	fig.value, fig.last = value, math.Pow10(-decimals)/2
	return fig, fig.in(strings.TrimSpace(rest[digits:]), f)
}

// in reads the unit that was typed and turns the amount into the field's.
func (fig *figure) in(unit string, f Field) (problem string) {
	if words := strings.Fields(unit); len(words) > 0 && words[0] == "%" || strings.HasPrefix(unit, "%") {
		fig.percent = true
		return ""
	}
	if unit == "" {
		return ""
	}
	typed, ok := unitSizes[unit]
	own := unitSizes[strings.ToLower(f.Unit)]
	if !ok || typed.energy != own.energy {
		return fmt.Sprintf("%q is no unit of %s", cut(unit), f.Name)
	}
	if scale := typed.size / own.size; scale != 1 {
		fig.value *= scale
		fig.last *= scale
		fig.converted = true
	}
	return ""
}

// readNumber reads 140, 1,240, 0.5 and 0,5; decimals is how many follow the point.
func readNumber(s string) (value float64, decimals int, ok bool) {
	if s == "" || len(s) > 12 {
		return 0, 0, false
	}
	whole, part, comma := strings.Cut(s, ",")
	switch {
	case !comma:
	case len(part) >= 3 && len(part) < 8 && whole != "" && whole[0] != '0' && len(whole) <= 3 && (len(part) == 3 || part[3] == '.' || part[3] == ','):
		s = strings.ReplaceAll(s, ",", "") // 1,240
	default:
		s = whole + "." + part // 0,5
	}
	if strings.Count(s, ".") > 1 || strings.Contains(s, ",") {
		return 0, 0, false
	}
	x, err := strconv.ParseFloat(s, 64)
	if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
		return 0, 0, false
	}
	if _, after, has := strings.Cut(s, "."); has {
		decimals = len(after)
	}
	return x, decimals, true
}

// cut shortens a text for a message.
func cut(s string) string {
	r := []rune(strings.TrimSpace(s))
	if len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return string(r)
}

// exactSteps are the nutrients whose US step the law itself gives: 21 CFR
// 101.9(c)(1)-(7). The steps of vitamins and minerals are a suggestion only.
func exactSteps(n composition.Nutrient) bool {
	switch n {
	case composition.Energy, composition.Fat, composition.SaturatedFat, composition.TransFat, composition.Cholesterol,
		composition.Sodium, composition.Carbohydrate, composition.Fibre, composition.Sugars, composition.AddedSugars, composition.Protein:
		return true
	default:
		return false
	}
}

// amount is the true amounts that a figure stands for, in the field's unit, and
// what should be looked at again, or "".
func (fig figure) amount(f Field, p Panel) (a spread.Range, doubt string) {
	if fig.below {
		return spread.Between(0, fig.value/2, fig.value), ""
	}
	digits := spread.Between(fig.value-fig.last, fig.value, fig.value+fig.last)
	rule, ok := label.Printed(p.rules(), f.Nutrient, fig.value)
	switch {
	case f.Key == saltKey:
		rule, ok = label.PrintedSalt(fig.value)
	case f.Key == energyKJ: // to the nearest kJ, as the kcal
	case fig.converted:
		ok = false
	}
	switch {
	case !ok && p == US && exactSteps(f.Nutrient) && !fig.converted:
		return digits, fmt.Sprintf("%s %s is not a figure that the US rule prints (%s); near it are %s", label.Figure(fig.value), f.Unit, label.US.Source(), nearFigures(f.Nutrient, fig.value))
	case !ok:
		return digits, ""
	case p == US && exactSteps(f.Nutrient):
		a = rule
	default: // steps that nobody must keep to
		a = spread.Between(min(rule.Low, digits.Low), rule.Mid, max(rule.High, digits.High))
	}
	if fig.value == 0 {
		a.Mid = 0 // most printed zeros are of foods that hold none
	}
	return a, ""
}

// nearFigures are the printed figures around an amount.
func nearFigures(n composition.Nutrient, x float64) string {
	step := label.Step(n, x)
	low, high := label.Round(n, math.Max(0, x-step/2)), label.Round(n, x+step/2)
	if low == high {
		return label.Figure(low)
	}
	return label.Figure(low) + " and " + label.Figure(high)
}
