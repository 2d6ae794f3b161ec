package nutrient

import (
	"slices"

	"potwright/internal/foodmatch"
)

// Sheet is where the lines of one dish are reckoned: their panels lie side by side, and
// so do their doubts. The zero value is empty.
type Sheet struct {
	// Lines are those reckoned, in order.
	Lines []LinePanel
	// doubts is the room for all doubts, room what is left of it, and wanted how much
	// the lines would have taken.
	doubts, room []Doubt
	wanted       int
}

// usualDoubts is how many doubts a line has: most have one food, which is in doubt for
// its weight, its content and its match.
const usualDoubts = 3

// Clear takes all lines off and makes room for so many: what was on the sheet must not
// be used any more.
func (s *Sheet) Clear(lines int) {
	if cap(s.Lines) < lines {
		s.Lines = make([]LinePanel, 0, lines)
	}
	if most := max(s.wanted, usualDoubts*lines); len(s.doubts) < most {
		s.doubts = make([]Doubt, most)
	}
	s.Lines, s.room, s.wanted = s.Lines[:0], s.doubts, 0
}

// Line is Line on the sheet; what it gives is good until the next line is reckoned.
func (s *Sheet) Line(id string, m *foodmatch.Matched, servings float64, cooked ...Cooked) *LinePanel {
	s.Lines = append(s.Lines, LinePanel{ID: id, Matched: m, Servings: servings, Cooked: cooked, Doubts: s.room[:0]})
	lp := &s.Lines[len(s.Lines)-1]
	lp.reckon()
	taken := len(lp.Doubts)
	s.wanted += taken
	if taken <= len(s.room) { // or the line took room of its own
		s.room = s.room[taken:]
	}
	if lp.Doubts = slices.Clip(lp.Doubts); taken == 0 {
		lp.Doubts = nil
	}
	return lp
}
