package household

import "potwright/internal/composition"

// Side is which way a bound holds.
type Side string

// Sides of a bound.
const (
	AtMost  Side = "at most"
	AtLeast Side = "at least"
)

// Bound is what one side of a limit means for one dish on one plate.
type Bound struct {
	// Limit it comes from, and its place in Member.Limits.
	Limit Limit
	Index int
	Side  Side
	// Value for this plate, in the nutrient's unit: the limit's own figure, for a
	// day's limit times Share. What the member had before counts against it.
	Value float64
	// Share of the day that this plate may use; 0 where the limit is not a day's.
	Share float64
	// Before is what the member had that counts against Value already.
	Before Amount
}

// Bounds turns each limit into what it means for one dish on one plate. Limits
// by serving and by meal hold as they are: the plate is the meal. A day's limit
// is multiplied by mealShare (Household.PlateShare), or where it is told what the
// member had, by the part of what is left that this meal may use. A limit with
// two sides gives two bounds.
func (m Member) Bounds(mealShare float64) []Bound {
	var out []Bound
	for i, l := range m.Limits {
		share, scale := 0.0, 1.0
		if l.Per == PerDay {
			share = m.Had.dayShare(mealShare)
			scale = share
		}
		before := m.Had.before(l.Per, scale, func(e *Eaten) Amount { return e.All[l.Nutrient] })
		if l.AtMost != nil {
			out = append(out, Bound{Limit: l, Index: i, Side: AtMost, Value: *l.AtMost * scale, Share: share, Before: before})
		}
		if l.AtLeast != nil {
			out = append(out, Bound{Limit: l, Index: i, Side: AtLeast, Value: *l.AtLeast * scale, Share: share, Before: before})
		}
	}
	return out
}

// Left is what the bound leaves for this plate, at the middle of what was had
// before; below 0 where that alone passes it.
func (b Bound) Left() float64 { return b.Value - b.Before.Mid }

// Strict reports whether the whole range must be inside for a dish to fit: so
// for a clinician's limit; for guidance and own choice the middle is enough.
func (l Limit) Strict() bool { return l.SetBy == Clinician }

// Nutrient the bound is about.
func (b Bound) Nutrient() composition.Nutrient { return b.Limit.Nutrient }

// Judge holds an amount, with what was had before, against the bound.
//
// At most: inside where the high end is, close where only the middle is, else
// over. At least: inside where the low end reaches it, close where only the
// middle does, else over (it falls short). Unknown parts can only add: what is
// over stays over, what reaches an at-least bound by its known parts alone is
// inside, all else is unknown.
func (b Bound) Judge(a Amount) Fit {
	a = a.with(b.Before)
	fit := judge(b.Side, a, b.Value)
	if a.Unknown == 0 {
		return fit
	}
	if b.Side == AtMost && fit == Over || b.Side == AtLeast && fit == Inside {
		return fit
	}
	return Unknown
}

func judge(side Side, a Amount, bound float64) Fit {
	mid, far := reaches(a.Mid, bound), reaches(a.High, bound)
	if side == AtLeast {
		mid, far = reaches(bound, a.Mid), reaches(bound, a.Low)
	}
	switch {
	case far && mid:
		return Inside
	case mid:
		return Close
	default:
		return Over
	}
}

// Fits reports whether a dish with this amount may be served: inside for a
// strict limit, inside or close for the others. Unknown never fits.
func (b Bound) Fits(a Amount) bool { return fits(b.Judge(a), b.Limit.Strict()) }

func fits(f Fit, strict bool) bool { return f == Inside || f == Close && !strict }

// Finding holds an amount against what the bound leaves and says so in a
// sentence. Shares are left to the caller.
func (b Bound) Finding(a Amount) Finding {
	limit := b.Limit
	fit := b.Judge(a)
	return Finding{Kind: "limit", Limit: &limit, Amount: a.Range, Bound: max(0, b.Left()), Fit: fit,
		Text: b.sentence(a, fit)}
}
