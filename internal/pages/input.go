package pages

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// said is a message about one field of a form.
type said struct{ Field, Text string }

// messages are what a form has to say, in the order of its fields.
type messages []said

// add notes a message about a field.
func (m *messages) add(field, format string, args ...any) {
	*m = append(*m, said{field, fmt.Sprintf(format, args...)})
}

// For is the message about a field, "" where there is none.
func (m messages) For(field string) string {
	for _, s := range m {
		if s.Field == field {
			return s.Text
		}
	}
	return ""
}

// entry is one field to type in, with what was typed and what is wrong with it.
type entry struct {
	Name, Label, Hint, Value, Unit, Wrong string
	// Mode is the keyboard a phone offers: text, decimal, numeric, search.
	Mode string
}

// pick is a choice of one from a list.
type pick struct {
	Name, Label, Hint, Wrong string
	Options                  []option
}

// option is one entry of a list.
type option struct {
	Value, Label string
	On           bool
}

// tick is a box to tick.
type tick struct {
	Name, Value, Label, Hint string
	On                       bool
}

// options marks the value chosen.
func options(chosen string, pairs ...string) []option {
	var os []option
	for i := 0; i+1 < len(pairs); i += 2 {
		os = append(os, option{Value: pairs[i], Label: pairs[i+1], On: pairs[i] == chosen})
	}
	return os
}

// allowed reports whether a value is among a list's own.
func allowed(value string, os []option) bool {
	for _, o := range os {
		if o.Value == value {
			return true
		}
	}
	return false
}

// vulgar are the fractions people type as one sign.
var vulgar = strings.NewReplacer("½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅓", " 1/3", "⅔", " 2/3",
	"⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8", "\u2044", "/")

// parseNumber reads a number as people write it: 600, 1,500, 0.5, 0,5, 1/2,
// 1 ½.
func parseNumber(s string) (float64, bool) {
	var sum float64
	parts := strings.Fields(vulgar.Replace(plainDigits(strings.TrimSpace(s))))
	if len(parts) == 0 || len(parts) > 2 {
		return 0, false
	}
	for i, p := range parts {
		top, bottom, isFraction := strings.Cut(p, "/")
		if len(parts) == 2 && isFraction != (i == 1) {
			return 0, false
		}
		n, err := strconv.ParseFloat(top, 64)
		if err != nil {
			return 0, false
		}
		if isFraction {
			d, err := strconv.ParseFloat(bottom, 64)
			if err != nil || d == 0 {
				return 0, false
			}
			n /= d
		}
		sum += n
	}
	return sum, !math.IsNaN(sum) && !math.IsInf(sum, 0)
}

// plainDigits turns 1,500 into 1500 and 0,5 into 0.5.
func plainDigits(s string) string {
	before, after, ok := strings.Cut(s, ",")
	if !ok || strings.ContainsAny(after, ",") {
		return s
	}
	if len(after) == 3 && before != "" && before != "0" && !strings.Contains(before, ".") {
		return before + after
	}
	return before + "." + after
}

// bounds is what a number may be.
type bounds struct {
	Low, High float64
	Whole     bool
	Example   string
}

// numberIn reads a number within bounds and notes a message where it is not
// one. An empty text is ok = false without a message.
func numberIn(m *messages, field, typed string, b bounds) (x float64, ok bool) {
	if typed == "" {
		return 0, false
	}
	x, ok = parseNumber(typed)
	switch {
	case !ok:
		m.add(field, "“%s” is not a number; write one such as %s.", short(typed, 40), b.Example)
	case b.Whole && x != math.Trunc(x):
		m.add(field, "Write a whole number such as %s.", b.Example)
	case x < b.Low || x > b.High:
		m.add(field, "Write a number from %s to %s, such as %s.", plain(b.Low), plain(b.High), b.Example)
	default:
		return x, true
	}
	return 0, false
}

// short cuts a text to n characters for a message.
func short(s string, n int) string {
	r := []rune(s)
	if len(r) <= n {
		return s
	}
	return string(r[:n]) + "…"
}

// plain writes a number without needless digits.
func plain(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// typedAmount writes a number into a box, six figures at most.
func typedAmount(x float64) string {
	return plain(math.Round(x*1e6) / 1e6)
}
