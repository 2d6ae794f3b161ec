package fooddata

import (
	"fmt"
	"slices"
	"strings"

	"potwright/internal/composition"
)

// Rejected is a row of a file of foods that was not taken.
type Rejected struct {
	File string
	Line int // 0 where it is the food as a whole that can't be used
	Why  string
}

// String is "file:line: why".
func (r Rejected) String() string {
	if r.Line == 0 {
		return r.File + ": " + r.Why
	}
	return fmt.Sprintf("%s:%d: %s", r.File, r.Line, r.Why)
}

// Intake is what files from outside hold that a kitchen can use.
type Intake struct {
	// Foods in the order of their ids, with names of their own.
	Foods []*composition.Food
	// Left are the rows of sorts that are not taken, by sort.
	Left map[string]int
	// Rejected are rows that can't be used, with the reason.
	Rejected []Rejected
}

// SetContent gives a food a content, if it can be one: 100 g hold at most 100 g of
// anything, and no more energy than pure fat (9.02 kcal a gram, USDA Agriculture
// Handbook 74).
func SetContent(f *composition.Food, n composition.Nutrient, c composition.Content) error {
	most := map[string]float64{"g": 100, "mg": 100e3, "µg": 100e6, "kcal": 902}[n.Unit()]
	if !(c.Mid >= 0 && c.Mid <= most) {
		return fmt.Errorf("%s of %g %s in 100 g; expected 0 to %g", n.Name(), c.Mid, n.Unit(), most)
	}
	c.Known = true
	f.Nutrients[n] = c
	return nil
}

// Take puts foods in: those without a single figure or with the id of another are
// rejected, a name that stands twice gets the id behind it, and all are put in the
// order of their ids.
func (in *Intake) Take(foods []*composition.Food) {
	ids, names := map[string]bool{}, map[string]int{}
	for _, f := range foods {
		switch {
		case !knowsAny(f):
			in.Rejected = append(in.Rejected, Rejected{File: f.ID, Why: fmt.Sprintf("no figure for %q", f.Name)})
		case ids[f.ID]:
			in.Rejected = append(in.Rejected, Rejected{File: f.ID, Why: fmt.Sprintf("the id of %q is another food's too", f.Name)})
		default:
			in.Foods = append(in.Foods, f)
			ids[f.ID] = true
			names[f.Name]++
		}
	}
	slices.SortFunc(in.Foods, func(a, b *composition.Food) int { return strings.Compare(a.ID, b.ID) })
	slices.SortStableFunc(in.Rejected, func(a, b Rejected) int {
		return strings.Compare(fmt.Sprintf("%s\x00%09d", a.File, a.Line), fmt.Sprintf("%s\x00%09d", b.File, b.Line))
	})
	for _, f := range in.Foods {
		f.States = composition.StatesOf(f.Name)
		if names[f.Name] > 1 {
			f.Name += " (" + f.ID + ")"
		}
	}
}

func knowsAny(f *composition.Food) bool {
	return slices.ContainsFunc(f.Nutrients[:], func(c composition.Content) bool { return c.Known })
}

// Files are the foods as a folder that Read reads, by file name.
func (in *Intake) Files() map[string]string {
	var b strings.Builder
	b.WriteString(Header())
	for _, f := range in.Foods {
		b.WriteString(FoodLine(f, ""))
	}
	return map[string]string{"foods.tsv": b.String(), MeasuresFile: Measures(in.Foods)}
}
