package keeping

import "potwright/internal/household"

// Topic is what an advice is about.
type Topic string

// Topics, in the order shown.
const (
	Cooking   Topic = "cooking"
	Cooling   Topic = "cooling"
	Storing   Topic = "storing"
	Reheating Topic = "reheating"
	Guests    Topic = "guests" // who should not eat it as it is
)

// Topics lists the topics in the order shown.
func Topics() []Topic { return []Topic{Cooking, Cooling, Storing, Reheating, Guests} }

// Heat is which lines a rule looks at, by what the method does to them.
type Heat string

// Heats of a line.
const (
	AnyHeat    Heat = ""
	OnlyHeated Heat = "heated"
	OnlyRaw    Heat = "unheated"
)

// Rule is one piece of advice as written in rules/keeping.
type Rule struct {
	ID    string
	Topic Topic
	// Signs of a line that calls for it; none where any dish does.
	household.Signs
	// Heat is which of those lines count.
	Heat Heat
	// Steps are words of which some step must hold one, NotSteps words of which none
	// may.
	Steps, NotSteps []string
	// SlowCooker, Boiled and DegreesF say when it is needed: SlowCooker only where
	// the dish is made in one; Boiled in no case where the method boils for so many
	// minutes; DegreesF in no case where it names that inside temperature or more.
	SlowCooker bool
	Boiled     float64
	DegreesF   float64
	// Instead are ids of rules that say the same more closely: where one of them
	// speaks, this one does not.
	Instead []string
	// Fridge and Freezer are set for a rule about storing.
	Fridge  *Span // days
	Freezer *Span // months; nil where it does not freeze well
	Say     string
	Reason  string
	Source  string
	// Examples are dishes that must and must not call for it.
	Examples []Example
	Line     int // where the rule stands in its file
}

// Span is how long, from Least to Most.
type Span struct{ Least, Most float64 }

// Example is a dish of a few lines that must call for a rule, or must not.
type Example struct {
	Lines  []string
	Method string
	Speaks bool
	Line   int // where the example stands in its file
}

// Advice is what a rule says of a dish.
type Advice struct {
	Rule   string
	Topic  Topic
	Text   string
	Reason string
	Source string
	// Lines and Steps are the indices it comes from; both empty where it holds for
	// any dish.
	Lines, Steps []int
	// Fridge, in days, and Freezer, in months, are how long the dish keeps, for an
	// advice about storing; nil for others and where it does not freeze well.
	Fridge, Freezer *Span
}

// Reminder stands with every advice.
const Reminder = "Follow your local food-safety rules. This is advice by ingredient and method, not a promise that a dish is safe."
