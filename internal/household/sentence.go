package household

import (
	"fmt"
	"math"
	"strings"

	"potwright/internal/composition"
	"potwright/internal/label"
)

// sentence such as "Sodium 820 mg (690–960) of at most 600 mg a meal, set by
// the clinician: over by 220 mg." Amounts are rounded by label.Rule.
func (b Bound) sentence(a Amount, fit Fit) string {
	n := b.Nutrient()
	return fmt.Sprintf("%s %s of %s %s, %s: %s.", capital(n.Name()), rangeText(n, a), b.Side, b.boundText(), setByText(b.Limit.SetBy), b.outcome(a.with(b.Before), fit))
}

// rangeText such as "820 mg (690–960)"; the ends are left out where they round
// to the middle.
func rangeText(n composition.Nutrient, a Amount) string {
	text := label.Text(n, a.Mid)
	if a.Unknown > 0 {
		text = "at least " + text
	}
	low, mid, high := label.Round(n, a.Low), label.Round(n, a.Mid), label.Round(n, a.High)
	if low == mid && high == mid {
		return text
	}
	return fmt.Sprintf("%s (%s–%s)", text, label.Figure(low), label.Figure(high))
}

// boundText is the limit's own figure, unrounded, and its period.
func (b Bound) boundText() string {
	unit := b.Nutrient().Unit()
	if b.Before != (Amount{}) {
		return b.leftText()
	}
	if b.Share == 0 {
		return fmt.Sprintf("%s %s a %s", label.Figure(b.Value), unit, b.Limit.Per)
	}
	own := b.Limit.AtMost
	if b.Side == AtLeast {
		own = b.Limit.AtLeast
	}
	return fmt.Sprintf("%s a meal (%s of %s %s a day)", label.Text(b.Nutrient(), b.Value),
		ShareText(b.Share), label.Figure(*own), unit)
}

// leftText such as "700 mg that are left (of 2,300 mg a day, with 1,600 mg
// (1,400–1,800) had before)".
func (b Bound) leftText() string {
	n, over := b.Nutrient(), b.Limit.Per
	return fmt.Sprintf("%s that are left (of %s a %s, with %s had before)", label.Text(n, max(0, b.Left())), label.Text(n, b.Value), over, rangeText(n, b.Before))
}

// outcome ends the sentence: by how much, or why it can't be told.
func (b Bound) outcome(a Amount, fit Fit) string {
	n := b.Nutrient()
	switch {
	case fit == Unknown:
		return unknownText(a.Unknown)
	case fit == Over && b.Side == AtMost:
		return "over by " + gap(n, a.Mid-b.Value)
	case fit == Over:
		return "under by " + gap(n, b.Value-a.Mid)
	case fit == Close && b.Side == AtMost:
		return "inside at the middle, but it may be over by " + gap(n, a.High-b.Value)
	case fit == Close:
		return "reached at the middle, but it may be under by " + gap(n, b.Value-a.Low)
	case b.Side == AtLeast:
		return "reached"
	default:
		return "inside"
	}
}

// gap writes a difference; one too small for a label's first step is said to be
// less than that step, never nothing.
func gap(n composition.Nutrient, x float64) string {
	if label.Round(n, x) == 0 {
		return "less than " + label.Figure(label.Step(n, 0)) + " " + n.Unit()
	}
	return label.Text(n, x)
}

func unknownText(parts int) string {
	if parts == 1 {
		return "one part is unknown, so it can't be told"
	}
	return fmt.Sprintf("%d parts are unknown, so it can't be told", parts)
}

func setByText(s SetBy) string {
	switch s {
	case Clinician:
		return "set by the clinician"
	case Guidance:
		return "published guidance"
	default:
		return "own choice"
	}
}

// ShareText writes a share of a day in words: "a third", "half", "40 %".
func ShareText(share float64) string {
	for _, f := range []struct {
		of   float64
		text string
	}{{1, "all"}, {1.0 / 2, "half"}, {1.0 / 3, "a third"}, {2.0 / 3, "two thirds"}, {1.0 / 4, "a quarter"}, {3.0 / 4, "three quarters"}, {1.0 / 5, "a fifth"}} {
		if math.Abs(share-f.of) < 0.0005 {
			return f.text
		}
	}
	return label.Figure(label.Nearest(share*100, 0.1)) + " %"
}

func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// plural adds an s to a unit of the household's own, except to metric ones.
func plural(unit string, x float64) string {
	switch {
	case x == 1 || unit == "" || strings.HasSuffix(unit, "s") || strings.HasPrefix(unit, "%"),
		unit == "kcal" || unit == "g" || unit == "mg" || unit == "µg":
		return unit
	default:
		return unit + "s"
	}
}
