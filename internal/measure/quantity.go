// Package measure is kitchen quantities and units, exact: 1/3 cup stays 1/3.
package measure

// Ratio is an exact non-negative number; Den is never 0 in a valid Ratio.
type Ratio struct{ Num, Den int64 }

// Quantity is how many: one number (Low == High) or a range such as "2 to 3".
type Quantity struct {
	Low, High Ratio
	// About is set by "about", "heaping", "scant" and the like.
	About bool
}

// Kind is what a unit measures.
type Kind int

// Kinds of unit.
const (
	Count  Kind = iota // each, clove, slice, stalk, head, bunch, ...
	Mass               // g, kg, oz, lb
	Volume             // tsp, tbsp, cup, fl oz, pint, quart, ml, l, dash, pinch
	Pack               // can, jar, package, carton, bottle, bag, envelope, stick
)

// Unit is a unit in normal form.
type Unit struct {
	// Name is singular: "cup", "tbsp", "oz", "can", "clove", "each".
	Name string
	Kind Kind
	// Grams of one unit for Mass, millilitres for Volume, else 0.
	Size float64
}
