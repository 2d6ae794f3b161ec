package pages

import (
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"strconv"

	"github.com/gin-gonic/gin"

	"potwright/internal/composition"
	"potwright/internal/daybook"
	"potwright/internal/household"
	"potwright/internal/kitchen"
)

// entryPage moves, changes or removes one entry of a day.
type entryPage struct {
	frame
	Self, Back string
	Wrong      messages
	// Seen is when the entry was when the form was made.
	Seen      string
	Collision *collision
	Who       string
	Amount    string
	When      whenForm
	Figures   []figureRow
	// What it is, and the version of a dish, "" for a food: the form tells them where
	// the entry is gone.
	What, Version string
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
	f := form{values: url.Values{"date": {string(e.Date)}, "meal": {string(e.Meal)}, "state": {string(e.State)}, "seen": {seenOf(kitchen.TimeOf(e))}}}
	return s.show(c, http.StatusOK, "dayentry", s.entryPage(h, fr, e, f, nil))
}

func (s *Site) entryPage(h household.Household, fr frame, e daybook.Entry, f form, wrong messages) entryPage {
	p := entryPage{frame: fr, Self: fmt.Sprintf("%s/day/entries/%d", fr.Base, e.ID), Back: fr.Base + "/day?date=" + string(e.Date), Wrong: wrong, Seen: f.text("seen"),
		Amount: entryAmount(e), When: s.whenForm(f), Figures: figureRows(e.Panel, composition.Nutrients())}
	for _, m := range h.Members {
		if m.ID == e.MemberID {
			p.Who = m.Name
		}
	}
	p.What = e.Title
	if e.VersionID != 0 {
		p.Version = strconv.FormatInt(e.VersionID, 10)
		p.Again = fmt.Sprintf("%s/day/dish?version=%d", fr.Base, e.VersionID)
	}
	p.frame.Caution = true
	return p
}

// changeEntry moves an entry to another day or meal, says that it was eaten, or
// removes it. One that another took off meanwhile is told of.
func (s *Site) changeEntry(c *gin.Context) error {
	f, err := readForm(c)
	if err != nil {
		return err
	}
	h, fr, e, err := s.openEntry(c)
	if err == nil {
		err = s.changeOpened(c, h, fr, e, f)
	}
	if h.ID != 0 && goneFrom(err, f) {
		return s.entryGone(c, fr, f)
	}
	return err
}

func (s *Site) changeOpened(c *gin.Context, h household.Household, fr frame, e daybook.Entry, f form) error {
	seen, err := seenIn(f, kitchen.TimeOf(e))
	if err != nil {
		return err
	}
	wanted, wrong := e, messages(nil)
	switch f.text("do") {
	case "remove":
		return s.removeEntry(c, h, fr, e, f, seen)
	case "eaten":
		wanted.State = daybook.Eaten
	default:
		if wanted = when(f, &wrong, e); len(wrong) > 0 {
			return s.show(c, http.StatusUnprocessableEntity, "dayentry", s.entryPage(h, fr, e, f, wrong))
		}
	}
	saved, err := kitchen.MoveEntry(c.Request.Context(), s.store, h.ID, e.ID, seen, kitchen.TimeOf(wanted))
	if errors.Is(err, kitchen.ErrChanged) {
		return s.entryCollides(c, h, fr, e, f, timeWords(wanted))
	}
	if err != nil {
		return err
	}
	return seeOther(c, fmt.Sprintf("%s/day?date=%s&done=logged", fr.Base, saved.Date))
}

// removeEntry takes an entry off the day, unless it is no longer where it was seen.
func (s *Site) removeEntry(c *gin.Context, h household.Household, fr frame, e daybook.Entry, f form, seen kitchen.EntryTime) error {
	err := kitchen.ErrChanged
	if kitchen.TimeOf(e) == seen {
		err = s.store.DeleteEntry(c.Request.Context(), h.ID, e.ID, kitchen.MarkOf(e))
	}
	if errors.Is(err, kitchen.ErrChanged) {
		return s.entryCollides(c, h, fr, e, f, []string{"off the day"})
	}
	if err != nil {
		return err
	}
	return seeOther(c, fmt.Sprintf("%s/day?date=%s&done=unlogged", fr.Base, e.Date))
}

// entryCollides shows where somebody else moved the entry, and keeps what was chosen.
func (s *Site) entryCollides(c *gin.Context, h household.Household, fr frame, e daybook.Entry, f form, mine []string) error {
	now, err := s.store.FindEntry(c.Request.Context(), h.ID, e.ID)
	if err != nil {
		return err
	}
	f.values.Set("seen", seenOf(kitchen.TimeOf(now)))
	p := s.entryPage(h, fr, now, f, nil)
	p.Collision = newCollision(p.Self, timeWords(now), mine)
	return s.show(c, http.StatusConflict, "dayentry", p)
}

// entryGone tells that somebody else took the entry off the day, and keeps what was
// chosen. One that was to be taken off is.
func (s *Site) entryGone(c *gin.Context, fr frame, f form) error {
	chosen := when(f, new(messages), daybook.Entry{})
	if chosen.Date == "" {
		chosen.Date = s.today()
	}
	back := fmt.Sprintf("%s/day?date=%s", fr.Base, chosen.Date)
	if f.text("do") == "remove" {
		return seeOther(c, back+"&done=unlogged")
	}
	again := url.Values{"date": {string(chosen.Date)}, "meal": {string(chosen.Meal)}, "state": {string(chosen.State)}}
	to := fr.Base + "/day/food?"
	if version := f.text("version"); version != "" {
		again.Set("version", version)
		to = fr.Base + "/day/dish?"
	} else {
		again.Set("q", f.text("what"))
	}
	return s.showGone(c, gonePage{frame: fr, Says: "Someone else took “" + f.text("what") + "” off the day while you were writing, so nothing was saved.", Kept: timeWords(chosen),
		Again: action{to + again.Encode(), "Write it down again like that"}, Back: action{back, "Leave it off and open the day"}})
}

// timeWords are when an entry is, a line each.
func timeWords(e daybook.Entry) []string {
	return []string{dayWords(e.Date), mealName(e.Meal), string(e.State)}
}
