package measure

import "strings"

// Sizes in millilitres and grams. US customary and imperial units are exact by
// definition (NIST Handbook 44, Appendix C: a US gallon is 231 cubic inches, a
// pound 0.45359237 kg; the imperial gallon is 4.54609 l).
const (
	teaspoon   = 4.92892159375
	tablespoon = 3 * teaspoon
	fluidOunce = 2 * tablespoon
	cup        = 8 * fluidOunce
	pint       = 2 * cup
	quart      = 4 * cup
	gallon     = 16 * cup
	ounce      = 28.349523125
	pound      = 16 * ounce
)

// known is every unit with the ways it is written. The first spelling is the
// plural used for writing. Dash, pinch and smidgen are those of spoon sets
// (1/8, 1/16 and 1/32 teaspoon: common practice, no standard); a splash or a
// drizzle is about half a tablespoon (common practice, no source).
var known = []struct {
	unit      Unit
	spellings []string
}{
	{Unit{"tsp", Volume, teaspoon}, []string{"tsp", "teaspoons", "teaspoon", "tsps", "tsp.", "tspn", "teasp"}},
	{Unit{"tbsp", Volume, tablespoon}, []string{"tbsp", "tablespoons", "tablespoon", "tbsps", "tbs", "tbl", "tblsp", "tbsn"}},
	{Unit{"fl oz", Volume, fluidOunce}, []string{"fl oz", "fluid ounces", "fluid ounce", "fluid oz", "fl. oz", "fl ounces", "fl ounce", "us fluid ounce", "us fluid ounces", "floz"}},
	{Unit{"cup", Volume, cup}, []string{"cups", "cup", "c"}},
	{Unit{"pint", Volume, pint}, []string{"pints", "pint", "pt", "pts"}},
	{Unit{"quart", Volume, quart}, []string{"quarts", "quart", "qt", "qts"}},
	{Unit{"gallon", Volume, gallon}, []string{"gallons", "gallon", "gal"}},
	{Unit{"ml", Volume, 1}, []string{"ml", "millilitres", "millilitre", "milliliters", "milliliter", "mls", "cc"}},
	{Unit{"cl", Volume, 10}, []string{"cl", "centilitres", "centilitre"}},
	{Unit{"dl", Volume, 100}, []string{"dl", "decilitres", "decilitre", "deciliters", "deciliter"}},
	{Unit{"l", Volume, 1000}, []string{"l", "litres", "litre", "liters", "liter", "ltr"}},
	{Unit{"dessertspoon", Volume, 10}, []string{"dessertspoons", "dessertspoon", "dsp"}},
	{Unit{"dash", Volume, teaspoon / 8}, []string{"dashes", "dash", "dashs"}},
	{Unit{"pinch", Volume, teaspoon / 16}, []string{"pinches", "pinch"}},
	{Unit{"smidgen", Volume, teaspoon / 32}, []string{"smidgens", "smidgen", "smidgeon"}},
	{Unit{"drop", Volume, teaspoon / 96}, []string{"drops", "drop"}},
	{Unit{"splash", Volume, 1.5 * teaspoon}, []string{"splashes", "splash"}},
	{Unit{"drizzle", Volume, 1.5 * teaspoon}, []string{"drizzles", "drizzle"}},
	{Unit{"g", Mass, 1}, []string{"g", "grams", "gram", "gm", "gms", "gr", "grammes", "gramme"}},
	{Unit{"kg", Mass, 1000}, []string{"kg", "kilograms", "kilogram", "kilos", "kilo", "kgs"}},
	{Unit{"mg", Mass, 0.001}, []string{"mg", "milligrams", "milligram"}},
	{Unit{"oz", Mass, ounce}, []string{"oz", "ounces", "ounce", "ozs"}},
	{Unit{"lb", Mass, pound}, []string{"lb", "pounds", "pound", "lbs", "#"}},

	{Unit{"can", Pack, 0}, []string{"cans", "can", "tins", "tin"}},
	{Unit{"jar", Pack, 0}, []string{"jars", "jar"}},
	{Unit{"package", Pack, 0}, []string{"packages", "package", "pkg", "pkgs", "pkg.", "pack", "packs"}},
	{Unit{"carton", Pack, 0}, []string{"cartons", "carton"}},
	{Unit{"bottle", Pack, 0}, []string{"bottles", "bottle"}},
	{Unit{"bag", Pack, 0}, []string{"bags", "bag"}},
	{Unit{"box", Pack, 0}, []string{"boxes", "box"}},
	{Unit{"sleeve", Pack, 0}, []string{"sleeves", "sleeve"}},
	{Unit{"envelope", Pack, 0}, []string{"envelopes", "envelope", "packets", "packet", "sachets", "sachet"}},
	{Unit{"stick", Pack, 0}, []string{"sticks", "stick"}},
	{Unit{"container", Pack, 0}, []string{"containers", "container", "tubs", "tub", "pots", "pot"}},
	{Unit{"loaf", Pack, 0}, []string{"loaves", "loaf"}},
	{Unit{"cube", Pack, 0}, []string{"cubes", "cube"}},
	{Unit{"block", Pack, 0}, []string{"blocks", "block"}},
	{Unit{"tube", Pack, 0}, []string{"tubes", "tube"}},

	{Unit{"each", Count, 0}, []string{"each", "ea"}},
	{Unit{"clove", Count, 0}, []string{"cloves", "clove"}},
	{Unit{"slice", Count, 0}, []string{"slices", "slice"}},
	{Unit{"stalk", Count, 0}, []string{"stalks", "stalk", "ribs", "rib"}},
	{Unit{"head", Count, 0}, []string{"heads", "head"}},
	{Unit{"bulb", Count, 0}, []string{"bulbs", "bulb"}},
	{Unit{"bunch", Count, 0}, []string{"bunches", "bunch"}},
	{Unit{"sprig", Count, 0}, []string{"sprigs", "sprig"}},
	{Unit{"ear", Count, 0}, []string{"ears", "ear"}},
	{Unit{"leaf", Count, 0}, []string{"leaves", "leaf"}},
	{Unit{"fillet", Count, 0}, []string{"fillets", "fillet", "filets", "filet"}},
	{Unit{"piece", Count, 0}, []string{"pieces", "piece", "pcs", "pc"}},
	{Unit{"strip", Count, 0}, []string{"strips", "strip", "rashers", "rasher"}},
	{Unit{"wedge", Count, 0}, []string{"wedges", "wedge"}},
	{Unit{"sheet", Count, 0}, []string{"sheets", "sheet"}},
	{Unit{"inch", Count, 0}, []string{"inches", "inch", "in."}},
	{Unit{"cm", Count, 0}, []string{"cm", "centimetres", "centimetre", "centimeters", "centimeter"}},
	{Unit{"knob", Count, 0}, []string{"knobs", "knob", "thumb", "thumbs", "thumb-sized", "thumb-size"}},
	{Unit{"handful", Count, 0}, []string{"handfuls", "handful"}},
	{Unit{"scoop", Count, 0}, []string{"scoops", "scoop"}},
	{Unit{"rack", Count, 0}, []string{"racks", "rack"}},
	{Unit{"link", Count, 0}, []string{"links", "link"}},
	{Unit{"patty", Count, 0}, []string{"patties", "patty"}},
	{Unit{"spear", Count, 0}, []string{"spears", "spear"}},
	{Unit{"square", Count, 0}, []string{"squares", "square"}},
	{Unit{"pat", Count, 0}, []string{"pats", "pat"}},
	{Unit{"spray", Count, 0}, []string{"sprays", "spray"}},
	{Unit{"serving", Count, 0}, []string{"servings", "serving"}},
	{Unit{"dozen", Count, 0}, []string{"dozen"}},
}

var (
	bySpelling = indexSpellings()
	plurals    = indexPlurals()
)

func indexSpellings() map[string]Unit {
	m := map[string]Unit{}
	for _, k := range known {
		m[k.unit.Name] = k.unit
		for _, s := range k.spellings {
			m[s] = k.unit
		}
	}
	return m
}

func indexPlurals() map[string]string {
	m := map[string]string{}
	for _, k := range known {
		m[k.unit.Name] = k.spellings[0]
	}
	return m
}

// FindUnit finds a unit by any of its spellings, in US sizes. A single "T" is a
// tablespoon, "t" a teaspoon; otherwise case does not matter. A full stop at the
// end is ignored.
func FindUnit(spelling string) (Unit, bool) { return FindUnitIn(spelling, US) }

// FindUnitIn is FindUnit with the sizes of a system.
func FindUnitIn(spelling string, system System) (Unit, bool) {
	u, ok := lookUp(spelling)
	if !ok {
		return u, false
	}
	return u.In(system), true
}

func lookUp(spelling string) (Unit, bool) {
	switch strings.TrimSuffix(spelling, ".") {
	case "T", "Tb", "TB":
		return bySpelling["tbsp"], true
	case "t":
		return bySpelling["tsp"], true
	}
	low := strings.ToLower(spelling)
	if u, ok := bySpelling[low]; ok {
		return u, true
	}
	u, ok := bySpelling[strings.TrimSuffix(low, ".")]
	return u, ok
}

// Each is the unit of things that are simply counted.
func Each() Unit { return Unit{Name: "each", Kind: Count} }

// IsMetric reports whether amounts of the unit are written as decimals.
func (u Unit) IsMetric() bool {
	switch u.Name {
	case "g", "kg", "mg", "ml", "cl", "dl", "l":
		return true
	}
	return false
}

// Written is the unit's word for a quantity: "cup" up to 1, "cups" above it.
func (u Unit) Written(q Quantity) string {
	if q.High.Float() > 1 {
		if p, ok := plurals[u.Name]; ok {
			return p
		}
	}
	return u.Name
}
