package pages

import (
	"net/http"
	"net/url"
	"slices"
	"sort"
	"strconv"
	"strings"
	"sync"

	"github.com/gin-gonic/gin"

	"potwright/internal/household"
	"potwright/internal/kitchen"
)

// rulePages is the rulebook as its pages show it, worked out when it is first
// looked at.
type rulePages struct {
	book    *kitchen.Rulebook
	foods   Foods
	entries func() []ruleEntry
}

func newRulePages(book *kitchen.Rulebook, foods Foods) *rulePages {
	p := &rulePages{book: book, foods: foods}
	p.entries = sync.OnceValue(p.all)
	return p
}

// ruleEntry is one rule, need or factor as the pages tell it.
type ruleEntry struct {
	Key   string // in the address: the id of a swap rule, else sort.id
	Title string
	What  string // its sort in words
	Theme string
	// Origin is set for what is not built in.
	Origin string
	Link   string
	Facts  []ruleFact

	sort  kitchen.RuleSort
	needs []string // what it serves, as the filter names it
	text  string   // all its words, small, for the search
}

// ruleFact is one thing told of a rule.
type ruleFact struct {
	Name   string
	Values []string
}

// rulesPage lists the rules that fit a search.
type rulesPage struct {
	frame
	Faults        []string
	Search        entry
	Sorts, Themes pick
	Needs         pick
	Count         string
	Entries       []ruleEntry
	Before, After string // addresses, "" where there is nothing
}

// rulePage is one rule.
type rulePage struct {
	frame
	Rule ruleEntry
}

// rulesShown is how many rules stand on one page.
const rulesShown = 40

func (s *Site) registerRules(r gin.IRouter) {
	r.GET("/rules", s.do(s.listRules))
	r.GET("/rules/:rule", s.do(s.showRule))
}

// rulesFrame is the frame of a page of rules: within a household where the
// address names one.
func (s *Site) rulesFrame(c *gin.Context, title string) (frame, error) {
	if c.Param("hid") == "" {
		return frame{Title: title, Here: "rules"}, nil
	}
	_, fr, err := s.household(c, "rules", title)
	return fr, err
}

func (s *Site) listRules(c *gin.Context) error {
	fr, err := s.rulesFrame(c, "The rules")
	if err != nil {
		return err
	}
	f := queryForm(c)
	q, of, theme, need := f.text("q"), f.text("sort"), f.text("theme"), f.text("need")
	var found []ruleEntry
	all := s.rules.entries()
	for _, e := range all {
		if e.fits(q, of, theme, need) {
			found = append(found, e)
		}
	}
	from, _ := strconv.Atoi(f.text("from"))
	from = max(0, min(from, len(found)))
	p := rulesPage{frame: fr, Count: countWords(len(found), "rule", "rules"),
		Search: entry{Name: "q", Label: "Words in it", Hint: "A food, a rule’s name, a source.", Value: q},
		Sorts:  pick{Name: "sort", Label: "Sort", Options: sortOptions(all, of)},
		Themes: pick{Name: "theme", Label: "Theme", Options: wordOptions(all, theme, func(e ruleEntry) []string { return []string{e.Theme} })},
		Needs:  pick{Name: "need", Label: "Serves", Options: wordOptions(all, need, func(e ruleEntry) []string { return e.needs })}}
	for _, fault := range s.rules.book.Faults {
		p.Faults = append(p.Faults, fault.Error())
	}
	to := min(from+rulesShown, len(found))
	for _, e := range found[from:to] {
		e.Link = fr.Base + "/rules/" + url.PathEscape(e.Key)
		p.Entries = append(p.Entries, e)
	}
	address := func(at int) string {
		v := url.Values{"q": {q}, "sort": {of}, "theme": {theme}, "need": {need}, "from": {strconv.Itoa(at)}}
		for k := range v {
			if v.Get(k) == "" {
				v.Del(k)
			}
		}
		return fr.Base + "/rules?" + v.Encode()
	}
	if from > 0 {
		p.Before = address(max(0, from-rulesShown))
	}
	if to < len(found) {
		p.After = address(to)
	}
	return s.show(c, http.StatusOK, "rules", p)
}

func (s *Site) showRule(c *gin.Context) error {
	for _, e := range s.rules.entries() {
		if e.Key != c.Param("rule") {
			continue
		}
		fr, err := s.rulesFrame(c, e.Title)
		if err != nil {
			return err
		}
		return s.show(c, http.StatusOK, "rule", rulePage{fr, e})
	}
	return kitchen.ErrNotFound
}

// fits reports whether an entry has all words searched for and is of the sort,
// theme and need chosen; "" is any.
func (e ruleEntry) fits(q, of, theme, need string) bool {
	if of != "" && string(e.sort) != of || theme != "" && e.Theme != theme || need != "" && !slices.Contains(e.needs, need) {
		return false
	}
	for _, w := range strings.Fields(strings.ToLower(q)) {
		if !strings.Contains(e.text, w) {
			return false
		}
	}
	return true
}

func sortOptions(all []ruleEntry, chosen string) []option {
	values := []string{"", "any sort"}
	for _, s := range ruleSorts() {
		if slices.ContainsFunc(all, func(e ruleEntry) bool { return e.sort == s }) {
			values = append(values, string(s), sortWords(s))
		}
	}
	return options(chosen, values...)
}

// wordOptions are the words that entries have, in order, after "any".
func wordOptions(all []ruleEntry, chosen string, words func(ruleEntry) []string) []option {
	seen := map[string]bool{}
	var list []string
	for _, e := range all {
		for _, w := range words(e) {
			if w != "" && !seen[w] {
				seen[w] = true
				list = append(list, w)
			}
		}
	}
	sort.Strings(list)
	values := []string{"", "any"}
	for _, w := range list {
		values = append(values, w, w)
	}
	return options(chosen, values...)
}

// builder gathers the facts of one entry.
type builder struct{ facts []ruleFact }

func (b *builder) fact(name string, values ...string) {
	values = slices.DeleteFunc(slices.Clone(values), func(v string) bool { return v == "" })
	if len(values) > 0 {
		b.facts = append(b.facts, ruleFact{name, values})
	}
}

// list is a fact of which the words stand in one sentence.
func (b *builder) list(name string, words []string) {
	b.fact(name, strings.Join(words, ", "))
}

// signs tells what a need is known by.
func (b *builder) signs(s household.Signs) {
	b.list("Kinds of food", readable(s.Kinds))
	b.list("Foods", s.Foods)
	b.list("Words", s.Words)
	b.list("Only where it is", s.States)
	b.list("Not where it is", s.NotStates)
	b.list("Not these", slices.Concat(readable(s.NotKinds), s.NotFoods, s.NotWords))
}

func readable(keys []string) []string {
	out := make([]string, len(keys))
	for i, k := range keys {
		out[i] = readableKey(k)
	}
	return out
}
