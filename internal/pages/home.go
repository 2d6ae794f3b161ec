package pages

import (
	"errors"
	"fmt"
	"net/http"
	"slices"

	"github.com/gin-gonic/gin"

	"potwright/internal/access"
	"potwright/internal/household"
	"potwright/internal/kitchen"
)

// homePage lists the households and starts a new one.
type homePage struct {
	frame
	Households []householdLink
	Name       entry
	// Closed is set where only whoever keeps the data file starts a household.
	Closed bool
	// Demo is set where an invented household can be had.
	Demo bool
}

type householdLink struct{ Link, Name, People string }

// nameLimit is the most characters of a name.
const nameLimit = household.MostName

func (s *Site) homePage(c *gin.Context, typed, wrong string) (homePage, error) {
	hs, err := s.store.ListHouseholds(c.Request.Context())
	if err != nil {
		return homePage{}, fmt.Errorf("list households: %w", err)
	}
	p := homePage{frame: frame{Title: "Whose kitchen?"},
		Name: entry{Name: "name", Label: "Name of the household", Hint: "A street, a family name, any word you like.",
			Value: typed, Wrong: wrong}}
	who, signed := access.CallerOf(c.Request.Context())
	p.Closed = signed
	hs = slices.DeleteFunc(hs, func(h household.Household) bool { return signed && !who.Sees(h.ID) })
	for _, h := range hs {
		p.Households = append(p.Households, householdLink{Link: fmt.Sprintf("/h/%d/table", h.ID), Name: h.Name,
			People: countWords(len(h.Members), "person", "people")})
	}
	p.Demo = len(hs) == 0 && !signed && s.demo != nil
	if len(hs) == 0 {
		p.Title = "A pot for people who do not eat alike"
	}
	return p, nil
}

// showHome lists the households; with exactly one it goes to its table, unless
// the list was asked for.
func (s *Site) showHome(c *gin.Context) error {
	p, err := s.homePage(c, "", "")
	if err != nil {
		return err
	}
	if len(p.Households) == 1 && !c.Request.URL.Query().Has("list") {
		return seeOther(c, p.Households[0].Link)
	}
	return s.show(c, http.StatusOK, "home", p)
}

// createHousehold starts a household and goes on to its people.
func (s *Site) createHousehold(c *gin.Context) error {
	f, err := readForm(c)
	if err != nil {
		return err
	}
	name, wrong := cleanName(f.text("name"))
	if wrong == "" {
		h, err := s.store.CreateHousehold(c.Request.Context(), household.Household{Name: name})
		if err == nil {
			return seeOther(c, fmt.Sprintf("/h/%d/people?done=household", h.ID))
		}
		if !errors.Is(err, kitchen.ErrTaken) {
			return fmt.Errorf("create household: %w", err)
		}
		wrong = "There is already a household of that name; choose another."
	}
	p, err := s.homePage(c, f.text("name"), wrong)
	if err != nil {
		return err
	}
	return s.show(c, http.StatusUnprocessableEntity, "home", p)
}

// startDemo puts the invented household in and goes to its table.
func (s *Site) startDemo(c *gin.Context) error {
	if s.demo == nil {
		return kitchen.ErrNotFound
	}
	if err := s.demo(c.Request.Context()); err != nil && !errors.Is(err, kitchen.ErrTaken) {
		return fmt.Errorf("put the demo in: %w", err)
	}
	return seeOther(c, "/")
}

// goToTable is the household's front door.
func (s *Site) goToTable(c *gin.Context) error {
	_, fr, err := s.household(c, "table", "")
	if err != nil {
		return err
	}
	return seeOther(c, fr.Base+"/table")
}
