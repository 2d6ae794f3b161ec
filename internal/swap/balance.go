package swap

import (
	"potwright/internal/composition"
	"potwright/internal/foodmatch"
)

// Function is something an ingredient does for a dish.
type Function int

// The functions of a dish, in the order of every file, table and page.
const (
	Body Function = iota
	Liquid
	Creaminess
	Acidity
	Sweetness
	Salt
	Savour
	Leavening
	Binding
	FunctionCount int = iota
)

var functionNames = [FunctionCount]string{"body", "liquid", "creaminess", "acidity",
	"sweetness", "salt", "savour", "leavening", "binding"}

// Functions lists every function in order.
func Functions() []Function {
	fs := make([]Function, FunctionCount)
	for i := range fs {
		fs[i] = Function(i)
	}
	return fs
}

// String is the name used in files, such as "body".
func (f Function) String() string {
	if f < 0 || int(f) >= FunctionCount {
		return "function?"
	}
	return functionNames[f]
}

// ParseFunction finds a function by its name.
func ParseFunction(name string) (Function, bool) {
	for i, n := range functionNames {
		if n == name {
			return Function(i), true
		}
	}
	return 0, false
}

// Balance is one function of a dish: what foods bring of it, in Unit, and how
// far it may move.
type Balance struct {
	Function Function
	Unit     string // "g of flour", "mg of sodium"
	// Low and High bound after ÷ before; High 0 means no upper bound.
	Low, High float64
	// Enough is the amount in the dish, in Unit a serving, below which it does
	// not matter: a pot with less than that is not bound.
	Enough float64
	Why    string // the reason for the band
	Brings []Brings
}

// Brings says what 100 g of some foods bring of a function: the first entry
// that fits a food counts.
type Brings struct {
	Foods, Kinds, NotKinds, States, NotStates []string
	// Per100g is the amount in 100 g, where Factor is 0.
	Per100g float64
	// Factor times the food's own content of Nutrient, where it is not 0.
	Nutrient composition.Nutrient
	Factor   float64
	Source   string
}

func (e *Brings) fits(f *composition.Food) bool {
	if len(e.Foods) > 0 && has(e.Foods, f.Name) {
		return true
	}
	if len(e.Foods) > 0 && len(e.Kinds) == 0 {
		return false
	}
	return (len(e.Kinds) == 0 || overlap(e.Kinds, f.Kinds)) && !overlap(e.NotKinds, f.Kinds) &&
		(len(e.States) == 0 || overlap(e.States, f.States)) && !overlap(e.NotStates, f.States)
}

// Balances are the functions in order with their bands.
func (b *Book) Balances() [FunctionCount]Balance { return b.balances }

// Amounts are amounts of every function, each in its own unit.
type Amounts [FunctionCount]float64

// Add sums two amounts.
func (a Amounts) Add(o Amounts) Amounts {
	for f := range a {
		a[f] += o[f]
	}
	return a
}

// Contribution is what one food of a line brings of every function, at the
// middle of its weight. A nutrient that the food table does not know brings
// nothing: balance guides the taste of a dish, it is no statement on a limit.
func (b *Book) Contribution(item foodmatch.Item) Amounts {
	var out Amounts
	if item.Food == nil {
		return out
	}
	per100g := b.brings.Of(item.Food, func() Amounts { return b.in100g(item.Food) })
	for f := range per100g {
		out[f] = per100g[f] * item.Grams.Mid / 100
	}
	return out
}

// in100g is what 100 g of a food bring.
func (b *Book) in100g(food *composition.Food) Amounts {
	var out Amounts
	for f := range b.balances {
		out[f] = b.balances[f].in100g(food)
	}
	return out
}

// LineContribution sums the contributions of a line's foods; a skipped line
// brings nothing.
func (b *Book) LineContribution(line foodmatch.Matched) Amounts {
	var out Amounts
	if line.State == foodmatch.Skipped {
		return out
	}
	for _, it := range line.Items {
		out = out.Add(b.Contribution(it))
	}
	return out
}

func (x *Balance) in100g(f *composition.Food) float64 {
	for i := range x.Brings {
		e := &x.Brings[i]
		if !e.fits(f) {
			continue
		}
		if e.Factor == 0 {
			return e.Per100g
		}
		return f.Nutrients[e.Nutrient].Mid * e.Factor
	}
	return 0
}
