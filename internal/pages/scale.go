package pages

import (
	"net/http"

	"github.com/gin-gonic/gin"

	"potwright/internal/recipe"
)

// scalePage asks for a number of servings again where it could not be read.
type scalePage struct {
	frame
	RecipeBase string
	Servings   entry
}

func servingsEntry(value, wrong string) entry {
	return entry{Name: "servings", Label: "For how many servings", Value: value, Wrong: wrong, Mode: "decimal",
		Hint: "It opens with the amounts changed; nothing is saved until you say so."}
}

// showScaled opens the newest version's text for another number of servings, to
// read, change or save.
func (s *Site) showScaled(c *gin.Context) error {
	o, err := s.openRecipe(c, "")
	if err != nil {
		return err
	}
	typed := queryForm(c).text("servings")
	var m messages
	servings, ok := numberIn(&m, "servings", typed, bounds{Low: 0.25, High: recipe.MostServings, Example: "8"})
	if !ok && len(m) == 0 {
		m.add("servings", "Write a number such as 8.")
	}
	if len(m) > 0 {
		p := scalePage{frame: o.frame, RecipeBase: o.base, Servings: servingsEntry(typed, m.For("servings"))}
		p.Title = "For more people, or fewer"
		return s.show(c, http.StatusUnprocessableEntity, "scale", p)
	}
	scaled, err := o.analysis.Scaled(servings)
	if err != nil {
		return err
	}
	p := editPage(o, scaled.Text, "for "+countLoose(servings))
	p.Title = o.analysis.Recipe.Title + ", for " + countLoose(servings)
	p.Notes = append([]string{"This is not saved yet. Change what you like, then save it as a new version; the one before is kept."}, scaled.Notes...)
	return s.show(c, http.StatusOK, "paste", p)
}
