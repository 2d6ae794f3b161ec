package store

import (
	"context"
	"fmt"
	"strings"

	"gorm.io/gorm"
	"gorm.io/gorm/clause"

	"potwright/internal/kitchen"
)

// tagRow is a row of tags.
type tagRow struct {
	RecipeID int64  `gorm:"primaryKey;autoIncrement:false"`
	Tag      string `gorm:"primaryKey"`
}

// TableName is the table's name in the schema.
func (tagRow) TableName() string { return "tags" }

// refusalRow is a row of refusals.
type refusalRow struct {
	HouseholdID int64  `gorm:"primaryKey;autoIncrement:false"`
	Rule        string `gorm:"primaryKey"`
}

// TableName is the table's name in the schema.
func (refusalRow) TableName() string { return "refusals" }

// likeSigns are what LIKE takes for patterns.
var likeSigns = strings.NewReplacer(`\`, `\\`, "%", `\%`, "_", `\_`)

// wordFound is true of a recipe that has a word in its title, its newest version's text
// or a tag.
const wordFound = `(r.title LIKE ? ESCAPE '\' OR v.body LIKE ? ESCAPE '\' OR EXISTS (SELECT 1 FROM tags AS t WHERE t.recipe_id = r.id AND t.tag LIKE ? ESCAPE '\'))`

// FindRecipes gives the recipes asked for, the one saved last first, and how many
// there are in all.
func (s *Store) FindRecipes(ctx context.Context, householdID int64, q kitchen.RecipeQuery) (list []kitchen.RecipeSummary, all int, err error) {
	var rows []summaryRow
	var count int64
	err = s.read(ctx, func(tx *gorm.DB) error {
		narrowed := func() *gorm.DB {
			query := summaries(tx, householdID)
			for _, word := range strings.Fields(q.Words) {
				like := "%" + likeSigns.Replace(word) + "%"
				query = query.Where(strings.ReplaceAll(wordFound, "LIKE", s.engine.Like()), like, like, like)
			}
			if q.Tag != "" {
				query = query.Where("EXISTS (SELECT 1 FROM tags AS t WHERE t.recipe_id = r.id AND t.tag = ?)", q.Tag)
			}
			return query
		}
		if q.Most == 0 {
			return narrowed().Find(&rows).Error
		}
		if q.Words+q.Tag == "" { // the whole table need not be looked at
			return findPage(tx, householdID, q, &rows, &count)
		}
		if err := narrowed().Count(&count).Error; err != nil {
			return err
		}
		return narrowed().Offset(q.From).Limit(q.Most).Find(&rows).Error
	})
	if err != nil {
		return nil, 0, fmt.Errorf("find recipes of household %d: %w", householdID, err)
	}
	for _, row := range rows {
		sum, err := row.summary()
		if err != nil {
			return nil, 0, err
		}
		list = append(list, sum)
	}
	return list, max(int(count), len(list)), nil
}

// findPage gives a page of all recipes: which they are is told by the index alone, so
// that of the versions only those shown are read.
func findPage(tx *gorm.DB, householdID int64, q kitchen.RecipeQuery, rows *[]summaryRow, count *int64) error {
	if err := tx.Model(&recipeRow{}).Where("household_id = ?", householdID).Count(count).Error; err != nil {
		return err
	}
	var latest []int64
	err := tx.Raw("SELECT (SELECT v.id FROM versions AS v WHERE v.recipe_id = r.id ORDER BY v.number DESC LIMIT 1) AS latest "+
		"FROM recipes AS r WHERE r.household_id = ? ORDER BY latest DESC LIMIT ? OFFSET ?", householdID, q.Most, q.From).Scan(&latest).Error
	if err != nil {
		return err
	}
	return tx.Table("versions AS v").
		Select("r.id, r.title, r.created_at, v.number AS versions, v.id AS latest_id, v.saved_at").
		Joins("JOIN recipes AS r ON r.id = v.recipe_id").
		Where("v.id IN ?", latest).Order("v.id DESC").Find(rows).Error
}

// ListTags gives the household's tags, each once, in order.
func (s *Store) ListTags(ctx context.Context, householdID int64) ([]string, error) {
	var tags []string
	err := s.read(ctx, func(tx *gorm.DB) error {
		return tx.Model(&tagRow{}).Where("recipe_id IN (SELECT id FROM recipes WHERE household_id = ?)", householdID).
			Distinct("tag").Order("tag").Pluck("tag", &tags).Error
	})
	if err != nil {
		return nil, fmt.Errorf("list tags of household %d: %w", householdID, err)
	}
	return tags, nil
}

// TagsOf gives a recipe's tags in order.
func (s *Store) TagsOf(ctx context.Context, householdID, recipeID int64) ([]string, error) {
	var tags []string
	err := s.read(ctx, func(tx *gorm.DB) (err error) {
		if err := requireRecipe(tx, householdID, recipeID); err != nil {
			return err
		}
		tags, err = tagsOf(tx, recipeID)
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("list tags of recipe %d: %w", recipeID, err)
	}
	return tags, nil
}

func tagsOf(tx *gorm.DB, recipeID int64) (tags []string, err error) {
	err = tx.Model(&tagRow{}).Where("recipe_id = ?", recipeID).Order("tag").Pluck("tag", &tags).Error
	return tags, err
}

// SetTags puts tags in place of a recipe's earlier ones. kitchen.ErrNotFound where
// the household has no such recipe.
func (s *Store) SetTags(ctx context.Context, householdID, recipeID int64, tags []string) error {
	err := s.write(ctx, func(tx *gorm.DB) error {
		if err := requireRecipe(tx, householdID, recipeID); err != nil {
			return err
		}
		if err := tx.Where("recipe_id = ?", recipeID).Delete(&tagRow{}).Error; err != nil {
			return err
		}
		return insertTags(tx, recipeID, tags)
	})
	if err != nil {
		return fmt.Errorf("set tags of recipe %d: %w", recipeID, err)
	}
	return nil
}

func insertTags(tx *gorm.DB, recipeID int64, tags []string) error {
	for _, tag := range tags {
		if err := tx.Clauses(clause.OnConflict{DoNothing: true}).Create(&tagRow{recipeID, tag}).Error; err != nil {
			return fmt.Errorf("tag %q: %w", tag, err)
		}
	}
	return nil
}

// Refusals gives the ids of the swap rules never to be suggested, in order.
func (s *Store) Refusals(ctx context.Context, householdID int64) ([]string, error) {
	var rules []string
	err := s.read(ctx, func(tx *gorm.DB) (err error) {
		rules, err = refusalsOf(tx, householdID)
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("list refusals of household %d: %w", householdID, err)
	}
	return rules, nil
}

func refusalsOf(tx *gorm.DB, householdID int64) (rules []string, err error) {
	err = tx.Model(&refusalRow{}).Where("household_id = ?", householdID).Order("rule").Pluck("rule", &rules).Error
	return rules, err
}

func insertRefusals(tx *gorm.DB, householdID int64, rules []string) error {
	for _, rule := range rules {
		if err := tx.Clauses(clause.OnConflict{DoNothing: true}).Create(&refusalRow{householdID, rule}).Error; err != nil {
			return fmt.Errorf("refusal of %q: %w", rule, err)
		}
	}
	return nil
}

// Refuse keeps a rule from being suggested, or with on false allows it again.
// kitchen.ErrNotFound where there is no such household.
func (s *Store) Refuse(ctx context.Context, householdID int64, rule string, on bool) error {
	err := s.write(ctx, func(tx *gorm.DB) error {
		if err := requireHousehold(tx, householdID); err != nil {
			return err
		}
		if !on {
			return tx.Where("household_id = ? AND rule = ?", householdID, rule).Delete(&refusalRow{}).Error
		}
		return insertRefusals(tx, householdID, []string{rule})
	})
	if err != nil {
		return fmt.Errorf("refuse swap %q: %w", rule, err)
	}
	return nil
}
