package pages

import (
	"fmt"
	"net/http"
	"net/url"

	"github.com/gin-gonic/gin"

	"potwright/internal/composition"
	"potwright/internal/daybook"
	"potwright/internal/household"
)

// entryPage moves, changes or removes one entry of a day.
type entryPage struct {
	frame
	Self, Back string
	Wrong      messages
	Who        string
	Amount     string
	When       whenForm
	Figures    []figureRow
	// Again writes the same down once more, for a dish.
	Again string
}

func (s *Site) openEntry(c *gin.Context) (household.Household, frame, daybook.Entry, error) {
	h, fr, err := s.household(c, "day", "")
	if err != nil {
		return h, fr, daybook.Entry{}, err
	}
	id, err := number(c, "eid")
	if err != nil {
		return h, fr, daybook.Entry{}, err
	}
	e, err := s.store.FindEntry(c.Request.Context(), h.ID, id)
	fr.Title = e.Title
	return h, fr, e, err
}

func (s *Site) showEntry(c *gin.Context) error {
	h, fr, e, err := s.openEntry(c)
	if err != nil {
		return err
	}
	f := form{values: url.Values{"date": {string(e.Date)}, "meal": {string(e.Meal)}, "state": {string(e.State)}}}
	return s.showEntryForm(c, http.StatusOK, h, fr, e, f, nil)
}

func (s *Site) showEntryForm(c *gin.Context, status int, h household.Household, fr frame, e daybook.Entry, f form, wrong messages) error {
	p := entryPage{frame: fr, Self: fmt.Sprintf("%s/day/entries/%d", fr.Base, e.ID), Back: fr.Base + "/day?date=" + string(e.Date), Wrong: wrong,
		Amount: entryAmount(e), When: s.whenForm(f), Figures: figureRows(e.Panel, composition.Nutrients())}
	for _, m := range h.Members {
		if m.ID == e.MemberID {
			p.Who = m.Name
		}
	}
	if e.VersionID != 0 {
		p.Again = fmt.Sprintf("%s/day/dish?version=%d", fr.Base, e.VersionID)
	}
	p.frame.Caution = true
	return s.show(c, status, "dayentry", p)
}

// changeEntry moves an entry to another day or meal, says that it was eaten, or
// removes it.
func (s *Site) changeEntry(c *gin.Context) error {
	h, fr, e, err := s.openEntry(c)
	if err != nil {
		return err
	}
	f, err := readForm(c)
	if err != nil {
		return err
	}
	day := e.Date
	switch f.text("do") {
	case "remove":
		if err := s.store.DeleteEntry(c.Request.Context(), h.ID, e.ID); err != nil {
			return err
		}
		return seeOther(c, fmt.Sprintf("%s/day?date=%s&done=unlogged", fr.Base, day))
	case "eaten":
		e.State = daybook.Eaten
	default:
		var wrong messages
		if e = when(f, &wrong, e); len(wrong) > 0 {
			return s.showEntryForm(c, http.StatusUnprocessableEntity, h, fr, e, f, wrong)
		}
	}
	return s.keepEntries(c, h, fr, []daybook.Entry{e})
}
