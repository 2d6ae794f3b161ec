package composition

import "strings"

// Words are the words of a text as foods are looked up by: lower case, singular.
func Words(text string) []string { return tokenize(text) }

// tokenize splits text into lower-case words in the singular. Hyphens part
// words; apostrophes are dropped; "%" stays with its number.
func tokenize(text string) []string {
	words := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool {
		switch {
		case r == '\'' || r == '’' || r == '%' || r == '/':
			return false
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r > 127:
			return false
		}
		return true
	})
	out := words[:0]
	for _, w := range words {
		if w = singular(plainLetters(w)); w != "" {
			out = append(out, w)
		}
	}
	return out
}

// letters are accented letters of kitchen words and what they are written as
// without a mark.
var letters = strings.NewReplacer("é", "e", "è", "e", "ê", "e", "ñ", "n", "ü", "u", "ö", "o",
	"ä", "a", "â", "a", "à", "a", "î", "i", "ï", "i", "ô", "o", "û", "u", "ç", "c",
	"'", "", "’", "", "‘", "")

func plainLetters(w string) string {
	for i := 0; i < len(w); i++ {
		if w[i] > 127 || w[i] == '\'' {
			return letters.Replace(w)
		}
	}
	return w
}

// irregular are plurals that no rule below turns into the right word, and words
// that end in s and are no plural.
var irregular = map[string]string{
	"leaves": "leaf", "halves": "half", "loaves": "loaf", "calves": "calf", "knives": "knife",
	"tomatoes": "tomato", "potatoes": "potato", "mangoes": "mango", "avocadoes": "avocado",
	"radishes": "radish", "peaches": "peach", "squashes": "squash", "spinaches": "spinach",
	"sandwiches": "sandwich", "bunches": "bunch", "branches": "branch", "pinches": "pinch",
	"dashes": "dash", "inches": "inch", "boxes": "box", "relishes": "relish", "fishes": "fish",
	"cookies": "cookie", "brownies": "brownie", "smoothies": "smoothie", "veggies": "veggie",
	"chilies": "chili", "chiles": "chili", "chile": "chili", "chillies": "chili", "chilli": "chili", "chilis": "chili",
	"hummus": "hummus", "couscous": "couscous", "asparagus": "asparagus", "octopus": "octopus",
	"molasses": "molasses", "swiss": "swiss", "citrus": "citrus", "bass": "bass", "lemongrass": "lemongrass",
	"watercress": "watercress", "cress": "cress", "schnapps": "schnapps", "haricots": "haricot",
	"anchovies": "anchovy", "filet": "fillet", "filets": "fillet", "breadcrumbs": "breadcrumb",
	"yoghurt": "yogurt", "yoghurts": "yogurt", "scallion": "scallion", "catsup": "ketchup",
	"omelette": "omelet", "pimiento": "pimento", "pimientos": "pimento", "tumeric": "turmeric",
	"garbanzos": "garbanzo", "lite": "light", "fibre": "fiber", "flavoured": "flavored",
	"grits": "grits", "oats": "oat", "greens": "greens", "vs": "vs", "gas": "gas", "us": "us",
	"is": "is", "its": "its", "as": "as", "plus": "plus", "dried": "dried", "pappas": "pappa",
	"doughs": "dough", "mayo": "mayonnaise", "bbq": "barbecue",
}

// singular is the word without its plural ending. It only ever joins a plural
// with its own singular; two foods never become one word.
func singular(w string) string {
	if s, ok := irregular[w]; ok {
		return s
	}
	n := len(w)
	switch {
	case n < 4 || w[n-1] != 's' || strings.HasSuffix(w, "ss") || strings.HasSuffix(w, "us") || strings.HasSuffix(w, "is"):
		return w
	case strings.HasSuffix(w, "ies") && n > 4:
		return w[:n-3] + "y"
	}
	return w[:n-1]
}
