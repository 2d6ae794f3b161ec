package schemaorg

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"potwright/internal/measure"
)

// timeProperty ties a property of Recipe to the words of a recipe's text.
type timeProperty struct{ property, name string }

func times() []timeProperty {
	return []timeProperty{{"prepTime", "Prep time"}, {"cookTime", "Cook time"}, {"totalTime", "Total time"}}
}

// duration is the form of ISO 8601-1:2019, 5.5.2, as far as recipes need it; weeks,
// months and years are no cooking time.
var duration = regexp.MustCompile(`(?i)^P(?:(\d+(?:[.,]\d+)?)D)?(?:T(?:(\d+(?:[.,]\d+)?)H)?(?:(\d+(?:[.,]\d+)?)M)?(?:(\d+(?:[.,]\d+)?)S)?)?$`)

// durationText writes a duration for people, "1 hour 30 minutes"; words that are no
// duration stay as they are, and "" is one of nothing.
func durationText(s string) string {
	m := duration.FindStringSubmatch(strings.ReplaceAll(s, " ", ""))
	if m == nil || strings.EqualFold(s, "P") {
		return s
	}
	minutes := 0.0
	for i, each := range []float64{24 * 60, 60, 1, 1.0 / 60} {
		n, err := strconv.ParseFloat(strings.Replace(m[i+1], ",", ".", 1), 64)
		if err == nil {
			minutes += n * each
		}
	}
	const most = 60 * 24 * 365
	whole := int(min(minutes, most) + 0.5)
	var parts []string
	for _, u := range []struct {
		minutes int
		name    string
	}{{24 * 60, "day"}, {60, "hour"}, {1, "minute"}} {
		n := whole / u.minutes
		whole %= u.minutes
		if n > 0 {
			parts = append(parts, plural(n, u.name))
		}
	}
	return strings.Join(parts, " ")
}

func plural(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// part of a time as people write it.
var timePart = regexp.MustCompile(`(?i)^(days?|hours?|hrs?|hr|h|minutes?|mins?|min|m)\b\.?,?\s*(?:and\s+)?`)

// isoDuration reads "1 hour 30 minutes" or "20 min" as an ISO 8601 duration; ok is
// false where it is anything else, such as a range.
func isoDuration(s string) (string, bool) {
	s = strings.TrimSpace(s)
	minutes := 0.0
	for s != "" {
		q, n, ok := measure.ScanQuantity(s)
		if !ok || q.About || q.Low != q.High {
			return "", false
		}
		rest := strings.TrimSpace(s[n:])
		unit := timePart.FindString(rest)
		if unit == "" {
			return "", false
		}
		each := 1.0
		switch strings.ToLower(unit)[0] {
		case 'd':
			each = 24 * 60
		case 'h':
			each = 60
		}
		minutes += q.Mid() * each
		s = rest[len(unit):]
	}
	whole := int(minutes + 0.5)
	if whole <= 0 {
		return "", false
	}
	out := "PT"
	if whole >= 60 {
		out += fmt.Sprintf("%dH", whole/60)
	}
	if whole%60 > 0 {
		out += fmt.Sprintf("%dM", whole%60)
	}
	return out, true
}
