package pages

import (
	"fmt"
	"net/http"
	"strconv"

	"github.com/gin-gonic/gin"

	"potwright/internal/access"
	"potwright/internal/household"
	"potwright/internal/kitchen"
)

// frame is what every page has around its own part.
type frame struct {
	Title string
	// Base is the address of the household ("/h/3"), "" outside of one.
	Base string
	// Household is its name.
	Household string
	// Here is the part of the household the page belongs to: table, people,
	// day, recipes, pantry.
	Here string
	// Done says what was just done, after a redirect.
	Done string
	// Caution shows the lines that go with every verdict.
	Caution bool
	// Account is who is signed in, "" for nobody.
	Account string
	// Bare is set on pages for people who are not signed in: no ways further in.
	Bare bool
}

// around is the frame of a page, which has one in it.
func (f frame) around() frame { return f }

// cautions go with every page, print and export that shows a verdict.
func cautions() []string {
	return []string{
		"This is not medical advice. Figures are estimates, each with its range.",
		"A figure from your clinician, and the rules where you live, come first.",
		"Allergens: always check the labels of what you buy.",
		"Texture: test each plate as it is served, and follow your swallowing specialist.",
	}
}

// Cautions are the caution lines, for the layout.
func (frame) Cautions() []string { return cautions() }

// doneWords are the sentences a redirect may ask for; the address carries the
// key only, so that nobody can put words on a page with a link.
func doneWords(key string) string {
	switch key {
	case "household":
		return "The household is set up. Now say who eats here."
	case "member":
		return "Saved. Add whoever else eats here, or paste a recipe."
	case "removed":
		return "Removed. Saved recipes keep what they said."
	case "ways":
		return "Saved."
	case "recipe":
		return "The recipe is saved. See beside each line how it was read."
	case "edit":
		return "Saved as a new version. The one before is kept."
	case "line":
		return "The line is corrected, in a new version. The one before is kept."
	case "stray":
		return "That correction is let go, in a new version. The one before still has it."
	case "remembered":
		return "The line is corrected, and the choice is remembered for the next recipes."
	case "product":
		return "The label is saved."
	case "productgone":
		return "Taken out. Lines that were tied to it go by their words again."
	case "file":
		return "Taken in from the file, with all its versions. See beside each line how it is read here."
	case "logged":
		return "Written down."
	case "unlogged":
		return "Taken off the day."
	case "frozen":
		return "Written down as in the freezer."
	case "takenout":
		return "Taken out."
	case "made":
		return "Written down. The next adaptation shows it."
	case "unmade":
		return "Taken off."
	case "photo":
		return "Added. Say below what stands for the dish, and what may be seen outside this household."
	case "photosaved":
		return "Saved."
	case "photogone":
		return "The photo is removed."
	case "wishes":
		return "Your wishes are kept with this recipe."
	case "tags":
		return "Filed under those words."
	case "never":
		return "That swap is not suggested in this household any more."
	case "maybe":
		return "That swap may be suggested again."
	case "again":
		return "The earlier version is the newest again. Those in between are kept."
	case "passphrase":
		return "The passphrase is changed. Other browsers are signed out."
	case "sessions":
		return "Signed out there."
	case "account":
		return "The account is saved."
	case "accountgone":
		return "The account is taken away, and signed out everywhere."
	case "token":
		return "The token opens nothing any more."
	case "unshared":
		return "The link shows nothing any more."
	case "adapted":
		return "The adapted dish is saved as a new version. The one before is kept."
	}
	return ""
}

// household finds the household of the address and the frame of its pages.
func (s *Site) household(c *gin.Context, here, title string) (household.Household, frame, error) {
	id, err := strconv.ParseInt(c.Param("hid"), 10, 64)
	if err != nil {
		return household.Household{}, frame{}, kitchen.ErrNotFound
	}
	find := s.kitchen.Household
	if c.Request.Method != http.MethodGet {
		find = s.store.FindHousehold // to be changed
	}
	h, err := find(c.Request.Context(), id)
	if err != nil {
		return household.Household{}, frame{}, fmt.Errorf("find household %d: %w", id, err)
	}
	who, _ := access.CallerOf(c.Request.Context())
	return h, frame{Title: title, Account: who.Name, Base: fmt.Sprintf("/h/%d", id), Household: h.Name, Here: here,
		Done: doneWords(c.Query("done"))}, nil
}

// number reads an id in the address; anything else is an address of no page.
func number(c *gin.Context, name string) (int64, error) {
	id, err := strconv.ParseInt(c.Param(name), 10, 64)
	if err != nil || id < 0 {
		return 0, kitchen.ErrNotFound
	}
	return id, nil
}
