package foodmatch

import (
	"fmt"
	"slices"
	"strings"

	"potwright/internal/spread"
)

// packSize is the usual net size of a package of a food, in grams.
type packSize struct {
	units []string
	word  string // in the line's food or the food's name; "" for any
	kind  string // kind of the food; "" for any
	grams float64
	sd    float64
}

var (
	cans  = []string{"can", "jar"}
	boxes = []string{"package", "box", "bag", "envelope", "container", "carton"}
)

// ozG is an avoirdupois ounce in grams (NIST Handbook 44, Appendix C).
const ozG = 28.349523125

// usualPacks are the usual sizes of US retail packages (common practice, no
// source), narrow entries first.
var usualPacks = []packSize{
	{[]string{"stick"}, "butter", "", 113.4, 0.01}, // half a cup, a quarter of a pound
	{[]string{"stick"}, "", "margarine", 113.4, 0.01},
	{[]string{"stick"}, "", "butter", 113.4, 0.01},
	{[]string{"stick"}, "cheese", "", 28, 0.05},

	{cans, "tomato paste", "", 6 * ozG, 0.05},
	{cans, "tomato sauce", "", 8 * ozG, 0.35},
	{cans, "green chil", "", 4 * ozG, 0.1},
	{cans, "chile", "", 4 * ozG, 0.15},
	{cans, "chipotle", "", 7 * ozG, 0.1},
	{cans, "tuna", "", 5 * ozG, 0.12},
	{cans, "salmon", "", 14.75 * ozG, 0.2},
	{cans, "sardine", "", 3.75 * ozG, 0.1},
	{cans, "crab", "", 6 * ozG, 0.15},
	{cans, "shrimp", "", 4 * ozG, 0.2},
	{cans, "clam", "", 6.5 * ozG, 0.15},
	{cans, "anchov", "", 2 * ozG, 0.1},
	{cans, "chicken broth", "", 14.5 * ozG, 0.05},
	{cans, "", "broth", 14.5 * ozG, 0.05},
	{cans, "", "condensed_soup", 10.6 * ozG, 0.03},
	{cans, "soup", "", 10.75 * ozG, 0.25},
	{cans, "chicken", "", 10 * ozG, 0.25},
	{cans, "evaporated", "", 378, 0.03}, // 12 fl oz
	{cans, "condensed milk", "", 14 * ozG, 0.02},
	{cans, "coconut milk", "", 400, 0.05},
	{cans, "coconut water", "", 330, 0.2},
	{cans, "mandarin", "", 11 * ozG, 0.15},
	{cans, "pineapple", "", 20 * ozG, 0.3},
	{cans, "cranberry sauce", "", 14 * ozG, 0.05},
	{cans, "pie filling", "", 21 * ozG, 0.05},
	{cans, "pumpkin", "", 15 * ozG, 0.05},
	{cans, "mushroom", "", 4 * ozG, 0.2},
	{cans, "olive", "", 6 * ozG, 0.4},
	{cans, "artichoke", "", 14 * ozG, 0.1},
	{cans, "water chestnut", "", 8 * ozG, 0.05},
	{cans, "bamboo", "", 8 * ozG, 0.05},
	{cans, "sauerkraut", "", 14.5 * ozG, 0.1},
	{cans, "enchilada", "", 10 * ozG, 0.3},
	{cans, "biscuit", "", 12 * ozG, 0.3},
	{cans, "juice concentrate", "", 12 * ozG, 0.2},
	{cans, "", "tomato_product", 14.5 * ozG, 0.1},
	{cans, "tomato", "", 14.5 * ozG, 0.1},
	{cans, "corn", "", 15.25 * ozG, 0.05},
	{cans, "pea", "", 15 * ozG, 0.05},
	{cans, "chili", "", 15 * ozG, 0.05},
	{cans, "", "canned_beans", 15 * ozG, 0.04},
	{cans, "bean", "", 15 * ozG, 0.05},
	{cans, "", "legume", 15 * ozG, 0.05},
	{cans, "", "canned_vegetable", 14.5 * ozG, 0.06},
	{cans, "", "canned_fruit", 15 * ozG, 0.1},
	{cans, "", "beer", 355, 0.02},
	{cans, "", "soft_drink", 367, 0.02},
	{[]string{"jar"}, "spaghetti sauce", "", 24 * ozG, 0.1},
	{[]string{"jar"}, "pasta sauce", "", 24 * ozG, 0.1},
	{[]string{"jar"}, "", "pasta_sauce", 24 * ozG, 0.1},
	{[]string{"jar"}, "salsa", "", 16 * ozG, 0.15},
	{[]string{"jar"}, "pimient", "", 4 * ozG, 0.3},
	{[]string{"jar"}, "red pepper", "", 12 * ozG, 0.3},
	{[]string{"jar"}, "gravy", "", 12 * ozG, 0.05},
	{cans, "", "vegetable", 14.5 * ozG, 0.08},
	{cans, "", "fruit", 15 * ozG, 0.15},

	{boxes, "yeast", "", 7, 0.05},
	{boxes, "gelatin, ", "", 85, 0.15},
	{boxes, "unflavored gelatin", "", 7, 0.1},
	{boxes, "gelatin", "", 85, 0.4},
	{boxes, "pudding", "", 96, 0.25},
	{boxes, "onion soup", "", 28, 0.2},
	{boxes, "soup mix", "", 40, 0.3},
	{boxes, "sazon", "", 5, 0.1},
	{boxes, "taco seasoning", "", 30, 0.15},
	{boxes, "ranch", "", 28, 0.1},
	{boxes, "seasoning", "", 30, 0.3},
	{boxes, "gravy mix", "", 25, 0.2},
	{boxes, "sweetener", "", 1, 0.05},
	{boxes, "sugar substitute", "", 1, 0.05},
	{boxes, "bouillon", "", 4, 0.2},
	{boxes, "ramen", "", 85, 0.05},
	{boxes, "cake mix", "", 15.25 * ozG, 0.1},
	{boxes, "brownie mix", "", 18 * ozG, 0.1},
	{boxes, "muffin mix", "", 8.5 * ozG, 0.1},
	{boxes, "corn bread mix", "", 8.5 * ozG, 0.1},
	{boxes, "cornbread mix", "", 8.5 * ozG, 0.1},
	{boxes, "stuffing", "", 6 * ozG, 0.2},
	{boxes, "macaroni and cheese", "", 7.25 * ozG, 0.05},
	{boxes, "cream cheese", "", 8 * ozG, 0.03},
	{boxes, "tofu", "", 14 * ozG, 0.1},
	{boxes, "tempeh", "", 8 * ozG, 0.05},
	{boxes, "mushroom", "", 8 * ozG, 0.15},
	{boxes, "coleslaw", "", 14 * ozG, 0.15},
	{boxes, "hash brown", "", 30 * ozG, 0.15},
	{boxes, "spinach", "", 10 * ozG, 0.15},
	{boxes, "lettuce", "", 10 * ozG, 0.2},
	{boxes, "salad", "", 10 * ozG, 0.2},
	{boxes, "chocolate chip", "", 12 * ozG, 0.05},
	{boxes, "cranberr", "", 12 * ozG, 0.1},
	{boxes, "phyllo", "", 16 * ozG, 0.05},
	{boxes, "tortilla", "", 12 * ozG, 0.3},
	{boxes, "egg", "", 600, 0.1}, // a dozen large
	{boxes, "sour cream", "", 8 * ozG, 0.3},
	{boxes, "whipped topping", "", 8 * ozG, 0.1},
	{boxes, "cottage cheese", "", 16 * ozG, 0.1},
	{boxes, "yogurt", "", 6 * ozG, 0.2},
	{boxes, "", "yogurt", 6 * ozG, 0.2},
	{boxes, "cheese", "", 8 * ozG, 0.1},
	{boxes, "", "pasta", 16 * ozG, 0.05},
	{boxes, "", "noodle", 12 * ozG, 0.2},
	{boxes, "", "rice", 16 * ozG, 0.3},
	{boxes, "", "dry_beans", 16 * ozG, 0.05},
	{boxes, "", "broth", 32 * ozG, 0.05},
	{boxes, "", "hot_dog", 16 * ozG, 0.05},
	{boxes, "", "sausage", 14 * ozG, 0.2},
	{boxes, "", "bacon", 16 * ozG, 0.15},
	{boxes, "", "ground_meat", 16 * ozG, 0.05},
	{boxes, "", "chicken", 20 * ozG, 0.3},
	{boxes, "", "salty_snack", 9 * ozG, 0.3},
	{[]string{"sleeve"}, "", "cracker", 4 * ozG, 0.2},
	{boxes, "", "cracker", 14 * ozG, 0.2},
	{boxes, "", "herb_fresh", 25, 0.4},       // 0.75 oz to 30 g
	{boxes, "", "vegetable", 11 * ozG, 0.15}, // frozen: 10 to 12 oz
	{boxes, "", "fruit", 12 * ozG, 0.25},
	{[]string{"loaf"}, "french", "", 16 * ozG, 0.15},
	{[]string{"loaf"}, "", "", 20 * ozG, 0.2},
	{[]string{"bottle"}, "", "salad_dressing", 16 * ozG, 0.2},
	{[]string{"bottle"}, "beer", "", 355, 0.02},
	{[]string{"bottle"}, "", "wine", 743, 0.02},
	{[]string{"block"}, "tofu", "", 14 * ozG, 0.1},
	{[]string{"block"}, "cheese", "", 8 * ozG, 0.1},
	{[]string{"tube"}, "", "", 8 * ozG, 0.5},
}

// byPack weighs packages without a printed size: by their usual size, or a
// measure of the food.
func (w *weigher) byPack() bool {
	r := w.reading
	unit := r.Amount.Unit.Name
	if w.food.IsOwn() && w.labelPack(unit) {
		return true
	}
	if p, ok := w.usualPack(unit); ok {
		p, of := sizedPack(p, r.Size)
		w.set(times(r.Amount.Quantity, p.grams, p.sd), "usual size")
		if unit != "stick" {
			w.assume(0.85, "no weight is written; a %s %s of %s is taken", of, unit, gramsText(p.grams))
		}
		w.drain()
		return true
	}
	if w.pieceOf(w.food, unit, "measure of this food") {
		return true
	}
	if unit == "cube" || unit == "stick" || unit == "envelope" || unit == "loaf" {
		return w.byPiece()
	}
	if m, ok := w.findPiece(w.food, "package"); ok && unit != "package" {
		w.set(times(r.Amount.Quantity, m.Grams/m.Amount, noSize), "measure of this food")
		w.assume(0.7, "no size is written; %s is taken", gramsText(m.Grams/m.Amount))
		return true
	}
	return false
}

// sizedPack is a package called small or large, and what to call it. Cans of tomatoes
// are sold as 8, 14.5 and 28 oz (common practice, no source).
func sizedPack(p packSize, size string) (packSize, string) {
	switch size {
	case "small":
		p.grams, p.sd = 0.55*p.grams, max(p.sd, 0.25)
	case "large", "extra large":
		p.grams, p.sd = 1.8*p.grams, max(p.sd, 0.25)
	default:
		return p, "usual"
	}
	return p, size
}

// labelPack weighs a package of a household's own product by its label.
func (w *weigher) labelPack(unit string) bool {
	m, ok := w.findPiece(w.food, unit)
	if !ok {
		return false
	}
	w.set(times(w.reading.Amount.Quantity, m.Grams/m.Amount, packSD), "its label")
	w.drain()
	return true
}

func (w *weigher) usualPack(unit string) (packSize, bool) {
	words, name := strings.ToLower(w.reading.Food), strings.ToLower(w.food.Name)
	for _, p := range usualPacks {
		if !slices.Contains(p.units, unit) || p.kind != "" && !w.food.HasKind(p.kind) {
			continue
		}
		if p.word == "" || hasWord(words, p.word) || hasWord(name, p.word) {
			return p, true
		}
	}
	return packSize{}, false
}

// drainedShare is what is left of a can's net weight when its liquid is poured
// off.
type drainedShare struct {
	word  string
	share float64
	sd    float64
}

// drainedShares by words of the food's name, narrow ones first. Sources: can
// weights of the drained and undrained rows of USDA SR28 (kidney beans 266 of
// 436 g, pinto beans 277 of 442, chickpeas 253 of 448, corn 298 of 482, peas 313
// of 482); "from memory" for the others.
var drainedShares = []drainedShare{
	{"kidney bean", 266.0 / 436, 0.05}, {"pinto bean", 277.0 / 442, 0.05}, {"chickpea", 253.0 / 448, 0.05}, {"garbanzo", 253.0 / 448, 0.05},
	{"green bean", 0.57, 0.08}, {"snap bean", 0.57, 0.08}, {"bean", 0.60, 0.08}, {"lentil", 0.60, 0.1},
	{"corn", 298.0 / 482, 0.05}, {"peas", 313.0 / 482, 0.05}, {"pea,", 313.0 / 482, 0.05},
	{"tuna", 0.80, 0.08}, {"salmon", 0.85, 0.06}, {"sardine", 0.85, 0.08}, {"chicken", 0.70, 0.1}, {"clam", 0.50, 0.2},
	{"mushroom", 1, 0.1}, {"olive", 1, 0.1}, {"shrimp", 1, 0.1}, {"crab", 1, 0.1}, // their labels print the drained weight
	{"tomato", 0.60, 0.12}, {"pineapple", 0.65, 0.1}, {"mandarin", 0.57, 0.1}, {"fruit cocktail", 0.62, 0.1}, {"peach", 0.60, 0.1}, {"pear", 0.58, 0.1},
	{"beet", 0.64, 0.08}, {"carrot", 0.62, 0.08}, {"spinach", 0.66, 0.1}, {"potato", 0.65, 0.1},
}

// otherDrained is the share of any other canned food (from memory).
var otherDrained = drainedShare{"", 0.62, 0.12}

// drain brings the weight of a can to that of its solids, where the line or the
// row of the table is of the drained food. The row of that state is counted with
// its own weight: nothing is taken off its nutrients.
func (w *weigher) drain() {
	said := slices.Contains(w.reading.States, "drained") || slices.Contains(w.reading.States, "rinsed")
	kept := slices.Contains(w.reading.States, "undrained")
	row := w.food.HasState("drained") || w.food.HasState("rinsed")
	if kept || !said && !row || w.food.HasState("frozen") || slices.Contains(w.reading.States, "frozen") || w.reading.Amount.Unit.Name != "can" && w.reading.Amount.Unit.Name != "jar" {
		return
	}
	share := otherDrained
	for _, d := range drainedShares {
		if hasWord(strings.ToLower(w.food.Name), d.word) {
			share = d
			break
		}
	}
	if share.share == 1 {
		return
	}
	w.grams = w.grams.Times(spread.FromSD(share.share, share.share*share.sd))
	w.from += ", drained"
	w.notes = append(w.notes, fmt.Sprintf("drained, a can keeps %.0f %% of its net weight", 100*share.share))
	switch {
	case !said:
		w.assume(0.9, "counted as drained")
	case !row:
		w.assume(0.9, "the table has no drained row for %s; its figures with the liquid are used for the drained weight", w.food.Name)
	}
}
