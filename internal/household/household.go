// Package household is the people at one table: limits, allowance plans,
// avoidances, texture and hand needs; and what a portion means for each.
package household

import (
	"potwright/internal/composition"
	"potwright/internal/measure"
)

// Household is the people who eat together.
type Household struct {
	ID      int64    `json:"-"`
	Name    string   `json:"name"`
	Cook    Cook     `json:"cook"`
	Members []Member `json:"members"`
	// MealShare is the part of a day's limit that one meal may use, 0..1;
	// 0 means DefaultMealShare.
	MealShare float64 `json:"meal_share"`
	// Measures is whose cups and spoons the household cooks with.
	Measures measure.System `json:"measures"`
	// Equipment is what the kitchen has to cook with.
	Equipment Equipment `json:"equipment"`
}

// DefaultMealShare is used where the household set none: a third of a day,
// three meals alike. A design choice, not a published figure; pages say so.
const DefaultMealShare = 1.0 / 3

// Cook is the one who cooks.
type Cook struct {
	// Spare are the hand loads to avoid: fine_knife_work, grip, pinch,
	// tight_twist, lift, long_stirring, pour_hot_liquid.
	Spare []string `json:"spare"`
	// LiftLimitKg is the heaviest thing to lift, kg; 0 where there is none.
	LiftLimitKg float64 `json:"lift_limit_kg"`
}

// Member is one person at the table.
type Member struct {
	ID     int64   `json:"id"`
	Name   string  `json:"name"`
	Age    int     `json:"age"` // years; 0 where not told
	Limits []Limit `json:"limits"`
	Plan   *Plan   `json:"plan"`
	// Avoid are allergens, kinds or foods: "milk", "pork", "food:celery".
	Avoid []string `json:"avoid"`
	// Dislikes are written like Avoid, and only told: no swap brings them in.
	Dislikes []string `json:"dislikes"`
	Texture  *Texture `json:"texture"`
	// Cautions are ids of what a pharmacist or clinician said to watch: "grapefruit".
	Cautions []string `json:"cautions"`
	// Portion is the usual share of a serving, 1 = one serving.
	Portion float64 `json:"portion"`
	// PortionMin and PortionMax are what the member accepts; equal to Portion
	// where it must not move. 0 means Portion.
	PortionMin float64 `json:"portion_min"`
	PortionMax float64 `json:"portion_max"`
	// Had is what the member had before the dish in question; nil for nothing.
	Had *Had `json:"-"`
}

// Period is what a limit counts over.
type Period string

// Periods of a limit.
const (
	PerServing Period = "serving"
	PerMeal    Period = "meal"
	PerDay     Period = "day"
)

// SetBy is who set a limit.
type SetBy string

// Who may set a limit. A clinician's limit must hold at the high end of the
// range, others at the middle.
const (
	Clinician SetBy = "clinician"
	Guidance  SetBy = "guidance"
	OwnChoice SetBy = "own_choice"
)

// Limit bounds one nutrient, in the nutrient's unit.
type Limit struct {
	Nutrient composition.Nutrient `json:"nutrient"`
	AtMost   *float64             `json:"at_most,omitempty"`
	AtLeast  *float64             `json:"at_least,omitempty"`
	Per      Period               `json:"per"`
	SetBy    SetBy                `json:"set_by"`
}

// Plan is an allowance plan the household defines itself: a portion costs the
// weighted sum of its nutrients, rounded half up to a multiple of RoundTo, at
// least Floor. Foods whose kind is in Free cost nothing.
type Plan struct {
	// Unit is what the household calls one unit of the allowance.
	Unit      string                           `json:"unit"`
	Weights   map[composition.Nutrient]float64 `json:"weights"` // units per kcal, g, mg or µg
	RoundTo   float64                          `json:"round_to"`
	Floor     float64                          `json:"floor"`
	Allowance float64                          `json:"allowance"`
	Per       Period                           `json:"per"`
	Free      []string                         `json:"free,omitempty"`
}

// PlateShare is the part of a day that one meal may use: MealShare, or
// DefaultMealShare where none is set.
func (h Household) PlateShare() float64 {
	if h.MealShare == 0 {
		return DefaultMealShare
	}
	return h.MealShare
}

// Portions are the member's usual share of a serving and the least and most
// that they accept.
func (m Member) Portions() (usual, least, most float64) {
	usual, least, most = m.Portion, m.PortionMin, m.PortionMax
	if usual == 0 {
		usual = 1
	}
	if least == 0 {
		least = usual
	}
	if most == 0 {
		most = usual
	}
	return usual, least, most
}

// WithPortion is the member with another usual portion; what they accept stretches to
// hold it.
func (m Member) WithPortion(portion float64) Member {
	if usual, _, _ := m.Portions(); portion == usual {
		return m
	}
	m.Portion = portion
	if m.PortionMin > 0 {
		m.PortionMin = min(m.PortionMin, portion)
	}
	if m.PortionMax > 0 {
		m.PortionMax = max(m.PortionMax, portion)
	}
	return m
}

// Texture is a need set by a swallowing specialist.
type Texture struct {
	// Level is the IDDSI level 3..7.
	Level int `json:"level"`
	// Avoid are features: stringy, husks, hard, crumbly, mixed_thin_and_thick, …
	Avoid []string `json:"avoid,omitempty"`
}
