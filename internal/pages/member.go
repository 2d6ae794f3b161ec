package pages

import (
	"errors"
	"fmt"
	"net/http"
	"slices"

	"github.com/gin-gonic/gin"

	"potwright/internal/household"
	"potwright/internal/kitchen"
)

// memberPage is one person's form.
type memberPage struct {
	frame
	// Self is the page's own address, RemoveLink "" for someone new.
	Self, RemoveLink string
	Form             memberForm
	// Collision is set where someone else saved this member in between.
	Collision *collision
	Presets   []presetView
	// Words are the person as saved, a line each; nil for someone new.
	Words []string
	// Meaning is what a usual portion of a saved dish means for them; nil for someone
	// new and where nothing is saved.
	Meaning *memberDish
}

// presetView is a published limit or plan to start from.
type presetView struct {
	ID, Name, Source string
}

func (s *Site) memberPage(fr frame, id int64, f memberForm) memberPage {
	p := memberPage{frame: fr, Self: fr.Base + "/people/new", Form: f}
	if id != 0 {
		p.Self = fmt.Sprintf("%s/people/%d", fr.Base, id)
		p.RemoveLink = p.Self + "/remove"
	}
	for _, pr := range s.presets {
		p.Presets = append(p.Presets, presetView{pr.id, pr.name, pr.source})
	}
	return p
}

func (s *Site) showNewMember(c *gin.Context) error {
	_, fr, err := s.household(c, "people", "Someone new at the table")
	if err != nil {
		return err
	}
	return s.show(c, http.StatusOK, "member", s.memberPage(fr, 0, s.memberForm(household.Member{Portion: 1})))
}

func (s *Site) showMember(c *gin.Context) error {
	h, fr, err := s.household(c, "people", "")
	if err != nil {
		return err
	}
	i, err := memberIndex(c, h)
	if err != nil {
		return err
	}
	m := h.Members[i]
	fr.Title = m.Name
	p := s.memberPage(fr, m.ID, s.memberForm(m))
	p.Words = s.words.memberWords(m)
	if p.Meaning, err = s.memberDish(c, h, m); err != nil {
		return err
	}
	p.frame.Caution = p.Meaning != nil
	return s.show(c, http.StatusOK, "member", p)
}

// memberIndex finds the member of the address.
func memberIndex(c *gin.Context, h household.Household) (int, error) {
	id, err := number(c, "mid")
	if err != nil {
		return 0, err
	}
	for i, m := range h.Members {
		if m.ID == id {
			return i, nil
		}
	}
	return 0, kitchen.ErrNotFound
}

// saveMember saves someone new or changed. Two of its buttons only ask for the
// same form again: with more rows, or filled in from something published.
func (s *Site) saveMember(c *gin.Context) error {
	h, fr, err := s.household(c, "people", "Someone new at the table")
	if err != nil {
		return err
	}
	at, id := -1, int64(0)
	if c.Param("mid") != "" {
		if id, err = number(c, "mid"); err != nil {
			return err
		}
		if at, err = memberIndex(c, h); err == nil {
			fr.Title = h.Members[at].Name
		}
	}
	f, formErr := readForm(c)
	if formErr != nil {
		return formErr
	}
	if err != nil && f.text("seen") == "" {
		return err // the form was not made from someone who was here
	}
	typed := s.words.readMemberForm(f)
	switch {
	case f.has("more"):
		typed.addRows()
		return s.show(c, http.StatusOK, "member", s.memberPage(fr, id, typed.dress()))
	case f.text("preset") != "" && f.has("fill"):
		typed.fill(s.preset(f.text("preset")))
		return s.show(c, http.StatusOK, "member", s.memberPage(fr, id, typed.dress()))
	}
	m := s.memberFrom(&typed, h, at)
	if id == 0 && len(h.Members) >= household.MostMembers {
		typed.Wrong.add("name", "There are %d people at this table already, as many as there may be.", household.MostMembers)
	}
	if len(m.Limits) > household.MostListed {
		typed.Wrong.add("limit_amount_0", "Set at most %d limits.", household.MostListed)
	}
	if len(typed.Wrong) > 0 {
		return s.show(c, http.StatusUnprocessableEntity, "member", s.memberPage(fr, id, typed.dress()))
	}
	m.ID = id
	saved, err := s.keepMember(c, h.ID, m, kitchen.Mark(typed.Seen))
	switch {
	case err == nil:
		return seeOther(c, fr.Base+"/people?done=member")
	case errors.Is(err, kitchen.ErrTaken):
		typed.Wrong.add("name", "Someone here already has that name; add a letter to tell them apart.")
		return s.show(c, http.StatusUnprocessableEntity, "member", s.memberPage(fr, id, typed.dress()))
	case errors.Is(err, kitchen.ErrChanged):
		return s.showMemberCollision(c, fr, saved, m, typed)
	}
	return err
}

// keepMember puts the member among the others and saves. Where the member is no
// longer what seen marks, that is kitchen.ErrChanged and the member as saved by now,
// nobody where they were taken off.
func (s *Site) keepMember(c *gin.Context, householdID int64, m household.Member, seen kitchen.Mark) (saved household.Member, err error) {
	err = s.kitchen.ChangeHousehold(c.Request.Context(), householdID, func(h household.Household) (household.Household, error) {
		if m.ID == 0 {
			h.Members = append(h.Members, m)
			return h, nil
		}
		at := slices.IndexFunc(h.Members, func(other household.Member) bool { return other.ID == m.ID })
		if at < 0 {
			return h, kitchen.ErrChanged
		}
		if saved = h.Members[at]; stale(seen, saved, m) {
			return h, kitchen.ErrChanged
		}
		h.Members[at] = m
		return h, nil
	})
	return saved, err
}

// showMemberCollision shows what someone else saved beside what was typed. Sent again,
// what was typed is saved, as someone new where the member was taken off.
func (s *Site) showMemberCollision(c *gin.Context, fr frame, saved, mine household.Member, typed memberForm) error {
	typed.Seen = string(kitchen.MarkOf(saved))
	p := s.memberPage(fr, saved.ID, typed.dress())
	if saved.ID != 0 {
		p.Collision = newCollision(p.Self, s.words.allOfMember(saved), s.words.allOfMember(mine))
	} else {
		p.Collision = &collision{Gone: "Someone else took this person off the table while you were writing. Everything you typed is still here and not saved: save it to put the person back as someone new."}
	}
	return s.show(c, http.StatusConflict, "member", p)
}

// preset finds a preset by id; an unknown id fills nothing.
func (s *Site) preset(id string) preset {
	for _, p := range s.presets {
		if p.id == id {
			return p
		}
	}
	return preset{}
}

// removePage asks before someone is taken off.
type removePage struct {
	frame
	Self, Name string
}

func (s *Site) askRemoveMember(c *gin.Context) error {
	h, fr, err := s.household(c, "people", "")
	if err != nil {
		return err
	}
	i, err := memberIndex(c, h)
	if err != nil {
		return err
	}
	fr.Title = "Take " + h.Members[i].Name + " off the table?"
	return s.show(c, http.StatusOK, "remove", removePage{fr, fmt.Sprintf("%s/people/%d/remove", fr.Base, h.Members[i].ID), h.Members[i].Name})
}

func (s *Site) removeMember(c *gin.Context) error {
	h, fr, err := s.household(c, "people", "")
	if err != nil {
		return err
	}
	i, err := memberIndex(c, h)
	if err != nil {
		return err
	}
	id := h.Members[i].ID
	err = s.kitchen.ChangeHousehold(c.Request.Context(), h.ID, func(h household.Household) (household.Household, error) {
		h.Members = slices.DeleteFunc(h.Members, func(m household.Member) bool { return m.ID == id })
		return h, nil
	})
	if err != nil {
		return err
	}
	return seeOther(c, fr.Base+"/people?done=removed")
}
