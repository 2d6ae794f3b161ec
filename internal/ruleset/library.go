package ruleset

import (
	"reflect"
	"strings"

	"potwright/internal/composition"
	"potwright/internal/cooking"
	"potwright/internal/diagnostic"
	"potwright/internal/household"
	"potwright/internal/keeping"
	"potwright/internal/kitchen"
	"potwright/internal/swap"
	"potwright/internal/taste"
)

// Stock is what rules are read against: the foods whose names, kinds and states
// they may speak of, the retention table, and how a line is read (nil where
// examples are not tried).
type Stock struct {
	Foods      []*composition.Food
	Retentions cooking.Retentions
	Read       swap.Reader
}

// contents are the entries of folders put together.
type contents struct {
	rules    []swap.Rule
	balances []swap.Balance
	refusals []swap.Refusal
	needs    household.Book
	factors  cooking.Contents
	taste    taste.Book
	advice   []keeping.Rule
	origins  map[kitchen.RuleKey]kitchen.RuleOrigin
	faults   diagnostic.Faults
}

// Library reads the built-in rules and puts the kitchen's own over them, folder
// by folder: an own entry of the same sort and id takes the place of the other.
// Own files never stop anything: their faults are in the rulebook, entries with
// a fault are left out and what they would have replaced stays in force. A fault
// of a built-in file is an error, which is then a diagnostic.Faults. Examples of
// own rules are tried; those of built-in ones are tried by Check.
func Library(builtIn Folder, own []Folder, s Stock) (*kitchen.Rulebook, error) {
	words := newVocabulary(s.Foods)
	r := newFolderReader(words, nil, s.Retentions)
	r.all(builtIn)
	if err := r.faults.Err(); err != nil {
		return nil, err
	}
	c := r.contents()
	for _, f := range own {
		c = c.with(f, words, s)
	}
	out := &kitchen.Rulebook{
		Swaps:   swap.NewBook(c.rules, c.balances, c.refusals),
		Needs:   household.NewNeeds(c.needs, s.Foods),
		Cooking: cooking.NewBook(c.factors),
		Taste:   &c.taste,
		Keeping: keeping.NewBook(c.advice),
		Origins: c.origins,
	}
	if err := c.faults.Err(); err != nil {
		out.Faults = c.faults
	}
	return out, nil
}

// Check finds every fault of the built-in rules, or of a folder that is to stand
// in their place, and tries every example.
func Check(builtIn Folder, s Stock) diagnostic.Faults {
	r := newFolderReader(newVocabulary(s.Foods), nil, s.Retentions)
	r.all(builtIn)
	_, faults := r.tried(s.Read, swap.NewBook(r.swaps.rules, r.swaps.balances, nil))
	faults = append(r.faults, faults...)
	return sorted(faults)
}

// Checker gives a check of folders of own rules that are put over the built-in
// ones: it finds every fault and tries every example.
func Checker(builtIn Folder, s Stock) func(own Folder) diagnostic.Faults {
	words := newVocabulary(s.Foods)
	r := newFolderReader(words, nil, s.Retentions)
	r.all(builtIn)
	base := r.contents()
	base.faults = nil
	return func(own Folder) diagnostic.Faults { return sorted(base.own(own, words, s).faults) }
}

func sorted(fs diagnostic.Faults) diagnostic.Faults {
	if fs.Err() == nil {
		return nil
	}
	return fs
}

func (r *folderReader) contents() contents {
	return contents{rules: r.swaps.rules, balances: r.swaps.balances, refusals: r.swaps.refusals,
		needs: r.needs.book, factors: r.factors.out, taste: r.tastes.book, advice: r.keeping.rules, origins: r.origins, faults: r.faults}
}

// own reads a folder of own rules, which may speak of what is in force, and
// tries its examples; rules whose examples do not hold are left out.
func (c contents) own(f Folder, words *vocabulary, s Stock) *folderReader {
	r := newFolderReader(words, &c, s.Retentions)
	r.all(f)
	if r.files == 0 && len(r.faults) == 0 {
		r.faults = diagnostic.Faults{{File: f.Name, Problem: "no rules in the folder",
			Expected: "*.yaml files, at its top or in folders " + strings.Join(folders(), ", ")}}
	}
	rules, faults := r.tried(s.Read, swap.NewBook(r.swaps.rules, byID(c.balances, r.swaps.balances, balanceID), nil))
	r.swaps.rules, r.faults = rules, append(r.faults, faults...)
	return r
}

// with puts the entries of an own folder over the others.
func (c contents) with(f Folder, words *vocabulary, s Stock) contents {
	r := c.own(f, words, s)
	changed := c.changed(r.swaps.rules)
	out := contents{
		rules:    byID(c.rules, changed, ruleID),
		balances: byID(c.balances, r.swaps.balances, balanceID),
		refusals: byID(c.refusals, r.swaps.refusals, refusalID),
		needs:    mergeNeeds(c.needs, r.needs.book),
		factors:  mergeFactors(c.factors, r.factors.out),
		taste:    mergeTaste(c.taste, r.tastes.book),
		advice:   byID(c.advice, r.keeping.rules, adviceID),
		origins:  map[kitchen.RuleKey]kitchen.RuleOrigin{},
		faults:   append(c.faults, r.faults...),
	}
	for k, o := range c.origins {
		out.origins[k] = o
	}
	inForce := map[string]bool{}
	for _, rule := range changed {
		inForce[rule.ID] = true
	}
	for k, o := range r.origins {
		if k.Sort == kitchen.SwapRule && !inForce[k.ID] {
			continue // left out, or the same as the built-in one
		}
		_, o.Replaces = c.origins[k]
		out.origins[k] = o
	}
	return out
}

// changed are the rules that differ from what is in force: a copy of a built-in
// rule is still the built-in one.
func (c contents) changed(own []swap.Rule) []swap.Rule {
	before := make(map[string]swap.Rule, len(c.rules))
	for _, r := range c.rules {
		before[r.ID] = r
	}
	var out []swap.Rule
	for _, r := range own {
		old, there := before[r.ID]
		old.File, old.Line = r.File, r.Line
		if !there || !reflect.DeepEqual(old, r) {
			out = append(out, r)
		}
	}
	return out
}
