package household

import (
	"fmt"
	"slices"
	"strings"
)

// TestEachPlate ends what is said of a dish's texture.
const TestEachPlate = "Test each plate; follow the swallowing specialist."

// ChildUnder is the age below which the smaller piece sizes are used. IDDSI
// gives sizes for children without an age; 18 is a design choice on the safe
// side.
const ChildUnder = 18

// TextureAnswer is how a line or a dish stands against a texture need.
type TextureAnswer string

// Texture answers. None says that a dish is of a level: only a test of the
// plate can.
const (
	AimsAt   TextureAnswer = "aims at"
	Breaks   TextureAnswer = "breaks"
	CantTell TextureAnswer = "can't tell"
)

// Fit of a texture answer.
func (t TextureAnswer) Fit() Fit {
	switch t {
	case AimsAt:
		return Inside
	case Breaks:
		return Over
	default:
		return Unknown
	}
}

// TextureNeed is one member's need, ready to judge dishes.
type TextureNeed struct {
	Need  Texture
	Child bool
	needs *Needs
	level Level
}

// Texture makes a member's texture need ready; age 0 counts as grown up. ok is
// false where the member has none or the book does not know its level.
func (n *Needs) Texture(m Member) (need TextureNeed, ok bool) {
	if m.Texture == nil {
		return TextureNeed{}, false
	}
	for _, l := range n.book.Levels {
		if l.Level == m.Texture.Level {
			return TextureNeed{Need: *m.Texture, Child: m.Age > 0 && m.Age < ChildUnder, needs: n, level: l}, true
		}
	}
	return TextureNeed{}, false
}

// LevelTitle such as "level 6, soft and bite-sized".
func (t TextureNeed) LevelTitle() string {
	return fmt.Sprintf("level %d, %s", t.level.Level, t.level.Title)
}

// PieceSize is the largest piece; ok is false where the level has no figure.
func (t TextureNeed) PieceSize() (p Piece, ok bool) {
	p = t.level.Adult
	if t.Child {
		p = t.level.Child
	}
	return p, p.Width > 0
}

// PlateRemedy is what is done to this person's portion alone, "" at level 7.
// For levels 5 and below it is the usual way: the others eat the dish as it is.
func (t TextureNeed) PlateRemedy() string {
	if t.level.Plate == "" {
		return ""
	}
	text := t.level.Plate
	if p, ok := t.PieceSize(); ok {
		text = strings.ReplaceAll(text, "{width}", fmt.Sprintf("%g mm", p.Width))
		text = strings.ReplaceAll(text, "{length}", fmt.Sprintf("%g mm", p.Length))
	}
	return text
}

// Test is how the plate is tested, with the closing caution.
func (t TextureNeed) Test() string {
	if t.level.Test == "" {
		return TestEachPlate
	}
	return t.level.Test + " " + TestEachPlate
}

// counts reports whether the feature breaks this need.
func (t TextureNeed) counts(f Feature) bool {
	for _, id := range t.Need.Avoid {
		if id == f.ID {
			return true
		}
	}
	return t.level.Level <= f.UpTo
}

// LineTexture is one feature of one line, and the answer to it.
type LineTexture struct {
	Line    int // -1 for the whole dish
	Feature string
	Answer  TextureAnswer
	Text    string
	Remedy  string
	ByPlate bool // the remedy is done to this portion alone and is enough
}

// Finding puts it in the shape of a verdict's finding.
func (l LineTexture) Finding(text string) Finding {
	f := Finding{Kind: "texture", Need: l.Feature, Fit: l.Answer.Fit(), Text: l.Text,
		Remedy: l.Remedy, ByPlate: l.ByPlate}
	if l.Line < 0 {
		f.Text += " " + TestEachPlate
	} else {
		f.Shares = []Share{{Line: l.Line, Share: 1, Text: text}}
	}
	return f
}

// Judge answers for the dish: one finding for its pieces as a whole, one for
// each feature of a line that breaks the need or may. What is said of the dish
// comes first and ends with TestEachPlate.
func (t TextureNeed) Judge(lines []LineFood, steps []string) []Finding {
	textOf := func(line int) string {
		for i := range lines {
			if lines[i].Line == line {
				return lines[i].Text
			}
		}
		return ""
	}
	answers := t.features(lines, steps, false)
	out := make([]Finding, len(answers))
	for i, a := range answers {
		out[i] = a.Finding(textOf(a.Line))
	}
	return out
}

// Features answers for every feature that some line carries, the whole dish
// first.
func (t TextureNeed) Features(lines []LineFood, steps []string) []LineTexture {
	return t.features(lines, steps, true)
}

// features is Features; those of a line that the recipe takes away only where all are
// asked for.
func (t TextureNeed) features(lines []LineFood, steps []string, all bool) []LineTexture {
	m, seen := t.needs.method(steps), t.needs.see(lines)
	return append(t.carried([]LineTexture{t.pieces(seen, m)}, seen, m, all), t.unread(lines)...)
}

// Broken are those of Features that some line surely breaks the need by and that no plate
// mends.
func (t TextureNeed) Broken(lines []LineFood, m Method) []LineTexture {
	return slices.DeleteFunc(t.carried(nil, t.needs.see(lines), m.of, false), func(a LineTexture) bool {
		return a.Line < 0 || a.Answer != Breaks || a.ByPlate
	})
}

// carried appends the answers for every feature that some line carries, in the order of
// the book.
func (t TextureNeed) carried(out []LineTexture, seen []seenLine, m method, all bool) []LineTexture {
	for i := range t.needs.features {
		f := &t.needs.features[i]
		if !t.counts(f.Feature) {
			continue
		}
		if m.anywhere(f.notDish) {
			continue
		}
		if m.anywhere(f.dish) {
			out = append(out, f.wholeDish())
		}
		if f.Mixed {
			if a, ok := t.mixed(f, seen, m); ok {
				out = append(out, a)
			}
			continue
		}
		goneAll := m.dishWide(f.gone) || f.GoneAfter > 0 && m.minutes >= f.GoneAfter
		for k := range seen {
			l := &seen[k]
			b := l.bears[i]
			if b.carried == notCarried || !f.SmoothToo && l.smooth {
				continue
			}
			if gone := goneAll || b.gone || l.Food != nil && m.about(f.gone, l.head); all || !gone {
				out = withLine(out, f.line(l, gone, b.carried == maybeCarried || m.anywhere(f.gone)))
			}
		}
	}
	return out
}

// withLine adds an answer for a line; of several foods on one line that bear the same
// feature the worst answers.
func withLine(out []LineTexture, a LineTexture) []LineTexture {
	last := len(out) - 1
	if last < 0 || out[last].Line != a.Line || out[last].Feature != a.Feature {
		return append(out, a)
	}
	if Worse(a.Answer.Fit(), out[last].Answer.Fit()) != out[last].Answer.Fit() {
		out[last] = a
	}
	return out
}

func (t TextureNeed) unread(lines []LineFood) []LineTexture {
	var out []LineTexture
	for _, l := range lines {
		if l.Unread || l.Food == nil {
			out = append(out, LineTexture{Line: l.Line, Answer: CantTell,
				Text: fmt.Sprintf("%q was not read, so its texture can't be told.", l.name())})
		}
	}
	return out
}
