package recipe

import (
	"strings"

	"potwright/internal/measure"
	"potwright/internal/spread"
)

// Relative half-widths of a weight or measure of the finished dish as the recipe
// gives it. Design figures: kitchen scales and cups, and "about".
const (
	measuredHalf = 0.05
	roughHalf    = 0.15
)

// makes reads the weight or the measure of the finished dish in a line such as
// "Makes 1800 g" or "Yield: about 8 cups (6 servings)". "1 cup each" tells that
// of a serving and is left alone.
func (p *parser) makes(low string) {
	rest := ""
	for _, w := range []string{"makes", "yields", "yield"} {
		if after, ok := strings.CutPrefix(low, w); ok {
			rest = after
			break
		}
	}
	rest = strings.TrimLeft(rest, ": \t\u00a0-–—=*_")
	if rest == "" || strings.Contains(rest, "each") || strings.Contains(rest, "per ") || strings.Contains(rest, "serving size") {
		return
	}
	q, n, ok := measure.ScanQuantity(rest)
	if !ok || q.Mid() <= 0 {
		return
	}
	u, behind, ok := unitOf(strings.Fields(rest[n:]))
	if !ok || strings.HasPrefix(behind, "serving") || strings.HasPrefix(behind, "portion") {
		return // "makes 4 cup servings"
	}
	half := measuredHalf
	if strings.Contains(rest, "about") || strings.Contains(rest, "approx") || strings.Contains(rest, "around") || strings.Contains(rest, "roughly") {
		half = roughHalf
	}
	r := spread.Between(q.Low.Float()*(1-half), q.Mid(), q.High.Float()*(1+half)).Scale(u.Size)
	switch u.Kind {
	case measure.Mass:
		p.r.MakesGrams = &r
	case measure.Volume:
		p.r.MakesMillilitres = &r
	}
}

// unitOf is the unit that words begin with, of one word or two, and the word
// behind it.
func unitOf(words []string) (u measure.Unit, behind string, ok bool) {
	for n := min(2, len(words)); n > 0; n-- {
		u, ok = measure.FindUnit(strings.Trim(strings.Join(words[:n], " "), ".,()"))
		if ok && len(words) > n {
			behind = words[n]
		}
		if ok {
			return u, behind, true
		}
	}
	return u, "", false
}
