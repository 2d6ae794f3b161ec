package household

import (
	"slices"
	"strings"

	"potwright/internal/composition"
)

// Signs are what a food, a line or a step is known by. A food shows a sign
// where it is one of Kinds or Foods, or its name holds one of Words; a text
// shows one where it holds one of Words. NotWords are look-alikes: they are
// taken out of a name or text before Words are looked for, and where a name
// holds one the kinds of the food are not trusted.
type Signs struct {
	Kinds    []string // kinds of the food table
	Foods    []string // names of the food table
	Words    []string // words or phrases; plural and singular are alike
	NotKinds []string
	NotFoods []string
	NotWords []string
	// States, where given, are words of the row or the line of which one must be
	// there; NotStates are words of which none may be.
	States, NotStates []string
}

// signs are Signs ready for look-up.
type signs struct {
	Signs
	words, not, states, notStates phrases
}

func newSigns(s Signs) signs {
	return signs{Signs: s, words: newPhrases(s.Words), not: newPhrases(s.NotWords),
		states: newPhrases(s.States), notStates: newPhrases(s.NotStates)}
}

// inText looks for the words in a text.
func (s *signs) inText(words []string) (why string, ok bool) {
	if s.hasStates() && !s.stateFits(words, nil) {
		return "", false
	}
	return s.words.find(s.not.cut(words))
}

// inFood looks for the signs of a food; line are the words of its line, for the
// state words only.
func (s *signs) inFood(f *composition.Food, name, line []string) (why string, ok bool) {
	if f == nil || slices.Contains(s.NotFoods, f.Name) || slices.ContainsFunc(s.NotKinds, f.HasKind) {
		return "", false
	}
	if s.hasStates() && !s.stateFits(slices.Concat(name, line), f) {
		return "", false
	}
	if slices.Contains(s.Foods, f.Name) {
		return f.Name, true
	}
	if len(s.Kinds) > 0 && !s.not.in(name) {
		for _, k := range s.Kinds {
			if f.HasKind(k) {
				return strings.ReplaceAll(k, "_", " "), true
			}
		}
	}
	return s.words.find(s.not.cut(name))
}

// isKind reports whether a food, nil for none, is of the kinds or foods.
func (s *signs) isKind(f *composition.Food) bool {
	return f != nil && (slices.Contains(s.Foods, f.Name) || slices.ContainsFunc(s.Kinds, f.HasKind))
}

func (s *signs) hasStates() bool { return len(s.States)+len(s.NotStates) > 0 }

func (s *signs) stateFits(words []string, f *composition.Food) bool {
	has := func(ps phrases, states []string) bool {
		_, found := ps.find(words)
		return found || f != nil && slices.ContainsFunc(states, f.HasState)
	}
	if len(s.States) > 0 && !has(s.states, s.States) {
		return false
	}
	return len(s.NotStates) == 0 || !has(s.notStates, s.NotStates)
}

// excludes reports whether the food is named as one that does not show the sign.
func (s *signs) excludes(f *composition.Food) bool {
	return f != nil && (slices.Contains(s.NotFoods, f.Name) || slices.ContainsFunc(s.NotKinds, f.HasKind))
}

// LineFood is one food of an ingredient line, as far as needs look at it.
type LineFood struct {
	Line int    // index of the ingredient line
	Text string // the line as written
	// Food is what it was read as, nil where unread.
	Food *composition.Food
	// Candidates are the foods it may also mean.
	Candidates []*composition.Food
	// Words are preparation and other words of the line not in Text.
	Words []string
	// Grams in the pot, 0 where unknown.
	Grams  float64
	Unread bool
	// Heat is what the method does to the line.
	Heat Heat

	look *look // what Needs.Look saw in it, or nil
}

// words of the line, as tokens.
func (l LineFood) words() []string { return tokens(l.Text + " ; " + strings.Join(l.Words, " ; ")) }

// name is how the line is spoken of.
func (l LineFood) name() string {
	if l.Text != "" {
		return l.Text
	}
	if l.Food != nil {
		return l.Food.Name
	}
	return strings.Join(l.Words, " ")
}

// Signal tells whether foods and texts show some Signs. It is safe for concurrent
// use.
type Signal struct{ signs signs }

// NewSignal makes signs ready for use.
func NewSignal(s Signs) Signal { return Signal{newSigns(s)} }

// Any reports whether there is something to know it by.
func (s Signal) Any() bool {
	return len(s.signs.Kinds)+len(s.signs.Foods)+len(s.signs.Words) > 0
}

// WordedLine is a line that is cut into words, once for many signals.
type WordedLine struct {
	LineFood
	line, food []string
}

// Worded cuts a line into words.
func (l LineFood) Worded() WordedLine {
	w := WordedLine{LineFood: l, line: l.words()}
	if l.Food != nil {
		w.food = tokens(l.Food.Name)
	}
	return w
}

// On reports whether a line shows the signs, by its words or by its food. The food
// counts for nothing where the line's own words are those of a look-alike.
func (s Signal) On(l WordedLine) bool {
	if _, ok := s.signs.inText(l.line); ok && !s.signs.excludes(l.Food) {
		return true
	}
	return l.Food != nil && s.signs.onFood(l.Food, l.food, l.line)
}

// Text is a text that is cut into words, once for many phrases.
type Text struct{ words []string }

// NewText cuts a text into words.
func NewText(text string) Text { return Text{tokens(text)} }

// Phrases looks words and phrases up in texts; plural and singular are alike.
type Phrases struct{ phrases phrases }

// NewPhrases makes phrases ready for use.
func NewPhrases(texts []string) Phrases { return Phrases{newPhrases(texts)} }

// In reports whether a text holds one of the phrases and does not deny it.
func (p Phrases) In(text Text) bool {
	_, ok := p.phrases.find(text.words)
	return ok
}
