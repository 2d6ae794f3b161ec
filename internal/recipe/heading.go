package recipe

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"potwright/internal/ingredient"
	"potwright/internal/measure"
)

// Headings over the parts of a recipe, in lower case, as people write them.
var (
	ingredientHeadings = words("ingredients|ingredient|ingredient list|what you need|what you will need|what you'll need|you need|you will need|you'll need|shopping list")
	methodHeadings     = words("method|directions|direction|instructions|instruction|preparation|steps|how to make it|how to make|procedure|to make|what to do|what you do|how to do it|how it is done|how to cook it|how to|cooking instructions|process")
	remarkHeadings     = words("notes|note|tips|tip|cook's notes|cook's note|storage|serving suggestions|serving suggestion|variations|variation|nutrition|nutrition facts|nutrition information|nutrition information per serving|source")
)

func words(list string) map[string]bool {
	set := map[string]bool{}
	for _, w := range strings.Split(list, "|") {
		set[w] = true
	}
	return set
}

// heading recognises a heading over a part of the recipe. rest is what stands
// on the same line behind its colon.
func (l textLine) heading() (next part, rest string, ok bool) {
	switch {
	case ingredientHeadings[l.name]:
		next = ingredients
	case methodHeadings[l.name]:
		next = method
	case remarkHeadings[l.name]:
		next = remarks
	default:
		return beginning, "", false
	}
	_, rest, colon := strings.Cut(l.text, ":")
	rest = strings.TrimFunc(strings.Trim(rest, "*_"), isBlank)
	if colon && l.name == "preparation" && isTime(rest) {
		return beginning, "", false
	}
	return next, rest, true
}

// plainHeading strips marks of emphasis and lowers the case.
func plainHeading(s string) string {
	s = strings.TrimFunc(s, func(r rune) bool { return isBlank(r) || strings.ContainsRune("#*_=-–—•", r) })
	return strings.ToLower(strings.ReplaceAll(s, "’", "'"))
}

func (p *parser) hasHeading(set map[string]bool) bool {
	return slices.ContainsFunc(p.lines, func(l textLine) bool { return set[l.name] })
}

// sectionHeading recognises a heading within the ingredients or the method:
// "For the sauce:", "SAUCE", "Topping:".
func sectionHeading(line, next string) (name string, ok bool) {
	bare := strings.TrimFunc(line, func(r rune) bool { return isBlank(r) || strings.ContainsRune("#*_", r) })
	colon := strings.HasSuffix(bare, ":")
	name = strings.TrimFunc(strings.TrimSuffix(bare, ":"), isBlank)
	if name == "" || next == "" || len(name) > 60 {
		return "", false
	}
	switch {
	case colon:
	case strings.HasPrefix(strings.ToLower(name), "for the ") && len(strings.Fields(name)) <= 6 && !strings.HasSuffix(name, "."):
	case bare != line && strings.HasPrefix(line, "#"):
	default:
		return "", false
	}
	if startsWithAmount(name) || isBullet(line) {
		return "", false
	}
	return name, true
}

// sectionNames are parts of a dish that often stand alone over their lines.
var sectionNames = words("topping|filling|crust|sauce|dressing|dough|cake|frosting|glaze|marinade|salad|garnish|batter|base|icing|soup|stew|meatballs|patties|vinaigrette|gravy|streusel|crumble|rub|pasta|broth")

// partNames are those of them, and others, that are no food by themselves: they need no
// empty line before them.
var partNames = words("topping|filling|crust|dough|frosting|glaze|marinade|garnish|batter|icing|streusel|crumble|dry|wet|dry ingredients|wet ingredients")

// loneHeading recognises a heading without a colon over a line with an amount: what
// names a part of the dish, and after an empty line also what might be a food or stands
// in capitals: "Frosting", "To assemble", "PASTA".
func loneHeading(line, next string, afterBlank bool) (name string, ok bool) {
	if startsWithAmount(line) || isBullet(line) || len(strings.Fields(line)) > 4 || !startsWithAmount(next) {
		return "", false
	}
	low := strings.ToLower(line)
	if partNames[low] || strings.HasPrefix(low, "to ") && !strings.HasSuffix(low, "taste") { // "To assemble"
		return line, true
	}
	upper := strings.ToUpper(line) == line && strings.ToLower(line) != line && strings.ToUpper(next) != next
	return line, afterBlank && (upper || sectionNames[low])
}

// bullets are the marks that lists begin their lines with.
const bullets = "-–—•·*▢☐☑□■▪◦●○►▸✓✔[]"

func isBullet(line string) bool {
	for _, r := range line {
		return strings.ContainsRune(bullets, r)
	}
	return false
}

// stripBullet takes the mark of a list from the start of a line; a line of
// marks alone stays.
func stripBullet(line string) string {
	if rest := strings.TrimLeft(line, bullets+" \t\u00a0"); rest != "" {
		return rest
	}
	return line
}

// startsWithAmount reports whether the line begins with a number, after any
// bullet.
func startsWithAmount(line string) bool {
	line = stripBullet(line)
	_, n, ok := measure.ScanQuantity(line)
	if !ok {
		return false
	}
	first, _ := utf8.DecodeRuneInString(line)
	return unicode.IsNumber(first) || n < len(line) && n > 1
}

// isNumbered reports whether the line starts like a numbered step: "1. ", "2) ".
func isNumbered(line string) bool {
	_, ok := stripNumber(line)
	return ok
}

// stripNumber takes "1.", "2)", "Step 3:" and bullets from the start of a step.
func stripNumber(line string) (text string, numbered bool) {
	rest := stripBullet(line)
	numbered = len(rest) < len(line)
	if len(rest) >= 5 && strings.EqualFold(rest[:5], "step ") {
		after := strings.TrimLeft(rest[5:], "0123456789")
		if len(after) < len(rest)-5 {
			return strings.TrimLeft(after, ".): -–—\t\u00a0"), true
		}
	}
	digits := len(rest) - len(strings.TrimLeft(rest, "0123456789"))
	if digits > 0 && digits <= 2 && len(rest) > digits+1 && strings.ContainsRune(".):", rune(rest[digits])) && (rest[digits+1] == ' ' || rest[digits+1] == '\t' || rest[digits+1] > 127 || unicode.IsUpper(rune(rest[digits+1]))) {
		return strings.TrimFunc(rest[digits+1:], isBlank), true
	}
	return rest, numbered
}

// verbs start a sentence of the method. A line that begins with one and no
// amount is a step.
var verbs = words("preheat|heat|mix|stir|combine|add|cook|bake|place|pour|in|put|cut|chop|bring|remove|serve|drain|rinse|boil|simmer|melt|whisk|beat|spread|sprinkle|cover|let|season|toss|fold|roast|grill|fry|saute|sauté|brown|meanwhile|when|while|using|use|transfer|top|arrange|blend|slice|wash|peel|prepare|set|reduce|turn|return|allow|chill|refrigerate|freeze|form|shape|roll|divide|layer|line|grease|spray|coat|sift|knead|repeat|garnish|dissolve|microwave|to|make|mash|pat|rub|marinate|spoon|ladle|scoop|warm|soak|fill|lay|press|cool|broil|steam|squeeze|dip|dredge|lightly|gently|gradually|once|after|before|if|then|at|on|for|with|wrap|store|taste|adjust|crack|separate|thread|drizzle|enjoy|discard|strain|puree|process|pulse|crumble|flip|cream|start|begin|keep|check|insert|test|lower|raise|increase")

// looksLikeSentence reports whether a line reads like a step rather than an
// ingredient: it starts with a verb, or is long and ends in a full stop.
func looksLikeSentence(line string) bool {
	text, numbered := stripNumber(line)
	fields := strings.Fields(text)
	if len(fields) < 3 {
		return false
	}
	first := strings.ToLower(strings.Trim(fields[0], ",.:;"))
	switch {
	case verbs[first] && len(fields) >= 4:
		return true
	case strings.HasSuffix(text, ".") && len(fields) >= 6:
		return true
	case numbered && !isBullet(line) && len(fields) >= 4 && strings.HasSuffix(text, "."):
		return true
	}
	return strings.Contains(text, ". ") && len(fields) >= 12
}

// looksLikeIngredient reports whether a line may be an ingredient: it starts
// with an amount that is no step number, is a bullet, or is short and has "to
// taste" and the like.
func looksLikeIngredient(line string) bool {
	if isNumbered(line) && !isBullet(line) {
		return false
	}
	if startsWithAmount(line) {
		return true
	}
	if looksLikeSentence(line) {
		return false
	}
	if isBullet(line) {
		return true
	}
	r := ingredient.Read(line)
	measured := r.HasAmount && r.Amount.Unit.Name != "each" // "A simple soup" is no amount
	return measured || r.ToTaste || r.Optional && r.Food != ""
}
