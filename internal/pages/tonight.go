package pages

import (
	"github.com/gin-gonic/gin"

	"potwright/internal/daybook"
	"potwright/internal/household"
)

// readTonight is readEvening, with what the day already holds counted where that is
// asked for.
func (s *Site) readTonight(c *gin.Context, h household.Household, f form) (evening, error) {
	e, today := readEvening(h, f), s.today()
	if !e.today {
		return e, nil
	}
	entries, err := s.store.ListEntries(c.Request.Context(), h.ID, today, today)
	for i, m := range e.table.Members {
		e.table.Members[i].Had = &household.Had{Day: daybook.Taken(entries, m.ID, today), Told: true}
	}
	return e, err
}

// todayTick asks whether what the day already holds counts.
func todayTick(e evening) tick {
	return tick{Name: "today", Value: "1", Label: "Hold it against all that is left of today", On: e.today,
		Hint: "Counts what is written down for today, eaten and planned, in place of the share of a day that one meal may use."}
}
