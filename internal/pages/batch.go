package pages

import (
	"net/http"
	"net/url"

	"github.com/gin-gonic/gin"

	"potwright/internal/recipe"
)

// batch is how many servings are cooked, where that is not what the recipe says.
type batch struct {
	typed string
	// query repeats it in links, "" for the recipe's own number.
	query string
	// notes say what was not scaled.
	notes []string
}

func batchEntry(value, wrong string) entry {
	return entry{Name: "servings", Label: "Servings to cook", Value: value, Wrong: wrong, Mode: "decimal",
		Hint: "The amounts change for this cooking; the recipe stays as it is."}
}

// batch scales what is opened to ?servings=n. Where that is no number the recipe's own
// number stands and the messages say so.
func (s *Site) batch(c *gin.Context, o *opened) (batch, messages, error) {
	own := plain(o.analysis.Recipe.Servings)
	b := batch{typed: queryForm(c).text("servings")}
	if b.typed == "" || b.typed == own {
		b.typed = own
		return b, nil, nil
	}
	var wrong messages
	n, ok := numberIn(&wrong, "servings", b.typed, bounds{Low: 0.25, High: recipe.MostServings, Example: "8"})
	if !ok {
		return b, wrong, nil
	}
	var err error
	if o.analysis, b.notes, err = s.kitchen.ForServings(c.Request.Context(), o.household.ID, o.analysis, n); err != nil {
		return b, nil, err
	}
	b.query = "&" + url.Values{"servings": {plain(n)}}.Encode()
	return b, nil, nil
}

// statusWith is the status of a page with something wrong in it.
func statusWith(wrong messages) int {
	if len(wrong) > 0 {
		return http.StatusUnprocessableEntity
	}
	return http.StatusOK
}
