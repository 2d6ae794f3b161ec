package api

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"net/http"
	"strconv"

	"potwright/internal/about"
	"potwright/internal/diagnostic"
	"potwright/internal/kitchen"
)

func bookOperations() []operation {
	sort := []parameter{{name: "sort", about: "only entries of this sort, such as keeping", schema: schema{"type": "string"}}}
	return []operation{
		{method: http.MethodGet, path: "/about", id: "about", summary: "Which program answers, and where its figures come from", answer: aboutAnswer{}, status: http.StatusOK, do: findAbout},
		{method: http.MethodGet, path: "/rulebook", id: "listRulebook", summary: "Every entry of the rulebook besides the swap rules, and what is wrong with own files", query: sort, answer: bookAnswer{}, status: http.StatusOK, do: listBook},
		{method: http.MethodPost, path: "/demo", id: "startDemo", summary: "Put the invented household beside the others", status: http.StatusNoContent, changes: true, do: startDemo},
	}
}

// Version is that of the operations: it rises when one goes or asks for more.
const Version = "1"

// sourceDocument is a body of data that figures come from.
type sourceDocument struct {
	Name  string `json:"name"`
	What  string `json:"what"`
	Terms string `json:"terms"`
}

// aboutAnswer is which program answers. Figures of two programs are the same where
// their Figures are.
type aboutAnswer struct {
	API     string `json:"api"`
	Program string `json:"program"`
	Licence string `json:"licence"`
	// Figures tells the rules and the food table in force from any others.
	Figures string           `json:"figures"`
	Sources []sourceDocument `json:"sources"`
	Caution string           `json:"caution"`
}

func findAbout(r *request) (any, error) {
	build, _ := about.ReadBuild()
	figures, err := r.api.figures()
	out := aboutAnswer{Version, build.Version, about.Licence, figures, []sourceDocument{}, kitchen.Caution}
	for _, s := range about.Sources() {
		out.Sources = append(out.Sources, sourceDocument{s.Name, s.What, s.Terms})
	}
	return out, err
}

// FiguresOf tells the rules and the food table of a kitchen from any others. The
// folders that own rules stand in do not count.
func FiguresOf(k *kitchen.Kitchen, book *kitchen.Rulebook) (string, error) {
	sum := sha256.New()
	enc := json.NewEncoder(sum)
	parts := []any{book.Swaps.Rules(), book.Swaps.Refusals(), book.Swaps.Balances(), book.Needs.AvoidRules(), book.Needs.CautionRules(),
		book.Needs.Levels(), book.Needs.Features(), book.Needs.HandActions(), book.Needs.Presets(), book.Needs.Plans()}
	if book.Cooking != nil {
		parts = append(parts, book.Cooking.Factors(), book.Cooking.Yields())
	}
	if book.Keeping != nil {
		parts = append(parts, book.Keeping.Rules())
	}
	if book.Taste != nil {
		parts = append(parts, book.Taste.Fall)
	}
	for _, f := range k.Table.Foods() {
		parts = append(parts, f)
	}
	for _, part := range parts {
		if err := enc.Encode(part); err != nil {
			return "", fmt.Errorf("sum the rules and the foods up: %w", err)
		}
	}
	return hex.EncodeToString(sum.Sum(nil)[:8]), nil
}

// bookEntry is one entry of the rulebook and where it stands.
type bookEntry struct {
	Sort   kitchen.RuleSort `json:"sort"`
	ID     string           `json:"id"`
	Title  string           `json:"title"`
	Says   string           `json:"says,omitempty"`
	Source string           `json:"source"`
	Theme  string           `json:"theme,omitempty"`
	// Folder is the folder of own rules it is from, "" for a built-in one; Replaces is
	// set where it stands in for a built-in one.
	Folder   string `json:"folder"`
	File     string `json:"file"`
	Line     int    `json:"line"`
	Replaces bool   `json:"replaces,omitempty"`
}

type bookAnswer struct {
	Entries []bookEntry        `json:"entries"`
	Faults  []diagnostic.Fault `json:"faults"`
}

func listBook(r *request) (any, error) {
	only := kitchen.RuleSort(r.gin.Query("sort"))
	book := r.api.cfg.Rulebook
	out := bookAnswer{[]bookEntry{}, append([]diagnostic.Fault{}, book.Faults...)}
	for _, e := range entriesOfBook(book) {
		if only != "" && e.Sort != only {
			continue
		}
		at := book.Origins[kitchen.RuleKey{Sort: e.Sort, ID: e.ID}]
		e.Theme, e.Folder, e.File, e.Line, e.Replaces = at.Theme, at.Folder, at.File, at.Line, at.Replaces
		out.Entries = append(out.Entries, e)
	}
	return out, nil
}

// entriesOfBook are the entries without where they stand.
func entriesOfBook(book *kitchen.Rulebook) (out []bookEntry) {
	add := func(sort kitchen.RuleSort, id, title, says, source string) {
		out = append(out, bookEntry{Sort: sort, ID: id, Title: title, Says: says, Source: source})
	}
	for _, x := range book.Swaps.Refusals() {
		add(kitchen.LeftAlone, x.ID, x.ID, x.Why, x.Source)
	}
	for _, x := range book.Swaps.Balances() {
		add(kitchen.DishBalance, x.Function.String(), x.Function.String(), x.Why, "beside each food of the entry")
	}
	addNeeds(book, add)
	if book.Cooking != nil {
		for _, x := range book.Cooking.Factors() {
			add(kitchen.Retention, x.ID, x.ID, x.Why, x.Source)
		}
		for _, x := range book.Cooking.Yields() {
			add(kitchen.YieldFactor, x.ID, x.ID, x.Why, x.Source)
		}
	}
	if book.Keeping != nil {
		for _, x := range book.Keeping.Rules() {
			add(kitchen.KeepingAdvice, x.ID, x.ID, x.Say, x.Source)
		}
	}
	if book.Taste != nil && book.Taste.Fall.Source != "" {
		add(kitchen.SaltFall, "fall", "how far salt may fall", book.Taste.Fall.Why, book.Taste.Fall.Source)
	}
	return out
}

func addNeeds(book *kitchen.Rulebook, add func(sort kitchen.RuleSort, id, title, says, source string)) {
	n := book.Needs
	for _, x := range n.AvoidRules() {
		add(kitchen.AvoidedFood, x.ID, x.Title, x.Note, x.Source)
	}
	for _, x := range n.CautionRules() {
		add(kitchen.CautionRule, x.ID, x.Title, x.Say, x.Source)
	}
	for _, x := range n.Levels() {
		add(kitchen.Texture, strconv.Itoa(x.Level), x.Title, x.Plate, x.Source)
	}
	for _, x := range n.Features() {
		add(kitchen.Texture, x.ID, x.Title, x.Remedy, x.Source)
	}
	for _, x := range n.HandActions() {
		add(kitchen.HandLoad, x.ID, x.Title, x.Easier, x.Source)
	}
	for _, x := range n.Presets() {
		add(kitchen.KnownLimit, x.ID, x.Title, x.Note, x.Source)
	}
	for _, x := range n.Plans() {
		add(kitchen.KnownPlan, x.ID, x.Title, x.Note, x.Source)
	}
}

func startDemo(r *request) (any, error) {
	if r.api.cfg.Demo == nil {
		return nil, notFound("no invented household is offered here")
	}
	return nil, r.api.cfg.Demo(r.ctx)
}
