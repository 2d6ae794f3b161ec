package kitchen

import (
	"potwright/internal/cooking"
	"potwright/internal/diagnostic"
	"potwright/internal/household"
	"potwright/internal/keeping"
	"potwright/internal/swap"
	"potwright/internal/taste"
)

// RuleSort is what an entry of the rulebook is about.
type RuleSort string

// Sorts of entries.
const (
	SwapRule    RuleSort = "swap"      // what may be done with a line
	LeftAlone   RuleSort = "refuse"    // dishes that are never rewritten
	DishBalance RuleSort = "balance"   // what foods do for a dish
	AvoidedFood RuleSort = "avoid"     // what people avoid
	Texture     RuleSort = "texture"   // levels and features
	HandLoad    RuleSort = "hands"     // what loads the cook's hands
	CautionRule RuleSort = "caution"   // what a member was told to watch
	KnownLimit  RuleSort = "limit"     // published limits
	KnownPlan   RuleSort = "plan"      // published allowance plans
	Retention   RuleSort = "retention" // what heat leaves of nutrients
	YieldFactor RuleSort = "yield"     // what becomes of the weight

	SaltFall      RuleSort = "taste"   // how far salt may fall
	KeepingAdvice RuleSort = "keeping" // how dishes are kept and made safely
)

// RuleKey names one entry of the rulebook.
type RuleKey struct {
	Sort RuleSort
	ID   string
}

// RuleOrigin is where an entry stands.
type RuleOrigin struct {
	// Folder is the folder of own rules as people know it, "" for a built-in one.
	Folder string
	File   string
	Line   int
	// Theme is what its file is about, "" where the file does not say.
	Theme string
	// Replaces is set where it stands in for a built-in entry of the same id.
	Replaces bool
}

// Rulebook is every rule in force, where each stands, and what is wrong with
// the files of the kitchen's own. Entries with a fault are not in force.
type Rulebook struct {
	Swaps   *swap.Book
	Needs   *household.Needs
	Cooking *cooking.Book
	Taste   *taste.Book
	Keeping *keeping.Book
	Origins map[RuleKey]RuleOrigin
	Faults  diagnostic.Faults
}
