package store

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"

	"gorm.io/gorm"

	"potwright/internal/kitchen"
)

// catalogued is the weight in bytes of all that is held to find recipes by: 1,000
// recipes take some 2 MB. A design choice.
const catalogued = 64 << 20

// catalogue is a household's recipes as of a revision, the one saved last first. To
// look through what is at hand takes a hundredth of the time that the database takes
// to look through its pages, and is the same on every database.
type catalogue struct {
	revision revision
	entries  []*entryOf
}

// entryOf is one recipe. What words are looked for in is in lower case.
type entryOf struct {
	kitchen.RecipeSummary
	title, text  string
	tags, folded []string
}

func (c *catalogue) weight() int {
	sum := 0
	for _, e := range c.entries {
		sum += len(e.title) + len(e.text)
	}
	return sum
}

// holds reports whether every word stands in the title, the text or a tag.
func (e *entryOf) holds(words []string) bool {
	for _, w := range words {
		if !strings.Contains(e.title, w) && !strings.Contains(e.text, w) &&
			!slices.ContainsFunc(e.folded, func(tag string) bool { return strings.Contains(tag, w) }) {
			return false
		}
	}
	return true
}

// FindRecipes gives the recipes asked for, the one saved last first, and how many
// there are in all.
func (s *Store) FindRecipes(ctx context.Context, householdID int64, q kitchen.RecipeQuery) (list []kitchen.RecipeSummary, all int, err error) {
	c, err := s.catalogueOf(ctx, householdID)
	if err != nil {
		return nil, 0, fmt.Errorf("find recipes of household %d: %w", householdID, err)
	}
	words := strings.Fields(strings.ToLower(q.Words))
	if q == (kitchen.RecipeQuery{}) && len(c.entries) > 0 {
		list = make([]kitchen.RecipeSummary, 0, len(c.entries))
	}
	for i := range c.entries {
		e := c.entries[i]
		if q.Tag != "" && !slices.Contains(e.tags, q.Tag) || !e.holds(words) {
			continue
		}
		if all++; q.Most == 0 || all > q.From && len(list) < q.Most {
			list = append(list, e.RecipeSummary)
		}
	}
	return list, all, nil
}

// catalogueOf is the household's catalogue as it is now. One at a time brings it up to
// date; the others wait for that.
func (s *Store) catalogueOf(ctx context.Context, householdID int64) (*catalogue, error) {
	s.cataloguing.Lock()
	defer s.cataloguing.Unlock()
	revision, err := s.revision(ctx)
	if err != nil {
		return nil, err
	}
	now := &catalogue{revision: revision}
	before, known := s.catalogues.Find(householdID)
	switch {
	case !known:
		before = &catalogue{}
	case before.revision == revision:
		return before, nil
	}
	err = s.read(ctx, func(tx *gorm.DB) error {
		if !known || before.revision.any != revision.any {
			return now.fill(tx, householdID, before)
		}
		return now.amend(tx, householdID, before, s.saved.since(before.revision.n))
	})
	if err != nil {
		return nil, err
	}
	s.catalogues.Put(householdID, now)
	return now, nil
}

// fill reads all recipes.
func (c *catalogue) fill(tx *gorm.DB, householdID int64, before *catalogue) error {
	return c.add(tx, before, summaries(tx, householdID), tx.Where("recipe_id IN (SELECT id FROM recipes WHERE household_id = ?)", householdID))
}

// amend is fill where nothing but some recipes was saved.
func (c *catalogue) amend(tx *gorm.DB, householdID int64, before *catalogue, saved []int64) error {
	for _, e := range before.entries {
		if !slices.Contains(saved, e.ID) {
			c.entries = append(c.entries, e)
		}
	}
	err := c.add(tx, before, summaries(tx, householdID).Where("r.id IN ?", saved), tx.Where("recipe_id IN ?", saved))
	slices.SortFunc(c.entries, func(a, b *entryOf) int { return cmp.Compare(b.LatestID, a.LatestID) })
	return err
}

// add reads some recipes; a version's text, which never changes, is read only where it
// was not at hand before.
func (c *catalogue) add(tx *gorm.DB, before *catalogue, recipes, filed *gorm.DB) error {
	var rows []summaryRow
	if err := recipes.Find(&rows).Error; err != nil {
		return err
	}
	var tags []tagRow
	if err := filed.Order("tag").Find(&tags).Error; err != nil {
		return err
	}
	tagged := map[int64][]string{}
	for _, t := range tags {
		tagged[t.RecipeID] = append(tagged[t.RecipeID], t.Tag)
	}
	texts, err := textsOf(tx, rows, before)
	if err != nil {
		return err
	}
	for _, row := range rows {
		sum, err := row.summary()
		if err != nil {
			return err
		}
		e := &entryOf{RecipeSummary: sum, title: strings.ToLower(sum.Title), text: texts[sum.LatestID], tags: tagged[sum.ID]}
		for _, tag := range e.tags {
			e.folded = append(e.folded, strings.ToLower(tag))
		}
		c.entries = append(c.entries, e)
	}
	return nil
}

// askedAtOnce is how many versions one question names: both databases allow tens of
// thousands of values.
const askedAtOnce = 1000

// textsOf are the texts of the newest versions, in lower case.
func textsOf(tx *gorm.DB, rows []summaryRow, before *catalogue) (map[int64]string, error) {
	texts := map[int64]string{}
	for _, e := range before.entries {
		texts[e.LatestID] = e.text
	}
	var missing []int64
	for _, row := range rows {
		if _, known := texts[row.LatestID]; !known {
			missing = append(missing, row.LatestID)
		}
	}
	for some := range slices.Chunk(missing, askedAtOnce) {
		var read []versionRow
		if err := tx.Select("id", "body").Where("id IN ?", some).Find(&read).Error; err != nil {
			return nil, err
		}
		for _, v := range read {
			texts[v.ID] = strings.ToLower(v.Body)
		}
	}
	return texts, nil
}
