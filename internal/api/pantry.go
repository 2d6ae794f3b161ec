package api

import (
	"errors"

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
	list, err := r.api.cfg.Kitchen.Store.ListProducts(r.ctx, r.household.ID)
	if err != nil {
		return nil, err
	}
	return productList{append([]product.Product{}, list...)}, nil
}

// keepProduct saves a label that reads.
func (r *request) keepProduct(id int64) (any, error) {
	l := *r.body.(*product.Label)
	if _, _, err := r.api.cfg.Kitchen.ReadProduct(l); err != nil {
		return nil, err
	}
	return r.api.cfg.Kitchen.Store.SaveProduct(r.ctx, r.household.ID, product.Product{ID: id, Label: l})
}

func createProduct(r *request) (any, error) {
	return r.keepProduct(0)
}

func saveProduct(r *request) (any, error) {
	if _, err := r.api.cfg.Kitchen.Store.FindProduct(r.ctx, r.household.ID, r.id("product_id")); err != nil {
		return nil, err
	}
	return r.keepProduct(r.id("product_id"))
}

func deleteProduct(r *request) (any, error) {
	return nil, r.api.cfg.Kitchen.Store.DeleteProduct(r.ctx, r.household.ID, r.id("product_id"))
}

func listChoices(r *request) (any, error) {
	choices, err := r.api.cfg.Kitchen.Store.Choices(r.ctx, r.household.ID)
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
	if c.FoodID != "" {
		table, err := r.api.cfg.Kitchen.Foods(r.ctx, r.household.ID)
		if err != nil {
			return nil, err
		}
		if _, ok := table.ByID(c.FoodID); !ok {
			return nil, unusable("there is no food %q; expected an id such as sr:01001", c.FoodID)
		}
	}
	return c, r.api.cfg.Kitchen.Store.RememberChoice(r.ctx, r.household.ID, r.gin.Param("phrase"), c)
}

func deleteChoice(r *request) (any, error) {
	err := r.api.cfg.Kitchen.Store.ForgetChoice(r.ctx, r.household.ID, r.gin.Param("phrase"))
	if errors.Is(err, kitchen.ErrNotFound) {
		return nil, notFound("nothing is remembered of %q", r.gin.Param("phrase"))
	}
	return nil, err
}
