package recipe

import "strings"

// TableSection is the heading of what is offered at the table instead of going
// into the pot: each person's plate takes it or leaves it.
const TableSection = "At the table"

// AtTable reports whether the line is offered at the table.
func (l Line) AtTable() bool {
	return strings.EqualFold(strings.TrimRight(strings.TrimSpace(l.Section), ":"), TableSection)
}
