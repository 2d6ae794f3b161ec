package household

import "fmt"

// pieces answers for the pieces of the dish as a whole.
func (t TextureNeed) pieces(lines []LineFood, m method) LineTexture {
	a := LineTexture{Line: -1, Feature: "pieces", Answer: AimsAt}
	title := t.LevelTitle()
	size, sized := t.PieceSize()
	switch {
	case t.level.Level >= MaxTextureLevel:
		a.Text = fmt.Sprintf("For %s no piece is too large.", title)
	case t.smoothAll(lines):
		a.Text = fmt.Sprintf("As written the dish has no pieces and aims at %s.", title)
	case m.dishWide(t.needs.levelWords[t.level.Level]):
		a.Text = fmt.Sprintf("The method makes the dish aim at %s.", title)
	case t.level.Smooth:
		a.Answer, a.ByPlate = Breaks, true
		a.Text = fmt.Sprintf("As written the dish has pieces; %s has none.", title)
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
func (t TextureNeed) smoothAll(lines []LineFood) bool {
	for _, l := range lines {
		if !t.isSmooth(l) {
			return false
		}
	}
	return len(lines) > 0
}

// isSmooth looks at the head of the name only: "peaches, canned in syrup" are
// no syrup.
func (t TextureNeed) isSmooth(l LineFood) bool {
	if l.Food == nil || l.Unread {
		return false
	}
	_, ok := t.needs.smooth.inFood(l.Food, headWords(l.Food.Name), l.words())
	return ok
}

// thinShare is the part of the pot from which a thin liquid is taken to stand
// around the pieces. A design choice.
const thinShare = 0.2

// mixed answers for thin liquid with pieces in it.
func (t TextureNeed) mixed(f feature, lines []LineFood, m method) (LineTexture, bool) {
	var thin, all float64
	var liquid, pieces, weighed = false, false, true
	for _, l := range lines {
		if l.Food == nil {
			continue
		}
		all += l.Grams
		weighed = weighed && l.Grams > 0
		if _, ok := t.needs.thin.inFood(l.Food, tokens(l.Food.Name), l.words()); ok {
			liquid, thin = true, thin+l.Grams
		} else if !t.isSmooth(l) {
			pieces = true
		}
	}
	if !liquid || !pieces || weighed && thin < thinShare*all {
		return LineTexture{}, false
	}
	a := LineTexture{Line: -1, Feature: f.ID, Answer: Breaks, Remedy: f.Remedy, ByPlate: f.PlateFixes,
		Text: "Thin liquid and pieces come together in one mouthful."}
	switch {
	case m.dishWide(f.goneBy):
		a.Answer, a.Remedy, a.ByPlate = AimsAt, "", false
		a.Text = "The method blends or thickens the liquid."
	case m.anywhere(f.goneBy) || !weighed:
		a.Answer = CantTell
		a.Text = "Thin liquid and pieces may come together in one mouthful."
	}
	return a, true
}

// line answers for one feature of one line.
func (t TextureNeed) line(f feature, l LineFood, m method) (LineTexture, bool) {
	if !f.SmoothToo && t.isSmooth(l) {
		return LineTexture{}, false
	}
	words := l.words()
	maybe, carried := f.carriedBy(l, words)
	if !carried {
		return LineTexture{}, false
	}
	a := LineTexture{Line: l.Line, Feature: f.ID, Answer: Breaks, Remedy: f.Remedy, ByPlate: f.PlateFixes,
		Text: fmt.Sprintf("%s: %s.", l.name(), f.Title)}
	_, prepared := f.goneBy.find(words)
	if l.Food != nil && !prepared {
		_, prepared = f.goneBy.find(tokens(l.Food.Name))
	}
	switch {
	case prepared, m.dishWide(f.goneBy), m.about(f.goneBy, l), f.GoneAfter > 0 && m.minutes >= f.GoneAfter:
		a.Answer, a.Remedy, a.ByPlate = AimsAt, "", false
		a.Text = fmt.Sprintf("%s: %s, but the recipe takes that away.", l.name(), f.Title)
	case maybe || m.anywhere(f.goneBy):
		a.Answer = CantTell
		a.Text = fmt.Sprintf("%s: may be %s.", l.name(), f.Title)
	}
	return a, true
}

// carriedBy reports whether the line has the feature, surely or maybe.
func (f feature) carriedBy(l LineFood, words []string) (maybe, carried bool) {
	for _, c := range f.carriers {
		ok := false
		if l.Food != nil && !l.Unread {
			_, ok = c.inFood(l.Food, tokens(l.Food.Name), words)
			ok = ok && (len(c.notStates) == 0 || c.stateFits(words, l.Food))
		}
		if !ok && !c.excludes(l.Food) {
			_, ok = c.inText(words)
			ok = ok && c.stateFits(words, l.Food)
		}
		if ok && !c.maybe {
			return false, true
		}
		maybe = maybe || ok
	}
	return maybe, maybe
}
