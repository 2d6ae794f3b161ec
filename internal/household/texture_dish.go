package household

import (
	"fmt"

	"potwright/internal/composition"
)

// pieces answers for the pieces of the dish as a whole.
func (t TextureNeed) pieces(lines []seenLine, m method) LineTexture {
	a := LineTexture{Line: -1, Feature: "pieces", Answer: AimsAt}
	title := t.LevelTitle()
	size, sized := t.PieceSize()
	told, byTold := LineTexture{}, false
	if sized {
		told, byTold = t.bySize(lines, m, size)
	}
	switch {
	case t.level.Level >= MaxTextureLevel:
		a.Text = fmt.Sprintf("For %s no piece is too large.", title)
	case smoothAll(lines):
		a.Text = fmt.Sprintf("As written the dish has no pieces and aims at %s.", title)
	case m.dishWide(t.needs.levelWords[t.level.Level]):
		a.Text = fmt.Sprintf("The method makes the dish aim at %s.", title)
	case t.level.Smooth:
		a.Answer, a.ByPlate = Breaks, true
		a.Text = fmt.Sprintf("As written the dish has pieces; %s has none.", title)
	case byTold:
		a.Answer, a.ByPlate, a.Text = told.Answer, told.ByPlate, told.Text
	case sized && t.level.Level == 6:
		a.ByPlate = true
		a.Text = fmt.Sprintf("The dish can aim at %s where its pieces are soft and no larger than %g by %g mm.", title, size.Width, size.Length)
	default:
		a.Answer, a.ByPlate = Breaks, true
		a.Text = fmt.Sprintf("As written the dish has pieces larger than the %g by %g mm of %s.", size.Width, size.Length, title)
	}
	if a.ByPlate {
		a.Remedy = t.PlateRemedy()
	}
	return a
}

// smoothAll reports whether every line is known to be without pieces.
func smoothAll(lines []seenLine) bool {
	for _, l := range lines {
		if !l.smooth {
			return false
		}
	}
	return len(lines) > 0
}

// thinShare is the part of the pot from which a thin liquid is taken to stand
// around the pieces. A design choice.
const thinShare = 0.2

// mixed answers for thin liquid with pieces in it.
func (t TextureNeed) mixed(f *feature, lines []seenLine, m method) (LineTexture, bool) {
	var thin, all float64
	var liquid, pieces, weighed = false, false, true
	for _, l := range lines {
		if l.Food == nil {
			continue
		}
		all += l.Grams
		weighed = weighed && l.Grams > 0
		if l.thin {
			liquid, thin = true, thin+l.Grams
		} else if !l.smooth {
			pieces = true
		}
	}
	if !liquid || !pieces || weighed && thin < thinShare*all {
		return LineTexture{}, false
	}
	a := LineTexture{Line: -1, Feature: f.ID, Answer: Breaks, Remedy: f.Remedy, ByPlate: f.PlateFixes,
		Text: "Thin liquid and pieces come together in one mouthful."}
	switch {
	case m.dishWide(f.gone):
		a.Answer, a.Remedy, a.ByPlate = AimsAt, "", false
		a.Text = "The method blends or thickens the liquid."
	case m.anywhere(f.gone) || !weighed:
		a.Answer = CantTell
		a.Text = "Thin liquid and pieces may come together in one mouthful."
	}
	return a, true
}

// wholeDish answers for a feature that the finished dish has by the way it is
// made; its remedy is done to the portion.
func (f *feature) wholeDish() LineTexture {
	return LineTexture{Line: -1, Feature: f.ID, Answer: Breaks, Remedy: f.Remedy, ByPlate: true,
		Text: fmt.Sprintf("The finished dish is %s.", f.Title)}
}

// goneIn reports whether what is said of a line takes a feature of it away; food is
// nil where it was not read.
func (f *feature) goneIn(food *composition.Food, l *look) bool {
	if _, onLine := f.goneBy.find(l.said); onLine {
		return true
	}
	_, inName := f.goneBy.find(l.foodName)
	return inName && food != nil
}

// line answers for one feature of one line that has it, surely or maybe; gone is set
// where the recipe takes it away.
func (f *feature) line(l *seenLine, gone, maybe bool) LineTexture {
	a := LineTexture{Line: l.Line, Feature: f.ID}
	switch {
	case gone:
		a.Answer, a.Text = AimsAt, fmt.Sprintf("%s: %s, but the recipe takes that away.", l.name(), f.Title)
		return a
	case maybe:
		a.Answer, a.Text = CantTell, fmt.Sprintf("%s: may be %s.", l.name(), f.Title)
	default:
		a.Answer, a.Text = Breaks, fmt.Sprintf("%s: %s.", l.name(), f.Title)
	}
	a.Remedy, a.ByPlate = f.Remedy, f.PlateFixes
	return a
}

// carriedBy tells whether a line has the feature: by its food, nil where it was
// not read, or by its words where the food is not named as an exception.
func (f *feature) carriedBy(food *composition.Food, l *look) carried {
	out := notCarried
	for i := range f.carriers {
		c := &f.carriers[i]
		ok := false
		if c.words.firsts&l.nameMarks != 0 || c.isKind(food) {
			_, ok = c.inFood(food, l.foodName, l.said)
		}
		if !ok && c.words.firsts&l.saidMarks != 0 && !c.excludes(food) && c.stateFits(l.said, food) {
			_, ok = c.inText(l.said)
		}
		if ok && !c.maybe {
			return surelyCarried
		}
		if ok {
			out = maybeCarried
		}
	}
	return out
}
