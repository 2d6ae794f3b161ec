package api

import (
	"potwright/internal/composition"
	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/spread"
	"potwright/internal/swap"
)

// Bounds of a search of the food table.
const (
	usualFoods = 20
	maxFoods   = 100
)

// foodDocument is a row of the table, per 100 g edible portion; what is unknown is
// not there.
type foodDocument struct {
	ID       string                  `json:"id"`
	Name     string                  `json:"name"`
	Source   string                  `json:"source"`
	Kinds    []string                `json:"kinds"`
	Per100g  map[string]spread.Range `json:"per_100g"`
	Measures []measureDocument       `json:"measures"`
}

// measureDocument is what an amount of a unit weighs.
type measureDocument struct {
	Amount    float64 `json:"amount"`
	Unit      string  `json:"unit"`
	Qualifier string  `json:"qualifier,omitempty"`
	Grams     float64 `json:"grams"`
}

type foodList struct {
	Foods []foodDocument `json:"foods"`
}

func documentOf(f *composition.Food) foodDocument {
	d := foodDocument{ID: f.ID, Name: f.Name, Source: f.Source, Kinds: append([]string{}, f.Kinds...), Per100g: map[string]spread.Range{}, Measures: []measureDocument{}}
	for _, n := range composition.Nutrients() {
		if r, ok := f.Per100g(n); ok {
			d.Per100g[n.Key()] = r
		}
	}
	for _, m := range f.Measures {
		d.Measures = append(d.Measures, measureDocument{m.Amount, m.Unit, m.Qualifier, m.Grams})
	}
	return d
}

func searchFoods(r *request) (any, error) { return r.search(r.kitchen.Table) }

// search looks for the words of the query in a table.
func (r *request) search(table *composition.Table) (any, error) {
	limit, err := r.count("limit", usualFoods, 1, maxFoods)
	if err != nil {
		return nil, err
	}
	words := r.gin.Query("q")
	if words == "" {
		return nil, badRequest("no words to search; expected q=chicken broth, for example")
	}
	out := foodList{Foods: []foodDocument{}}
	for _, f := range table.Search(words, limit) {
		out.Foods = append(out.Foods, documentOf(f))
	}
	return out, nil
}

func findFood(r *request) (any, error) {
	f, ok := r.kitchen.Table.ByID(r.gin.Param("food"))
	if !ok {
		return nil, notFound("there is no food %q; expected an id such as sr:01001", r.gin.Param("food"))
	}
	return documentOf(f), nil
}

// ruleDocument is a swap rule and where it stands.
type ruleDocument struct {
	swap.Rule
	// Folder is the folder of own rules it is from, "" for a built-in one.
	Folder string `json:"folder"`
	File   string `json:"file"`
	Line   int    `json:"line"`
}

type ruleList struct {
	Rules []ruleDocument `json:"rules"`
}

func listRules(r *request) (any, error) {
	book := r.api.cfg.Rulebook
	out := ruleList{Rules: []ruleDocument{}}
	for _, rule := range book.Swaps.Rules() {
		at := book.Origins[kitchen.RuleKey{Sort: kitchen.SwapRule, ID: rule.ID}]
		out.Rules = append(out.Rules, ruleDocument{rule, at.Folder, at.File, at.Line})
	}
	return out, nil
}

// presetDocument is a published limit, a starting point.
type presetDocument struct {
	ID         string            `json:"id"`
	Title      string            `json:"title"`
	Limits     []household.Limit `json:"limits"`
	Note       string            `json:"note"`
	Source     string            `json:"source"`
	Date       string            `json:"date,omitempty"`
	FromMemory bool              `json:"from_memory,omitempty"`
}

type presetList struct {
	Limits []presetDocument `json:"limits"`
}

func listPresets(r *request) (any, error) {
	out := presetList{Limits: []presetDocument{}}
	for _, p := range r.api.cfg.Needs.Presets() {
		out.Limits = append(out.Limits, presetDocument{p.ID, p.Title, p.Limits, p.Note, p.Source, p.Date, p.FromMemory})
	}
	return out, nil
}
