package keeping

import (
	"fmt"
	"slices"

	"potwright/internal/cooking"
	"potwright/internal/foodmatch"
	"potwright/internal/household"
	"potwright/internal/label"
	"potwright/internal/recipe"
)

// Book is the advice of the rule files. It is immutable and safe for concurrent
// use; a nil Book says nothing.
type Book struct{ rules []rule }

type rule struct {
	Rule
	said            string // with its figures
	signal          household.Signal
	steps, notSteps household.Phrases
}

// NewBook makes rules ready for use, in the order given.
func NewBook(rules []Rule) *Book {
	b := &Book{}
	for _, r := range rules {
		b.rules = append(b.rules, rule{r, said(r), household.NewSignal(r.Signs), household.NewPhrases(r.Steps), household.NewPhrases(r.NotSteps)})
	}
	return b
}

// Rules lists the rules as written.
func (b *Book) Rules() []Rule {
	out := make([]Rule, len(b.rules))
	for i, r := range b.rules {
		out[i] = r.Rule
	}
	return out
}

// Dish is what the advice is about: matched are the recipe's lines, in order, and
// Plan what the method does to each.
type Dish struct {
	Steps   []recipe.Step
	Matched []foodmatch.Matched
	Plan    cooking.Plan
}

// Advise says how the dish is kept and what its cooking must not leave out, by
// topic. Of the rules about storing the shortest stands: a dish keeps no longer
// than its riskiest food.
func (b *Book) Advise(d Dish) []Advice {
	if b == nil {
		return nil
	}
	seen := look(d)
	spoke := map[string]Advice{}
	var store *rule
	for i := range b.rules {
		r := &b.rules[i]
		a, ok := r.advise(seen)
		if !ok {
			continue
		}
		spoke[r.ID] = a
		if r.Fridge != nil && !seen.replaced(r, spoke) && (store == nil || sooner(r, store)) {
			store = r
		}
	}
	var out []Advice
	for _, topic := range Topics() {
		for i := range b.rules {
			r := &b.rules[i]
			a, ok := spoke[r.ID]
			if !ok || r.Topic != topic || r.Fridge != nil && r != store || seen.replaced(r, spoke) {
				continue
			}
			out = append(out, a)
		}
	}
	return out
}

// replaced reports whether a rule that says it more closely speaks.
func (seen dish) replaced(r *rule, spoke map[string]Advice) bool {
	return slices.ContainsFunc(r.Instead, func(id string) bool { _, ok := spoke[id]; return ok })
}

// sooner reports whether what one rule is about spoils before what another is
// about: in the fridge, then in the freezer.
func sooner(a, b *rule) bool {
	if a.Fridge.Most != b.Fridge.Most {
		return a.Fridge.Most < b.Fridge.Most
	}
	return b.Freezer != nil && (a.Freezer == nil || a.Freezer.Most < b.Freezer.Most)
}

// advise is what one rule says of a dish; ok is false where it says nothing.
func (r *rule) advise(seen dish) (a Advice, ok bool) {
	a = Advice{Rule: r.ID, Topic: r.Topic, Text: r.said, Reason: r.Reason, Source: r.Source, Fridge: r.Fridge, Freezer: r.Freezer}
	if r.SlowCooker && !seen.slow || r.Boiled > 0 && seen.boiled >= r.Boiled || r.DegreesF > 0 && seen.reaches(r.DegreesF) {
		return a, false
	}
	for i, s := range seen.steps {
		if r.notSteps.In(s) {
			return a, false
		}
		if r.steps.In(s) {
			a.Steps = append(a.Steps, i)
		}
	}
	if len(r.Steps) > 0 && len(a.Steps) == 0 {
		return a, false
	}
	if !r.signal.Any() {
		return a, r.Heat != OnlyHeated || seen.heated
	}
	for _, l := range seen.foods {
		if r.signal.On(l) && r.counts(l.Heat) && !slices.Contains(a.Lines, l.Line) {
			a.Lines = append(a.Lines, l.Line)
		}
	}
	return a, len(a.Lines) > 0
}

// counts reports whether a line's heat is the rule's. What the method does not
// tell counts as either.
func (r *rule) counts(h household.Heat) bool {
	switch r.Heat {
	case OnlyHeated:
		return h != household.NotHeated
	case OnlyRaw:
		return h == household.NotHeated
	default:
		return true
	}
}

// said is what a rule says, with its figures where it is about storing.
func said(r Rule) string {
	if r.Fridge == nil {
		return r.Say
	}
	text := fmt.Sprintf("%s In the fridge at 40 °F or below: %s.", r.Say, span(*r.Fridge, "day"))
	if r.Freezer == nil {
		return text + " It does not freeze well."
	}
	return text + fmt.Sprintf(" Frozen at 0 °F: best within %s.", span(*r.Freezer, "month"))
}

func span(s Span, unit string) string {
	if s.Most != 1 {
		unit += "s"
	}
	if s.Least == s.Most {
		return label.Figure(s.Most) + " " + unit
	}
	return label.Figure(s.Least) + " to " + label.Figure(s.Most) + " " + unit
}

// dish is what rules look at.
type dish struct {
	foods        []household.WordedLine
	steps        []household.Text
	heated, slow bool
	boiled       float64 // longest boil, minutes
	inside       []float64
}

func look(d Dish) dish {
	out := dish{slow: d.Plan.SlowCooker, boiled: d.Plan.Boiled}
	for i, m := range d.Matched {
		line := d.Plan.Of(i)
		heat := household.HeatNotTold
		switch {
		case line.Heated():
			heat, out.heated = household.HeatedThrough, true
		case line.Treatment == cooking.Raw:
			heat = household.NotHeated
		}
		for _, f := range m.Foods(i) {
			f.Heat = heat
			out.foods = append(out.foods, f.Worded())
		}
	}
	for _, s := range d.Steps {
		out.steps = append(out.steps, household.NewText(s.Text))
		out.inside = append(out.inside, insideTemperatures(s.Text)...)
	}
	return out
}

// reaches reports whether the method names an inside temperature of at least so
// many degrees Fahrenheit.
func (seen dish) reaches(f float64) bool {
	return slices.ContainsFunc(seen.inside, func(x float64) bool { return x >= f-roundedCelsius })
}

// roundedCelsius is what a Celsius figure rounded down to whole degrees may fall
// short, in degrees Fahrenheit: 145 °F is written 62 or 63 °C.
const roundedCelsius = 1.5

// Speaks reports whether one rule by itself calls for its advice on a dish,
// whatever other rules say in its place.
func (b *Book) Speaks(id string, d Dish) bool {
	seen := look(d)
	spoke := map[string]Advice{}
	for i := range b.rules {
		r := &b.rules[i]
		if a, ok := r.advise(seen); ok {
			spoke[r.ID] = a
		}
	}
	_, ok := spoke[id]
	for i := range b.rules {
		if r := &b.rules[i]; r.ID == id {
			return ok && !seen.replaced(r, spoke)
		}
	}
	return false
}
