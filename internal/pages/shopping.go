package pages

import (
	"context"
	"fmt"
	"net/http"
	"net/url"
	"strconv"

	"github.com/gin-gonic/gin"

	"potwright/internal/adaptation"
	"potwright/internal/foodmatch"
	"potwright/internal/household"
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

// shopped is one dish of the list.
type shopped struct {
	title string
	lines []foodmatch.Matched
	// ceilings by line.
	ceilings map[int]adaptation.LabelCeiling
	must     []string
}

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
	var dishes []shopped
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
		d, err := s.shop(c.Request.Context(), h, r)
		if err != nil {
			return err
		}
		dishes = append(dishes, d)
		q.Add("dish", id)
	}
	if len(dishes) > 0 {
		p.fill(h, dishes)
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

// shop opens the newest version of a recipe to buy for.
func (s *Site) shop(ctx context.Context, h household.Household, r kitchen.RecipeSummary) (shopped, error) {
	_, a, err := s.kitchen.Open(ctx, h.ID, r.LatestID)
	if err != nil {
		return shopped{}, fmt.Errorf("open version %d: %w", r.LatestID, err)
	}
	d := shopped{title: r.Title, ceilings: map[int]adaptation.LabelCeiling{}}
	for _, lp := range a.Pot.Lines {
		d.lines = append(d.lines, lp.Matched)
	}
	if len(h.Members) == 0 {
		return d, nil
	}
	// The dish is asked about as it is, every line locked: only so do the figures
	// for its packages hold for what was saved.
	w := adaptation.Wishes{}
	for i := range a.Recipe.Lines {
		w.Lock = append(w.Lock, i)
	}
	ans, err := s.kitchen.Adapt(ctx, a, h, w)
	if err != nil {
		return shopped{}, fmt.Errorf("find what labels may show for recipe %d: %w", r.ID, err)
	}
	if !ans.Fits || len(ans.Changes) > 0 {
		return d, nil // a dish that does not suit as it is has no room to tell
	}
	for _, l := range ans.Labels {
		d.ceilings[l.Line] = l
	}
	for _, plate := range ans.Plates {
		for _, must := range plate.Provided {
			d.must = append(d.must, fmt.Sprintf("%s, for %s: %s", r.Title, plate.Member.Name, must))
		}
	}
	return d, nil
}

func (p *shoppingPage) fill(h household.Household, dishes []shopped) {
	var ds []shopping.Dish
	for _, d := range dishes {
		ds = append(ds, shopping.Dish{Title: d.title, Lines: d.lines})
		p.Must = append(p.Must, d.must...)
	}
	groups := []buyGroup{{Title: "To buy"}, {Title: "From the pantry", Note: "Products whose label you keep: look whether enough is left."},
		{Title: "To taste", Note: "A little of each; look whether there is some at home."}, {Title: "If you want them", Note: "The recipe can do without, or the line is left out of the sums."},
		{Title: "By their words", Note: "Not found in the food table: bought as written."}}
	for _, it := range shopping.List(ds, shopping.WeightsOf(h.Measures)) {
		v := buyView{What: it.Name, Row: it.Row, Much: it.Amount}
		for _, u := range it.Uses {
			v.For = append(v.For, u.Title+": "+u.Text)
		}
		if !it.Own { // the label of a product of the pantry is known
			v.Label = ceilingWords(it, dishes)
		}
		p.Ceilings = p.Ceilings || len(v.Label) > 0
		g := &groups[groupOf(it)]
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

// ceilingWords are the figures to look for on the package of an item: of several
// dishes the lowest that counts by the same serving.
func ceilingWords(it shopping.Item, dishes []shopped) []string {
	least := map[string]adaptation.LabelCeiling{}
	var order []string
	for _, u := range it.Uses {
		l, ok := dishes[u.Dish].ceilings[u.Line]
		if !ok {
			continue
		}
		key := l.Nutrient.Name() + " " + l.Per
		old, seen := least[key]
		if !seen {
			order = append(order, key)
		}
		if !seen || l.AtMost < old.AtMost {
			least[key] = l
		}
	}
	var out []string
	for _, key := range order {
		l := least[key]
		out = append(out, fmt.Sprintf("%s at most %s in %s", l.Nutrient.Name(), label.Text(l.Nutrient, l.AtMost), l.Per))
	}
	return out
}
