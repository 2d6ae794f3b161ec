package measure

import "math"

// offMeasure is how far, as a share, a kitchen measure may be off before smaller
// spoons are taken. A design choice.
const offMeasure = 0.03

// Scaled is a quantity of a unit times k > 0, as Sized measures it. A range stays
// one, in its own unit.
func Scaled(q Quantity, u Unit, k float64) (Quantity, Unit) {
	if k == 1 {
		return q, u
	}
	if q.IsRange() {
		low, high := Nearest(sizeOf(q.Low.Float()*k, u), u), Nearest(sizeOf(q.High.Float()*k, u), u)
		return Quantity{Low: low.Low, High: high.High, About: q.About}, u
	}
	out, unit := Sized(sizeOf(q.Mid()*k, u), u)
	out.About = q.About
	return out, unit
}

// sizeOf is n units in millilitres or grams; n where the unit has no size.
func sizeOf(n float64, u Unit) float64 {
	if u.Size > 0 {
		return n * u.Size
	}
	return n
}

// Sized is so many millilitres, grams or, for a unit without a size, units, as a
// kitchen can measure it: in the unit where that is near enough, else in smaller
// spoons, ounces or grams.
func Sized(size float64, u Unit) (Quantity, Unit) {
	q := Nearest(size, u)
	scarce := u.Name == "tbsp" && q.Low.Float() < 1 || u.Name == "cup" && q.Low.Float() < 0.25 // no kitchen has an eighth of a cup
	if u.Size == 0 || u.IsMetric() || !scarce && near(q, u, size) {
		return q, u
	}
	switch u.Kind {
	case Volume:
		return Spoonfuls(size, US)
	case Mass:
		return Weighed(size, u)
	}
	return q, u
}

// Spoonfuls is the kitchen measure of so many millilitres in the cups and spoons
// of a system: cups where they are near enough, else as many smaller spoons as
// one cares to count.
func Spoonfuls(ml float64, s System) (Quantity, Unit) {
	q, u := SpoonsIn(ml, s)
	for _, smaller := range [...]struct {
		name string
		most float64 // that one counts
	}{{"tbsp", 12.1}, {"tsp", 4.1}} {
		v := bySpelling[smaller.name].In(s)
		if near(q, u, ml) || ml > smaller.most*v.Size {
			continue
		}
		if n := Nearest(ml, v); math.Abs(n.Mid()*v.Size-ml) < math.Abs(q.Mid()*u.Size-ml) {
			q, u = n, v
		}
	}
	return q, u
}

// near reports whether a quantity of a unit is near enough to a size in
// millilitres or grams.
func near(q Quantity, u Unit, size float64) bool {
	return math.Abs(q.Mid()*u.Size-size) <= offMeasure*size
}

// Weighed is so many grams in a unit of weight, in ounces where that is too
// coarse, and in grams where ounces are.
func Weighed(grams float64, u Unit) (Quantity, Unit) {
	if q := Nearest(grams, u); u.IsMetric() || near(q, u, grams) {
		return q, u
	}
	if oz := bySpelling["oz"]; grams >= oz.Size {
		return Nearest(grams, oz), oz
	}
	return Scales(grams)
}
