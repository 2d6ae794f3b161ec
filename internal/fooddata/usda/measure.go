package usda

import (
	"regexp"
	"strings"

	"potwright/internal/composition"
)

// unitWords are the units of WEIGHT in normal form, by every spelling met.
var unitWords = map[string]string{
	"cup": "cup", "cups": "cup", "tbsp": "tbsp", "tablespoon": "tbsp", "tsp": "tsp", "teaspoon": "tsp",
	"fl oz": "fl oz", "oz": "oz", "lb": "lb", "quart": "quart", "pint": "pint", "ml": "ml", "liter": "l",
	"slice": "slice", "slices": "slice", "clove": "clove", "cloves": "clove", "stalk": "stalk", "stalks": "stalk",
	"head": "head", "bunch": "bunch", "sprig": "sprig", "sprigs": "sprig", "leaf": "leaf", "leaves": "leaf",
	"ear": "ear", "can": "can", "jar": "jar", "package": "package", "stick": "stick", "envelope": "envelope",
	"packet": "envelope", "pouch": "package", "cube": "cube", "link": "link", "links": "link", "fillet": "fillet",
	"breast": "breast", "thigh": "thigh", "drumstick": "drumstick", "wing": "wing", "leg": "leg", "piece": "piece",
	"pieces": "piece", "patty": "patty", "strip": "strip", "strips": "strip", "spear": "spear", "spears": "spear",
	"floweret": "floret", "sheet": "sheet", "square": "square", "bar": "bar", "container": "container",
	"carton": "carton", "pat": "pat", "dash": "dash", "block": "block", "roll": "each", "cake": "cake",
	"steak": "steak", "roast": "roast", "chop": "chop", "bottle": "bottle", "box": "box", "ring": "ring",
	"rings": "ring", "wedge": "wedge", "half": "half", "root": "root", "pod": "pod", "pods": "pod",
	"sprout": "sprout", "bag": "bag", "serving": "serving", "large": "large", "medium": "medium",
	"small": "small", "extra large": "extra large", "jumbo": "jumbo", "extra small": "extra small",
	"inch": "inch", "scoop": "scoop", "bulb": "bulb", "kernel": "kernel", "kernels": "kernel", "loaf": "loaf",
	"crust": "each", "shell": "each", "fruit": "each", "individual": "each", "bird": "each", "tortilla": "each",
	"cracker": "each", "crackers": "each", "cookie": "each", "bagel": "each", "muffin": "each", "egg": "each",
	"sausage": "each", "frankfurter": "each", "toast": "each", "pancake": "each", "croissant": "each",
	"bun": "each", "wafer": "each", "potato": "each", "pita": "each", "item": "each", "cone": "each",
	"twists": "each", "chips": "each", "saltines": "each", "nuts": "each", "floret": "floret",
}

// qualifierWords put the words of a description into the form cooks write.
var qualifierWords = map[string]string{
	"slices": "sliced", "pieces": "pieces", "dice": "diced", "cubes": "cubed", "shreds": "shredded",
}

var (
	bracketed  = regexp.MustCompile(`\(([^)]*)\)?`)
	packSize   = regexp.MustCompile(`^\d+(\.\d+)?(-\d/\d)? ?(oz|fl oz|lb|g)\b`)
	unwanted   = regexp.MustCompile(`nlea|yield from|excluding refuse|cubic inch|amount to make|bone removed|skin only|separable|refuse|recipe yield|dry mix|prepared`)
	served     = regexp.MustCompile(`^serving (1/2|1/4|1/3|1|2) (cup|tbsp)$`)
	qualifying = regexp.MustCompile(`[a-z0-9][a-z0-9"/.' -]*`)
)

var fractions = map[string]float64{"1/4": 0.25, "1/3": 1.0 / 3, "1/2": 0.5, "1": 1, "2": 2}

// NormalMeasure turns the agency's description of a household measure ("cup,
// chopped or diced") into unit and qualifier in the table's normal form; ok is
// false for one no cook would write. food is our name of the food: a description
// that names the food itself means a whole one.
func NormalMeasure(text, food string) (m composition.Measure, ok bool) {
	low := strings.ToLower(strings.TrimSpace(text))
	if unwanted.MatchString(low) {
		return m, false
	}
	size := ""
	for _, b := range bracketed.FindAllStringSubmatch(low, -1) {
		if s := packSize.FindString(b[1]); s != "" && size == "" {
			size = s
		}
	}
	if part := served.FindStringSubmatch(low); part != nil {
		return composition.Measure{Unit: part[2], Amount: fractions[part[1]]}, true
	}
	low = strings.TrimSpace(bracketed.ReplaceAllString(low, " "))
	words := strings.Fields(strings.ReplaceAll(low, ",", " , "))
	unit, rest, ok := leadingUnit(words, food)
	if !ok {
		return m, false
	}
	m.Unit = unit
	m.Qualifier = qualifier(rest)
	if size != "" && (unit == "can" || unit == "package" || unit == "container" || unit == "jar" ||
		unit == "envelope" || unit == "bottle" || unit == "bag" || unit == "carton") {
		m.Qualifier = strings.TrimSuffix(size+", "+m.Qualifier, ", ")
	}
	return m, true
}

// leadingUnit finds the unit at the start of the words, or a size after the
// food's own name ("potato medium"), or the food's own name alone.
func leadingUnit(words []string, food string) (unit string, rest []string, ok bool) {
	for n := min(2, len(words)); n > 0; n-- {
		if u, found := unitWords[strings.Join(words[:n], " ")]; found {
			unit, rest = u, words[n:]
			break
		}
	}
	if unit == "" {
		if len(words) == 0 || !names(food, words[0]) {
			return "", nil, false
		}
		unit, rest = "each", words[1:]
	}
	if unit == "each" {
		for i, w := range rest {
			if w == "large" || w == "medium" || w == "small" {
				return w, append(append([]string{}, rest[:i]...), rest[i+1:]...), true
			}
		}
	}
	return unit, rest, true
}

// names reports whether the word is part of the food's name, in the plural too.
func names(food, word string) bool {
	word = oneOf(word)
	for _, w := range strings.FieldsFunc(food, func(r rune) bool { return r == ' ' || r == ',' || r == '-' }) {
		if oneOf(w) == word {
			return true
		}
	}
	return false
}

// oneOf is a word without its plural ending.
func oneOf(word string) string {
	if stem, ok := strings.CutSuffix(word, "ies"); ok {
		return stem + "y"
	}
	if stem, ok := strings.CutSuffix(word, "oes"); ok {
		return stem + "o"
	}
	return strings.TrimSuffix(word, "s")
}

func qualifier(words []string) string {
	var parts []string
	for _, part := range strings.Split(strings.Join(words, " "), ",") {
		fields := strings.Fields(qualifying.FindString(strings.TrimSpace(part)))
		for i, w := range fields {
			if q, ok := qualifierWords[w]; ok {
				fields[i] = q
			}
		}
		if len(fields) > 0 {
			parts = append(parts, strings.Join(fields, " "))
		}
	}
	return strings.Join(parts, ", ")
}
