package pages

import (
	"errors"
	"fmt"
	"net/http"

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
	Presets          []presetView
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
		if at, err = memberIndex(c, h); err != nil {
			return err
		}
		id, fr.Title = h.Members[at].ID, h.Members[at].Name
	}
	f, err := readForm(c)
	if err != nil {
		return err
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
	if len(typed.Wrong) == 0 {
		err := s.keepMember(c, h, at, m)
		if err == nil {
			return seeOther(c, fr.Base+"/people?done=member")
		}
		if !errors.Is(err, kitchen.ErrTaken) {
			return err
		}
		typed.Wrong.add("name", "Someone here already has that name; add a letter to tell them apart.")
	}
	return s.show(c, http.StatusUnprocessableEntity, "member", s.memberPage(fr, id, typed.dress()))
}

// keepMember puts the member among the others and saves.
func (s *Site) keepMember(c *gin.Context, h household.Household, at int, m household.Member) error {
	members := append([]household.Member(nil), h.Members...)
	if at < 0 {
		members = append(members, m)
	} else {
		m.ID = members[at].ID
		members[at] = m
	}
	h.Members = members
	if _, err := s.store.SaveHousehold(c.Request.Context(), h); err != nil {
		return fmt.Errorf("save household %d: %w", h.ID, err)
	}
	return nil
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
	h.Members = append(append([]household.Member(nil), h.Members[:i]...), h.Members[i+1:]...)
	if _, err := s.store.SaveHousehold(c.Request.Context(), h); err != nil {
		return fmt.Errorf("save household %d: %w", h.ID, err)
	}
	return seeOther(c, fr.Base+"/people?done=removed")
}
