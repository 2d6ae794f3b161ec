package store

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"gorm.io/gorm"

	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/product"
	"potwright/internal/recipe"
)

// Holdings gives everything kept for a household, as of one moment, or of its recipes
// only those asked for; the files of photos are read when its album is asked. A table that is added to the schema is read here, and written by
// hold.
func (s *Store) Holdings(ctx context.Context, householdID int64, recipeIDs ...int64) (kitchen.Holdings, error) {
	h := kitchen.Holdings{Album: album{s, householdID}}
	err := s.read(ctx, func(tx *gorm.DB) (err error) {
		var row householdRow
		if err := findOne(tx.Where("id = ?", householdID), &row, fmt.Sprintf("household %d", householdID)); err != nil {
			return err
		}
		if h.Household, err = withMembers(tx, row); err != nil {
			return err
		}
		if h.Choices, err = listChoices(tx, householdID); err != nil {
			return err
		}
		if h.Products, err = listProducts(tx, householdID); err != nil {
			return err
		}
		if h.Eaten, err = entriesOf(tx.Where("household_id = ? AND version_id IS NULL", householdID)); err != nil {
			return err
		}
		if h.Refusals, err = refusalsOf(tx, householdID); err != nil {
			return err
		}
		h.Recipes, err = heldRecipes(tx, householdID, recipeIDs)
		return err
	})
	if err != nil {
		return kitchen.Holdings{}, fmt.Errorf("read everything of household %d: %w", householdID, err)
	}
	return h, nil
}

// heldRecipes are the household's recipes, or only those asked for, with their
// versions, the one saved last at the end.
func heldRecipes(tx *gorm.DB, householdID int64, only []int64) ([]kitchen.HeldRecipe, error) {
	var rows []recipeRow
	query := tx.Where("household_id = ?", householdID)
	if len(only) > 0 {
		query = query.Where("id IN ?", only)
	}
	if err := query.Find(&rows).Error; err != nil {
		return nil, err
	}
	var out []kitchen.HeldRecipe
	for _, row := range rows {
		r := kitchen.HeldRecipe{Title: row.Title}
		var err error
		if r.CreatedAt, err = (place{"recipes", row.ID}).time("created_at", row.CreatedAt); err != nil {
			return nil, err
		}
		if r.Versions, err = listVersions(tx, row.ID); err != nil {
			return nil, err
		}
		if r.Wishes, err = keptWishes(tx, row.ID); err != nil {
			return nil, err
		}
		if r.Tags, err = tagsOf(tx, row.ID); err != nil {
			return nil, err
		}
		if r.Daybook, err = heldDaybook(tx, row.ID); err != nil {
			return nil, err
		}
		if r.Photos, err = photosOf(withoutFiles(tx).Where("recipe_id = ?", row.ID)); err != nil {
			return nil, err
		}
		out = append(out, r)
	}
	slices.SortFunc(out, func(a, b kitchen.HeldRecipe) int { return cmp.Compare(newestID(a), newestID(b)) })
	return out, nil
}

func newestID(r kitchen.HeldRecipe) int64 {
	if len(r.Versions) == 0 {
		return 0
	}
	return r.Versions[len(r.Versions)-1].ID
}

// TakeHoldings saves whole households as new ones, all or none. kitchen.ErrTaken
// where a name is used.
func (s *Store) TakeHoldings(ctx context.Context, all []kitchen.Holdings) ([]household.Household, error) {
	var out []household.Household
	err := s.write(ctx, func(tx *gorm.DB) error {
		for _, h := range all {
			taken, err := hold(tx, h)
			if err != nil {
				return fmt.Errorf("household %q: %w", h.Household.Name, err)
			}
			out = append(out, taken)
		}
		return nil
	})
	if err != nil {
		return nil, fmt.Errorf("take in everything: nothing was saved: %w", err)
	}
	return out, nil
}

// hold saves one household with all that is kept for it.
func hold(tx *gorm.DB, h kitchen.Holdings) (household.Household, error) {
	house := h.Household
	house.ID = 0
	row, err := newHouseholdRow(house)
	if err != nil {
		return house, err
	}
	if err := taken(tx.Create(&row).Error); err != nil {
		return house, err
	}
	house.ID, house.Members = row.ID, slices.Clone(house.Members)
	for i := range house.Members {
		house.Members[i].ID = 0
	}
	if err := insertMembers(tx, house.ID, house.Members); err != nil {
		return house, err
	}
	people := map[int64]int64{}
	for i, m := range h.Household.Members {
		people[m.ID] = house.Members[i].ID
	}
	own, err := holdProducts(tx, house.ID, h.Products)
	if err != nil {
		return house, err
	}
	for phrase, c := range h.Choices {
		text, err := encode("correction", own.of(c))
		if err != nil {
			return house, err
		}
		if err := tx.Create(&choiceRow{HouseholdID: house.ID, Phrase: phrase, Correction: text}).Error; err != nil {
			return house, fmt.Errorf("choice for %q: %w", phrase, err)
		}
	}
	if err := holdEntries(tx, house.ID, h.Eaten, people, own); err != nil {
		return house, err
	}
	if err := insertRefusals(tx, house.ID, h.Refusals); err != nil {
		return house, err
	}
	_, err = holdRecipes(tx, house.ID, h, own, people)
	return house, err
}

// TakeRecipes adds the recipes of h and the products they are tied to, all or none.
// kitchen.ErrNotFound where there is no such household.
func (s *Store) TakeRecipes(ctx context.Context, householdID int64, h kitchen.Holdings) ([]int64, error) {
	var ids []int64
	err := s.write(ctx, func(tx *gorm.DB) error {
		if err := requireHousehold(tx, householdID); err != nil {
			return err
		}
		own, err := holdProducts(tx, householdID, h.Products)
		if err != nil {
			return err
		}
		ids, err = holdRecipes(tx, householdID, h, own, nil)
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("take in recipes: nothing was saved: %w", err)
	}
	return ids, nil
}

// ownFoods are the new ids of products by their old ones, as foods: "own:7".
type ownFoods map[string]string

// of is a correction that names a product by its new id.
func (own ownFoods) of(c recipe.Correction) recipe.Correction {
	if id, ok := own[c.FoodID]; ok {
		c.FoodID = id
	}
	return c
}

// holdProducts saves products; one whose name the household has is not saved, and
// stands for the household's own.
func holdProducts(tx *gorm.DB, householdID int64, ps []product.Product) (ownFoods, error) {
	own := ownFoods{}
	for _, p := range ps {
		text, err := encode("label", p.Label)
		if err != nil {
			return nil, fmt.Errorf("product %q: %w", p.Label.Name, err)
		}
		row := productRow{HouseholdID: householdID, Name: p.Label.Name, NameKey: productKey(p.Label.Name), Label: text, SavedAt: p.SavedAt.UTC().Format(timeLayout)}
		var had []productRow
		if err := tx.Where("household_id = ? AND name_key = ?", householdID, row.NameKey).Limit(1).Find(&had).Error; err != nil {
			return nil, fmt.Errorf("product %q: %w", p.Label.Name, err)
		}
		if len(had) > 0 {
			row.ID = had[0].ID
		} else if err := tx.Create(&row).Error; err != nil {
			return nil, fmt.Errorf("product %q: %w", p.Label.Name, err)
		}
		own[p.FoodID()] = product.Product{ID: row.ID}.FoodID()
	}
	return own, nil
}

// holdRecipes saves recipes with their versions as they stand: numbers, times and
// parents stay. people are the new ids of members by their old ones.
func holdRecipes(tx *gorm.DB, householdID int64, h kitchen.Holdings, own ownFoods, people map[int64]int64) ([]int64, error) {
	var ids []int64
	for _, r := range h.Recipes {
		row := recipeRow{HouseholdID: householdID, Title: r.Title, CreatedAt: r.CreatedAt.UTC().Format(timeLayout)}
		if err := tx.Create(&row).Error; err != nil {
			return nil, fmt.Errorf("recipe %q: %w", r.Title, err)
		}
		ids = append(ids, row.ID)
		versions, err := holdVersions(tx, row.ID, r.Versions, own)
		if err == nil {
			err = holdDaybook(tx, householdID, r.Daybook.Renamed(versions), people, own)
		}
		if err == nil {
			err = insertTags(tx, row.ID, r.Tags)
		}
		if err == nil {
			err = holdPhotos(tx, householdID, row.ID, h, r.Photos)
		}
		if err != nil {
			return nil, fmt.Errorf("recipe %q: %w", r.Title, err)
		}
		if r.Wishes == nil {
			continue
		}
		text, err := encode("wishes", *r.Wishes)
		if err != nil {
			return nil, fmt.Errorf("recipe %q: %w", r.Title, err)
		}
		if err := tx.Create(&wishesRow{RecipeID: row.ID, Wishes: text}).Error; err != nil {
			return nil, fmt.Errorf("wishes of recipe %q: %w", r.Title, err)
		}
	}
	return ids, nil
}

// holdVersions gives the new ids of the versions by their old ones.
func holdVersions(tx *gorm.DB, recipeID int64, vs []recipe.Version, own ownFoods) (newID map[int64]int64, err error) {
	newID = map[int64]int64{}
	for _, v := range vs {
		old := v.ID
		v.RecipeID, v.SavedAt = recipeID, v.SavedAt.UTC()
		if parent, ok := newID[v.ParentID]; ok {
			v.ParentID = parent
		} else if v.ParentID != 0 {
			return nil, fmt.Errorf("version %d: the version it was made from is not before it", v.Number)
		}
		v.Corrections = slices.Clone(v.Corrections)
		for i, c := range v.Corrections {
			v.Corrections[i].Correction = own.of(c.Correction)
		}
		if err := insertVersion(tx, &v); err != nil {
			return nil, err
		}
		newID[old] = v.ID
	}
	return newID, nil
}
