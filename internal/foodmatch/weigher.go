package foodmatch

import (
	"fmt"
	"slices"
	"strings"

	"potwright/internal/composition"
	"potwright/internal/ingredient"
	"potwright/internal/measure"
	"potwright/internal/spread"
)

// Relative standard deviations of weights (medians over USDA SR28 WEIGHT rows
// that give one: volumes 6.5 %, pieces 11 %), wider where the measure is not of
// this very food or form (common practice, no source).
const (
	volumeSD  = 0.065
	pieceSD   = 0.11
	otherForm = 0.12 // the food's own measure, but chopped for sliced
	likeFood  = 0.15 // the measure of a like food
	kindSD    = 0.15 // the density of its kind
	packSD    = 0.02 // fill of a package that prints its weight
	scaleSD   = 0.02 // kitchen or shop scales
	widestSD  = 0.30 // a measure's own, from few samples, is not believed above it
	noSize    = 0.20 // one onion, of whatever size
)

// weigher finds the grams of one food of a line.
type weigher struct {
	reading ingredient.Reading
	food    *composition.Food
	like    []composition.Candidate // further candidates, like the food
	// measures is whose cups and spoons the line is measured in.
	measures measure.System

	grams   spread.Range
	from    string
	notes   []string
	assumed bool
	sure    float64
	ok      bool
	// unpeeled is set where the measure is of the thing with its peel.
	unpeeled bool
	// pouredOff is set once the grams are those taken up.
	pouredOff bool
}

func (w *weigher) set(grams spread.Range, from string) {
	w.grams, w.from, w.ok = grams, from, true
	if w.sure == 0 {
		w.sure = 1
	}
}

func (w *weigher) assume(sure float64, format string, args ...any) {
	w.assumed = true
	w.doubt(sure)
	w.notes = append(w.notes, fmt.Sprintf(format, args...))
}

func (w *weigher) doubt(sure float64) {
	if w.sure == 0 {
		w.sure = 1
	}
	w.sure *= sure
}

// times is so many of a thing that weighs mid grams with relative standard
// deviation sd.
func times(q measure.Quantity, mid, sd float64) spread.Range {
	if q.About {
		sd += 0.05
	}
	each := spread.FromSD(mid, mid*sd)
	return spread.Between(q.Low.Float()*each.Low, q.Mid()*each.Mid, q.High.Float()*each.High)
}

// weigh goes from the surest ground to the least.
func (w *weigher) weigh() {
	r := w.reading
	if !r.HasAmount {
		w.byUse()
		return
	}
	switch {
	case w.writtenMass():
	case r.Amount.Unit.Kind == measure.Volume && w.byVolume(r.Amount):
	case w.inContainers():
	case w.otherVolume():
	case r.Amount.Unit.Kind == measure.Pack && w.byPack():
	case w.byPiece():
	case w.seasoningPiece():
	}
}

// writtenMass uses a weight that stands on the line: as the amount, or beside it
// ("2 cups (1 lb)").
func (w *weigher) writtenMass() bool {
	r := w.reading
	if r.Amount.Unit.Kind == measure.Mass {
		w.set(times(r.Amount.Quantity, r.Amount.Unit.Size, scaleSD), "written weight")
		w.asBought()
		return true
	}
	for _, o := range r.Other {
		if o.Unit.Kind != measure.Mass || o.Quantity.High.IsZero() {
			continue
		}
		if w.contradicts(o) {
			continue
		}
		w.set(times(o.Quantity, o.Unit.Size, scaleSD+0.02), "written weight")
		switch r.Amount.Unit.Kind {
		case measure.Pack:
			w.drain()
		case measure.Count, measure.Mass, measure.Volume:
			w.asBought()
		}
		return true
	}
	return false
}

// contradicts reports whether a weight beside a volume is so far from what the
// food weighs that it must mean something else, such as the size of the can it
// comes from.
func (w *weigher) contradicts(o ingredient.Amount) bool {
	a := w.reading.Amount
	if a.Unit.Kind != measure.Volume {
		return false
	}
	trial := weigher{reading: w.reading, food: w.food, like: w.like, measures: w.measures}
	if !trial.byVolume(a) {
		return false
	}
	written := o.Quantity.Mid() * o.Unit.Size
	return written > 3*trial.grams.Mid || 3*written < trial.grams.Mid
}

// inContainers uses the printed size of each can, package or piece.
func (w *weigher) inContainers() bool {
	r := w.reading
	if !r.HasContainer {
		return false
	}
	c := r.Container
	each := c.Quantity.Mid() * c.Unit.In(w.measures).Size
	from := "printed size"
	if c.Unit.Kind == measure.Volume {
		each *= w.density()
	}
	if r.Amount.Unit.Kind == measure.Pack {
		w.set(times(r.Amount.Quantity, each, packSD), from)
		w.drain()
		return true
	}
	w.set(times(r.Amount.Quantity, each, pieceSD), from)
	w.asBought()
	return true
}

// otherVolume uses a volume written beside a count: "2 carrots (1 cup)".
func (w *weigher) otherVolume() bool {
	for _, o := range w.reading.Other {
		if o.Unit.Kind == measure.Volume && w.byVolume(o) {
			return true
		}
	}
	return false
}

// edible are words that say the weight on the line is of the part that is eaten.
var edible = []string{
	"peeled", "boneless", "boned", "deboned", "trimmed", "cored", "pitted", "shelled", "hulled", "florets", "flowerets",
	"shucked", "skinless", "seeded", "stemmed", "chopped", "diced", "sliced", "cubed", "shredded", "cubes", "chunks",
	"minced", "grated", "cooked", "frozen", "canned", "dried", "drained", "fillet", "fillets", "meat", "juice", "ground", "baby", "hearts",
}

// withBone are words that say a piece of meat is weighed with its bone.
var withBone = []string{
	"bone", "bone-in", "bone_in", "ribs", "spareribs", "drumsticks", "drumstick", "wings", "legs", "leg", "whole", "hocks", "hock", "neck", "shank",
	"shanks", "necks", "fryer", "broiler", "pieces", "parts",
}

// trimmedRefuse is the most that a vegetable loses after the shop: USDA SR28
// counts 61 % of a cauliflower, with the leaves that shops cut off (from memory).
const trimmedRefuse = 0.40

// asBought takes the refuse off a weight that is of the food as bought: a pound
// of bananas has their peel. Meat and fish count as bought without bone unless
// the line speaks of bones.
func (w *weigher) asBought() {
	refuse := max(w.food.Refuse, w.boneShare())
	if w.food.HasKind("vegetable") {
		refuse = min(refuse, trimmedRefuse)
	}
	if refuse <= 0 || refuse >= 0.95 || w.reading.Amount.Unit.Kind == measure.Pack || w.soldBare() {
		return
	}
	flesh := false
	for _, kind := range []string{"beef", "pork", "poultry", "fish", "shellfish", "lamb", "veal", "meat", "game", "chicken", "turkey"} {
		flesh = flesh || w.food.HasKind(kind)
	}
	shellfish := w.food.HasKind("shellfish")
	if flesh && !shellfish && !w.withBones() {
		return
	}
	if !flesh && (hasWord(w.food.Name, "with skin") || hasWord(w.food.Name, "with peel")) {
		if !w.says([]string{"peeled", "pared"}) {
			return // the row counts the skin as eaten
		}
	} else if !w.isWholeBird() && w.saysAhead(edible) && !(flesh && w.says([]string{"bone-in", "bone_in"})) || w.food.HasState("frozen") || w.food.HasState("canned") {
		return
	}
	// How much is cut away differs from cook to cook: three tenths of it either
	// way (common practice, no source).
	w.grams = w.grams.Times(spread.Between(1-1.3*refuse, 1-refuse, min(1, 1-0.7*refuse)))
	w.notes = append(w.notes, fmt.Sprintf("%.0f %% of the weight as bought is not eaten (peel, bone, core)", 100*refuse))
}

// inShell are words that say a weight is with the shell, the husk or the cob.
var inShell = []string{"shell", "shells", "unshelled", "in-shell", "cob", "cobs", "husk", "husks", "ear", "ears"}

// soldBare reports whether the weight is of what is eaten, though the table counts what
// is cut away: nuts, kernels of corn and salad leaves are sold without it, unless the
// line says otherwise (common practice, no source).
func (w *weigher) soldBare() bool {
	for _, kind := range []string{"nut", "seed", "peanut"} {
		if w.food.HasKind(kind) {
			return !w.says(inShell)
		}
	}
	return hasWord(w.food.Name, "arugula") || hasWord(w.food.Name, "corn") && !w.says(inShell)
}

// boneShares is the share of bone in cuts whose row in the table is of boneless
// meat (from memory).
var boneShares = []struct {
	cut   string
	share float64
}{{"hock", 0.6}, {"spareribs", 0.35}, {"ribs", 0.35}, {"shank", 0.35}, {"neck", 0.6}, {"chops bone", 0.25}}

// skinnedBird is the bones and skin of a whole bird: USDA SR28 gives 32 % bone for
// chicken with its skin (05006); the skin is another 13 % (from memory).
const skinnedBird = 0.45

func (w *weigher) boneShare() float64 {
	if w.food.Refuse == 0 && w.food.HasKind("poultry") && w.food.HasState("whole") && w.food.HasState("raw") && w.food.HasState("skinless") {
		return skinnedBird
	}
	for _, b := range boneShares {
		if hasWord(w.reading.Food, b.cut) {
			return b.share
		}
	}
	return 0
}

// withBones reports whether the line's food or states speak of bones.
func (w *weigher) withBones() bool {
	bare := weigher{reading: w.reading}
	bare.reading.Preparation = nil
	return w.isWholeBird() || bare.says(withBone) || w.says([]string{"fryer", "bone-in"})
}

// saysAhead reports whether the line holds one of the words before the food, in
// its name or as a state: "peeled carrots" are weighed peeled, "carrots, peeled"
// before they are (common practice).
func (w *weigher) saysAhead(words []string) bool {
	ahead := weigher{reading: w.reading}
	ahead.reading.Preparation = nil
	if ahead.says(words) {
		return true
	}
	for _, part := range w.reading.Parts {
		if part.Name == "food" {
			runes := []rune(w.reading.Text)
			before := weigher{}
			before.reading.Food = string(runes[:min(part.From, len(runes))])
			return before.says(words)
		}
	}
	return false
}

// isWholeBird reports whether the row is of a whole raw bird, which is weighed
// with its bones however it is cut up, unless the line says boneless.
func (w *weigher) isWholeBird() bool {
	return w.food.HasKind("poultry") && w.food.HasState("whole") && w.food.HasState("raw") && !w.says([]string{"boneless", "boned", "meat"})
}

// says reports whether the line holds one of the words, in its food, states or
// preparation.
func (w *weigher) says(words []string) bool {
	r := w.reading
	for _, s := range r.States {
		if slices.Contains(words, s) {
			return true
		}
	}
	holds := func(text string) bool {
		for f := range strings.FieldsFuncSeq(strings.ToLower(text), func(c rune) bool { return c == ' ' || c == ',' }) {
			if slices.Contains(words, f) {
				return true
			}
		}
		return false
	}
	return holds(r.Food) || slices.ContainsFunc(r.Preparation, holds)
}
