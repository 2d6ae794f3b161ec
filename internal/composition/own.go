package composition

import (
	"fmt"
	"maps"
	"slices"
	"strings"
)

// OwnPrefix begins the id of a household's own food.
const OwnPrefix = "own:"

// IsOwn reports whether the food is a household's own and not of the table.
func (f *Food) IsOwn() bool { return strings.HasPrefix(f.ID, OwnPrefix) }

// With lays a household's own foods over the table. They are found first by id,
// name and Search; a phrase that says an own food's whole name means that food,
// any other phrase may mean it as it may any food. The table itself stays as it
// is; the overlay keeps the foods, which must not be changed afterwards. It fails
// where an id or a name is empty, stands twice, or the id is one of the table's.
func (t *Table) With(own []*Food) (*Table, error) {
	if len(own) == 0 {
		return t, nil
	}
	over := &Table{
		foods:  own,
		byID:   make(map[string]*Food, len(own)),
		byName: make(map[string]*Food, len(own)),
		base:   t,
	}
	for i, f := range own {
		if f == nil || f.ID == "" || f.Name == "" {
			return nil, fmt.Errorf("own food %d has no id or no name", i)
		}
		if was, ok := over.ByID(f.ID); ok {
			return nil, fmt.Errorf("id %q stands for both %q and %q", f.ID, was.Name, f.Name)
		}
		if was := over.byName[f.Name]; was != nil {
			return nil, fmt.Errorf("name %q stands for both %s and %s", f.Name, was.ID, f.ID)
		}
		over.byID[f.ID], over.byName[f.Name] = f, f
	}
	over.index = newIndexOver(t.index, own)
	return over, nil
}

// newIndexOver indexes own foods. What other foods are called by counts for them
// too: an own "butter" is not in "butter beans".
func newIndexOver(base *index, own []*Food) *index {
	ix := &index{
		foods:    own,
		aliases:  make(map[uint64][]alias, 3*len(own)),
		meanings: map[uint64][]meaning{},
		known:    maps.Clone(base.known),
		heads:    maps.Clone(base.heads),
	}
	for i, f := range own {
		ix.addFood(i, f)
	}
	return ix
}

// named finds the food that the words name in full: an own food by its name in any
// order of words, any other by its exact name, which must hold a comma to be told
// from plain words.
func (t *Table) named(p Phrase, q *query) *Food {
	if t.base != nil {
		for _, f := range t.foods {
			core, states := takeStates(tokenize(f.Name))
			if len(q.words) > 0 && sameSet(fewer(core), q.words) && sameSet(states, q.states) {
				return f
			}
		}
		return t.base.named(p, q)
	}
	if f := t.byName[strings.TrimSpace(strings.ToLower(p.Words))]; f != nil && strings.Contains(f.Name, ",") {
		return f
	}
	return nil
}

func sameSet(a, b []string) bool {
	for _, x := range a {
		if !slices.Contains(b, x) {
			return false
		}
	}
	for _, x := range b {
		if !slices.Contains(a, x) {
			return false
		}
	}
	return true
}

// searchOwn is Search of an overlay: own foods, then the table's.
func (t *Table) searchOwn(query string, limit int) []*Food {
	found := t.index.search(query, limit)
	if more := limit - len(found); more > 0 {
		found = append(found, t.base.Search(query, more)...)
	}
	return found
}

// StatesOf lists the states that the words of a name tell: "beans, canned, low
// sodium" is canned and low_sodium.
func StatesOf(name string) []string {
	_, states := takeStates(tokenize(name))
	return states
}
