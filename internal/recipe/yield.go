package recipe

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"unicode"

	"potwright/internal/measure"
)

// yieldWords stand before or after the number of servings.
var (
	yieldBefore = []string{"serves", "servings", "serving", "number of servings", "makes", "yield", "yields", "portions", "feeds", "for"}
	yieldOpens  = []string{"serves", "makes", "yield", "yields", "feeds"} // those that begin a part of a line
	yieldAfter  = []string{"servings", "serving", "portions", "portion", "people", "persons", "helpings", "servings."}
)

// bakedBy are things that a line may say a recipe makes by their number alone, and that
// nobody buys by it to cook with: "16 bars".
var bakedBy = words("bars|cookies|muffins|cupcakes|brownies|scones|pancakes|squares|bowls|waffles|fritters|popsicles|blondies|flapjacks|truffles")

// yield reads a line that says how many the recipe serves; false where the line
// says something else.
func (p *parser) yield(line string) bool {
	if p.part == method && len(p.r.Steps)+len(p.step) > 0 || p.r.YieldText != "" && p.part != beginning {
		return false
	}
	low := strings.ToLower(strings.TrimFunc(line, func(r rune) bool { return isBlank(r) || strings.ContainsRune("#*_•-", r) }))
	if len(low) > longestYield {
		return false
	}
	found, fits := false, p.r.YieldText == "" || len(p.r.YieldText)+len("; ")+len(line) <= longestYield
	for _, part := range yieldParts(low) {
		q, ok := servingsOf(part)
		if !ok {
			continue
		}
		found = true
		if !fits {
			continue
		}
		switch {
		case q > MostServings:
			p.tooMany = true
		case p.r.Servings <= 0:
			p.r.Servings = q
		}
		p.makes(part)
	}
	switch {
	case !found || !fits:
	case p.r.YieldText == "":
		p.r.YieldText = line
	default: // a second line of what the dish makes stands behind the first
		p.r.YieldText += "; " + line
	}
	return found
}

// namedYield reads what the dish makes behind its title or a heading: "Carrot
// cupcakes (makes 12)", "Egg muffins - 12 muffins", "Ingredients (serves 4)".
func (p *parser) namedYield(line string) bool {
	name, inner, ok := strings.Cut(strings.TrimSuffix(strings.TrimSuffix(line, ":"), ")"), "(")
	for _, dash := range []string{" - ", " – ", " — ", " | "} {
		if !ok {
			name, inner, ok = strings.Cut(line, dash)
		}
	}
	name = strings.TrimFunc(name, isBlank)
	if !ok || p.part != beginning || name == "" || startsWithAmount(name) || strings.Contains(inner, "(") {
		return false
	}
	_, serves := servingsOf(strings.ToLower(inner))
	_, alone := servingsOf(strings.ToLower(name))
	heads := ingredientHeadings[plainHeading(name)]
	if !serves || alone || p.r.Title != "" && !heads {
		return false
	}
	p.yield(inner)
	if heads {
		p.enter(ingredients)
	} else {
		p.r.Title = strings.TrimSpace(strings.TrimLeft(name, "# "))
	}
	return true
}

// yieldParts are the parts of a line that may say it, each by itself: "prep 20 min.
// makes 8 cups (6 servings)" has two.
func yieldParts(low string) []string {
	var parts []string
	for _, part := range strings.FieldsFunc(low, func(r rune) bool { return strings.ContainsRune("|•·;", r) }) {
		for {
			i := nextYield(part)
			if i < 0 {
				break
			}
			parts, part = append(parts, strings.Trim(part[:i], " .,")), part[i:]
		}
		parts = append(parts, strings.TrimSpace(part))
	}
	return parts
}

// nextYield is where, behind a full stop, a comma or the beginning of a parenthesis, a
// word stands that begins to say it; -1 for nowhere.
func nextYield(part string) int {
	for i := 1; i < len(part); i++ {
		if part[i-1] == ' ' && startsWithAny(part[i:], []string{"serves", "makes", "yields", "yield"}) && timeEnd.MatchString(part[:i]) {
			return i
		}
		if part[i-1] != '(' && (part[i-1] != ' ' || i < 2 || !strings.ContainsRune(".,", rune(part[i-2]))) {
			continue
		}
		if startsWithAny(part[i:], yieldOpens) {
			return i
		}
	}
	return -1
}

// timeEnd is the end of a time behind which a line goes on: "cook 6 h serves 8".
var timeEnd = regexp.MustCompile(`\d ?(?:m|mins?|minutes?|h|hrs?|hours?)\.? +$`)

// longestYield is how long, in bytes, a line that says what the dish makes may
// be.
const longestYield = 80

// servingsOf reads "serves 4", "servings: 4-6", "makes 12 muffins", "4
// portions". A range counts by its middle.
func servingsOf(low string) (float64, bool) {
	for _, w := range yieldBefore {
		rest, ok := strings.CutPrefix(low, w)
		if !ok || rest == "" || unicode.IsLetter(rune(rest[0])) {
			continue
		}
		rest = strings.TrimLeft(rest, ": \t\u00a0-–—=*_")
		q, n, ok := measure.ScanQuantity(rest)
		if !ok {
			continue
		}
		after := strings.TrimSpace(rest[n:])
		if w == "for" && !startsWithAny(after, yieldAfter) && !bakedBy[after] && after != "" {
			continue
		}
		if w == "makes" || strings.HasPrefix(w, "yield") {
			return madeServings(q, after)
		}
		return q.Mid(), q.Mid() > 0
	}
	q, n, ok := measure.ScanQuantity(low)
	if ok && bakedBy[strings.TrimSpace(low[n:])] {
		return q.Mid(), q.Mid() > 0
	}
	if ok && startsWithAny(strings.TrimSpace(low[n:]), yieldAfter) {
		said, _, _ := strings.Cut(low[n:], "(") // "6 servings (1 1/3 cups each)"
		return q.Mid(), q.Mid() > 0 && len(strings.Fields(said)) <= 3
	}
	return 0, false
}

// madeServings reads what follows "makes": servings, or things that count as
// one each (12 muffins). A measure ("6 cups") does not tell servings, unless the
// number of servings stands behind it.
func madeServings(q measure.Quantity, after string) (float64, bool) {
	fields := strings.Fields(after)
	if q.Mid() <= 2 && isWhole(fields) {
		return slicesOf(after), true
	}
	if i := strings.Index(after, "("); i >= 0 {
		inner, n, ok := measure.ScanQuantity(after[i+1:])
		if ok && strings.HasPrefix(strings.TrimSpace(after[i+1+n:]), "per ") && inner.Mid() > 0 {
			return q.Mid() / inner.Mid(), q.Mid() > 0 // "8 pancakes (2 per person)"
		}
		if ok && strings.Contains(after[i:], "serving") {
			return inner.Mid(), inner.Mid() > 0
		}
	}
	for i, f := range fields {
		if strings.HasPrefix(f, "serving") && i > 0 {
			if inner, _, ok := measure.ScanQuantity(fields[i-1]); ok {
				return inner.Mid(), inner.Mid() > 0
			}
		}
	}
	if len(fields) > 0 {
		if u, ok := measure.FindUnit(strings.Trim(fields[0], ".,()")); ok && (u.Kind == measure.Volume || u.Kind == measure.Mass) {
			return 0, true
		}
		if u, ok := measure.FindUnit(strings.TrimRight(fields[0], ".,")); ok && u.Name == "dozen" {
			return 12 * q.Mid(), q.Mid() > 0
		}
	}
	return q.Mid(), q.Mid() > 0
}

// wholes are things that one makes one of and cuts: their number tells no servings.
var wholes = words("loaf|loaves|cake|cakes|pie|pies|tart|tarts|quiche|pan|dish|batch|casserole|cheesecake|tray|terrine|log|pot")

// isWhole reports whether words behind a number name such a thing: "9-inch pie".
func isWhole(fields []string) bool {
	for _, f := range fields[:min(3, len(fields))] {
		if wholes[strings.Trim(f, ".,()")] {
			return true
		}
	}
	return false
}

// slicesOf is how many slices or servings words behind such a thing tell; 0 for none.
func slicesOf(after string) float64 {
	fields := strings.FieldsFunc(after, func(r rune) bool { return r == ' ' || r == '(' || r == ')' || r == ',' })
	for i, f := range fields[1:] {
		if strings.HasPrefix(f, "slice") || strings.HasPrefix(f, "serving") || strings.HasPrefix(f, "piece") || strings.HasPrefix(f, "portion") {
			if q, _, ok := measure.ScanQuantity(fields[i]); ok {
				return q.Mid()
			}
		}
	}
	return 0
}

func startsWithAny(s string, list []string) bool {
	for _, w := range list {
		if rest, ok := strings.CutPrefix(s, w); ok && (rest == "" || !unicode.IsLetter(rune(rest[0]))) {
			return true
		}
	}
	return false
}

// servings settles how many the recipe serves.
func (p *parser) servings() {
	if p.r.Servings > 0 {
		return
	}
	if n, said := p.toldLast(); n > 0 {
		p.r.Servings, p.r.YieldText = n, said
		if last := len(p.r.Steps) - 1; last > 0 && strings.TrimRight(p.r.Steps[last].Text, " .!") == said {
			p.r.Steps = p.r.Steps[:last]
		}
		return
	}
	p.r.ServingsAssumed = true
	if n, said := p.cutInto(); n > 0 {
		p.r.Servings = n
		p.r.Notes = append(p.r.Notes, fmt.Sprintf("the recipe does not say how many it serves; %s is assumed, from \"%s\"", strconv.FormatFloat(n, 'f', -1, 64), said))
		return
	}
	p.r.Servings = assumedServings
	note := "the recipe does not say how many it serves; 4 is assumed"
	switch {
	case p.tooMany:
		note = fmt.Sprintf("\"%s\" is more than %d servings; 4 is assumed", p.r.YieldText, MostServings)
	case p.r.YieldText != "":
		note = "\"" + p.r.YieldText + "\" does not say how many servings; 4 is assumed"
	}
	p.r.Notes = append(p.r.Notes, note)
}

// toldLast is how many the last sentence of the method says the recipe serves or makes,
// and its words: "Makes 12 muffins."
func (p *parser) toldLast() (n float64, said string) {
	if len(p.r.Steps) == 0 || p.r.YieldText != "" {
		return 0, ""
	}
	said = strings.TrimRight(p.r.Steps[len(p.r.Steps)-1].Text, " .!")
	if i := strings.LastIndex(said, ". "); i >= 0 {
		said = said[i+2:]
	}
	if !tellsYield(said) {
		return 0, ""
	}
	if n, _ := servingsOf(strings.ToLower(said)); n <= MostServings {
		return n, said
	}
	return 0, ""
}

// tellsYield reports whether a text says how many the recipe serves or makes, and no more.
func tellsYield(text string) bool {
	low := strings.ToLower(text)
	if len(text) > longestYield || !startsWithAny(low, yieldOpens) {
		return false
	}
	_, ok := servingsOf(low)
	return ok
}

// cutInto is how many pieces the last step cuts the dish itself into, and its words for
// it: "cut into 9 squares", but not "cut each lemon into 8 wedges".
func (p *parser) cutInto() (n float64, said string) {
	if len(p.r.Steps) == 0 {
		return 0, ""
	}
	m := cutting.FindStringSubmatch(p.r.Steps[len(p.r.Steps)-1].Text)
	if m == nil || m[2] != "" && p.hasIngredient(strings.ToLower(m[2])) {
		return 0, ""
	}
	q, _, ok := measure.ScanQuantity(m[3])
	if !ok || q.Mid() < 2 || q.Mid() > MostServings {
		return 0, ""
	}
	return q.Mid(), m[1]
}

// hasIngredient reports whether an ingredient line has a word in it.
func (p *parser) hasIngredient(word string) bool {
	for _, l := range p.r.Lines {
		if strings.Contains(strings.ToLower(l.Reading.Text), word) {
			return true
		}
	}
	return false
}

// cutting finds the words by which a sentence, or what "and" or "then" joins to one,
// cuts the dish.
var cutting = regexp.MustCompile(`(?i)(?:^|[.;]\s+|\band\s+|\bthen\s+)((?:cut|slice|divide)(?: it| the (\w+))? (?:into|in) (\d+(?: ?(?:-|–|to) ?\d+)?) (?:equal |large |small |even )?(?:squares|bars|slices|wedges|pieces|triangles|portions|servings)\b)`)

var timeWords = []string{"prep time", "preparation time", "cook time", "cooking time", "total time", "bake time", "baking time", "ready in", "active time", "start to finish", "chill time", "rest time", "marinating time", "prep", "cook", "total", "preparation", "time"}

// time recognises a line that tells a time ("Prep time: 20 minutes") and keeps
// it as a note.
func (p *parser) time(line string) bool {
	if p.part == method {
		return false
	}
	low := plainHeading(line)
	for _, w := range timeWords {
		rest, ok := strings.CutPrefix(low, w)
		if ok && isTime(rest) {
			p.r.Notes = append(p.r.Notes, line)
			return true
		}
	}
	return false
}

// isTime reports whether the text is a time such as ": 1 hour 20 min".
func isTime(s string) bool {
	s = strings.TrimLeft(strings.ToLower(s), ": \t\u00a0-–—*_~")
	q, n, ok := measure.ScanQuantity(s)
	if !ok || q.High.IsZero() {
		return false
	}
	return startsWithAny(strings.TrimSpace(s[n:]), []string{"min", "mins", "minutes", "minute", "hour", "hours", "hr", "hrs", "h", "m", "days", "day"})
}
