package nutrient

import (
	"math"
	"slices"
	"strconv"

	"potwright/internal/composition"
	"potwright/internal/foodmatch"
	"potwright/internal/spread"
)

// boundGrams is the weight, in a serving, below which a missing content that
// another content bounds (sugars by carbohydrate, saturated by total fat) is
// taken as the range from nothing to that bound, half of it in the middle,
// instead of as unknown. Below it a line can hardly decide a limit. A design
// choice.
const boundGrams = 1

// boundedBy names, for a nutrient that may be missing from a row, the nutrient
// it is a part of by definition; energy, of which nothing is a part, stands for none.
var boundedBy = [composition.NutrientCount]composition.Nutrient{
	composition.Sugars:       composition.Carbohydrate,
	composition.AddedSugars:  composition.Carbohydrate,
	composition.Fibre:        composition.Carbohydrate,
	composition.SaturatedFat: composition.Fat,
	composition.TransFat:     composition.Fat,
}

// Line computes what a matched line brings to what is eaten. id tells this
// line's own doubts from those of others: two lines with one id share them.
// cooked is what cooking takes from each of the line's foods, in their order;
// where it is missing nothing is taken. servings (> 0) are those of the whole dish.
func Line(id string, m *foodmatch.Matched, servings float64, cooked ...Cooked) LinePanel {
	lp := LinePanel{ID: id, Matched: m, Servings: servings, Cooked: cooked}
	lp.reckon()
	return lp
}

// reckon sets all that follows from the line and what cooking took.
func (lp *LinePanel) reckon() {
	m := lp.Matched
	switch {
	case m.State == foodmatch.Skipped:
	case len(m.Items) == 0:
		for n := range lp.Panel {
			lp.Panel[n].Unknown = 1
		}
	default:
		for i := range m.Items {
			var c Cooked
			if i < len(lp.Cooked) {
				c = lp.Cooked[i]
			}
			lp.addItem(lp.ID+"."+strconv.Itoa(i), &m.Items[i], &c)
		}
		lp.setRanges()
	}
}

func (lp *LinePanel) addItem(id string, item *foodmatch.Item, c *Cooked) {
	lp.Grams = lp.Grams.Add(item.Grams)
	lp.Finished = lp.Finished.Add(c.finished(item.Grams))
	kept := c.Kept(item.Food)
	var doubts [ofItem]Doubt
	grams, food, match, cooking := &doubts[OfGrams], &doubts[OfContent], &doubts[OfMatch], &doubts[OfCooking]
	for n := range composition.Nutrient(composition.NutrientCount) {
		per100, ok := contentOf(item.Food, n, item.Grams.Mid/lp.Servings)
		if !ok {
			lp.Panel[n].Unknown++
			continue
		}
		raw, k := item.Grams.Mid*per100.Mid/100, kept[n].Mid
		lp.Panel[n].Mid += raw * k
		cooking.Down[n], cooking.Up[n] = raw*kept[n].Down(), raw*kept[n].Up()
		grams.Down[n] = k * item.Grams.Down() * per100.Mid / 100
		grams.Up[n] = k * item.Grams.Up() * per100.Mid / 100
		row := rowDoubt(item.Food, n) * per100.Mid
		food.Down[n] = k * item.Grams.Mid * math.Hypot(per100.Down(), row) / 100
		food.Up[n] = k * item.Grams.Mid * math.Hypot(per100.Up(), row) / 100
		down, up := matchDoubt(item, n, per100.Mid)
		match.Down[n], match.Up[n] = k*down, k*up
	}
	lp.addDoubts(&doubts, id, item.Food.ID)
}

// addDoubts adds those that are not empty; all but the food's own are the item's
// alone.
func (lp *LinePanel) addDoubts(doubts *[ofItem]Doubt, item, food string) {
	count := 0
	for i := range doubts {
		if !doubts[i].empty() {
			count++
		}
	}
	lp.Doubts = slices.Grow(lp.Doubts, count)
	for i := range doubts {
		d := &doubts[i]
		if d.empty() {
			continue
		}
		d.Factor = Factor{Doubted(i), item}
		if d.Factor.Of == OfContent {
			d.Factor.ID = food
		}
		lp.Doubts = append(lp.Doubts, *d)
	}
}

// Middle is an amount without its range: Unknown is as in Amount.
type Middle struct {
	Mid     float64
	Unknown int
}

// Uncooked is a serving of what goes into the pot, before cooking takes anything, at the
// middle of every range.
func (pot Pot) Uncooked() (sum [composition.NutrientCount]Middle) {
	for i := range pot.Lines {
		lp := &pot.Lines[i]
		switch {
		case lp.AtTable || lp.Matched.State == foodmatch.Skipped:
			continue
		case len(lp.Matched.Items) == 0:
			for n := range sum {
				sum[n].Unknown++
			}
		}
		for k := range lp.Matched.Items {
			item := &lp.Matched.Items[k]
			for n := range sum {
				per100, ok := contentOf(item.Food, composition.Nutrient(n), item.Grams.Mid/pot.Servings)
				if !ok {
					sum[n].Unknown++
					continue
				}
				sum[n].Mid += item.Grams.Mid * per100.Mid / 100 / pot.Servings
			}
		}
	}
	return sum
}

// contentOf is the content per 100 g; a missing part of a known whole is a
// range where even the whole would be little in this weight of a serving.
func contentOf(f *composition.Food, n composition.Nutrient, grams float64) (spread.Range, bool) {
	if r, ok := f.Per100g(n); ok {
		return r, true
	}
	whole := boundedBy[n]
	if whole == composition.Energy {
		return spread.Range{}, false
	}
	w, ok := f.Per100g(whole)
	if !ok || w.High*grams/100 > boundGrams {
		return spread.Range{}, false
	}
	return spread.Between(0, w.Mid/2, w.High), true
}

// rowDoubts are the least relative half-widths, 90 %, of a food against the row
// that another careful person would have taken for the same words: another cut,
// fat level, maker or way of weighing. They were swept on the learning half of
// the published panels (282 recipes) and are as wide as a median half-width of a
// serving's energy of 18 % and of its sodium of 30 % allow. Classes of food or of
// weight, fitted one by one, hold no more recipes at the same width: what is
// missing are wrong readings and panels that cannot come from their own list.
var rowDoubts = [composition.NutrientCount]float64{composition.Energy: 0.24, composition.Carbohydrate: 0.26}

const (
	usualRowDoubt = 0.20
	// madeSaltDoubt is that of the sodium of food made with salt, which each maker
	// sets.
	madeSaltDoubt = 0.30
	// madeSalt is the sodium, mg in 100 g, above which a food counts as made with
	// salt: twice what the saltiest plain meats and vegetables hold.
	madeSalt = 150
)

func rowDoubt(f *composition.Food, n composition.Nutrient) float64 {
	if f.IsPure(n) || f.Nutrients[n].Bounded { // a substance, or a label that was read
		return 0
	}
	if n == composition.Sodium {
		if c := &f.Nutrients[n]; c.Known && c.Mid > madeSalt {
			return madeSaltDoubt
		}
	}
	if d := rowDoubts[n]; d > 0 {
		return d
	}
	return usualRowDoubt
}

// matchDoubt is the half-widths that come from not knowing which of the
// candidates the cook will use: the weighted spread of the candidates around
// the chosen one, never wider than the farthest of them.
func matchDoubt(item *foodmatch.Item, n composition.Nutrient, mid float64) (down, up float64) {
	var d2, u2, dMax, uMax float64
	for _, c := range item.Candidates {
		if c.Food == nil || c.Food == item.Food {
			continue
		}
		other := &c.Food.Nutrients[n]
		if !other.Known {
			continue
		}
		diff := other.Mid - mid
		if diff < 0 {
			d2 += c.Weight * diff * diff
			dMax = math.Max(dMax, -diff)
		} else {
			u2 += c.Weight * diff * diff
			uMax = math.Max(uMax, diff)
		}
	}
	if dMax == 0 && uMax == 0 {
		return 0, 0
	}
	k := item.Grams.Mid / 100
	return k * math.Min(dMax, spread.Z90*math.Sqrt(d2)), k * math.Min(uMax, spread.Z90*math.Sqrt(u2))
}

func (d *Doubt) empty() bool {
	for n := range d.Down {
		if d.Down[n] != 0 || d.Up[n] != 0 {
			return false
		}
	}
	return true
}

func (lp *LinePanel) setRanges() {
	var few [2 * ofItem]*Doubt // most lines have no more
	doubts := few[:0]
	for i := range lp.Doubts {
		doubts = append(doubts, &lp.Doubts[i])
	}
	lp.Panel.setRanges(doubts)
}

// setRanges sets low and high of every amount from the doubts: those of one
// factor add up, different factors add in quadrature.
func (p *Panel) setRanges(doubts []*Doubt) {
	for n, s := range squares(doubts) {
		p[n].Range = spread.Between(p[n].Mid-math.Sqrt(s.down), p[n].Mid, p[n].Mid+math.Sqrt(s.up))
	}
}

// sides are sums of squares of half-widths.
type sides struct{ down, up float64 }

// squares are, by nutrient, the sums of squares over the factors, those of one
// factor added up first. The order of summing is that of the doubts, so that the
// last digit is the same every time.
func squares(doubts []*Doubt) (sum [composition.NutrientCount]sides) {
	first := firsts(doubts)
	var together map[int32]*Doubt
	for i, at := range first {
		if at == int32(i) {
			continue
		}
		if together == nil {
			together = map[int32]*Doubt{}
		}
		together[at] = together[at].and(doubts[at], doubts[i])
	}
	for i, d := range doubts {
		if first != nil && first[i] != int32(i) {
			continue // added up with the first of its factor
		}
		if t := together[int32(i)]; t != nil {
			d = t
		}
		for n := range d.Down {
			sum[n].down += d.Down[n] * d.Down[n]
			sum[n].up += d.Up[n] * d.Up[n]
		}
	}
	return sum
}

// and is a doubt with one more of its factor; nil is the first alone.
func (d *Doubt) and(first, more *Doubt) *Doubt {
	if d == nil {
		alone := *first
		d = &alone
	}
	for n := range d.Down {
		d.Down[n] += more.Down[n]
		d.Up[n] += more.Up[n]
	}
	return d
}

// firsts are the places of the first doubt of each one's factor; nil where a few share
// none. They are looked up in slots by a sum of the factor's letters, the next free slot
// taken: a pot has some fifty doubts, and a map of them costs more than adding them up.
func firsts(doubts []*Doubt) []int32 {
	if len(doubts) < 5 && distinct(doubts) {
		return nil
	}
	size := 8
	for size < 2*len(doubts) {
		size *= 2
	}
	room := make([]int32, len(doubts)+size)
	at, slots := room[:len(doubts)], room[len(doubts):] // slots hold a place and 1
	for i, d := range doubts {
		k := d.Factor.sum() % size
		for slots[k] != 0 && doubts[slots[k]-1].Factor != d.Factor {
			k = (k + 1) % size
		}
		if slots[k] == 0 {
			slots[k] = int32(i) + 1
		}
		at[i] = slots[k] - 1
	}
	return at
}

func distinct(doubts []*Doubt) bool {
	for i := range doubts {
		for j := range doubts[:i] {
			if doubts[i].Factor == doubts[j].Factor {
				return false
			}
		}
	}
	return true
}

// sum spreads factors over slots.
func (f Factor) sum() int {
	h := uint32(f.Of) + 1
	for i := range len(f.ID) {
		h = h*31 + uint32(f.ID[i])
	}
	return int(h)
}
