package pages

import (
	"fmt"
	"net/http"
	"net/url"
	"strconv"

	"github.com/gin-gonic/gin"

	"potwright/internal/kitchen"
	"potwright/internal/label"
	"potwright/internal/shopping"
)

// shoppingPage is what to buy for the dishes chosen.
type shoppingPage struct {
	frame
	Dishes []tick
	// Groups are the parts of the list; a part with nothing in it is left out.
	Groups []buyGroup
	// Must are what labels have to say for someone, by dish.
	Must     []string
	TextLink string
	TooMany  bool
	Asked    bool
	// Ceilings is set where a figure of a label is given.
	Ceilings bool
}

// buyGroup is one part of the list.
type buyGroup struct {
	Title, Note string
	Items       []buyView
}

// buyView is one thing to buy.
type buyView struct {
	// Row is the food table's name, where that says more than What.
	What, Row, Much string
	For             []string
	// Label are the figures to look for on the package.
	Label []string
}

// mostShopped is how many dishes one list is for.
const mostShopped = 20

func (s *Site) showShopping(c *gin.Context) error {
	h, fr, err := s.household(c, "recipes", "Shopping list")
	if err != nil {
		return err
	}
	list, err := s.store.ListRecipes(c.Request.Context(), h.ID)
	if err != nil {
		return fmt.Errorf("list recipes of household %d: %w", h.ID, err)
	}
	f := queryForm(c)
	p := shoppingPage{frame: fr, Asked: f.has("dish")}
	var dishes []kitchen.RecipeSummary
	q := url.Values{"format": {"text"}}
	for _, r := range list {
		id := strconv.FormatInt(r.ID, 10)
		on := f.ticked("dish", id)
		p.Dishes = append(p.Dishes, tick{Name: "dish", Value: id, Label: r.Title, On: on})
		if !on {
			continue
		}
		if len(dishes) == mostShopped {
			p.TooMany = true
			continue
		}
		dishes = append(dishes, r)
		q.Add("dish", id)
	}
	if len(dishes) > 0 {
		bought, err := s.kitchen.Shop(c.Request.Context(), h, dishes)
		if err != nil {
			return err
		}
		p.fill(bought)
		p.Caution, p.TextLink = true, fr.Base+"/shopping?"+q.Encode()
	}
	if f.text("format") == "text" {
		c.Header("Cache-Control", "no-store")
		c.Header("Content-Disposition", `attachment; filename="shopping.txt"`)
		c.Data(http.StatusOK, "text/plain; charset=utf-8", []byte(p.text()))
		return nil
	}
	return s.show(c, http.StatusOK, "shopping", p)
}

func (p *shoppingPage) fill(bought kitchen.Purchases) {
	p.Must = bought.Must
	groups := []buyGroup{{Title: "To buy"}, {Title: "From the pantry", Note: "Products whose label you keep: look whether enough is left."},
		{Title: "To taste", Note: "A little of each; look whether there is some at home."}, {Title: "If you want them", Note: "The recipe can do without, or the line is left out of the sums."},
		{Title: "By their words", Note: "Not found in the food table: bought as written."}}
	for _, it := range bought.Items {
		v := buyView{What: it.Name, Row: it.Row, Much: it.Amount}
		for _, u := range it.Uses {
			v.For = append(v.For, u.Title+": "+u.Text)
		}
		for _, l := range it.Ceilings {
			v.Label = append(v.Label, fmt.Sprintf("%s at most %s in %s", l.Nutrient.Name(), label.Text(l.Nutrient, l.AtMost), l.Per))
		}
		p.Ceilings = p.Ceilings || len(v.Label) > 0
		g := &groups[groupOf(it.Item)]
		g.Items = append(g.Items, v)
	}
	for _, g := range groups {
		if len(g.Items) > 0 {
			p.Groups = append(p.Groups, g)
		}
	}
}

// groupOf is the part of the list that an item belongs to, as fill orders them.
func groupOf(it shopping.Item) int {
	switch {
	case it.Own:
		return 1
	case it.Optional:
		return 3
	case it.Food == nil:
		return 4
	case it.ToTaste():
		return 2
	}
	return 0
}
