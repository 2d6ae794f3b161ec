package cooking

import "potwright/internal/spread"

// Treatment is how a food is cooked, as far as that decides what stays of it.
type Treatment string

// Treatments.
const (
	Raw              Treatment = "raw"
	Boiled           Treatment = "boiled and drained"
	BoiledBaked      Treatment = "boiled, drained and baked"
	Stewed           Treatment = "stewed" // boiled or simmered, braised or microwaved, its liquid eaten
	Baked            Treatment = "baked"  // alone: roasted, its drippings left behind
	BakedInDish      Treatment = "baked in the dish"
	Grilled          Treatment = "grilled"
	Fried            Treatment = "fried"
	Steamed          Treatment = "steamed"
	TreatmentUnknown Treatment = "" // the method does not tell
)

// overnightInMinutes is what counts as a night. A design figure.
const overnightInMinutes = 8 * 60

// Treatments are those that take something, in a fixed order.
func Treatments() []Treatment {
	return []Treatment{Boiled, BoiledBaked, Stewed, Baked, BakedInDish, Grilled, Fried, Steamed}
}

// like is the treatment that stands in where a food has no factor of its own
// for one.
var like = map[Treatment]Treatment{BoiledBaked: Boiled, BakedInDish: Baked, Grilled: Baked, Steamed: Stewed}

// Line is what the method does to one line.
type Line struct {
	Treatment Treatment
	// Sure is false where the treatment is the dish's and the method does not
	// name the line, or names it so that it may mean another.
	Sure bool
	// Low and High are the minutes of heat the line is told to get; both 0 where
	// there is heat and no time.
	Low, High float64
	// FatDrained is set where the fat that cooks out is, or may be, poured or
	// dripped off; FatSure where it is.
	FatDrained, FatSure bool
	// Away is the share of the line that is poured off, and why.
	Away    spread.Range
	AwayFor string
	// TakesUp is set where the food takes up water that is no line.
	TakesUp bool
	// Flamed and Overnight are what befalls alcohol without time on the stove.
	Flamed, Overnight bool
}

// Heated reports whether the line is known to get heat.
func (l Line) Heated() bool { return l.Treatment != Raw && l.Treatment != TreatmentUnknown }

// Plan is what the method does to every line of a dish.
type Plan struct {
	// Told is false where there is no method.
	Told  bool
	Lines []Line
	// SlowCooker is set where something is cooked in one, and Boiled is the longest boil
	// that the method tells, in minutes.
	SlowCooker bool
	Boiled     float64
	// Evaporated is the water, in grams, that the pot gives off; nil where not
	// told.
	Evaporated *spread.Range
	// Notes say what was taken for granted, for people.
	Notes []string
}

// Of is the plan of one line; a line that is none of the plan's is unknown.
func (p Plan) Of(line int) Line {
	if line < 0 || line >= len(p.Lines) {
		return Line{}
	}
	return p.Lines[line]
}
