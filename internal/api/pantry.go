package api

import (
	"potwright/internal/diagnostic"
	"potwright/internal/kitchen"
	"potwright/internal/product"
	"potwright/internal/recipe"
)

type productList struct {
	Products []product.Product `json:"products"`
}

type choiceList struct {
	Choices map[string]recipe.Correction `json:"choices"`
}

func listProducts(r *request) (any, error) {
	list, err := r.store.ListProducts(r.ctx, r.household.ID)
	if err != nil {
		return nil, err
	}
	return productList{append([]product.Product{}, list...)}, nil
}

// keepProduct saves a label that reads, in the place of the product that was there.
func (r *request) keepProduct(was product.Product) (any, error) {
	l := *r.body.(*product.Label)
	if _, _, err := r.kitchen.ReadProduct(l); err != nil {
		return nil, err
	}
	over, err := r.over(was)
	if err != nil {
		return nil, err
	}
	return r.store.SaveProduct(r.ctx, r.household.ID, product.Product{ID: was.ID, Label: l}, over)
}

// readingAnswer is what a label means: the food it makes, doubts about it, and its
// figures against the definitions of label terms, nil where it says no serving.
type readingAnswer struct {
	Food     foodDocument       `json:"food"`
	Warnings []diagnostic.Fault `json:"warnings"`
	Claims   *claimsAnswer      `json:"claims"`
}

// keptProduct is a label as it is kept; Reading is nil, and Wrong says why, where it
// no longer reads.
type keptProduct struct {
	product.Product
	Reading *readingAnswer `json:"reading"`
	Wrong   string         `json:"wrong,omitempty"`
}

func (r *request) readingOf(l product.Label) (*readingAnswer, error) {
	food, warnings, err := r.kitchen.ReadProduct(l)
	if err != nil {
		return nil, err
	}
	out := &readingAnswer{Food: documentOf(food), Warnings: append([]diagnostic.Fault{}, warnings...)}
	if claims, ok := kitchen.FoodClaims(food); ok {
		c := claimsAnswerOf(claims)
		out.Claims = &c
	}
	return out, nil
}

func readProduct(r *request) (any, error) {
	out, err := r.readingOf(*r.body.(*product.Label))
	if err != nil {
		return nil, err
	}
	return *out, nil
}

func findProduct(r *request) (any, error) {
	p, err := r.store.FindProduct(r.ctx, r.household.ID, r.id("product_id"))
	if err != nil {
		return nil, err
	}
	out := keptProduct{Product: p}
	var wrong error
	if out.Reading, wrong = r.readingOf(p.Label); wrong != nil {
		out.Wrong = wrong.Error()
	}
	return out, nil
}

func searchOwnFoods(r *request) (any, error) {
	table, err := r.kitchen.Foods(r.ctx, r.household.ID)
	if err != nil {
		return nil, err
	}
	return r.search(table)
}

func createProduct(r *request) (any, error) {
	return r.keepProduct(product.Product{})
}

func saveProduct(r *request) (any, error) {
	was, err := r.store.FindProduct(r.ctx, r.household.ID, r.id("product_id"))
	if err != nil {
		return nil, err
	}
	return r.keepProduct(was)
}

func deleteProduct(r *request) (any, error) {
	return nil, r.store.DeleteProduct(r.ctx, r.household.ID, r.id("product_id"))
}

func listChoices(r *request) (any, error) {
	choices, err := r.store.Choices(r.ctx, r.household.ID)
	if err != nil {
		return nil, err
	}
	if choices == nil {
		choices = map[string]recipe.Correction{}
	}
	return choiceList{choices}, nil
}

func saveChoice(r *request) (any, error) {
	c := *r.body.(*recipe.Correction)
	if err := c.Check(); err != nil {
		return nil, err
	}
	if c.FoodID != "" {
		table, err := r.kitchen.Foods(r.ctx, r.household.ID)
		if err != nil {
			return nil, err
		}
		if _, ok := table.ByID(c.FoodID); !ok {
			return nil, unusable("food_id", "there is no food %q; expected an id such as sr:01001", c.FoodID)
		}
	}
	over, err := r.overChoice()
	if err != nil {
		return nil, err
	}
	return c, r.store.RememberChoice(r.ctx, r.household.ID, r.gin.Param("phrase"), c, over)
}

func deleteChoice(r *request) (any, error) {
	over, err := r.overChoice()
	if err != nil {
		return nil, err
	}
	return nil, r.store.ForgetChoice(r.ctx, r.household.ID, r.gin.Param("phrase"), over)
}

// choice is what is remembered of the phrase of the path, empty where nothing is.
func (r *request) choice() (recipe.Correction, error) {
	choices, err := r.store.Choices(r.ctx, r.household.ID)
	return choices[r.gin.Param("phrase")], err
}

func findChoice(r *request) (any, error) { return r.choice() }

func (r *request) overChoice() (kitchen.Mark, error) {
	was, err := r.choice()
	if err != nil {
		return "", err
	}
	return r.over(was)
}
