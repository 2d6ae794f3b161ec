package pages

import (
	"fmt"
	"net/url"
	"strconv"

	"github.com/gin-gonic/gin"

	"potwright/internal/kitchen"
	"potwright/internal/label"
	"potwright/internal/recipe"
	"potwright/internal/shopping"
)

// shoppingPage is what to buy for the dishes chosen.
type shoppingPage struct {
	frame
	// Dishes are those ticked, and Besides those that may be.
	Dishes  []dishRow
	Besides dishChoice
	// Groups are the parts of the list; a part with nothing in it is left out.
	Groups []buyGroup
	// Must are what labels have to say for someone, by dish.
	Must     []string
	TextLink string
	TooMany  bool
	Asked    bool
	// Ceilings is set where a figure of a label is given.
	Ceilings bool
	// Unsuited are dishes that do not suit as they are: no label can be told for them.
	Unsuited []dishLink
	Wrong    messages
	// home are the keys of what is at home already.
	home []string
}

// dishRow is one dish to choose, and for how many servings.
type dishRow struct {
	Here     tick
	Servings entry
}

// dishLink leads to one dish.
type dishLink struct{ Title, Link string }

// buyGroup is one part of the list.
type buyGroup struct {
	Title, Note string
	Items       []buyView
}

// buyView is one thing to buy.
type buyView struct {
	// Have is ticked for what is at home already.
	Have tick
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
	p := shoppingPage{frame: fr, Asked: f.has("dish"), home: f.all("home")}
	chosen, besides, err := s.offerDishes(c, h.ID, list, func(r kitchen.RecipeSummary) bool { return f.ticked("dish", strconv.FormatInt(r.ID, 10)) }, f.text("find"))
	if err != nil {
		return err
	}
	p.Besides = besides
	wanted := p.wanted(f, chosen)
	if len(wanted) > 0 {
		bought, err := s.kitchen.Shop(c.Request.Context(), h, wanted)
		if err != nil {
			return err
		}
		p.fill(bought)
		p.Caution, p.TextLink = true, p.address(bought.Dishes, "text")
	}
	if f.text("format") == "text" {
		sendFile(c, "shopping.txt", "text/plain; charset=utf-8", []byte(p.text()))
		return nil
	}
	return s.show(c, statusWith(p.Wrong), "shopping", p)
}

// servingsField is the name of the field that says how much of a dish is cooked.
func servingsField(recipeID int64) string { return fmt.Sprintf("s%d", recipeID) }

// wanted reads for how many servings each of the dishes ticked is, and lists them in the
// form.
func (p *shoppingPage) wanted(f form, chosen []kitchen.RecipeSummary) []kitchen.Wanted {
	var out []kitchen.Wanted
	for _, r := range chosen {
		field := servingsField(r.ID)
		row := dishRow{Here: dishTick(r, true),
			Servings: entry{Name: field, Label: "How much of " + r.Title, Unit: "servings", Value: f.text(field), Mode: "decimal"}}
		servings, ok := numberIn(&p.Wrong, field, row.Servings.Value, bounds{Low: 0.25, High: recipe.MostServings, Example: "8"})
		row.Servings.Wrong = p.Wrong.For(field)
		p.Dishes = append(p.Dishes, row)
		switch {
		case !ok && row.Servings.Value != "":
		case len(out) == mostShopped:
			p.TooMany = true
		default:
			out = append(out, kitchen.Wanted{Recipe: r, Servings: servings})
		}
	}
	return out
}

// address is that of the list in a format, for the same dishes.
func (p *shoppingPage) address(dishes []kitchen.Bought, format string) string {
	q := url.Values{"format": {format}, "home": p.home}
	for _, d := range dishes {
		q.Add("dish", strconv.FormatInt(d.Recipe.ID, 10))
		q.Set(servingsField(d.Recipe.ID), plain(d.Servings))
	}
	return p.Base + "/shopping?" + q.Encode()
}

func (p *shoppingPage) fill(bought kitchen.Purchases) {
	p.Must = bought.Must
	for _, d := range bought.Dishes {
		for i := range p.Dishes {
			if p.Dishes[i].Servings.Name == servingsField(d.Recipe.ID) {
				p.Dishes[i].Servings.Value = plain(d.Servings)
			}
		}
		if !d.Suits {
			p.Unsuited = append(p.Unsuited, dishLink{d.Recipe.Title, fmt.Sprintf("%s/recipes/%d/adapt", p.Base, d.Recipe.ID)})
		}
	}
	groups := []buyGroup{{Title: "To buy"}, {Title: "At home already", Note: "Ticked by you, and left off the list."}, {Title: "From the pantry", Note: "Products whose label you keep: look whether enough is left."},
		{Title: "To taste", Note: "A little of each; look whether there is some at home."}, {Title: "If you want them", Note: "The recipe can do without, or the line is left out of the sums."},
		{Title: "By their words", Note: "Not found in the food table: bought as written."}}
	for _, it := range bought.Items {
		v := buyView{What: it.Name, Row: it.Row, Much: it.Amount, Have: tick{Name: "home", Value: it.Key, Label: it.Name, On: contains(p.home, it.Key)}}
		for _, u := range it.Uses {
			v.For = append(v.For, u.Title+": "+u.Text)
		}
		for _, l := range it.Ceilings {
			v.Label = append(v.Label, fmt.Sprintf("%s at most %s in %s", l.Nutrient.Name(), label.Text(l.Nutrient, l.AtMost), l.Per))
		}
		p.Ceilings = p.Ceilings || len(v.Label) > 0
		g := &groups[groupOf(it.Item, v.Have.On)]
		g.Items = append(g.Items, v)
	}
	for _, g := range groups {
		if len(g.Items) > 0 {
			p.Groups = append(p.Groups, g)
		}
	}
}

// groupOf is the part of the list that an item belongs to, as fill orders them.
func groupOf(it shopping.Item, home bool) int {
	switch {
	case home:
		return 1
	case it.Own:
		return 2
	case it.Optional:
		return 4
	case it.Food == nil:
		return 5
	case it.ToTaste():
		return 3
	}
	return 0
}
