package measure

import (
	"strings"
	"unicode/utf8"
)

// vulgar are the fraction characters of Unicode.
var vulgar = map[rune]Ratio{
	'½': {1, 2}, '⅓': {1, 3}, '⅔': {2, 3}, '¼': {1, 4}, '¾': {3, 4},
	'⅕': {1, 5}, '⅖': {2, 5}, '⅗': {3, 5}, '⅘': {4, 5}, '⅙': {1, 6}, '⅚': {5, 6},
	'⅐': {1, 7}, '⅛': {1, 8}, '⅜': {3, 8}, '⅝': {5, 8}, '⅞': {7, 8}, '⅑': {1, 9}, '⅒': {1, 10},
}

// maxDigits keeps every number that is read within 31 bits, so that sums and
// products of two stay exact.
const maxDigits = 9

// ScanQuantity reads the quantity at the start of s: a number, a range, or
// number words, with "about" before it. n is how many bytes it took. A number
// that belongs to something else ("2 %", "100%") is not a quantity.
func ScanQuantity(s string) (q Quantity, n int, ok bool) {
	for {
		skip, found := scanAbout(s[n:])
		if !found {
			break
		}
		q.About = true
		n += skip
	}
	low, used, ok := scanNumber(s[n:])
	if !ok {
		low, used, ok = scanWords(s[n:], &q)
	}
	if !ok || isPercent(s[n+used:]) {
		return Quantity{}, 0, false
	}
	if q.High.Den != 0 { // "a few" is a range of its own
		return q, n + used, true
	}
	n += used
	q.Low, q.High = low, low
	if high, used, ok := scanRangeEnd(s[n:], low); ok {
		q.High = high
		n += used
	}
	return q, n, true
}

func isPercent(rest string) bool {
	rest = strings.TrimLeft(rest, " ")
	return strings.HasPrefix(rest, "%")
}

// scanNumber reads digits, a decimal, a fraction or a mixed number.
func scanNumber(s string) (r Ratio, n int, ok bool) {
	if glyph, size := vulgarAt(s); size > 0 {
		return glyph, size, true
	}
	whole, n, isInt, ok := scanDecimal(s)
	if !ok || !isInt {
		return whole, n, ok
	}
	if den, used, ok := scanDenominator(s[n:]); ok {
		return NewRatio(whole.Num, den), n + used, true
	}
	if frac, used, ok := scanFractionAfter(s[n:]); ok {
		if sum, fits := whole.Plus(frac); fits {
			return sum, n + used, true
		}
	}
	return whole, n, true
}

// scanFractionAfter reads the fraction of a mixed number: "½", " 1/2", "-1/2",
// " and 1/2", " & 1/2".
func scanFractionAfter(s string) (r Ratio, n int, ok bool) {
	for _, joint := range []string{" and ", " & ", "-", "‑", ""} {
		if !strings.HasPrefix(s, joint) {
			continue
		}
		n = len(joint) + spaces(s[len(joint):])
		if glyph, size := vulgarAt(s[n:]); size > 0 {
			return glyph, n + size, true
		}
		if n == 0 {
			return Ratio{}, 0, false // "12/3" is no mixed number
		}
		num, used, isInt, ok := scanDecimal(s[n:])
		if !ok || !isInt {
			continue
		}
		den, more, ok := scanDenominator(s[n+used:])
		if ok && num.Num < den && num.Num > 0 {
			return NewRatio(num.Num, den), n + used + more, true
		}
	}
	return Ratio{}, 0, false
}

// scanDenominator reads "/4" in any of the slashes in use.
func scanDenominator(s string) (den int64, n int, ok bool) {
	slash, size := utf8.DecodeRuneInString(s)
	if slash != '/' && slash != '⁄' && slash != '∕' {
		return 0, 0, false
	}
	r, used, isInt, ok := scanDecimal(s[size:])
	if !ok || !isInt || r.Num == 0 || r.Num > 100 {
		return 0, 0, false
	}
	return r.Num, size + used, true
}

func vulgarAt(s string) (Ratio, int) {
	if s == "" || s[0] < utf8.RuneSelf {
		return Ratio{}, 0
	}
	c, size := utf8.DecodeRuneInString(s)
	r, ok := vulgar[c]
	if !ok {
		return Ratio{}, 0
	}
	return r, size
}

// scanDecimal reads 12, 1.5, .5, 1,5 and 1,000. A comma before exactly three
// digits parts thousands, unless the number starts with 0; before one or two
// digits it is a decimal comma.
func scanDecimal(s string) (r Ratio, n int, isInt, ok bool) {
	head := digits(s)
	if head > maxDigits {
		return Ratio{}, 0, false, false
	}
	num, den, isInt := atoi(s[:head]), int64(1), true
	n = head
	if n < len(s) && (s[n] == '.' || s[n] == ',') {
		tail := digits(s[n+1:])
		thousands := s[n] == ',' && tail == 3 && s[0] != '0'
		decimal := tail > 0 && tail+head <= maxDigits && (s[n] == '.' || (head > 0 && tail <= 3))
		switch {
		case thousands && head <= 3 && head > 0:
			num = num*1000 + atoi(s[n+1:n+1+tail])
			n += 1 + tail
		case decimal:
			for i := 0; i < tail; i++ {
				den *= 10
			}
			num = num*den + atoi(s[n+1:n+1+tail])
			n, isInt = n+1+tail, false
		}
	}
	if n == 0 {
		return Ratio{}, 0, false, false
	}
	return NewRatio(num, den), n, isInt, true
}

func digits(s string) int {
	n := 0
	for n < len(s) && s[n] >= '0' && s[n] <= '9' {
		n++
	}
	return n
}

func atoi(s string) int64 {
	var v int64
	for i := 0; i < len(s); i++ {
		v = v*10 + int64(s[i]-'0')
	}
	return v
}

func spaces(s string) int { return len(s) - len(strings.TrimLeft(s, " ")) }

// farApart is how many times the low end the high end of "1-14 oz can" may be
// before the hyphen is no longer read as a range but as "1 can of 14 oz".
const farApart = 4

// scanRangeEnd reads "-3", " to 3", " or 3".
func scanRangeEnd(s string, low Ratio) (high Ratio, n int, ok bool) {
	for _, joint := range []string{"to ", "or ", "-", "–", "—", "‑"} {
		n = spaces(s)
		if !strings.HasPrefix(s[n:], joint) {
			continue
		}
		word := joint == "to " || joint == "or "
		if word && n == 0 {
			return Ratio{}, 0, false
		}
		n += len(joint)
		n += spaces(s[n:])
		high, used, ok := scanNumber(s[n:])
		if !ok && word {
			high, used, ok = scanWords(s[n:], nil)
		}
		if !ok || !low.Less(high) || isPercent(s[n+used:]) {
			return Ratio{}, 0, false
		}
		if !word && high.Float() >= farApart*low.Float() && !low.Less(Whole(1)) {
			return Ratio{}, 0, false
		}
		return high, n + used, true
	}
	return Ratio{}, 0, false
}
