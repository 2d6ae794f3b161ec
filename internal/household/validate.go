package household

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"potwright/internal/access"
	"potwright/internal/composition"
	"potwright/internal/diagnostic"
)

// MaxPortion is the largest share of a serving that is taken for one: more is
// a slip of the pen. A design choice.
const MaxPortion = 5

// Texture levels of the IDDSI framework that food has.
const (
	MinTextureLevel = 3
	MaxTextureLevel = 7
)

// Loads are the hand loads a cook may spare, in the order shown.
func Loads() []string {
	return []string{"grip", "pinch", "tight_twist", "lift", "fine_knife_work", "long_stirring", "pour_hot_liquid"}
}

// checks collects the faults of one household.
type checks struct {
	needs  *Needs
	faults diagnostic.Faults
}

func (c *checks) add(field, problem, expected string) {
	c.faults = append(c.faults, diagnostic.Fault{Field: field, Problem: problem, Expected: expected})
}

// Validate reports everything wrong with the household as diagnostic.Faults, or
// nil. Words for avoidances and texture features are checked against needs;
// with nil needs they are taken as they are.
func (h Household) Validate(needs *Needs) error {
	c := &checks{needs: needs}
	c.settings(h)
	if len(h.Members) == 0 {
		c.add("members", "nobody is at the table", "at least one member")
	}
	c.atMost("members", len(h.Members), MostMembers)
	seen := map[string]int{}
	for i, m := range h.Members {
		field := fmt.Sprintf("members[%d]", i)
		name := strings.ToLower(strings.TrimSpace(m.Name))
		if first, twice := seen[name]; twice && name != "" {
			c.add(field+".name", fmt.Sprintf("name %q is already taken by members[%d]", m.Name, first), "another name")
		}
		seen[name] = i
		c.member(field, m)
	}
	return c.faults.Err()
}

// ValidateSettings is Validate without the members: of a household that nobody is in yet.
func (h Household) ValidateSettings() error {
	c := &checks{}
	c.settings(h)
	return c.faults.Err()
}

func (c *checks) settings(h Household) {
	c.name("household", "the household", h.Name, "Harbour Street")
	if h.MealShare != 0 && !(h.MealShare > 0 && h.MealShare <= 1) {
		c.add("meal_share", fmt.Sprintf("meal share %v is out of range", h.MealShare), "a share of the day above 0 and at most 1")
	}
	c.cook(h.Cook)
	c.equipment(h.Equipment)
}

// Bounds of what a household says: more is a slip of the pen. Design choices.
const (
	MostName    = access.MostName // characters
	MostAmount  = 1_000_000       // of any nutrient, in its unit, or of a plan's units
	MostLiftKg  = 100
	MostStep    = 1000 // of a plan's rounding step and floor
	MostWeight  = 1000 // units of a plan for one of a nutrient's unit, either way
	MostAge     = 130
	MostMembers = 100
	// MostListed is how many limits, avoidances, dislikes or cautions a member has.
	MostListed = 200
)

func (c *checks) name(field, whose, name, example string) {
	switch n := utf8.RuneCountInString(name); {
	case strings.TrimSpace(name) == "":
		c.add(field, whose+" has no name", "a name such as "+example)
	case n > MostName:
		c.add(field, fmt.Sprintf("the name has %d characters", n), fmt.Sprintf("at most %d", MostName))
	}
}

func (c *checks) cook(k Cook) {
	for i, load := range k.Spare {
		c.oneOf(fmt.Sprintf("cook.spare[%d]", i), "hand load", load, Loads())
	}
	c.within("cook.lift_limit_kg", "lift limit", k.LiftLimitKg, MostLiftKg)
}

func (c *checks) member(field string, m Member) {
	c.name(field+".name", "the member", m.Name, "Ana")
	if m.Age < 0 || m.Age > MostAge {
		c.add(field+".age", fmt.Sprintf("age %d is out of range", m.Age), fmt.Sprintf("whole years from 0 to %d", MostAge))
	}
	c.atMost(field+".limits", len(m.Limits), MostListed)
	c.atMost(field+".avoid", len(m.Avoid), MostListed)
	c.atMost(field+".dislikes", len(m.Dislikes), MostListed)
	c.atMost(field+".cautions", len(m.Cautions), MostListed)
	for i, l := range m.Limits {
		c.limit(fmt.Sprintf("%s.limits[%d]", field, i), l)
	}
	c.portions(field, m)
	if m.Plan != nil {
		c.plan(field+".plan", *m.Plan)
	}
	for i, key := range m.Avoid {
		c.avoid(fmt.Sprintf("%s.avoid[%d]", field, i), key)
	}
	for i, key := range m.Dislikes {
		c.avoid(fmt.Sprintf("%s.dislikes[%d]", field, i), key)
	}
	for i, key := range m.Cautions {
		c.caution(fmt.Sprintf("%s.cautions[%d]", field, i), key)
	}
	if m.Texture != nil {
		c.texture(field+".texture", *m.Texture)
	}
}

func (c *checks) limit(field string, l Limit) {
	if l.Nutrient < 0 || int(l.Nutrient) >= composition.NutrientCount {
		c.add(field+".nutrient", fmt.Sprintf("unknown nutrient %d", int(l.Nutrient)), "a nutrient of the food table")
	}
	if l.AtMost == nil && l.AtLeast == nil {
		c.add(field, "the limit has no figure", "at_most or at_least")
	}
	ok := true
	if l.AtMost != nil {
		ok = c.within(field+".at_most", "at_most", *l.AtMost, MostAmount)
	}
	if l.AtLeast != nil {
		ok = c.within(field+".at_least", "at_least", *l.AtLeast, MostAmount) && ok
	}
	if ok && l.AtMost != nil && l.AtLeast != nil && *l.AtMost < *l.AtLeast {
		c.add(field, fmt.Sprintf("at_most %v is below at_least %v", *l.AtMost, *l.AtLeast), "at_most no smaller than at_least")
	}
	c.period(field+".per", l.Per)
	c.oneOf(field+".set_by", "source of a limit", string(l.SetBy), []string{string(Clinician), string(Guidance), string(OwnChoice)})
}

func (c *checks) period(field string, p Period) {
	c.oneOf(field, "period", string(p), []string{string(PerServing), string(PerMeal), string(PerDay)})
}

func (c *checks) portions(field string, m Member) {
	for _, p := range []struct {
		field string
		value float64
	}{{"portion", m.Portion}, {"portion_min", m.PortionMin}, {"portion_max", m.PortionMax}} {
		if p.value != 0 && !(p.value > 0 && p.value <= MaxPortion) {
			c.add(field+"."+p.field, fmt.Sprintf("portion %v is out of range", p.value), fmt.Sprintf("a share of a serving above 0 and at most %d", MaxPortion))
		}
	}
	usual, least, most := m.Portions()
	switch {
	case least > most:
		c.add(field+".portion_min", fmt.Sprintf("the least portion %v is above the most, %v", least, most), "portion_min no larger than portion_max")
	case usual < least || usual > most:
		c.add(field+".portion", fmt.Sprintf("the usual portion %v is outside %v to %v", usual, least, most), "a portion from portion_min to portion_max")
	}
}

func (c *checks) plan(field string, p Plan) {
	c.name(field+".unit", "the plan's unit", p.Unit, "choice")
	if len(p.Weights) == 0 {
		c.add(field+".weights", "the plan weighs no nutrient", "a weight for at least one nutrient")
	}
	for _, n := range composition.Nutrients() {
		if w, used := p.Weights[n]; used && !(math.Abs(w) <= MostWeight) {
			c.add(field+".weights."+n.Key(), fmt.Sprintf("weight %v is out of range", w), fmt.Sprintf("units of the plan per %s, at most %d", n.Unit(), MostWeight))
		}
	}
	c.within(field+".round_to", "round_to", p.RoundTo, MostStep)
	c.within(field+".floor", "floor", p.Floor, MostStep)
	c.within(field+".allowance", "allowance", p.Allowance, MostAmount)
	c.period(field+".per", p.Per)
}

func (c *checks) avoid(field, key string) {
	if strings.TrimSpace(key) == "" {
		c.add(field, "empty avoidance", "an avoidance such as milk, food:celery or kind:cured_meat")
		return
	}
	if c.needs == nil {
		return
	}
	if _, err := c.needs.Avoidance(key); err != nil {
		c.add(field, err.Error(), c.needs.nearestAvoidance(key))
	}
}

func (c *checks) caution(field, key string) {
	if c.needs == nil {
		return
	}
	if _, ok := c.needs.Caution(key); !ok {
		c.add(field, fmt.Sprintf("unknown caution %q", key), c.needs.nearestCaution(key))
	}
}

func (c *checks) texture(field string, t Texture) {
	if t.Level < MinTextureLevel || t.Level > MaxTextureLevel {
		c.add(field+".level", fmt.Sprintf("texture level %d is out of range", t.Level), "an IDDSI level from 3 to 7")
	}
	if c.needs == nil {
		return
	}
	for i, f := range t.Avoid {
		c.oneOf(fmt.Sprintf("%s.avoid[%d]", field, i), "texture feature", f, c.needs.FeatureIDs())
	}
}

func (c *checks) oneOf(field, what, word string, allowed []string) {
	if slices.Contains(allowed, word) {
		return
	}
	expected := "one of " + strings.Join(allowed, ", ")
	if near := diagnostic.Nearest(word, allowed); near != "" {
		expected = fmt.Sprintf("%q", near)
	}
	c.add(field, fmt.Sprintf("unknown %s %q", what, word), expected)
}

// within reports whether x is a number from 0 to most, and notes it where it is not.
func (c *checks) within(field, what string, x, most float64) bool {
	if x >= 0 && x <= most {
		return true
	}
	c.add(field, fmt.Sprintf("%s %v is out of range", what, x), "a number from 0 to "+strconv.FormatFloat(most, 'f', -1, 64))
	return false
}

// atMost notes a list that is longer than any that is meant.
func (c *checks) atMost(field string, n, most int) {
	if n > most {
		c.add(field, fmt.Sprintf("there are %d of them", n), fmt.Sprintf("at most %d", most))
	}
}
