package pages

import (
	"fmt"
	"math"
	"slices"

	"potwright/internal/household"
)

// barWidth is the drawing's width in its own units.
const barWidth = 320.0

// bar draws an amount with its range against a bound. Words says the same in
// words, for those who do not see it; the page also prints it beside.
type bar struct {
	ID, Title, Words string
	// Low, Mid, High and Bound are distances from the left edge.
	Low, Mid, High, Bound float64
	// Span is High - Low, at least wide enough to be seen.
	Span float64
	// Passed shows the stretch beyond the bound in another pattern.
	Past, PastSpan float64
}

// newBar scales a finding; ok is false where there is nothing to draw.
func newBar(id, title string, f household.Finding, words string) (b bar, ok bool) {
	top := math.Max(f.Amount.High, f.Bound) * 1.12
	if top <= 0 || !f.Amount.Valid() || math.IsInf(top, 0) || math.IsNaN(top) {
		return bar{}, false
	}
	at := func(x float64) float64 { return math.Round(x/top*barWidth*10) / 10 }
	b = bar{ID: id, Title: title, Words: words, Low: at(f.Amount.Low), Mid: at(f.Amount.Mid),
		High: at(f.Amount.High), Bound: at(f.Bound)}
	b.Span = math.Max(3, math.Round((b.High-b.Low)*10)/10)
	if f.Limit == nil || f.Limit.AtMost != nil {
		b.Past = math.Max(b.Low, b.Bound)
		b.PastSpan = math.Max(0, math.Round((b.High-b.Past)*10)/10)
	}
	return b, true
}

// findingView is a finding ready for a page.
type findingView struct {
	What, Verdict, Text string
	// Mark is the verdict's key, for the style sheet; words carry the meaning.
	Mark    household.Fit
	HasBar  bool
	Bar     bar
	Against string
	Remedy  string
	Causes  []string
}

// findingViews writes findings for a page; id keeps drawings apart.
func (w vocabulary) findingViews(id string, fs []household.Finding) []findingView {
	var out []findingView
	fs = slices.Clone(fs)
	slices.SortStableFunc(fs, worstFirst)
	for i, f := range fs {
		v := findingView{Verdict: findingWords(f), Text: f.Text, Mark: f.Fit, What: f.Kind, Remedy: f.Remedy}
		unit := ""
		switch {
		case f.Kind == "limit" && f.Limit != nil:
			v.What, unit = f.Limit.Nutrient.Name(), f.Limit.Nutrient.Unit()
		case f.Kind == "plan":
			v.What = "allowance"
		case f.Kind == "avoid":
			v.What = "avoiding " + labelOf(f.Need, w.avoid)
		case f.Kind == "texture" && f.Need != "":
			v.What = "texture, " + labelOf(f.Need, w.features)
		}
		if f.Kind == "limit" || f.Kind == "plan" {
			v.Against = fmt.Sprintf("%s, held against %s", rangeWords(f.Amount, unit), withUnit(figure(f.Bound), unit))
			v.Bar, v.HasBar = newBar(fmt.Sprintf("%s-%d", id, i), v.What+": "+v.Verdict, f, v.Against)
			v.Causes = causeWords(f.Shares)
		}
		out = append(out, v)
	}
	return out
}

// worstFirst orders findings for people: what needs doing comes before what is
// well.
func worstFirst(a, b household.Finding) int {
	switch {
	case a.Fit == b.Fit:
		return 0
	case household.Worse(a.Fit, b.Fit) == a.Fit:
		return -1
	default:
		return 1
	}
}

func withUnit(s, unit string) string {
	if unit == "" {
		return s
	}
	return s + " " + unit
}

// causesShown is how many lines are named under a finding: those further down
// bring little.
const causesShown = 4

// causeWords says which lines bring it, largest first.
func causeWords(shares []household.Share) []string {
	var out []string
	for _, s := range shares {
		if len(out) == causesShown || s.Share > 0 && s.Share < 0.02 {
			break
		}
		if s.Share <= 0 {
			out = append(out, s.Text)
			continue
		}
		out = append(out, fmt.Sprintf("%.0f %% from %s", s.Share*100, s.Text))
	}
	return out
}
