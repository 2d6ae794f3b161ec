package foodmatch

import (
	"strconv"
	"strings"

	"potwright/internal/composition"
	"potwright/internal/ingredient"
)

// pieceWeight is the usual edible weight of one unit of a food whose name or
// line holds the word.
type pieceWeight struct {
	unit, word string
	grams, sd  float64
}

// variedPieces are of things that are sold so differently that the usual weight
// is a better guess than the table's one sample. Boneless half breasts weigh 118 g
// (USDA SR28 05062) to 250 g (from memory).
var variedPieces = []pieceWeight{
	{"each", "chicken breast", 170, 0.3},
	{"piece", "chicken breast", 170, 0.3},
	{"slice", "sourdough", 55, 0.35}, // from memory, as those below
	{"slice", "baguette", 15, 0.4},
	{"slice", "french bread", 40, 0.5},
	{"slice", "ciabatta", 45, 0.4},
	{"slice", "italian bread", 35, 0.4},
	{"each", "chapati", 45, 0.35},
	{"each", "roti", 45, 0.35},
	{"each", "stock cube", 8, 0.3},     // 4 g in America, 10 g in Britain, from memory
	{"piece", "chicken", 110, 0.4},     // breasts, thighs and drumsticks, from memory
	{"leaf", "lettuce", 14, 0.5},       // between the inner and outer leaf of USDA SR28 11253
	{"each", "bell pepper", 119, 0.25}, // USDA SR28 11333 and 11821, medium; the yellow row gives a large one only
}

// usualPieces are used where the table has no measure of that unit. Sources:
// "USDA SR28" where a row of it gives the weight, else "from memory".
var usualPieces = []pieceWeight{
	{"clove", "garlic", 3, 0.25},             // USDA SR28 11215
	{"head", "garlic", 40, 0.25},             // from memory: 10 to 12 cloves
	{"bulb", "garlic", 40, 0.25},             // from memory
	{"bulb", "fennel", 234, 0.2},             // USDA SR28 11957
	{"each", "fennel", 234, 0.2},             // USDA SR28 11957
	{"stalk", "celery", 40, 0.25},            // USDA SR28 11143, medium
	{"each", "celery", 40, 0.3},              // USDA SR28 11143, a stalk
	{"head", "celery", 450, 0.25},            // from memory
	{"bunch", "celery", 450, 0.25},           // from memory
	{"stalk", "broccoli", 151, 0.25},         // USDA SR28 11090
	{"head", "broccoli", 300, 0.3},           // from memory
	{"each", "broccoli", 300, 0.3},           // from memory: a head
	{"bunch", "broccoli", 608, 0.2},          // USDA SR28 11090
	{"head", "cauliflower", 575, 0.25},       // USDA SR28 11135, medium
	{"each", "cauliflower", 575, 0.25},       // USDA SR28 11135, medium
	{"head", "cabbage", 908, 0.25},           // USDA SR28 11109, medium
	{"each", "cabbage", 908, 0.25},           // USDA SR28 11109, medium
	{"head", "bok choy", 840, 0.4},           // USDA SR28 11116
	{"each", "baby bok choy", 115, 0.4},      // from memory
	{"each", "bok choy", 840, 0.4},           // USDA SR28 11116, a head
	{"each", "sausage", 80, 0.3},             // from memory: a link, five or six to a pound
	{"each", "shank", 350, 0.3},              // from memory: lamb, with its bone
	{"each", "kohlrabi", 200, 0.4},           // from memory
	{"each", "celeriac", 450, 0.4},           // from memory
	{"each", "okra", 12, 0.3},                // from memory: a pod
	{"each", "quince", 92, 0.3},              // USDA SR28 09296
	{"each", "lamb chop", 115, 0.35},         // from memory: a loin chop
	{"each", "cardamom pod", 0.2, 0.4},       // from memory
	{"each", "star anise", 0.7, 0.4},         // from memory: a whole star
	{"each", "lasagne", 18, 0.25},            // from memory: a dried sheet
	{"each", "lasagna", 18, 0.25},            // from memory: a dried sheet
	{"each", "parsnip", 115, 0.35},           // from memory: about 4 oz
	{"head", "romaine", 500, 0.25},           // from memory
	{"head", "lettuce", 450, 0.25},           // between USDA SR28 rows of lettuce
	{"each", "lettuce", 450, 0.3},            // a head
	{"leaf", "lettuce", 10, 0.4},             // USDA SR28 11253
	{"leaf", "cabbage", 23, 0.3},             // USDA SR28 11109
	{"leaf", "basil", 0.5, 0.3},              // USDA SR28 02044
	{"each", "basil", 0.5, 0.4},              // leaves
	{"leaf", "mint", 0.3, 0.4},               // from memory
	{"leaf", "sage", 0.5, 0.4},               // from memory
	{"leaf", "bay", 0.2, 0.4},                // from memory
	{"each", "bay leaf", 0.2, 0.4},           // from memory
	{"each", "bay lea", 0.2, 0.4},            // from memory
	{"leaf", "spinach", 10, 0.3},             // USDA SR28 11457
	{"leaf", "kale", 15, 0.4},                // from memory
	{"leaf", "", 5, 0.5},                     // from memory
	{"bunch", "spinach", 340, 0.2},           // USDA SR28 11457
	{"bunch", "kale", 200, 0.3},              // from memory
	{"bunch", "collard", 250, 0.3},           // from memory
	{"bunch", "chard", 250, 0.3},             // from memory
	{"bunch", "greens", 250, 0.3},            // from memory
	{"bunch", "parsley", 60, 0.3},            // from memory
	{"bunch", "cilantro", 50, 0.3},           // from memory
	{"bunch", "coriander", 50, 0.3},          // from memory
	{"bunch", "basil", 50, 0.3},              // from memory
	{"bunch", "mint", 40, 0.3},               // from memory
	{"bunch", "dill", 30, 0.3},               // from memory
	{"bunch", "onion", 90, 0.25},             // six green onions, USDA SR28 11291
	{"bunch", "scallion", 90, 0.25},          // six green onions, USDA SR28 11291
	{"bunch", "radish", 110, 0.3},            // from memory
	{"bunch", "carrot", 350, 0.3},            // from memory
	{"bunch", "beet", 350, 0.3},              // from memory
	{"bunch", "asparagus", 400, 0.2},         // from memory
	{"bunch", "grape", 450, 0.4},             // from memory
	{"bunch", "", 150, 0.5},                  // from memory
	{"sprig", "parsley", 1, 0.4},             // USDA SR28 11297
	{"sprig", "dill", 0.2, 0.4},              // USDA SR28 02045
	{"sprig", "rosemary", 1.5, 0.4},          // from memory
	{"sprig", "thyme", 0.8, 0.4},             // from memory
	{"sprig", "cilantro", 2.2, 0.4},          // USDA SR28 11165
	{"sprig", "", 1, 0.5},                    // from memory
	{"handful", "basil", 10, 0.5},            // from memory
	{"handful", "parsley", 10, 0.5},          // from memory
	{"handful", "cilantro", 10, 0.5},         // from memory
	{"handful", "coriander", 10, 0.5},        // from memory
	{"handful", "mint", 10, 0.5},             // from memory
	{"handful", "dill", 10, 0.5},             // from memory
	{"handful", "chive", 10, 0.5},            // from memory
	{"handful", "", 30, 0.4},                 // from memory
	{"ear", "corn", 90, 0.2},                 // USDA SR28 11167, medium
	{"each", "corn", 90, 0.3},                // an ear
	{"slice", "bacon", 28, 0.2},              // USDA SR28 10123
	{"strip", "bacon", 28, 0.2},              // USDA SR28 10123
	{"each", "bacon", 28, 0.3},               // a slice
	{"slice", "bread", 29, 0.15},             // USDA SR28 18069
	{"each", "bread", 29, 0.3},               // a slice
	{"slice", "cheese", 24, 0.2},             // USDA SR28: slices of 21 and 28 g
	{"stick", "cheese", 28, 0.05},            // USDA SR28 01029
	{"each", "string cheese", 28, 0.05},      // USDA SR28 01029
	{"slice", "ham", 28, 0.2},                // USDA SR28 07028
	{"slice", "turkey", 28, 0.2},             // USDA SR28
	{"slice", "tomato", 20, 0.25},            // USDA SR28 11529
	{"slice", "onion", 14, 0.4},              // USDA SR28 11282
	{"slice", "apple", 20, 0.3},              // from memory
	{"slice", "lemon", 8, 0.3},               // from memory
	{"slice", "lime", 6, 0.3},                // from memory
	{"slice", "orange", 15, 0.3},             // from memory
	{"slice", "avocado", 15, 0.3},            // from memory
	{"slice", "cucumber", 7, 0.3},            // USDA SR28 11205
	{"slice", "pineapple", 56, 0.3},          // USDA SR28 09266, thin
	{"slice", "ginger", 2.2, 0.3},            // USDA SR28 11216
	{"slice", "pepper", 10, 0.3},             // USDA SR28 11333
	{"slice", "jalape", 2, 0.4},              // from memory
	{"slice", "", 25, 0.5},                   // from memory
	{"wedge", "lemon", 7, 0.3},               // from memory
	{"wedge", "lime", 6, 0.3},                // from memory
	{"wedge", "", 15, 0.5},                   // from memory
	{"inch", "ginger", 8, 0.4},               // from memory
	{"piece", "ginger", 11, 0.5},             // from memory
	{"cm", "ginger", 3.1, 0.4},               // as an inch of it
	{"knob", "ginger", 11, 0.5},              // from memory
	{"each", "ginger", 11, 0.6},              // from memory
	{"fillet", "tilapia", 116, 0.2},          // USDA SR28 15261
	{"fillet", "catfish", 150, 0.2},          // USDA SR28 15010
	{"fillet", "salmon", 180, 0.25},          // USDA SR28 15236
	{"fillet", "anchov", 4, 0.2},             // USDA SR28 15002
	{"fillet", "", 140, 0.3},                 // from memory
	{"each", "anchov", 4, 0.2},               // USDA SR28 15002
	{"each", "chicken thigh", 95, 0.25},      // boneless, from memory
	{"each", "chicken drumstick", 75, 0.2},   // meat and skin, from memory
	{"each", "chicken leg", 160, 0.25},       // meat and skin, from memory
	{"each", "chicken wing", 49, 0.2},        // meat and skin, from memory
	{"each", "stock cube", 8, 0.3},           // 4 g in America, 10 g in Britain, from memory
	{"piece", "chicken", 110, 0.4},           // from memory
	{"each", "chicken piece", 110, 0.4},      // from memory
	{"each", "rotisserie chicken", 600, 0.3}, // meat of a 2 lb bird, from memory
	{"rack", "rib", 700, 0.3},                // meat of a rack of 1.1 kg, from memory
	{"piece", "cheese", 30, 0.6},             // from memory
	{"knob", "butter", 15, 0.4},              // from memory
	{"each", "chicken", 1050, 0.2},           // whole, meat and skin of a 1.5 kg bird, from memory
	{"each", "turkey breast", 900, 0.4},      // from memory
	{"each", "turkey", 4000, 0.3},            // from memory
	{"each", "pork chop", 140, 0.25},         // from memory
	{"each", "pork tenderloin", 450, 0.2},    // from memory
	{"each", "chop", 140, 0.3},               // from memory
	{"each", "ham hock", 120, 0.4},           // from memory
	{"each", "hock", 120, 0.4},               // from memory
	{"each", "steak", 200, 0.3},              // from memory
	{"each", "patty", 85, 0.25},              // from memory
	{"each", "hot dog", 45, 0.15},            // USDA SR28 07022
	{"each", "frank", 45, 0.15},              // USDA SR28 07022
	{"each", "shrimp", 12, 0.4},              // from memory
	{"each", "tortilla", 36, 0.35},           // between USDA SR28 corn 24 g and flour 49 g
	{"each", "bun", 43, 0.15},                // USDA SR28 18350
	{"each", "roll", 38, 0.3},                // from memory
	{"each", "muffin", 57, 0.15},             // USDA SR28 18258
	{"each", "pita", 60, 0.2},                // USDA SR28 18041, large
	{"each", "bagel", 105, 0.15},             // USDA SR28 18001
	{"each", "baguette", 250, 0.2},           // from memory
	{"each", "pie crust", 175, 0.15},         // from memory
	{"each", "pizza", 280, 0.25},             // crust, from memory
	{"each", "graham cracker", 14, 0.1},      // USDA SR28 18173, a large rectangle
	{"each", "cracker", 4, 0.4},              // from memory
	{"each", "cookie", 12, 0.4},              // from memory
	{"each", "wonton", 8, 0.15},              // USDA SR28 18368
	{"each", "taco shell", 13, 0.15},         // USDA SR28 18360
	{"each", "tostada", 13, 0.2},             // from memory
	{"each", "noodle", 20, 0.4},              // a lasagna noodle, from memory
	{"each", "lasagna", 20, 0.3},             // from memory
	{"each", "marshmallow", 7, 0.1},          // USDA SR28 19116
	{"each", "olive", 4, 0.3},                // USDA SR28 09193
	{"each", "pickle", 65, 0.4},              // USDA SR28 11937
	{"spear", "pickle", 35, 0.3},             // USDA SR28 11937
	{"each", "date", 8, 0.2},                 // USDA SR28 09087
	{"each", "prune", 9.5, 0.15},             // USDA SR28 09291
	{"each", "apricot, dried", 3.5, 0.2},     // a half, USDA SR28 09032
	{"each", "green chil", 45, 0.4},          // USDA SR28 11670
	{"each", "pretzel", 6, 0.3},              // USDA SR28 19047
	{"each", "sweet potato", 130, 0.25},      // 5 in long, USDA SR28 11507
	{"each", "yam", 130, 0.4},                // as sweet potato
	{"each", "italian bread", 250, 0.3},      // from memory
	{"each", "french bread", 250, 0.3},       // from memory
	{"each", "apricot", 35, 0.2},             // USDA SR28 09021
	{"each", "mushroom", 18, 0.3},            // USDA SR28 11260, medium
	{"each", "strawberr", 12, 0.3},           // USDA SR28 09316, medium
	{"each", "grape", 5, 0.2},                // USDA SR28 09132
	{"each", "grape tomato", 8, 0.3},         // from memory
	{"each", "plum tomato", 62, 0.2},         // USDA SR28 11529
	{"each", "roma tomato", 62, 0.2},         // USDA SR28 11529
	{"each", "baby carrot", 12, 0.25},        // USDA SR28 11960
	{"each", "new potato", 60, 0.4},          // from memory
	{"each", "mini pita", 28, 0.15},          // USDA SR28 18042, small
	{"each", "cherry tomato", 17, 0.2},       // USDA SR28 11529
	{"each", "scallion", 15, 0.3},            // USDA SR28 11291, medium
	{"each", "green onion", 15, 0.3},         // USDA SR28 11291, medium
	{"stalk", "onion", 15, 0.3},              // USDA SR28 11291
	{"stalk", "scallion", 15, 0.3},           // USDA SR28 11291
	{"stalk", "rhubarb", 51, 0.3},            // USDA SR28 09307
	{"stalk", "lemongrass", 20, 0.4},         // from memory
	{"stalk", "asparagus", 16, 0.25},         // USDA SR28 11011
	{"stalk", "", 40, 0.5},                   // from memory
	{"spear", "asparagus", 16, 0.25},         // USDA SR28 11011
	{"each", "asparagus", 16, 0.25},          // USDA SR28 11011
	{"each", "leek", 89, 0.25},               // USDA SR28 11246
	{"each", "shallot", 30, 0.4},             // from memory
	{"each", "jalape", 14, 0.25},             // USDA SR28 11979
	{"each", "serrano", 6, 0.25},             // USDA SR28 11977
	{"each", "chipotle", 10, 0.4},            // from memory
	{"each", "chile", 45, 0.5},               // USDA SR28 11670
	{"each", "chili pepper", 45, 0.5},        // USDA SR28 11670
	{"each", "peppercorn", 0.03, 0.4},        // from memory
	{"each", "clove", 0.08, 0.3},             // whole cloves, from memory
	{"each", "acorn squash", 431, 0.25},      // USDA SR28 11482
	{"each", "butternut squash", 900, 0.3},   // from memory
	{"each", "spaghetti squash", 1000, 0.3},  // from memory
	{"each", "squash", 200, 0.35},            // summer squash, USDA SR28 11641
	{"each", "zucchini", 196, 0.3},           // USDA SR28 11477
	{"each", "eggplant", 458, 0.25},          // USDA SR28 11209
	{"each", "cucumber", 280, 0.25},          // USDA SR28 11205
	{"each", "pumpkin", 2000, 0.4},           // from memory
	{"each", "pineapple", 905, 0.2},          // USDA SR28 09266
	{"each", "cantaloupe", 552, 0.25},        // USDA SR28 09181, medium
	{"each", "honeydew", 1000, 0.25},         // USDA SR28 09184, small
	{"each", "watermelon", 4518, 0.3},        // USDA SR28 09326
	{"each", "mango", 336, 0.25},             // USDA SR28 09176
	{"each", "lemon juice", 48, 0.25},        // USDA SR28 09152
	{"each", "lime juice", 44, 0.25},         // USDA SR28 09160
	{"each", "orange juice", 86, 0.25},       // USDA SR28 09206
	{"each", "grapefruit juice", 196, 0.25},  // USDA SR28 09123
	{"each", "lemon zest", 6, 0.4},           // a tablespoon, USDA SR28 09156
	{"each", "lemon peel", 6, 0.4},           // a tablespoon, USDA SR28 09156
	{"each", "lime zest", 4, 0.4},            // from memory
	{"each", "orange zest", 9, 0.4},          // from memory
	{"each", "orange peel", 9, 0.4},          // from memory
	{"each", "jicama", 600, 0.3},             // USDA SR28 11603
	{"each", "plantain", 179, 0.2},           // USDA SR28 09277
	{"spray", "", 0.3, 0.4},                  // USDA SR28: a third of a second
	{"cube", "bouillon", 4, 0.15},            // USDA SR28 06076
	{"each", "bouillon", 4, 0.15},            // USDA SR28 06076
	{"cube", "ice", 22, 0.3},                 // from memory
	{"each", "ice cube", 22, 0.3},            // from memory
	{"cube", "cheese", 17, 0.2},              // USDA SR28 01009, a cubic inch
	{"cube", "", 15, 0.6},                    // from memory
	{"stick", "cinnamon", 2.6, 0.3},          // from memory
	{"each", "cinnamon stick", 2.6, 0.3},     // from memory
	{"stick", "celery", 25, 0.5},             // a strip of 4 g or a stalk of 40 g, USDA SR28 11143
	{"stick", "carrot", 7, 0.3},              // USDA SR28 11124, a strip
	{"scoop", "ice cream", 66, 0.25},         // USDA SR28: half a cup
	{"sheet", "phyllo", 19, 0.1},             // USDA SR28 18338
	{"sheet", "puff pastry", 245, 0.1},       // USDA SR28 18337
	{"sheet", "nori", 2.6, 0.2},              // from memory
	{"sheet", "graham", 14, 0.1},             // USDA SR28 18173
	{"drop", "", 0.05, 0.3},                  // from memory
}

// usualPiece finds the usual weight of a unit of the food: by the longest words
// that stand in the line's food or in the food's name, else any of that unit.
func usualPiece(f *composition.Food, r ingredient.Reading, unit string) (pieceWeight, bool) {
	return longestMatch(usualPieces, f, r, unit)
}

// longestMatch finds the entry with the longest words for the unit; f is nil
// where only the line's own words count.
func longestMatch(list []pieceWeight, f *composition.Food, r ingredient.Reading, unit string) (pieceWeight, bool) {
	words, name := strings.ToLower(r.Food), ""
	if f != nil {
		name = strings.ToLower(f.Name)
	}
	best := pieceWeight{}
	for _, p := range list {
		if p.unit != unit || best.unit != "" && len(p.word) <= len(best.word) {
			continue
		}
		if p.word == "" || hasWord(words, p.word) || hasWord(name, p.word) {
			best = p
		}
	}
	return sized(best, r.Size), best.unit != ""
}

// hasWord reports whether a word of the text begins with the words given.
func hasWord(text, words string) bool {
	for from := 0; ; {
		i := strings.Index(text[from:], words)
		if i < 0 {
			return false
		}
		at := from + i
		if at == 0 || text[at-1] == ' ' || text[at-1] == '-' || text[at-1] == '(' {
			return true
		}
		from = at + 1
	}
}

// sized scales a usual weight by a written size.
func sized(p pieceWeight, size string) pieceWeight {
	p.grams *= sizeFactor(size)
	return p
}

// sizeFactor is what a written size makes of the weight of one of usual size
// (common practice, no source).
func sizeFactor(size string) float64 {
	switch size {
	case "small":
		return 0.7
	case "large":
		return 1.3
	case "extra large":
		return 1.5
	default:
		return 1
	}
}

// gramsText writes grams for a note.
func gramsText(g float64) string {
	if g >= 10 {
		return strconv.FormatFloat(g, 'f', 0, 64) + " g"
	}
	return strconv.FormatFloat(g, 'g', 2, 64) + " g"
}
