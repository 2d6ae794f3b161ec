package pages

import (
	"errors"
	"fmt"
	"net/http"
	"strings"

	"github.com/gin-gonic/gin"

	"potwright/internal/diagnostic"
	"potwright/internal/kitchen"
	"potwright/internal/recipe"
)

// pastePage takes a recipe's text: a new one, or a saved one to change.
type pastePage struct {
	frame
	Self, Back string
	Text       string
	Note       entry
	// Edit is set where a saved recipe is changed; From is the id of its version that
	// the change starts from.
	Edit bool
	From int64
	// FileTo takes a file from another household, "" where none is taken.
	FileTo string
	// Notes are what to know before saving.
	Notes []string
	// Wrong is what is wrong with the text as a whole, Faults line by line.
	Wrong  string
	Faults []string
}

func (s *Site) showPaste(c *gin.Context) error {
	_, fr, err := s.household(c, "recipes", "A new recipe")
	if err != nil {
		return err
	}
	return s.show(c, http.StatusOK, "paste", newPastePage(fr, "", ""))
}

func newPastePage(fr frame, text, note string) pastePage {
	return pastePage{frame: fr, Self: fr.Base + "/recipes/new", FileTo: fr.Base + "/recipes/file", Back: fr.Base + "/recipes", Text: text, Note: noteEntry(note)}
}

func noteEntry(value string) entry {
	e := entry{Name: "note", Label: "A note for later", Hint: "May stay empty: where it comes from, what to watch.", Value: value}
	var long diagnostic.Fault
	if errors.As(kitchen.CheckNote(value), &long) {
		e.Wrong = fmt.Sprintf("%s; write %s.", sentenceStart(long.Problem), long.Expected)
	}
	return e
}

func (s *Site) savePaste(c *gin.Context) error {
	h, fr, err := s.household(c, "recipes", "A new recipe")
	if err != nil {
		return err
	}
	f, err := readLongForm(c)
	if err != nil {
		return err
	}
	return s.saveNew(c, h.ID, newPastePage(fr, f.values.Get("text"), f.text("note")), f)
}

// saveNew reads and saves the text of a page as a new recipe, or shows the page again
// with what is wrong.
func (s *Site) saveNew(c *gin.Context, householdID int64, p pastePage, f form) error {
	a, err := s.readText(f, &p, func(text string) (kitchen.Analysis, error) {
		return s.kitchen.ReadFor(c.Request.Context(), householdID, text, nil)
	})
	if err != nil {
		return err
	}
	if p.Wrong != "" {
		return s.show(c, http.StatusUnprocessableEntity, "paste", p)
	}
	v, err := s.kitchen.SaveNew(c.Request.Context(), householdID, a, p.Note.Value)
	if err != nil {
		return fmt.Errorf("save recipe: %w", err)
	}
	to := fmt.Sprintf("%s/recipes/%d?done=recipe", p.Base, v.RecipeID)
	like, found, err := s.kitchen.Alike(c.Request.Context(), householdID, a.Recipe, v.RecipeID)
	if err != nil {
		return err
	}
	if found {
		to += fmt.Sprintf("&like=%d", like.ID)
	}
	return seeOther(c, to)
}

// readText reads the recipe of a form. What is wrong with it is put on the
// page, with the text kept; only a failure of our own is an error.
func (s *Site) readText(f form, p *pastePage, read func(text string) (kitchen.Analysis, error)) (kitchen.Analysis, error) {
	if p.Text, p.Wrong = checkText(p.Text, f.TooLong); p.Wrong != "" {
		return kitchen.Analysis{}, nil
	}
	if p.Wrong = p.Note.Wrong; p.Wrong != "" {
		return kitchen.Analysis{}, nil
	}
	text, lost, err := s.marked(printable(p.Text))
	if err == nil && len(lost) > 0 && p.Note.Value == "" {
		p.Note.Value = short("Read from a web page. "+strings.Join(lost, "; "), recipe.MostNote-2) + "."
	}
	var a kitchen.Analysis
	if err == nil {
		a, err = read(text)
	}
	var faults diagnostic.Faults
	var fault diagnostic.Fault
	switch {
	case errors.As(err, &faults):
		p.Wrong = "The recipe could not be read yet. Nothing is lost: change it below and send it again."
		for _, f := range faults {
			p.Faults = append(p.Faults, faultWords(f))
		}
	case errors.As(err, &fault):
		p.Wrong = "The recipe could not be read yet. Nothing is lost: change it below and send it again."
		p.Faults = []string{faultWords(fault)}
	case err != nil:
		return a, fmt.Errorf("read recipe: %w", err)
	}
	return a, nil
}

// faultWords writes a fault for a person.
func faultWords(f diagnostic.Fault) string {
	s := f.Problem
	if f.Line > 0 {
		s = fmt.Sprintf("Line %d: %s", f.Line, s)
	}
	if f.Expected != "" {
		s += "; expected " + f.Expected
	}
	return s
}

// showEdit opens the newest version's text to change.
func (s *Site) showEdit(c *gin.Context) error {
	o, err := s.openRecipe(c, "")
	if err != nil {
		return err
	}
	return s.show(c, http.StatusOK, "paste", editPage(o, o.version.Text, ""))
}

func editPage(o opened, text, note string) pastePage {
	p := newPastePage(o.frame, text, note)
	p.Title = "Change " + o.analysis.Recipe.Title
	p.Self, p.Back, p.Edit, p.From, p.FileTo = o.base+"/edit", o.base, true, o.version.ID, ""
	return p
}

// saveEdit saves the changed text as a new version. Corrections stay with the
// lines whose words did not change.
func (s *Site) saveEdit(c *gin.Context) error {
	f, err := readLongForm(c)
	if err != nil {
		return err
	}
	o, err := s.openFrom(c, f)
	if err != nil {
		return err
	}
	p := editPage(o, f.values.Get("text"), f.text("note"))
	a, err := s.readText(f, &p, func(text string) (kitchen.Analysis, error) {
		return s.kitchen.ReadEdit(c.Request.Context(), o.household.ID, o.version, text)
	})
	if err != nil {
		return err
	}
	if p.Wrong != "" {
		return s.show(c, http.StatusUnprocessableEntity, "paste", p)
	}
	if _, err := s.kitchen.SaveEdit(c.Request.Context(), o.household.ID, o.version, a, p.Note.Value); err != nil {
		return fmt.Errorf("save change: %w", err)
	}
	return seeOther(c, o.base+"?done=edit")
}
