package swap

import (
	"slices"
	"sort"

	"potwright/internal/composition"
	"potwright/internal/foodmatch"
	"potwright/internal/recall"
)

// Book is the rules of a kitchen with the balance of a dish and the recipes
// that are left alone. It never changes after NewBook and is safe for
// concurrent use.
type Book struct {
	rules    []Rule
	balances [FunctionCount]Balance
	refusals []Refusal
	byFood   map[string][]int                          // rules that name a food
	byKind   map[string][]int                          // rules that name kinds and no food
	byWords  []int                                     // rules that look at the words alone
	brings   recall.Memory[*composition.Food, Amounts] // by 100 g
}

// NewBook puts rules in a fixed order (by id), so that the same rules give the
// same answers whatever file they stand in. A function without a balance moves
// nothing and has no band.
func NewBook(rules []Rule, balances []Balance, refusals []Refusal) *Book {
	b := &Book{rules: append([]Rule(nil), rules...), refusals: append([]Refusal(nil), refusals...)}
	sort.SliceStable(b.rules, func(i, j int) bool { return b.rules[i].ID < b.rules[j].ID })
	for f := range b.balances {
		b.balances[f].Function = Function(f)
	}
	for _, x := range balances {
		b.balances[x.Function] = x
	}
	b.index()
	return b
}

// index files every rule under what it must find in a line, so that a line is
// held against the few rules that may speak of it and not against all.
func (b *Book) index() {
	b.byFood, b.byKind = map[string][]int{}, map[string][]int{}
	for i := range b.rules {
		m := &b.rules[i].Match
		switch {
		case b.rules[i].Do == Add: // speaks of no line
		case len(m.Foods) > 0:
			for _, f := range m.Foods {
				b.byFood[f] = append(b.byFood[f], i)
			}
		case len(m.Kinds) > 0:
			for _, k := range m.Kinds {
				b.byKind[k] = append(b.byKind[k], i)
			}
		default:
			b.byWords = append(b.byWords, i)
		}
	}
}

// speakingOf are the rules that may fit one of the foods of a line, in order.
func (b *Book) speakingOf(ps []part) []int {
	out := append([]int(nil), b.byWords...)
	for _, p := range ps {
		out = append(out, b.byFood[p.item.Food.Name]...)
		for _, k := range p.item.Food.Kinds {
			out = append(out, b.byKind[k]...)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// Rules are all rules by id.
func (b *Book) Rules() []Rule { return append([]Rule(nil), b.rules...) }

// Rule finds a rule by its id.
func (b *Book) Rule(id string) (*Rule, bool) {
	i := sort.Search(len(b.rules), func(i int) bool { return b.rules[i].ID >= id })
	if i == len(b.rules) || b.rules[i].ID != id {
		return nil, false
	}
	return &b.rules[i], true
}

// Reader reads one ingredient line and matches it to the food table.
type Reader func(text string) foodmatch.Matched

// Options are the things the rules allow to be done with a line of a dish, the
// least change first. Each carries the new line as text and that text read
// afresh; an option whose text does not read as the food it means, or that
// would leave the line as it is, is not offered. Manual rules are included: the
// caller sees Rule.Manual.
func (b *Book) Options(line foodmatch.Matched, dish []foodmatch.Matched, read Reader) []Option {
	switch line.State {
	case foodmatch.Skipped:
		return nil
	case foodmatch.Unread:
		return b.unread(line)
	}
	var out []Option
	ps, words := parts(line), plainWords(line.Reading.Text)
	for _, i := range b.speakingOf(ps) {
		rule := &b.rules[i]
		part, ok := rule.fits(&line, words, ps, dish)
		if !ok {
			continue
		}
		for _, o := range rule.open(line, *part, read) {
			if o.fault == "" {
				out = append(out, o.Option)
			}
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Change < out[j].Change })
	return out
}

// unread are the options of a line whose food is not known: what its words alone allow
// to stand at the table, as it is.
func (b *Book) unread(line foodmatch.Matched) []Option {
	var out []Option
	words := plainWords(line.Reading.Text)
	for _, i := range b.byWords {
		if r := &b.rules[i]; r.wholeToTable() && r.Match.suitsWords(words, &line.Reading) {
			out = append(out, r.toTable(line, part{reading: line.Reading, measures: line.Measures}, nil).Option)
		}
	}
	return out
}

// DoesNotFit is the one sentence of Try where a rule does not fit a line.
const DoesNotFit = "the rule does not fit the line"

// Try tells what a rule offers on a line, and why it can't open its other
// options there, one sentence each: a text does not read back as the food it
// means, or an amount can't be told. It serves the tests of a rulebook.
func (b *Book) Try(id string, line foodmatch.Matched, dish []foodmatch.Matched, read Reader) (offered []Option, whyNot []string) {
	rule, ok := b.Rule(id)
	if !ok {
		return nil, []string{"no rule " + id}
	}
	part, ok := rule.fits(&line, plainWords(line.Reading.Text), parts(line), dish)
	if !ok {
		return nil, []string{DoesNotFit}
	}
	for _, o := range rule.open(line, *part, read) {
		if o.fault != "" {
			whyNot = append(whyNot, o.fault)
		} else {
			offered = append(offered, o.Option)
		}
	}
	return offered, whyNot
}
