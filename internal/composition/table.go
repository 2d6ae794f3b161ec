package composition

import (
	"fmt"

	"potwright/internal/recall"
)

// Phrase is what an ingredient line says about its food.
type Phrase struct {
	// Words is the food phrase, lower case, without quantity, unit and
	// preparation: "chicken broth", "cheddar cheese".
	Words string
	// States are the state words found on the line in normal form: canned,
	// drained, rinsed, frozen, dried, fresh, cooked, raw, unsalted, low_sodium,
	// reduced_sodium, fat_free, low_fat, reduced_fat, whole, skinless, boneless,
	// lean_90, ...
	States []string
	// Unit is the measure's unit in normal form ("cup", "can", "stick", "each"),
	// which tells a canned or whole food from a dry or ground one.
	Unit string
}

// Candidate is a food a phrase may mean.
type Candidate struct {
	Food *Food
	// Weight is how likely, 0..1; the weights of a phrase's candidates sum to at
	// most 1.
	Weight float64
	// Why says in a few words what the choice rests on, or "" where the phrase
	// names the food outright.
	Why string
}

// Table is the food table, ready for look-up. It is safe for concurrent use.
type Table struct {
	foods  []*Food
	byID   map[string]*Food
	byName map[string]*Food
	index  *index
	// base is the table that this one lies over, or nil.
	base *Table
	// beside are foods that only their id, their whole name and Search find, or nil.
	beside *index
	// matched are the phrases looked up before: a household's recipes hold the same few
	// hundred again and again, in other amounts.
	matched recall.Memory[phraseKey, []Candidate]
}

// phraseKey is a Phrase that compares.
type phraseKey struct{ words, states, unit string }

// NewTable indexes the foods. It fails where an id or a name is empty or stands
// twice. The table keeps the foods; they must not be changed afterwards.
func NewTable(foods []*Food) (*Table, error) {
	t := &Table{
		foods:  foods,
		byID:   make(map[string]*Food, len(foods)),
		byName: make(map[string]*Food, len(foods)),
	}
	for i, f := range foods {
		if f == nil || f.ID == "" || f.Name == "" {
			return nil, fmt.Errorf("food %d has no id or no name", i)
		}
		if was := t.byID[f.ID]; was != nil {
			return nil, fmt.Errorf("id %q stands for both %q and %q", f.ID, was.Name, f.Name)
		}
		if was := t.byName[f.Name]; was != nil {
			return nil, fmt.Errorf("name %q stands for both %s and %s", f.Name, was.ID, f.ID)
		}
		t.byID[f.ID], t.byName[f.Name] = f, f
	}
	t.index = newIndex(foods)
	return t, nil
}

// ByID finds a food by its id, such as "sr:01001".
func (t *Table) ByID(id string) (*Food, bool) {
	f, ok := t.byID[id]
	if !ok && t.base != nil {
		return t.base.ByID(id)
	}
	return f, ok
}

// ByName finds a food by its exact name, such as "butter, salted".
func (t *Table) ByName(name string) (*Food, bool) {
	f, ok := t.byName[name]
	if !ok && t.base != nil {
		return t.base.ByName(name)
	}
	return f, ok
}

// Foods lists every food of the table in the order given to NewTable, own foods
// before them. The slice is a copy; the foods are not.
func (t *Table) Foods() []*Food {
	foods := append([]*Food(nil), t.foods...)
	if t.base != nil {
		foods = append(foods, t.base.foods...)
	}
	return foods
}
