package kitchen

import (
	"context"
	"fmt"

	"potwright/internal/adaptation"
	"potwright/internal/household"
	"potwright/internal/shopping"
)

// Wanted is a recipe to buy for.
type Wanted struct {
	Recipe RecipeSummary
	// Servings to cook; 0 for as many as the recipe makes.
	Servings float64
}

// Bought is a dish that is bought for.
type Bought struct {
	Recipe   RecipeSummary
	Servings float64
	// Suits is set where the dish suits everyone as it is; only then is there a figure
	// that its labels may show.
	Suits bool
}

// Purchases is what to buy for some dishes.
type Purchases struct {
	// Dishes in the order wanted.
	Dishes []Bought
	Items  []Purchase
	// Must are what labels have to say for someone, by dish.
	Must []string
}

// Purchase is one thing to buy.
type Purchase struct {
	shopping.Item
	// Ceilings are the figures that its label may show at most for everyone to stay
	// inside: of several dishes the lowest that counts by the same serving. None for a
	// product of the pantry, whose label is known.
	Ceilings []adaptation.LabelCeiling
}

// shopped is one dish to buy for.
type shopped struct {
	shopping.Dish
	Bought
	ceilings map[int]adaptation.LabelCeiling // by line
	must     []string
}

// Shop is what to buy for the newest versions of the recipes given. A number of
// servings that is none, or over recipe.MostServings, is a diagnostic.Faults.
func (k *Kitchen) Shop(ctx context.Context, h household.Household, recipes []Wanted) (Purchases, error) {
	var out Purchases
	var dishes []shopped
	var list []shopping.Dish
	for _, r := range recipes {
		d, err := k.shopFor(ctx, h, r)
		if err != nil {
			return out, err
		}
		dishes, list = append(dishes, d), append(list, d.Dish)
		out.Dishes = append(out.Dishes, d.Bought)
		out.Must = append(out.Must, d.must...)
	}
	for _, it := range shopping.List(list, shopping.WeightsOf(h.Measures)) {
		p := Purchase{Item: it}
		if !it.Own {
			p.Ceilings = ceilingsOf(it, dishes)
		}
		out.Items = append(out.Items, p)
	}
	return out, nil
}

// shopFor opens the newest version of a recipe to buy for.
func (k *Kitchen) shopFor(ctx context.Context, h household.Household, w Wanted) (shopped, error) {
	r := w.Recipe
	d := shopped{Dish: shopping.Dish{Title: r.Title}, Bought: Bought{Recipe: r, Suits: true}, ceilings: map[int]adaptation.LabelCeiling{}}
	_, a, err := k.Open(ctx, h.ID, r.LatestID)
	if err != nil {
		return d, fmt.Errorf("open version %d: %w", r.LatestID, err)
	}
	if w.Servings != 0 {
		if a, _, err = k.ForServings(ctx, h.ID, a, w.Servings); err != nil {
			return d, err
		}
	}
	d.Servings, d.Lines = a.Recipe.Servings, a.Pot.Matched()
	if len(h.Members) == 0 {
		return d, nil
	}
	// The dish is asked about as it is, every line locked: only so do the figures
	// for its packages hold for what was saved.
	wishes := adaptation.Wishes{}
	for i := range a.Recipe.Lines {
		wishes.Lock = append(wishes.Lock, i)
	}
	ans, err := k.Adapt(ctx, a, h, wishes)
	if err != nil {
		return d, fmt.Errorf("find what labels may show for recipe %d: %w", r.ID, err)
	}
	if !ans.Fits || len(ans.Changes) > 0 {
		d.Suits = false // it has no room to tell
		return d, nil
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

// ceilingsOf are the label figures of an item's uses, the lowest of each sort, in the
// order first met.
func ceilingsOf(it shopping.Item, dishes []shopped) []adaptation.LabelCeiling {
	var out []adaptation.LabelCeiling
	at := map[string]int{}
	for _, u := range it.Uses {
		l, ok := dishes[u.Dish].ceilings[u.Line]
		if !ok {
			continue
		}
		key := l.Nutrient.Key() + " " + l.Per
		i, seen := at[key]
		switch {
		case !seen:
			at[key] = len(out)
			out = append(out, l)
		case l.AtMost < out[i].AtMost:
			out[i] = l
		}
	}
	return out
}
