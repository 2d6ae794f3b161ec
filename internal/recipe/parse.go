package recipe

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"potwright/internal/diagnostic"
	"potwright/internal/ingredient"
)

// Bounds of a recipe: what is longer is no recipe, or several. The work of adapting one
// grows faster than its length. Design choices; of some 630 published recipes none comes
// near.
const (
	// MaxBytes is the longest text that is looked at: a web page's code may be so long.
	MaxBytes = 1 << 20
	// MaxText is the longest recipe, bytes, and MaxLine its longest line.
	MaxText = 60_000
	MaxLine = 5_000
	// MaxLines and MaxSteps are how many ingredient lines and steps it may have.
	MaxLines = 150
	MaxSteps = 200
)

// assumedServings is used where a recipe does not say how many it serves
// (common practice, no source).
const assumedServings = 4

// Parse reads a recipe from the text a person pasted: title, servings,
// ingredients and method, with or without headings. The error is a
// diagnostic.Faults: an empty or binary text, one over the bounds, or one without an
// ingredient line.
func Parse(text string) (Recipe, error) { return ParseWith(text, ingredient.Read) }

// ParseWith is Parse with a reader of ingredient lines, which answers as
// ingredient.Read does.
func ParseWith(text string, read func(string) ingredient.Reading) (Recipe, error) {
	if err := checkText(text, MaxText); err != nil {
		return Recipe{}, err
	}
	return parse(parser{r: Recipe{Text: text}, read: read})
}

// ParseKept is ParseWith for a text that was saved, when a recipe might be longer than
// now: it is read whatever its length, up to MaxBytes.
func ParseKept(text string, read func(string) ingredient.Reading) (Recipe, error) {
	if err := checkText(text, MaxBytes); err != nil {
		return Recipe{}, err
	}
	return parse(parser{r: Recipe{Text: text}, read: read, kept: true})
}

// Endless reports whether the recipe is longer than one that is read anew, by more than
// what swaps put in: the work of adapting it has no bound.
func (r Recipe) Endless() bool {
	return len(r.Lines)*10 > MaxLines*11 || len(r.Steps)*10 > MaxSteps*11 || len(r.Text)*10 > MaxText*11
}

func parse(p parser) (Recipe, error) {
	text := p.r.Text
	p.lines = splitLines(text)
	p.headed = p.hasHeading(ingredientHeadings)
	p.methodHeaded = p.hasHeading(methodHeadings)
	for i := range p.lines {
		p.line(i)
		if problem := p.tooMuch(i); problem != "" {
			return Recipe{}, diagnostic.Faults{{Line: p.lines[i].number, Problem: problem, Expected: "the text of one recipe"}}
		}
	}
	p.flush()
	if len(p.r.Lines) == 0 {
		return Recipe{}, diagnostic.Faults{{
			Problem: "no ingredient line was found", Expected: "lines such as \"2 cups flour\", one ingredient a line",
		}}
	}
	p.servings()
	if p.r.Title == "" {
		p.r.Title = "Untitled recipe"
		p.r.Notes = append(p.r.Notes, "no title was found")
	}
	return p.r, nil
}

// tooMuch says what about a line, the last that was read, is more than a recipe has; "" for
// nothing.
func (p *parser) tooMuch(i int) string {
	switch {
	case p.kept:
	case len(p.lines[i].text) > MaxLine:
		return fmt.Sprintf("this line has %d bytes; a line of a recipe has at most %d", len(p.lines[i].text), MaxLine)
	case len(p.r.Lines) > MaxLines:
		return fmt.Sprintf("this is ingredient line %d; a recipe has at most %d", len(p.r.Lines), MaxLines)
	case len(p.r.Steps) > MaxSteps:
		return fmt.Sprintf("this is step %d; a recipe has at most %d", len(p.r.Steps), MaxSteps)
	}
	return ""
}

// isMarkup reports whether the text is HTML or JSON: it opens like one, or holds
// list or paragraph tags.
func isMarkup(text string) bool {
	start := strings.ToLower(strings.TrimSpace(text))
	for _, opening := range []string{"<!doctype", "<html", "<?xml", "{\"", "[{"} {
		if strings.HasPrefix(start, opening) {
			return true
		}
	}
	return strings.Contains(start, "</li>") || strings.Contains(start, "</p>") || strings.Contains(start, "</div>")
}

// checkText refuses what cannot be a recipe of at most so many bytes.
func checkText(text string, most int) error {
	var f diagnostic.Fault
	switch {
	case len(text) > MaxBytes:
		f.Problem = fmt.Sprintf("the text is %s; a recipe is at most 1 MB", megabytes(len(text)))
		f.Expected = "the text of one recipe"
	case strings.IndexByte(text, 0) >= 0:
		at := strings.IndexByte(text, 0)
		f.Line = 1 + strings.Count(text[:at], "\n")
		f.Problem = "the text holds a byte that no text has (0); it may be a picture or a document file"
		f.Expected = "plain text"
	case isMarkup(text):
		f.Problem = "this is the code of a web page or a data file, with no recipe that can be found in it"
		f.Expected = "the recipe as it reads on the page: copy its title, ingredients and method"
	case !mostlyText(text):
		f.Problem = "most of this is not text; it may be a picture or a document file"
		f.Expected = "plain text in UTF-8"
	case strings.TrimFunc(text, isBlank) == "":
		f.Problem = "the text is empty"
		f.Expected = "a recipe: a title, ingredient lines and a method"
	case len(text) > most:
		f.Problem = fmt.Sprintf("the text has %d bytes; a recipe has at most %d", len(text), most)
		f.Expected = "the text of one recipe"
	default:
		return nil
	}
	return diagnostic.Faults{f}
}

func megabytes(n int) string {
	const mb = 1 << 20
	if n < 10*mb && n%mb != 0 {
		return fmt.Sprintf("%.1f MB", float64(n)/mb)
	}
	return fmt.Sprintf("%d MB", n/mb)
}

// mostlyText reports whether less than a tenth of the characters are control
// characters or broken UTF-8.
func mostlyText(text string) bool {
	odd, all := 0, 0
	for _, r := range text {
		all++
		if r == utf8.RuneError || r < ' ' && r != '\n' && r != '\r' && r != '\t' && r != '\f' && r != '\v' {
			odd++
		}
	}
	return odd*10 <= all
}

func isBlank(r rune) bool {
	switch r {
	case ' ', '\t', '\n', '\r', '\f', '\v', '\u00a0', '\u2007', '\u202f', '\ufeff', '\u200b':
		return true
	}
	return false
}

// textLine is one line of the text, trimmed, with its number counted from 1.
type textLine struct {
	text   string
	name   string // what stands before its colon, as headings are looked up
	number int
	blank  bool // nothing before it but space
}

// splitLines cuts the text at any line end and drops empty lines, remembering
// where they were.
func splitLines(text string) []textLine {
	text = strings.ReplaceAll(text, "\r\n", "\n")
	text = strings.ReplaceAll(text, "\r", "\n")
	text = strings.ReplaceAll(text, "\u2028", "\n")
	lines := make([]textLine, 0, 1+strings.Count(text, "\n"))
	blank, number := true, 0
	for raw := range strings.SplitSeq(text, "\n") {
		number++
		raw = strings.TrimFunc(raw, isBlank)
		if raw == "" {
			blank = true
			continue
		}
		name, _, _ := strings.Cut(raw, ":")
		lines = append(lines, textLine{raw, plainHeading(name), number, blank})
		blank = false
	}
	return lines
}

// part of a recipe that a line stands in.
type part int

const (
	beginning part = iota // title, servings, times
	ingredients
	method
	remarks // notes and the like, after the method
)

type parser struct {
	read   func(string) ingredient.Reading
	r      Recipe
	lines  []textLine
	part   part
	kept   bool // of any length
	headed bool // the text has a heading over its ingredients
	// tooMany is set where it names more servings than MostServings.
	tooMany bool
	// methodHeaded is set where one stands over the method: then no line before
	// it is a step.
	methodHeaded bool
	section      string
	step         []string // lines of the step being gathered
	// numbered is set where that step began with a number or bullet: then the
	// lines below it go on with it.
	numbered bool
	// wrapped is set where a line of the method begins with a small letter: then
	// its sentences run over the ends of lines.
	wrapped bool
}

// line files one line of the text.
func (p *parser) line(i int) {
	l := p.lines[i]
	if next, rest, ok := l.heading(); ok {
		p.enter(next)
		if rest == "" {
			return
		}
		l.text = rest
	}
	switch {
	case p.namedYield(l.text), p.yield(l.text), p.time(l.text):
	case p.part == beginning && p.r.Title == "" && !p.startsBare(i):
		p.r.Title = strings.TrimSpace(strings.TrimLeft(l.text, "# "))
	case p.part == remarks:
		p.r.Notes = append(p.r.Notes, l.text)
	case p.part == method:
		p.methodLine(i, l)
	default:
		p.ingredientLine(i, l)
	}
}

// startsBare reports whether a text without a title starts right with its
// ingredients. "2-Step Chicken" over an empty line or a heading is a title.
func (p *parser) startsBare(i int) bool {
	text := p.lines[i].text
	if !looksLikeIngredient(text) {
		return false
	}
	if isBullet(text) || i+1 >= len(p.lines) || ingredient.Read(text).Amount.Unit.Name != "each" {
		return true
	}
	next := p.lines[i+1]
	_, _, headed := next.heading()
	_, yields := servingsOf(strings.ToLower(next.text))
	return !next.blank && !headed && !yields
}

// enter goes to a part of the recipe that a heading opens.
func (p *parser) enter(next part) {
	p.flush()
	p.part, p.section = next, ""
}

// ingredientLine files a line before the method: an ingredient, a heading of a
// section, a remark, or the first step of a method without heading.
func (p *parser) ingredientLine(i int, l textLine) {
	name, ok := sectionHeading(l.text, p.next(i))
	if !ok {
		name, ok = loneHeading(l.text, p.next(i), l.blank)
	}
	if ok {
		p.section = name
		return
	}
	like := looksLikeIngredient(l.text)
	if p.part == beginning && p.headed && !like {
		p.r.Notes = append(p.r.Notes, l.text)
		return
	}
	if (!like || l.blank && len(p.r.Lines) > 1 && !startsWithAmount(l.text)) && looksLikeSentence(l.text) {
		if len(p.r.Lines) > 0 && !p.methodHeaded && !p.ingredientsFollow(i) {
			p.enter(method)
			p.methodLine(i, l)
			return
		}
		if !like && !(p.part == ingredients && p.methodHeaded) {
			p.r.Notes = append(p.r.Notes, l.text)
			return
		}
	}
	if p.part == beginning && !like && len(p.r.Lines) == 0 && !p.headed && len(l.text) > 60 {
		p.r.Notes = append(p.r.Notes, l.text)
		return
	}
	if p.part == beginning && like {
		p.part = ingredients
	}
	if p.r.Lines == nil {
		p.r.Lines = make([]Line, 0, min(p.stretch(i), MaxLines+1))
	}
	p.r.Lines = append(p.r.Lines, Line{
		Section: p.section, Reading: p.read(stripBullet(l.text)), SourceLine: l.number,
	})
}

// stretch is how many lines stand from line i up to the next heading over a part.
func (p *parser) stretch(i int) int {
	for k := i; k < len(p.lines); k++ {
		if _, _, ok := p.lines[k].heading(); ok {
			return k - i
		}
	}
	return len(p.lines) - i
}

func (p *parser) next(i int) string {
	if i+1 < len(p.lines) {
		return p.lines[i+1].text
	}
	return ""
}

// ingredientsFollow reports whether a heading over ingredients, or a run of
// lines with amounts, comes after line i: then the method has not begun.
func (p *parser) ingredientsFollow(i int) bool {
	for k := i + 1; k < len(p.lines) && k <= i+3; k++ {
		if next, _, ok := p.lines[k].heading(); ok {
			return next == ingredients
		}
		if startsWithAmount(p.lines[k].text) && looksLikeIngredient(p.lines[k].text) && !looksLikeSentence(p.lines[k].text) && !isNumbered(p.lines[k].text) {
			return true
		}
	}
	return false
}

// methodLine adds line i to the method. A line that is numbered, stands after an
// empty line, follows a full sentence or begins one begins a new step.
func (p *parser) methodLine(i int, l textLine) {
	if name, ok := sectionHeading(l.text, "x"); ok {
		p.flush()
		p.section = name
		return
	}
	if len(p.r.Steps)+len(p.step) == 0 {
		p.wrapped = p.hasSmallStart(i)
	}
	text, numbered := stripNumber(l.text)
	if numbered || l.blank || tellsYield(text) || !p.numbered && (endsSentence(p.step) || p.beginsSentence(text)) {
		p.flush()
		p.numbered = numbered
	}
	if text != "" {
		p.step = append(p.step, text)
	}
}

// hasSmallStart reports whether a line from i on begins with a small letter.
func (p *parser) hasSmallStart(i int) bool {
	for _, l := range p.lines[i:] {
		if _, _, ok := l.heading(); ok {
			return false
		}
		if r, _ := utf8.DecodeRuneInString(l.text); unicode.IsLower(r) {
			return true
		}
	}
	return false
}

// joining are words that no step ends with: the sentence goes on below.
var joining = words("a|an|the|and|or|with|of|into|to|at|for|from|about|until|your|its|their")

// beginsSentence reports whether a line below one without a full stop is a step
// of its own: it has a capital, and a verb of cooking where sentences of this
// method run over the ends of lines.
func (p *parser) beginsSentence(text string) bool {
	r, _ := utf8.DecodeRuneInString(text)
	if len(p.step) == 0 || !unicode.IsUpper(r) {
		return false
	}
	last := strings.Fields(p.step[len(p.step)-1])
	if end := last[len(last)-1]; joining[strings.ToLower(end)] || strings.ContainsAny(end[len(end)-1:], ",-–&(") {
		return false
	}
	first := strings.ToLower(strings.Trim(strings.Fields(text)[0], ",.:;"))
	return verbs[first] || !p.wrapped && len(first) > 1
}

// flush ends the step being gathered.
func (p *parser) flush() {
	if len(p.step) > 0 {
		p.r.Steps = append(p.r.Steps, Step{Section: p.section, Text: strings.Join(p.step, " ")})
	}
	p.step = nil
}

func endsSentence(step []string) bool {
	if len(step) == 0 {
		return false
	}
	last := step[len(step)-1]
	return strings.HasSuffix(last, ".") || strings.HasSuffix(last, "!") || strings.HasSuffix(last, ".)")
}
