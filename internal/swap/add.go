package swap

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"

	"potwright/internal/composition"
	"potwright/internal/foodmatch"
	"potwright/internal/measure"
)

// Dish is what a rule about the dish as a whole looks at.
type Dish struct {
	Title    string
	Steps    []string // empty where nothing is said of the method
	Lines    []foodmatch.Matched
	Servings float64
	// Measures is whose cups and spoons new lines are measured in.
	Measures measure.System
}

// Additions are what the rules allow to be put in besides the lines, by rule and
// then the smaller amount first. A rule speaks only where the dish has what it
// restores. Manual rules are included: the caller sees Rule.Manual.
func (b *Book) Additions(d Dish, read Reader) []Option {
	var out []Option
	amounts, m := b.amounts(d), methodOf(d)
	for i := range b.rules {
		if b.rules[i].Do != Add || !b.suits(&b.rules[i], d, m, amounts) {
			continue
		}
		for _, o := range b.rules[i].added(d, amounts, read) {
			if o.fault == "" {
				out = append(out, o.Option)
			}
		}
	}
	return out
}

// TryAddition is what one rule adds to a dish, and why it can't where it can't; a
// rule that does not fit says DoesNotFit alone. It serves the tests of a rulebook.
func (b *Book) TryAddition(id string, d Dish, read Reader) (offered []Option, faults []string) {
	rule, ok := b.Rule(id)
	if !ok {
		return nil, []string{"no rule " + id}
	}
	amounts := b.amounts(d)
	if rule.Do != Add || !b.suits(rule, d, methodOf(d), amounts) {
		return nil, []string{DoesNotFit}
	}
	for _, o := range rule.added(d, amounts, read) {
		if o.fault == "" {
			offered = append(offered, o.Option)
		} else {
			faults = append(faults, o.fault)
		}
	}
	return offered, faults
}

func (b *Book) amounts(d Dish) Amounts {
	var sum Amounts
	for i := range d.Lines {
		sum = sum.Add(b.LineContribution(d.Lines[i]))
	}
	return sum
}

// saidMethod is a dish's title and steps in plain words.
type saidMethod struct {
	title said
	steps []said
}

func methodOf(d Dish) saidMethod {
	m := saidMethod{plainWords(d.Title), make([]said, len(d.Steps))}
	for i, s := range d.Steps {
		m.steps[i] = plainWords(s)
	}
	return m
}

func (b *Book) suits(r *Rule, d Dish, method saidMethod, amounts Amounts) bool {
	f, ok := ParseFunction(r.Restores)
	if !ok || d.Servings <= 0 || amounts[f] <= 0 || amounts[f]/d.Servings < b.balances[f].Enough {
		return false
	}
	if m := r.Match.MostSweet; m > 0 && amounts[Sweetness]/d.Servings > m {
		return false
	}
	return r.Match.suitsDish("", d.Lines) && r.Match.suitsMethod(method)
}

// suitsMethod looks at the title and the words of the steps; where there are no
// steps nothing speaks against the rule.
func (m *Match) suitsMethod(method saidMethod) bool {
	if anyPhrase(method.title, m.NotTitle) {
		return false
	}
	told := len(m.Steps) == 0 || len(method.steps) == 0
	for _, words := range method.steps {
		if anyPhrase(words, m.NotSteps) {
			return false
		}
		told = told || anyPhrase(words, m.Steps)
	}
	return told
}

// added are the options of a rule of action Add, one for each share of its
// amounts.
func (r *Rule) added(d Dish, amounts Amounts, read Reader) []opened {
	shares := slices.Clone(r.Keep)
	if len(shares) == 0 {
		shares = []float64{1}
	}
	sort.Float64s(shares)
	most := shares[len(shares)-1]
	var out []opened
	for _, share := range shares {
		o := opened{Option: Option{Rule: r, Effort: r.Effort, Change: int(math.Ceil(float64(r.Change) * share / most))}}
		if len(shares) > 1 {
			o.Share = share
		}
		for _, ing := range r.With {
			text := ing.perDish(d, amounts, share)
			m := read(text)
			o.Text, o.Lines = append(o.Text, text), append(o.Lines, m)
			want := ing.Food
			if why := readsBack(text, m, func(_ int, f *composition.Food) string {
				if f.Name != want {
					return fmt.Sprintf("reads as %q, not as %q", f.Name, want)
				}
				return ""
			}, 0); why != "" && o.fault == "" {
				o.fault = why
			}
		}
		out = append(out, o)
	}
	return out
}

// cup is what an amount per cup of liquid goes by, ml: the US cup.
const cup = 236.588

// perDish is the new line for a share of an ingredient's amount, which is by
// serving or by cup of the dish's liquid.
func (ing *Ingredient) perDish(d Dish, amounts Amounts, share float64) string {
	n := ing.Ratio * share * d.Servings
	if ing.By == ByLiquid {
		n = ing.Ratio * share * amounts[Liquid] / cup
	}
	u, ok := measure.FindUnitIn(ing.Unit, d.Measures)
	if !ok {
		u = measure.Each()
	}
	q := measure.Nearest(n, u)
	switch {
	case u.Kind == measure.Volume && !u.IsMetric():
		q, u = measure.Spoonfuls(n*u.Size, d.Measures)
	case u.Size > 0:
		q = measure.Nearest(n*u.Size, u)
	case n < 1:
		q = measure.Nearest(1, u)
	}
	name := ing.Say
	if name == "" {
		name = ing.Food
	}
	text := strings.TrimSpace(measure.Format(q, u) + " " + name)
	if ing.Note != "" {
		text += ", " + ing.Note
	}
	return text
}

// ExampleDish is a dish as the examples of an addition write it: lines parted by
// semicolons, and steps after "method:". It serves four.
func ExampleDish(text string, read Reader) Dish {
	d := Dish{Servings: 4}
	for _, part := range strings.Split(text, ";") {
		part = strings.TrimSpace(part)
		if step, ok := strings.CutPrefix(part, "method:"); ok {
			d.Steps = append(d.Steps, strings.TrimSpace(step))
		} else if part != "" {
			d.Lines = append(d.Lines, read(part))
		}
	}
	return d
}
