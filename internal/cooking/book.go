package cooking

import (
	"slices"
	"sync"

	"potwright/internal/composition"
	"potwright/internal/foodmatch"
	"potwright/internal/method"
	"potwright/internal/nutrient"
	"potwright/internal/recall"
	"potwright/internal/spread"
)

// Which says for which foods a factor holds.
type Which struct {
	// Kinds are those of which a food has one; NotKinds and NotStates those of
	// which it has none; States those of which it has one, where there are any.
	Kinds, NotKinds, States, NotStates []string
	// MinFat and MaxFat bound the fat in 100 g; MaxFat 0 is no bound.
	MinFat, MaxFat float64
}

// Holds reports whether a food is meant.
func (w Which) Holds(f *composition.Food) bool {
	if !isKind(f, w.Kinds...) || isKind(f, w.NotKinds...) || hasState(f, w.NotStates) {
		return false
	}
	if len(w.States) > 0 && !hasState(f, w.States) {
		return false
	}
	fat := f.Nutrients[composition.Fat]
	if w.MinFat == 0 && w.MaxFat == 0 {
		return true
	}
	return fat.Known && fat.Mid >= w.MinFat && (w.MaxFat == 0 || fat.Mid < w.MaxFat)
}

func hasState(f *composition.Food, states []string) bool {
	return slices.ContainsFunc(states, f.HasState)
}

// Timed is a retention code that holds up to so many minutes of heat; 0 is for
// any time, and for a time that is not told.
type Timed struct {
	Minutes float64
	Code    string
}

// Factor ties foods to the codes of the retention table.
type Factor struct {
	ID string
	Which
	Codes       map[Treatment][]Timed
	Why, Source string
}

// Yield is what becomes of the weight and the fat of a food.
type Yield struct {
	ID string
	Which
	Treatments []Treatment
	// Weight of the cooked food over that of the raw, above 0.
	Weight spread.Range
	// Fat lost where the drippings are left behind, in grams of 100 g raw.
	Fat spread.Range
	// Water is set where the weight is water taken up, which comes from the dish
	// where the dish has any.
	Water       bool
	Why, Source string
}

// AlcoholStep is the share of alcohol, 0..1, that stays after so many minutes.
type AlcoholStep struct {
	Minutes, Kept float64
}

// Alcohol is how much alcohol stays.
type Alcohol struct {
	// Steps by rising minutes, stirred in and baked or simmered; the first, at 0,
	// is stirred into a hot liquid.
	Steps []AlcoholStep
	// Flamed and Overnight stand for those; shares 0..1.
	Flamed, Overnight float64
	Source            string
}

// Rate is the water, in grams a minute, that a pot gives off.
type Rate struct {
	Heat   method.Heat
	Lid    method.Lid // "" where no step has said
	Grams  spread.Range
	Source string
}

// Book is all factors. What it says never changes and it is safe for concurrent use;
// a nil Book takes nothing.
type Book struct {
	retentions Retentions
	lost       map[string]lost // by code
	factors    []Factor
	yields     []Yield
	alcohol    Alcohol
	rates      []Rate
	pours      map[poured]spread.Range
	known      recall.Memory[*composition.Food, *holding]
	desks      sync.Pool // of *desk
}

// holding is what of a book holds for one food: no factor and no yield where the row's
// figures are those of the cooked food.
type holding struct {
	factor *Factor // nil for none
	// vitamins are what the factor's treatments may take where none is told.
	vitamins *nutrient.Losses
	yields   []*Yield
	sort     sort
}

// of finds what holds for a food. A household's own products are not remembered:
// there is no end of them.
func (b *Book) of(f *composition.Food) *holding {
	if f.IsOwn() {
		return b.ofAnew(f)
	}
	return b.known.Of(f, func() *holding { return b.ofAnew(f) })
}

func (b *Book) ofAnew(f *composition.Food) *holding {
	h := &holding{sort: sortOf(f)}
	if hasState(f, precooked) {
		return h
	}
	if i := slices.IndexFunc(b.factors, func(x Factor) bool { return x.Holds(f) }); i >= 0 {
		h.factor = &b.factors[i]
		h.vitamins = b.anyVitamin(h.factor)
	}
	for i := range b.yields {
		if b.yields[i].Holds(f) {
			h.yields = append(h.yields, &b.yields[i])
		}
	}
	return h
}

// Contents are what a Book is made of. Of factors and yields the first that
// holds counts.
type Contents struct {
	Retentions Retentions
	Factors    []Factor
	Yields     []Yield
	Alcohol    Alcohol
	Rates      []Rate
	// CookingWater, Seasoning and Marinade are the shares that are thrown away of
	// the water a food is boiled and drained in, of the salt in it, and of a
	// marinade that is discarded; 0..1.
	CookingWater, Seasoning, Marinade spread.Range
}

// NewBook makes a Book.
func NewBook(c Contents) *Book {
	losses := make(map[string]lost, len(c.Retentions))
	for code, r := range c.Retentions {
		losses[code] = r.lost()
	}
	return &Book{retentions: c.Retentions, lost: losses, factors: c.Factors, yields: c.Yields, alcohol: c.Alcohol, rates: c.Rates, pours: map[poured]spread.Range{
		pouredWater: c.CookingWater, pouredSalt: c.Seasoning, pouredBath: c.Marinade,
		pouredDoubt: spread.Between(0, 0, c.Marinade.High),
	}}
}

// Factors lists what ties foods to the retention table, in order.
func (b *Book) Factors() []Factor { return b.factors }

// Yields lists what becomes of weights and fat, in order.
func (b *Book) Yields() []Yield { return b.yields }

func (b *Book) rate(h method.Heat, l method.Lid) (spread.Range, bool) {
	for _, r := range b.rates {
		if r.Heat == h && r.Lid == l {
			return r.Grams, true
		}
	}
	return spread.Range{}, false
}

// Panel computes what a line brings once it is cooked as planned. Line is its
// index in the plan.
func (b *Book) Panel(id string, p Plan, line int, m *foodmatch.Matched, servings float64) nutrient.LinePanel {
	return nutrient.Line(id, m, servings, b.take(p, line, m)...)
}

// PanelOn is Panel on a sheet.
func (b *Book) PanelOn(s *nutrient.Sheet, id string, p Plan, line int, m *foodmatch.Matched, servings float64) *nutrient.LinePanel {
	return s.Line(id, m, servings, b.take(p, line, m)...)
}

// take is what cooking takes from each food of a line; nil where nothing is taken.
func (b *Book) take(p Plan, line int, m *foodmatch.Matched) (cooked []nutrient.Cooked) {
	if b == nil {
		return nil
	}
	as := p.Of(line)
	for i := range m.Items {
		c := b.Cooked(p, as, m.Items[i].Food)
		if c == (nutrient.Cooked{}) {
			continue
		}
		if cooked == nil {
			cooked = make([]nutrient.Cooked, len(m.Items))
		}
		cooked[i] = c
	}
	return cooked
}
