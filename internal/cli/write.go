package cli

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"potwright/internal/adaptation"
	"potwright/internal/composition"
	"potwright/internal/foodmatch"
	"potwright/internal/household"
	"potwright/internal/keeping"
	"potwright/internal/kitchen"
	"potwright/internal/label"
	"potwright/internal/measure"
	"potwright/internal/nutrient"
	"potwright/internal/portion"
)

// page collects text and keeps the first write error for the end.
type page struct{ w *bufio.Writer }

func newPage(w io.Writer) page { return page{bufio.NewWriter(w)} }

func (p page) line(format string, args ...any) { fmt.Fprintf(p.w, format+"\n", args...) }

func (p page) done() error { return p.w.Flush() }

// servingsOf are so many servings, in words.
func servingsOf(n float64) string {
	if n == 1 {
		return "1 serving"
	}
	return label.Figure(n) + " servings"
}

func writeReading(w io.Writer, a kitchen.Analysis) error {
	p := newPage(w)
	p.line("%s (%s)", a.Recipe.Title, servingsOf(a.Recipe.Servings))
	p.notes(append(a.Recipe.Strayed(), a.Recipe.Notes...))
	section := ""
	for i, lp := range a.Pot.Lines {
		if s := a.Recipe.Lines[i].Section; s != section {
			section = s
			p.line("%s:", s)
		}
		p.line("%2d. %s", i+1, lp.Matched.Reading.Text)
		p.reading(lp)
	}
	return p.done()
}

func (p page) reading(lp nutrient.LinePanel) {
	m := lp.Matched
	if m.State == foodmatch.Unread {
		p.line("    unread: its nutrients are unknown")
	}
	for _, item := range m.Items {
		p.line("    %s: %s, %s", m.State, item.Food.Name, gramsText(item))
	}
	for _, n := range m.Notes {
		p.line("    %s", n)
	}
}

func gramsText(item foodmatch.Item) string {
	g := item.Grams
	text := fmt.Sprintf("%s g", label.Figure(label.Nearest(g.Mid, gramStep(g.Mid))))
	if g.High > g.Low {
		text += fmt.Sprintf(" (%s–%s)", label.Figure(label.Nearest(g.Low, gramStep(g.Mid))), label.Figure(label.Nearest(g.High, gramStep(g.Mid))))
	}
	return text + ", by " + item.GramsFrom
}

// gramStep rounds shown weights to whole grams, small ones to a tenth.
func gramStep(g float64) float64 {
	if g < 10 {
		return 0.1
	}
	return 1
}

func (p page) notes(notes []string) {
	for _, n := range notes {
		p.line("  note: %s", n)
	}
}

func writeAnalysis(w io.Writer, a kitchen.Analysis) error {
	p := newPage(w)
	p.line("%s (%s)", a.Recipe.Title, servingsOf(a.Recipe.Servings))
	p.notes(append(a.Recipe.Strayed(), a.Recipe.Notes...))
	p.line("%-15s %22s %24s", "", "a serving", "the pot")
	for _, n := range composition.Nutrients() {
		p.line("%-15s %22s %24s", n.Name(), amountText(n, a.Pot.Serving[n]), amountText(n, a.Pot.Total[n]))
	}
	p.unknown(a)
	p.keeping(a)
	p.line("%s", kitchen.Caution)
	return p.done()
}

// amountText is a range rounded as US labels round, 21 CFR 101.9(c).
func amountText(n composition.Nutrient, a nutrient.Amount) string {
	text := fmt.Sprintf("%s (%s–%s)", label.Text(n, a.Mid), label.Figure(label.Round(n, a.Low)), label.Figure(label.Round(n, a.High)))
	if a.Unknown > 0 {
		return "over " + label.Text(n, a.Low) + ", part unknown"
	}
	return text
}

func (p page) unknown(a kitchen.Analysis) {
	for _, n := range composition.Nutrients() {
		lines := a.Pot.Unknown[n]
		if len(lines) == 0 {
			continue
		}
		var texts []string
		for _, i := range lines {
			texts = append(texts, a.Pot.Lines[i].Matched.Reading.Text)
		}
		p.line("unknown %s: %s", n.Name(), strings.Join(texts, "; "))
	}
}

// keeping says how the dish is kept and what its cooking must not leave out.
func (p page) keeping(a kitchen.Analysis) {
	advice := a.Keeping()
	for _, x := range advice {
		p.line("%s: %s %s (%s)", x.Topic, x.Text, x.Reason, x.Source)
	}
	if len(advice) > 0 {
		p.line("%s", keeping.Reminder)
	}
}

func writeReport(w io.Writer, a kitchen.Analysis, r kitchen.Report) error {
	p := newPage(w)
	p.line("%s (%s)", a.Recipe.Title, servingsOf(a.Recipe.Servings))
	for _, plate := range r.Plates {
		p.plate(plate, a.Measures)
	}
	for _, n := range r.Hands {
		p.line("hands: %s", n.Text)
	}
	p.line("%s", kitchen.Caution)
	return p.done()
}

func (p page) plate(plate adaptation.Plate, s measure.System) {
	p.line("%s, %s of a serving: %s", plate.Member.Name, label.Figure(plate.Portion), fitText(plate))
	if weight := plate.Dished.Text(s); weight != "" {
		p.line("  the portion: %s", weight)
	}
	for _, f := range plate.Verdict.Findings {
		p.line("  %s: %s%s", f.Fit, f.Text, sharesText(f))
	}
	for _, s := range plate.AtTable {
		p.line("  %s", s)
	}
	for _, d := range plate.Dislikes {
		p.line("  does not like: %s", d)
	}
	for _, c := range plate.Cautions {
		p.line("  caution: %s. %s %s", c.Title, c.Text, c.Say)
	}
	if plate.Largest.Bounded() {
		if plate.Largest.Plenty() {
			p.line("  the largest portion inside every limit: more than anyone eats")
		} else {
			p.line("  the largest portion inside every limit: %s of a serving (%s)", label.Figure(label.Nearest(plate.Largest.Shown(), 0.05)), plate.Largest.By)
		}
	}
	if plate.Member.Plan != nil && len(plate.Costs) > 1 {
		p.line("  what a portion costs: %s", portion.CostText(*plate.Member.Plan, plate.Costs, plate.Portion))
	}
}

func fitText(plate adaptation.Plate) string {
	switch {
	case plate.Fits && len(plate.Provided) > 0:
		return "fits only if the labels say so"
	case plate.Fits:
		return "fits"
	}
	if plate.Verdict.Fit == household.Unknown {
		return "can't be told"
	}
	return "does not fit"
}

// sharesText names the two lines that bring the most.
func sharesText(f household.Finding) string {
	if f.Kind != "limit" && f.Kind != "plan" || f.Fit == household.Inside {
		return ""
	}
	var parts []string
	for i, s := range f.Shares {
		if i == 2 {
			break
		}
		parts = append(parts, fmt.Sprintf("%.0f %% from %s", 100*s.Share, s.Text))
	}
	if len(parts) == 0 {
		return ""
	}
	return " Mostly " + strings.Join(parts, ", ") + "."
}

func writeAnswer(w io.Writer, a kitchen.Analysis, ans adaptation.Answer) error {
	p := newPage(w)
	p.line("%s (%s)", a.Recipe.Title, servingsOf(a.Recipe.Servings))
	switch {
	case ans.Fits && len(ans.Changes) == 0:
		p.line("It suits everyone as it is.")
	case ans.Fits && ans.Proof == adaptation.Optimal:
		p.line("Suits everyone with %s; nothing allowed changes the dish less.", changesText(len(ans.Changes)))
	case ans.Fits:
		p.line("Suits everyone with %s; the search was stopped before it could prove that nothing less would do.", changesText(len(ans.Changes)))
	case ans.Proof == adaptation.Infeasible:
		p.line("No allowed set of swaps and portions suits everyone. What clashes:")
		for _, c := range ans.Conflicts {
			p.line("  - %s", c)
		}
		for _, n := range ans.Nearest {
			p.line("  what can be done: %s", n)
		}
	default:
		p.notes(ans.Conflicts)
	}
	for _, c := range ans.Changes {
		p.change(c)
	}
	p.line("")
	p.line("Plates")
	for _, plate := range ans.Plates {
		p.plate(plate, a.Measures)
	}
	if len(ans.Changes) > 0 {
		p.recipe(ans)
	}
	for _, alt := range ans.Alternatives {
		p.line("another way (changes the dish by %d instead of %d):", alt.Cost[0], ans.Cost[0])
		for _, c := range alt.Changes {
			p.line("  %s [%s]", c.Text(), c.Option.Rule.ID)
		}
	}
	for _, l := range ans.Labels {
		p.line("shopping: %s", l.Text)
	}
	for _, c := range ans.Cautions {
		p.line("caution: %s", c)
	}
	p.line("%s", kitchen.Caution)
	return p.done()
}

func changesText(n int) string {
	if n == 1 {
		return "1 change"
	}
	return fmt.Sprintf("%d changes", n)
}

func (p page) change(c adaptation.Change) {
	to := c.To()
	if to == "" {
		to = "left out"
	}
	if c.Line == adaptation.WholeDish {
		p.line(" +  %s [%s]", to, c.Option.Rule.ID)
	} else {
		p.line("%2d. %s\n    now: %s [%s]", c.Line+1, c.From, to, c.Option.Rule.ID)
	}
	for _, why := range c.Why {
		p.line("    %s", why)
	}
	if len(c.For) > 0 {
		p.line("    for %s", strings.Join(c.For, ", "))
	}
}

func (p page) recipe(ans adaptation.Answer) {
	p.line("")
	p.line("Ingredients")
	for _, l := range ans.Recipe.Lines {
		p.line("  %s", l.Reading.Text)
	}
	p.line("Method")
	for i, s := range ans.Recipe.Steps {
		p.line("  %d. %s", i+1, s.Text)
	}
}
