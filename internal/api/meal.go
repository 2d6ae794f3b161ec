package api

import (
	"fmt"
	"net/http"
	"slices"
	"strconv"

	"potwright/internal/composition"
	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/nutrient"
	"potwright/internal/recipe"
	"potwright/internal/spread"
)

func mealOperations() []operation {
	recipes := []parameter{{name: "recipe", about: "the number of a recipe; may be given several times", schema: schema{"type": "array", "items": schema{"type": "integer", "minimum": 1}}, required: true, many: true},
		{name: "servings", about: "for how many servings each recipe is cooked, in the order of the recipes; as many as it makes where it is left out", schema: schema{"type": "array", "items": schema{"type": "number", "exclusiveMinimum": 0}}, many: true}}
	return []operation{
		{method: http.MethodPost, path: ofHousehold + "/meal", id: "sumMeal", summary: "Several dishes of one meal on everyone's plate, held against the limits as one sum", body: mealBody{}, answer: mealAnswer{}, status: http.StatusOK, do: sumMeal},
		{method: http.MethodGet, path: ofHousehold + "/shopping", id: "shop", summary: "What to buy for the newest versions of some recipes", query: recipes, answer: purchasesAnswer{}, status: http.StatusOK, do: shop},
	}
}

// mostDishes is how many dishes a meal or a shopping list is for.
const mostDishes = 20

// mealBody is the dishes of a meal and who eats.
type mealBody struct {
	Dishes []courseBody `json:"dishes"`
	eatersBody
}

// courseBody is one dish of a meal: a text or a version, and how many servings each
// takes of it, everyone's usual portion where it is left out.
type courseBody struct {
	Text     string  `json:"text,omitempty"`
	Version  int64   `json:"version,omitempty"`
	Servings float64 `json:"servings,omitempty"`
}

// mealPlate is all that one member eats at a meal. Findings' shares are by dish, from
// 0.
type mealPlate struct {
	Name     string                    `json:"name"`
	Sum      nutrient.Panel            `json:"sum"`
	Fits     household.Fit             `json:"fits"`
	Findings []kitchen.FindingDocument `json:"findings"`
}

type mealAnswer struct {
	Dishes  []string    `json:"dishes"`
	Members []mealPlate `json:"members"`
	Caution string      `json:"caution"`
}

func sumMeal(r *request) (any, error) {
	b := *r.body.(*mealBody)
	if len(b.Dishes) == 0 || len(b.Dishes) > mostDishes {
		return nil, unusable("dishes", "%d dishes; expected 1 to %d", len(b.Dishes), mostDishes)
	}
	h, err := r.table(b.eatersBody)
	if err != nil {
		return nil, err
	}
	out := mealAnswer{Dishes: []string{}, Members: []mealPlate{}, Caution: kitchen.Caution}
	var served []kitchen.Serving
	for i, d := range b.Dishes {
		if d.Servings < 0 || d.Servings > household.MaxPortion {
			return nil, unusable(fmt.Sprintf("dishes[%d].servings", i), "%v servings; expected up to %v", d.Servings, household.MaxPortion)
		}
		_, a, err := r.open(dishBody{Text: d.Text, Version: d.Version})
		if err != nil {
			return nil, err
		}
		served = append(served, kitchen.Serving{Title: a.Recipe.Title, Analysis: a, Portion: d.Servings})
		out.Dishes = append(out.Dishes, a.Recipe.Title)
	}
	for _, m := range h.Members {
		usual, _, _ := m.Portions()
		mine := slices.Clone(served)
		for i := range mine {
			if mine[i].Portion == 0 {
				mine[i].Portion = usual
			}
		}
		p := r.kitchen.Meal(h, m, mine)
		out.Members = append(out.Members, mealPlate{m.Name, p.Panel, p.Fit, kitchen.FindingDocuments(p.Findings)})
	}
	return out, nil
}

// purchaseDocument is one thing to buy.
type purchaseDocument struct {
	Name string `json:"name"`
	// Food is the row of the food table; nil where the line was not read.
	Food *kitchen.FoodDocument `json:"food"`
	// Amount is how much in the words of a shop, Grams the edible weight.
	Amount   string          `json:"amount"`
	Grams    spread.Range    `json:"grams"`
	Own      bool            `json:"from_the_pantry,omitempty"`
	Optional bool            `json:"optional,omitempty"`
	ToTaste  bool            `json:"to_taste,omitempty"`
	For      []useDocument   `json:"for"`
	Labels   []ceilingAnswer `json:"labels"`
}

// useDocument is one line of a dish that something is for.
type useDocument struct {
	Dish string `json:"dish"`
	Line int    `json:"line"` // from 0
	Text string `json:"text"`
}

// ceilingAnswer is the most that a package's label may show for everyone to stay
// inside.
type ceilingAnswer struct {
	Nutrient composition.Nutrient `json:"nutrient"`
	AtMost   float64              `json:"at_most"`
	Per      string               `json:"per"`
}

// boughtDocument is a dish that is bought for; only where it suits everyone as it is do
// its labels have figures.
type boughtDocument struct {
	Recipe   int64   `json:"recipe"`
	Title    string  `json:"title"`
	Servings float64 `json:"servings"`
	Suits    bool    `json:"suits"`
}

type purchasesAnswer struct {
	Dishes []boughtDocument   `json:"dishes"`
	Items  []purchaseDocument `json:"items"`
	// Must are what labels have to say for someone, by dish.
	Must    []string `json:"must"`
	Caution string   `json:"caution"`
}

func shop(r *request) (any, error) {
	asked := r.gin.QueryArray("recipe")
	if len(asked) == 0 || len(asked) > mostDishes {
		return nil, badRequest("%d recipes; expected recipe=NUMBER once to %d times", len(asked), mostDishes)
	}
	servings := r.gin.QueryArray("servings")
	if len(servings) > 0 && len(servings) != len(asked) {
		return nil, badRequest("%d numbers of servings for %d recipes; expected one for each, or none", len(servings), len(asked))
	}
	var recipes []kitchen.Wanted
	for i, text := range asked {
		id, err := wholeNumber("recipe", text)
		if err != nil {
			return nil, err
		}
		s, err := r.store.FindRecipe(r.ctx, r.household.ID, id)
		if err != nil {
			return nil, err
		}
		w := kitchen.Wanted{Recipe: s}
		if len(servings) > 0 {
			if w.Servings, err = strconv.ParseFloat(servings[i], 64); err != nil || !(w.Servings > 0) || w.Servings > recipe.MostServings {
				return nil, badRequest("servings %q; expected a number above 0 and at most %d", servings[i], recipe.MostServings)
			}
		}
		recipes = append(recipes, w)
	}
	bought, err := r.kitchen.Shop(r.ctx, r.household, recipes)
	if err != nil {
		return nil, err
	}
	out := purchasesAnswer{Dishes: []boughtDocument{}, Items: []purchaseDocument{}, Must: append([]string{}, bought.Must...), Caution: kitchen.Caution}
	for _, d := range bought.Dishes {
		out.Dishes = append(out.Dishes, boughtDocument{d.Recipe.ID, d.Recipe.Title, d.Servings, d.Suits})
	}
	for _, it := range bought.Items {
		out.Items = append(out.Items, purchaseDocumentOf(it))
	}
	return out, nil
}

func purchaseDocumentOf(it kitchen.Purchase) purchaseDocument {
	d := purchaseDocument{Name: it.Name, Amount: it.Amount, Grams: it.Grams, Own: it.Own, Optional: it.Optional, ToTaste: it.ToTaste(),
		For: []useDocument{}, Labels: []ceilingAnswer{}}
	if it.Food != nil {
		d.Food = &kitchen.FoodDocument{ID: it.Food.ID, Name: it.Food.Name}
	}
	for _, u := range it.Uses {
		d.For = append(d.For, useDocument{u.Title, u.Line, u.Text})
	}
	for _, l := range it.Ceilings {
		d.Labels = append(d.Labels, ceilingAnswer{l.Nutrient, l.AtMost, l.Per})
	}
	return d
}
