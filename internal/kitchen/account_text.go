package kitchen

import (
	"bufio"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"potwright/internal/composition"
	"potwright/internal/spread"
)

// WriteText writes the account for people, figures to four digits.
func (a Account) WriteText(w io.Writer) error {
	p := accountPage{bufio.NewWriter(w)}
	p.line("%s: figures line by line", a.Title)
	p.line("%s servings; %s in all, %s", decimal(a.Servings), p.amount(a.Yield.Grams, "g"), p.amount(a.Yield.Millilitres, "ml"))
	for _, s := range a.Basis {
		p.line("%s", s)
	}
	p.line("Figures are to four digits here; the table and JSON forms hold six decimals.")
	p.list("note", a.Notes)
	for _, l := range a.Lines {
		p.ingredient(l)
	}
	p.line("\nThe pot (the sum of the lines in the pot)")
	p.panel(a.Pot)
	p.line("\nA serving (the pot over %s)", decimal(a.Servings))
	p.panel(a.Serving)
	for _, l := range a.Lines {
		if l.Counted == CountedAtTable {
			p.line("\nBeside a serving, what is offered at the table")
			p.panel(a.Table)
			break
		}
	}
	p.unknown(a)
	p.narrow(a)
	for _, m := range a.Members {
		p.member(m)
	}
	p.line("\n%s", a.Caution)
	if err := p.w.Flush(); err != nil {
		return fmt.Errorf("write the figures line by line: %w", err)
	}
	return nil
}

// accountPage collects text; its writer keeps the first error for the end.
type accountPage struct{ w *bufio.Writer }

func (p accountPage) line(format string, args ...any) { fmt.Fprintf(p.w, format+"\n", args...) }

func (p accountPage) list(name string, texts []string) {
	for _, s := range texts {
		p.line("   %s: %s", name, s)
	}
}

func (p accountPage) ingredient(l AccountLine) {
	p.line("\n%d. %s", l.Line, l.Text)
	p.line("   read as: %s", partsText(l.Read))
	corrected := ""
	if l.Corrected {
		corrected = ", corrected by a person"
	}
	p.line("   %s%s; confidence %s; counted: %s", l.State, corrected, digits(l.Confidence), l.Counted)
	for _, f := range l.Foods {
		p.line("   food: %s [%s; %s], %s by %s", f.Name, f.ID, f.Source, p.amount(f.Grams, "g"), f.GramsFrom)
		for _, c := range f.MayBe {
			p.line("     may be: %s [%s], %s", c.Name, c.ID, digits(c.Weight))
		}
	}
	if l.Cooking != "" {
		p.line("   cooking: %s; %s when done", l.Cooking, p.amount(l.Finished, "g"))
	}
	p.list("note", l.Notes)
	if l.Counted != LeftOut {
		p.panel(l.Nutrients, l.Foods...)
	}
}

// panel writes every nutrient; behind it what each food's row holds in 100 g.
func (p accountPage) panel(panel AccountPanel, foods ...AccountFood) {
	var missing []string
	for _, n := range composition.Nutrients() {
		a := panel[n.Key()]
		from := ""
		if per100g := contents(foods, n.Key()); strings.Trim(per100g, "; ") != "" {
			from = fmt.Sprintf("; %s %s in 100 g", per100g, n.Unit())
			if kept := keptCells(foods, n.Key()); strings.Trim(kept, "1; ") != "" {
				from += "; cooking keeps " + kept
			}
		}
		switch {
		case a.Unknown > 0 && a.High == 0:
			missing = append(missing, n.Name())
		case a.Unknown > 0:
			p.line("   %-14s over %s %s, the rest not known%s", n.Name(), digits(a.Low), n.Unit(), from)
		default:
			p.line("   %-14s %s%s", n.Name(), p.amount(a.Range, n.Unit()), from)
		}
	}
	if len(missing) > 0 {
		p.line("   not known: %s", strings.Join(missing, ", "))
	}
}

func (p accountPage) amount(r spread.Range, unit string) string {
	if r.Low == r.High {
		return digits(r.Mid) + " " + unit
	}
	return fmt.Sprintf("%s %s (%s to %s)", digits(r.Mid), unit, digits(r.Low), digits(r.High))
}

func (p accountPage) unknown(a Account) {
	if len(a.Unknown) > 0 {
		p.line("\nWhat is not known, by line")
	}
	for _, n := range composition.Nutrients() {
		var lines []string
		for _, i := range a.Unknown[n.Key()] {
			lines = append(lines, strconv.Itoa(i))
		}
		if len(lines) > 0 {
			p.line("   %s: %s", n.Name(), strings.Join(lines, ", "))
		}
	}
}

func (p accountPage) narrow(a Account) {
	p.line("\nWhat would narrow the ranges, with its share of the doubt")
	for _, n := range composition.Nutrients() {
		for _, d := range a.Narrow[n.Key()] {
			p.line("   %s, %.0f %%: line %d, %s", n.Name(), 100*d.Share, d.Line, d.Text)
		}
	}
}

func (p accountPage) member(m AccountMember) {
	p.line("\nPlate of %s, %s of a serving: %s", m.Name, digits(m.Portion), m.Fits)
	p.panel(m.Amounts)
	for _, f := range m.Findings {
		p.line("   %s: %s", f.Verdict, f.Text)
	}
	p.list("at the table", m.AtTable)
	p.list("only if", m.Provided)
}

// partsText names the parts of a line that were read.
func partsText(r AccountParts) string {
	var parts []string
	add := func(name, value string) {
		if value != "" {
			parts = append(parts, name+" "+value)
		}
	}
	add("amount", r.Amount)
	add("container", r.Container)
	add("also", strings.Join(r.Also, ", "))
	add("size", r.Size)
	add("food", strconv.Quote(r.Food))
	add("state", strings.Join(r.States, ", "))
	add("preparation", strings.Join(r.Preparation, ", "))
	add("use", r.Use)
	add("or", strings.Join(r.Or, ", "))
	add("and", strings.Join(r.And, ", "))
	if r.Optional {
		parts = append(parts, "optional")
	}
	return strings.Join(parts, "; ")
}

// digits writes a figure to four significant digits.
func digits(x float64) string {
	if x == 0 || math.IsNaN(x) || math.IsInf(x, 0) {
		return decimal(x)
	}
	step := math.Pow(10, 3-math.Floor(math.Log10(math.Abs(x))))
	return decimal(math.Round(x*step) / step)
}
