package pages

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"potwright/internal/cooking"
	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/spread"
	"potwright/internal/swap"
)

// all tells every entry of the rulebook, swaps first.
func (p *rulePages) all() []ruleEntry {
	var out []ruleEntry
	for _, r := range p.book.Swaps.Rules() {
		out = append(out, p.swapEntry(r))
	}
	for _, x := range p.book.Swaps.Refusals() {
		b := &builder{}
		b.list("Words of the title", slices.Concat(x.Title, x.TitleEnds))
		b.list("Not with these in the title", x.NotTitle)
		b.list("Words of the method", x.Steps)
		b.list("Words of the ingredients", x.Lines)
		b.fact("Why", x.Why)
		out = append(out, p.entry(kitchen.LeftAlone, x.ID, readableID(x.ID), x.Source, b))
	}
	for _, x := range p.book.Swaps.Balances() {
		if x.Unit != "" {
			out = append(out, p.balanceEntry(x))
		}
	}
	out = append(out, p.needEntries()...)
	if p.book.Cooking != nil {
		out = append(out, p.factorEntries()...)
	}
	return append(out, slices.Concat(p.keepingEntries(), p.tasteEntries())...)
}

// entry finishes an entry: its origin, its address and its words for the search.
func (p *rulePages) entry(s kitchen.RuleSort, id, title, source string, b *builder, needs ...string) ruleEntry {
	e := ruleEntry{Key: string(s) + "." + id, Title: title, What: sortWords(s), sort: s, needs: needs}
	if s == kitchen.SwapRule {
		e.Key = id
	}
	b.fact("Source", source)
	if o, known := p.book.Origins[kitchen.RuleKey{Sort: s, ID: id}]; known {
		full, own := originWords(o)
		b.fact("Where it stands", full)
		e.Theme, e.Origin = o.Theme, own
	}
	b.fact("Name in the files", id)
	e.Facts = b.facts
	words := []string{e.Title, e.What, e.Theme}
	for _, f := range e.Facts {
		words = append(words, f.Values...)
	}
	e.text = strings.ToLower(strings.Join(append(words, needs...), "\n"))
	return e
}

func (p *rulePages) swapEntry(r swap.Rule) ruleEntry {
	b := &builder{}
	matchFacts(b, r.Match)
	b.fact("What it does", doesWords(r)...)
	b.fact("How far from the dish", farWords(r.Change))
	b.fact("Work", effortWords(r.Effort))
	b.fact("Time on the heat", longerWords(r.Minutes))
	b.list("Moves in the dish", r.Touches)
	b.list("Spares the hands", labelsOf(loads(), r.Spares))
	b.list("Asks of the hands", labelsOf(loads(), r.Asks))
	b.list("Takes away from the texture", readable(r.Softens))
	b.fact("In the method", methodWords(r.Method)...)
	b.fact("Why", r.Why)
	b.fact("Please mind", r.Cautions...)
	if r.Manual {
		b.fact("When", "only when a person asks for it; it is never chosen by itself")
	}
	b.fact("It fits, for example", r.Examples.Fires...)
	b.fact("It does not fit, for example", r.Examples.Not...)
	needs := p.serves(r)
	b.list("Serves", needs)
	return p.entry(kitchen.SwapRule, r.ID, r.Title, r.Source, b, needs...)
}

func labelsOf(os []option, values []string) []string {
	var out []string
	for _, v := range values {
		out = append(out, labelOf(v, os))
	}
	return out
}

func readableID(id string) string { return strings.NewReplacer("-", " ", "_", " ").Replace(id) }

func (p *rulePages) balanceEntry(x swap.Balance) ruleEntry {
	b := &builder{}
	b.fact("Counted in", x.Unit)
	band := fmt.Sprintf("after a change at least %s of what it was", shareWords(x.Low))
	if x.High > 0 {
		band += fmt.Sprintf(", at most %s", shareWords(x.High))
	}
	b.fact("How far it may move", band)
	b.fact("Why", x.Why)
	var brings []string
	for _, y := range x.Brings {
		what := slices.Concat(y.Foods, readable(y.Kinds), readable(y.States))
		amount := fmt.Sprintf("%s in 100 g", typedAmount(y.Per100g))
		if y.Factor != 0 {
			amount = fmt.Sprintf("%s times its %s", typedAmount(y.Factor), y.Nutrient.Name())
		}
		brings = append(brings, fmt.Sprintf("%s: %s (%s)", strings.Join(what, ", "), amount, y.Source))
	}
	b.fact("What foods bring", brings...)
	return p.entry(kitchen.DishBalance, x.Function.String(), capitalized(x.Function.String()), "beside each food above", b)
}

func capitalized(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

func (p *rulePages) needEntries() []ruleEntry {
	n := p.book.Needs
	var out []ruleEntry
	for _, a := range n.AvoidRules() {
		out = append(out, p.avoidEntry(a))
	}
	for _, c := range n.CautionRules() {
		b := &builder{}
		b.fact("What is said", c.Say)
		b.signs(c.Signs)
		b.list("Gone where it is", c.GoneBy)
		out = append(out, p.entry(kitchen.CautionRule, c.ID, capitalized(c.Title), c.Source, b, "cautions"))
	}
	for _, l := range n.Levels() {
		b := &builder{}
		b.fact("At the table", l.Test)
		b.fact("The portion", l.Plate)
		b.list("Done by", l.DoneBy)
		out = append(out, p.entry(kitchen.Texture, strconv.Itoa(l.Level), fmt.Sprintf("Level %d: %s", l.Level, l.Title), l.Source, b, "texture"))
	}
	for _, f := range n.Features() {
		b := &builder{}
		for _, c := range f.Carriers {
			b.signs(c.Signs)
		}
		b.list("Gone where it is", f.GoneBy)
		b.fact("What helps", f.Remedy)
		out = append(out, p.entry(kitchen.Texture, f.ID, capitalized(f.Title), f.Source, b, "texture: "+readableKey(f.ID)))
	}
	for _, a := range n.HandActions() {
		out = append(out, p.handEntry(a))
	}
	for _, x := range n.Presets() {
		b := &builder{}
		for _, l := range x.Limits {
			b.fact("Limit", limitWords(l))
		}
		b.fact("Please mind", x.Note)
		out = append(out, p.entry(kitchen.KnownLimit, x.ID, x.Title, sourceWords(x.Source, x.Date, "", x.FromMemory), b, "limits"))
	}
	for _, x := range n.Plans() {
		b := &builder{}
		b.fact("Counted as", fmt.Sprintf("“%s”: %s", x.Plan.Unit, unitWords(x.Plan)))
		b.fact("Please mind", x.Note)
		out = append(out, p.entry(kitchen.KnownPlan, x.ID, x.Title, sourceWords(x.Source, x.Date, "", x.FromMemory), b, "limits"))
	}
	return out
}

func (p *rulePages) avoidEntry(a household.AvoidRule) ruleEntry {
	b := &builder{}
	b.list("Also called", a.Also)
	b.list("On the lists", a.Lists)
	b.list("With everything of", readable(a.Includes))
	b.signs(a.Signs)
	var may []string
	for _, c := range a.Stands {
		may = append(may, strings.Join(slices.Concat(readable(c.Kinds), c.Foods, c.Words), ", ")+": "+c.Why)
	}
	b.fact("May hold it without saying so", may...)
	b.list("Words that claim its absence, to be checked on the label", a.SaysFree)
	b.fact("Please mind", a.Note)
	return p.entry(kitchen.AvoidedFood, a.ID, capitalized(a.Title), a.Source, b, "without "+a.Title)
}

func (p *rulePages) handEntry(a household.HandAction) ruleEntry {
	b := &builder{}
	var heavy, serves []string
	for _, o := range loads() {
		if x := a.Loads[o.Value]; x > 0 {
			heavy = append(heavy, fmt.Sprintf("%s: %d of 3", o.Label, x))
			serves = append(serves, "hands: "+o.Label)
		}
	}
	b.fact("Loads", heavy...)
	b.list("Words of a line", a.Line.Words)
	b.list("Kinds of food", readable(a.Line.Kinds))
	b.list("Words of a step", a.Step)
	b.list("Not", a.NotIn)
	b.fact("Easier", a.Easier)
	b.fact("What the easier way does", a.Effect.String())
	b.fact("Please mind", household.HandScale)
	return p.entry(kitchen.HandLoad, a.ID, capitalized(a.Title), a.Source, b, serves...)
}

func (p *rulePages) factorEntries() []ruleEntry {
	var out []ruleEntry
	for _, f := range p.book.Cooking.Factors() {
		b := &builder{}
		whichFacts(b, f.Which)
		var codes []string
		for _, t := range cooking.Treatments() {
			for _, c := range f.Codes[t] {
				code := fmt.Sprintf("%s: row %s of the retention table", t, c.Code)
				if c.Minutes > 0 {
					code += fmt.Sprintf(", up to %s minutes", typedAmount(c.Minutes))
				}
				codes = append(codes, code)
			}
		}
		b.fact("By treatment", codes...)
		b.fact("Why", f.Why)
		out = append(out, p.entry(kitchen.Retention, f.ID, capitalized(readableID(f.ID)), f.Source, b))
	}
	for _, y := range p.book.Cooking.Yields() {
		b := &builder{}
		whichFacts(b, y.Which)
		var ways []string
		for _, t := range y.Treatments {
			ways = append(ways, string(t))
		}
		b.list("By treatment", ways)
		b.fact("Cooked weight, of 100 g", rangeWords(y.Weight.Scale(100), "g"))
		if y.Fat != (spread.Range{}) {
			b.fact("Fat left in the pan, of 100 g", rangeWords(y.Fat, "g"))
		}
		b.fact("Why", y.Why)
		out = append(out, p.entry(kitchen.YieldFactor, y.ID, capitalized(readableID(y.ID)), y.Source, b))
	}
	return out
}

func whichFacts(b *builder, w cooking.Which) {
	b.list("Kinds of food", readable(w.Kinds))
	b.list("Only where it is", readable(w.States))
	b.list("Not these", readable(w.NotKinds))
	b.list("Not where it is", readable(w.NotStates))
}
