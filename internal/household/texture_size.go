package household

import (
	"fmt"
	"regexp"
	"strings"

	"potwright/internal/measure"
)

var (
	// statedSize is a length such as "1/2-inch", "2 cm".
	statedSize = regexp.MustCompile(`(?i)((?:\d+ )?\d+[/⁄]\d+|\d+(?:\.\d+)?|(?:\d+ ?)?[¼½¾⅓⅔⅛⅜⅝⅞])[ -]*(inch(?:es)?|in\.|"|cm|mm|centimet(?:er|re)s?|millimet(?:er|re)s?)`)
	// cutWords tell that a length is that of pieces and not of a pan; sliceWords
	// that it is only how thick they are.
	cutWords   = newPhrases([]string{"cut", "cube", "cubed", "dice", "diced", "chunk", "chopped", "strip", "slice", "sliced", "bite size", "bite sized"})
	sliceWords = newPhrases([]string{"slice", "sliced", "strip"})
	fineWords  = newPhrases([]string{"minced", "finely minced", "grated", "finely grated", "ground"})
	// fineNot are words with which a fine word says no size of the pieces.
	fineNot = newPhrases([]string{"ground beef", "ground turkey", "ground pork", "ground chicken", "ground meat", "stone ground"})
)

// minced is how large minced or grated pieces are, mm: common practice, no source.
const minced = 3

// piecesOf is how large the pieces of a line are, mm, as the line says, or a step
// that names its food: most is the largest that is told, known is set where that
// is all there is to know of them.
func piecesOf(l seenLine, m method) (most float64, known bool) {
	if l.cut.mm > 0 {
		return l.cut.mm, !l.cut.thick
	}
	for _, s := range m.steps {
		if s.cut.mm > 0 && l.Food != nil && namedIn(s.words, l.head, l.Food) {
			return s.cut.mm, !s.cut.thick
		}
	}
	if l.fine {
		return minced, true
	}
	return 0, false
}

// fine reports whether words say that something is minced or grated.
func fine(words []string) bool {
	_, ok := fineWords.find(fineNot.cut(words))
	return ok
}

// cut is what a text cuts something to.
type cut struct {
	mm    float64 // the largest length, 0 where none is told
	thick bool    // it is only how thick slices are
}

func cutTo(text string, words []string) cut {
	if _, ok := cutWords.find(words); !ok {
		return cut{}
	}
	_, thick := sliceWords.find(words)
	return cut{largestIn(text), thick}
}

// largestIn is the largest length that a text states, mm, 0 where it states none.
func largestIn(text string) float64 {
	most := 0.0
	for _, m := range statedSize.FindAllStringSubmatch(text, -1) {
		q, _, ok := measure.ScanQuantity(m[1])
		if !ok {
			continue
		}
		mm := q.High.Float()
		switch unit := strings.ToLower(m[2]); {
		case strings.HasPrefix(unit, "c"):
			mm *= 10
		case !strings.HasPrefix(unit, "m"):
			mm *= 25.4
		}
		most = max(most, mm)
	}
	return most
}

// bySize answers for the pieces of a dish by the sizes that its lines and steps
// state: one that is too large breaks the need; where all are told and small
// enough the dish aims at it; ok is false where neither can be said.
func (t TextureNeed) bySize(lines []seenLine, m method, limit Piece) (a LineTexture, ok bool) {
	title, all, any := t.LevelTitle(), true, false
	largest := 0.0
	for _, l := range lines {
		if l.smooth {
			continue
		}
		mm, known := piecesOf(l, m)
		if mm > limit.Width {
			return LineTexture{Answer: Breaks, ByPlate: true,
				Text: fmt.Sprintf("%s: pieces of about %.0f mm are larger than the %g by %g mm of %s.", l.name(), mm, limit.Width, limit.Length, title)}, true
		}
		any, all, largest = true, all && known, max(largest, mm)
	}
	if !any || !all {
		return LineTexture{}, false
	}
	return LineTexture{Answer: AimsAt, Text: fmt.Sprintf("Cut as the recipe says, to about %.0f mm, soft pieces aim at %s, %g by %g mm.",
		largest, title, limit.Width, limit.Length)}, true
}
