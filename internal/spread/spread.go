// Package spread is an amount that is not known exactly: low, mid and high of
// a central 90 % range. It adds, scales, multiplies and compares such amounts
// with a bound. Units belong to the caller.
package spread

import "math"

// Z90 is the standard normal quantile that leaves 5 % above it: the half-width
// of a central 90 % range in standard deviations.
const Z90 = 1.6448536269514722

// Range is a central 90 % range around a best estimate. Low <= Mid <= High and
// Low >= 0 for every Range made by this package from non-negative parts.
type Range struct {
	Low  float64 `json:"low"`
	Mid  float64 `json:"mid"`
	High float64 `json:"high"`
}

// Exact is an amount without doubt.
func Exact(x float64) Range { return Range{x, x, x} }

// Between orders the three numbers given and keeps them non-negative.
func Between(low, mid, high float64) Range {
	mid = max(0, mid)
	return Range{max(0, min(low, mid)), mid, max(mid, high)}
}

// FromSD is mid with a standard deviation, as a 90 % range cut off at zero.
func FromSD(mid, sd float64) Range {
	return Between(mid-Z90*sd, mid, mid+Z90*sd)
}

// Relative is mid with a relative half-width, such as 0.1 for 10 %.
func Relative(mid, half float64) Range {
	return Between(mid*(1-half), mid, mid*(1+half))
}

// Down and Up are the two half-widths.
func (r Range) Down() float64 { return r.Mid - r.Low }

// Up is the distance from the best estimate to the high end.
func (r Range) Up() float64 { return r.High - r.Mid }

// Scale multiplies the whole range by a non-negative factor.
func (r Range) Scale(k float64) Range { return Range{r.Low * k, r.Mid * k, r.High * k} }

// Add sums two independent amounts: half-widths add in quadrature, each side
// for itself.
func (r Range) Add(o Range) Range {
	return Between(r.Mid+o.Mid-math.Hypot(r.Down(), o.Down()), r.Mid+o.Mid,
		r.Mid+o.Mid+math.Hypot(r.Up(), o.Up()))
}

// Times multiplies two independent amounts: relative half-widths add in
// quadrature.
func (r Range) Times(o Range) Range {
	mid := r.Mid * o.Mid
	return Between(mid-math.Hypot(r.Down()*o.Mid, o.Down()*r.Mid), mid,
		mid+math.Hypot(r.Up()*o.Mid, o.Up()*r.Mid))
}

// Valid reports whether the range is ordered, finite and non-negative.
func (r Range) Valid() bool {
	return r.Low >= 0 && r.Low <= r.Mid && r.Mid <= r.High && !math.IsInf(r.High, 0) && !math.IsNaN(r.High)
}
