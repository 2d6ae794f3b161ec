package pages

import (
	"fmt"
	"math"
	"slices"

	"potwright/internal/adaptation"
	"potwright/internal/composition"
	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/nutrient"
)

// Measures of the drawings, in their own units: as wide as the narrowest phone, so
// that letters are full size there.
const (
	chartWidth = 340.0
	chartRow   = 44.0
	chartHead  = 8.0
	// chartLabel is how many characters of a line fit over its bar.
	chartLabel = 46
	// chartBars is the longest bar; the figure stands behind it.
	chartBars = 250.0
)

// contributions is what each line brings of one nutrient to a serving, drawn and
// as a table: before and after where two dishes are compared.
type contributions struct {
	ID, Nutrient, Words string
	Compared            bool
	Height              float64
	Rows                []contribution
}

// contribution is one line's row, Y from the top. Bars are lengths from the left edge.
type contribution struct {
	Text, Label               string
	Before, After             string
	BeforeFigure, AfterFigure string
	BeforeBar, AfterBar       float64
	Y                         float64
	size                      float64
}

// newContributions tells what each line of a dish brings.
func newContributions(n composition.Nutrient, a kitchen.Analysis) contributions {
	c := contributions{ID: "brings", Nutrient: n.Name()}
	for _, lp := range a.Pot.Lines {
		c.add(n, lp.Matched.Reading.Text, []*nutrient.LinePanel{&lp}, nil, a.Pot.Servings)
	}
	return c.laidOut(n)
}

// beforeAndAfter tells what each line brings before, and after what it became.
func beforeAndAfter(n composition.Nutrient, a kitchen.Analysis, ans adaptation.Answer) contributions {
	c := contributions{ID: "brings", Nutrient: n.Name(), Compared: true}
	changed := map[int]adaptation.Change{}
	for _, ch := range ans.Changes {
		changed[ch.Line] = ch
	}
	at := 0
	take := func(k int) (out []*nutrient.LinePanel) {
		for range min(k, len(ans.Pot.Lines)-at) {
			out = append(out, &ans.Pot.Lines[at])
			at++
		}
		return out
	}
	for i, lp := range a.Pot.Lines {
		text, parts := lp.Matched.Reading.Text, 1
		if ch, ok := changed[i]; ok {
			text, parts = ch.Text(), len(ch.Option.Lines)
		}
		c.add(n, text, []*nutrient.LinePanel{&lp}, take(parts), a.Pot.Servings)
	}
	return c.laidOut(n)
}

func (c *contributions) add(n composition.Nutrient, text string, before, after []*nutrient.LinePanel, servings float64) {
	row := contribution{Text: text, Label: short(text, chartLabel)}
	b := nutrient.Together(before).Scale(1 / servings)[n]
	row.Before, row.BeforeFigure, row.BeforeBar = amountWords(b, n.Unit()), chartFigure(b, n.Unit()), b.Mid
	row.size = b.Mid
	if c.Compared {
		a := nutrient.Together(after).Scale(1 / servings)[n]
		row.After, row.AfterFigure, row.AfterBar = amountWords(a, n.Unit()), chartFigure(a, n.Unit()), a.Mid
		row.size = math.Max(row.size, a.Mid)
	}
	c.Rows = append(c.Rows, row)
}

func chartFigure(a nutrient.Amount, unit string) string {
	if a.Unknown > 0 {
		return "not known"
	}
	return withUnit(figure(a.Mid), unit)
}

// laidOut sorts the rows, largest first, and turns amounts into lengths.
func (c contributions) laidOut(n composition.Nutrient) contributions {
	slices.SortStableFunc(c.Rows, func(a, b contribution) int {
		switch {
		case a.size > b.size:
			return -1
		case a.size < b.size:
			return 1
		}
		return 0
	})
	top := 0.0
	if len(c.Rows) > 0 {
		top = c.Rows[0].size
	}
	length := func(x float64) float64 {
		if top <= 0 || math.IsInf(top, 0) {
			return 0
		}
		return math.Round(x/top*chartBars*10) / 10
	}
	for i := range c.Rows {
		r := &c.Rows[i]
		r.Y = chartHead + float64(i)*chartRow
		r.BeforeBar, r.AfterBar = length(r.BeforeBar), length(r.AfterBar)
	}
	c.Height = chartHead + float64(len(c.Rows))*chartRow
	c.Words = c.summary(n)
	return c
}

// summary is the drawing in a sentence.
func (c contributions) summary(n composition.Nutrient) string {
	if len(c.Rows) == 0 || c.Rows[0].size <= 0 {
		return "No line brings any " + n.Name() + " that is known."
	}
	most := c.Rows[0]
	if c.Compared {
		return fmt.Sprintf("%s a serving by line, largest first. “%s”: %s before, %s after. The table below says the same.", capitalised(n.Name()), most.Text, most.BeforeFigure, most.AfterFigure)
	}
	return fmt.Sprintf("%s a serving by line, largest first. “%s” brings the most: %s. The table below says the same.", capitalised(n.Name()), most.Text, most.BeforeFigure)
}

// shownNutrient is the one asked for, else the first that someone at the table
// limits, else sodium.
func shownNutrient(f form, h household.Household) composition.Nutrient {
	if n, ok := composition.ParseNutrient(f.text("show")); ok {
		return n
	}
	for _, m := range h.Members {
		for _, l := range m.Limits {
			return l.Nutrient
		}
	}
	return composition.Sodium
}

// nutrientPick chooses which nutrient a drawing shows.
func nutrientPick(n composition.Nutrient) pick {
	p := pick{Name: "show", Label: "Show where this comes from"}
	for _, o := range composition.Nutrients() {
		p.Options = append(p.Options, option{o.Key(), o.Name(), o == n})
	}
	return p
}
