package measure

import "math"

// NewRatio is num/den in lowest terms. A den of 0, or a negative number, gives 0.
func NewRatio(num, den int64) Ratio {
	if den <= 0 || num <= 0 {
		return Ratio{0, 1}
	}
	g := gcd(num, den)
	return Ratio{num / g, den / g}
}

// Whole is n as a ratio.
func Whole(n int64) Ratio { return NewRatio(n, 1) }

// Float is the nearest double. A Ratio that was never set (Den 0) is 0.
func (r Ratio) Float() float64 {
	if r.Den == 0 {
		return 0
	}
	return float64(r.Num) / float64(r.Den)
}

// IsZero reports whether the ratio is 0 or was never set.
func (r Ratio) IsZero() bool { return r.Num == 0 || r.Den == 0 }

// Less reports whether r < o, exactly unless the products pass 63 bits.
func (r Ratio) Less(o Ratio) bool {
	if r.fits(o) {
		return r.Num*max(o.Den, 1) < o.Num*max(r.Den, 1)
	}
	return r.Float() < o.Float()
}

// Plus is r + o in lowest terms; ok is false where it passes 63 bits.
func (r Ratio) Plus(o Ratio) (sum Ratio, ok bool) {
	if !r.fits(o) {
		return Ratio{0, 1}, false
	}
	rd, od := max(r.Den, 1), max(o.Den, 1)
	return NewRatio(r.Num*od+o.Num*rd, rd*od), true
}

// Times is r × o in lowest terms; ok is false where it passes 63 bits.
func (r Ratio) Times(o Ratio) (product Ratio, ok bool) {
	const limit = math.MaxInt32
	if r.Num > limit || r.Den > limit || o.Num > limit || o.Den > limit {
		return Ratio{0, 1}, false
	}
	return NewRatio(r.Num*o.Num, max(r.Den, 1)*max(o.Den, 1)), true
}

// fits reports whether the cross products of r and o stay within 62 bits.
func (r Ratio) fits(o Ratio) bool {
	const limit = 1 << 31
	return r.Num < limit && r.Den < limit && o.Num < limit && o.Den < limit
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// Exactly is the quantity of one number.
func Exactly(r Ratio) Quantity { return Quantity{Low: r, High: r} }

// IsRange reports whether the quantity was written as a range.
func (q Quantity) IsRange() bool { return q.Low != q.High }

// Mid is the middle of the quantity.
func (q Quantity) Mid() float64 { return (q.Low.Float() + q.High.Float()) / 2 }

// Scale multiplies both ends; ok is false where a number grows too long to stay
// exact.
func (q Quantity) Scale(k Ratio) (scaled Quantity, ok bool) {
	low, okLow := q.Low.Times(k)
	high, okHigh := q.High.Times(k)
	return Quantity{Low: low, High: high, About: q.About}, okLow && okHigh
}
