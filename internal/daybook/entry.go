package daybook

import (
	"fmt"
	"slices"
	"strconv"

	"potwright/internal/household"
	"potwright/internal/nutrient"
	"potwright/internal/spread"
)

// Meal is when in the day something is eaten.
type Meal string

// Meals of a day, in their order.
const (
	Morning Meal = "morning"
	Midday  Meal = "midday"
	Evening Meal = "evening"
	Between Meal = "between"
)

// Meals lists the meals in the order of the day.
func Meals() []Meal { return []Meal{Morning, Midday, Evening, Between} }

// State is whether an entry has happened.
type State string

// States of an entry.
const (
	Planned State = "planned"
	Eaten   State = "eaten"
)

// Entry is one thing that one member has eaten or plans to eat: a share of a saved
// version's serving, or grams of a food. Its panels are as they were computed when it
// was written down; a later change of the dish or the table does not touch them.
type Entry struct {
	ID       int64 `json:"-"`
	MemberID int64 `json:"member"`
	Date     Date  `json:"date"`
	Meal     Meal  `json:"meal"`
	State    State `json:"state"`
	// VersionID is the saved version eaten of, 0 for a food.
	VersionID int64 `json:"version,omitempty"`
	// FoodID is the food of the table or the pantry, "" for a dish.
	FoodID string `json:"food,omitempty"`
	// Title is the dish's or the food's name as it was then.
	Title string `json:"title"`
	// Portion is the share of a serving, 0 for a food.
	Portion float64 `json:"portion,omitempty"`
	// Grams is what it weighs as it is eaten; the zero range where that is not known.
	Grams spread.Range `json:"grams"`
	// Panel is what it holds.
	Panel nutrient.Panel `json:"panel"`
	// Counted is the same without what was free in the member's allowance plan; nil
	// where nothing was.
	Counted *nutrient.Panel `json:"counted,omitempty"`
}

// Costing is what counts in the member's allowance plan.
func (e Entry) Costing() nutrient.Panel {
	if e.Counted != nil {
		return *e.Counted
	}
	return e.Panel
}

// Check says what keeps the entry from being written down.
func (e Entry) Check() error {
	switch {
	case e.MemberID == 0:
		return fmt.Errorf("entry %q: no member given", e.Title)
	case !slices.Contains(Meals(), e.Meal):
		return fmt.Errorf("entry %q: meal %q: expected one of %v", e.Title, e.Meal, Meals())
	case e.State != Planned && e.State != Eaten:
		return fmt.Errorf("entry %q: state %q: expected planned or eaten", e.Title, e.State)
	case (e.VersionID == 0) == (e.FoodID == ""):
		return fmt.Errorf("entry %q: expected a saved version or a food, and not both", e.Title)
	}
	if _, err := ParseDate(string(e.Date)); err != nil {
		return fmt.Errorf("entry %q: %w", e.Title, err)
	}
	return nil
}

// Of are the entries of a member on the days given, in their order.
func Of(entries []Entry, memberID int64, days ...Date) []Entry {
	var out []Entry
	for _, e := range entries {
		if e.MemberID == memberID && slices.Contains(days, e.Date) {
			out = append(out, e)
		}
	}
	return out
}

// Sum is what entries hold together. Servings of one version, and grams of one food,
// are off by the same amount and move together; all else is taken as independent, also
// where two dishes hold the same food.
func Sum(entries []Entry) nutrient.Panel {
	return sum(entries, func(e Entry) nutrient.Panel { return e.Panel })
}

// Counted is Sum without what is free in the member's plan.
func Counted(entries []Entry) nutrient.Panel { return sum(entries, Entry.Costing) }

func sum(entries []Entry, of func(Entry) nutrient.Panel) nutrient.Panel {
	lines := make([]*nutrient.LinePanel, len(entries))
	for i, e := range entries {
		p := of(e)
		d := nutrient.Doubt{Factor: e.source()}
		for n := range p {
			d.Down[n], d.Up[n] = p[n].Down(), p[n].Range.Up()
		}
		lines[i] = &nutrient.LinePanel{Panel: p, Doubts: []nutrient.Doubt{d}}
	}
	return nutrient.Together(lines)
}

// source is what the entry's doubt is about.
func (e Entry) source() nutrient.Factor {
	if e.FoodID != "" {
		return nutrient.Factor{Of: nutrient.OfContent, ID: e.FoodID}
	}
	return nutrient.Factor{Of: nutrient.OfOther, ID: strconv.FormatInt(e.VersionID, 10)}
}

// Taken is what a member has eaten and plans to eat on a day, as a dish is then held
// against what that leaves (household.Had).
func Taken(entries []Entry, memberID int64, day Date) household.Eaten {
	mine := Of(entries, memberID, day)
	return household.Eaten{All: intake(Sum(mine)), Costing: intake(Counted(mine))}
}

func intake(p nutrient.Panel) (out household.Intake) {
	for n := range p {
		out[n] = household.Amount(p[n])
	}
	return out
}
