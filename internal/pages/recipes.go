package pages

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"github.com/gin-gonic/gin"

	"potwright/internal/diagnostic"
	"potwright/internal/household"
	"potwright/internal/kitchen"
)

// recipesPage lists the household's recipes, or those that were looked for.
type recipesPage struct {
	frame
	// Any is set where there is a recipe at all.
	Any     bool
	Recipes []recipeRow
	Search  entry
	Tags    pick
	// Count says how many there are and which of them are shown.
	Count          string
	Earlier, Later string // addresses of the neighbouring pages, "" at either end
}

// recipeRow is one recipe of the list.
type recipeRow struct {
	Link, Title, Versions, Saved, Verdict string
	Mark                                  household.Fit
	Photo                                 *photoView // nil where there is none
}

// rowsShown is how many recipes a page of the list holds: each that was not looked at
// before is read for its verdict, which takes a few milliseconds.
const rowsShown = 20

func (s *Site) listRecipes(c *gin.Context) error {
	h, fr, err := s.household(c, "recipes", "Recipes")
	if err != nil {
		return err
	}
	q := recipeQuery(c)
	list, all, err := s.store.FindRecipes(c.Request.Context(), h.ID, q)
	if err != nil {
		return fmt.Errorf("list recipes of household %d: %w", h.ID, err)
	}
	p := recipesPage{frame: fr, Any: all > 0 || q.Words+q.Tag != ""}
	p.Caution = len(list) > 0 && len(h.Members) > 0
	if err := s.searchFields(c, h.ID, q, &p); err != nil {
		return err
	}
	p.turn(fr.Base, q, len(list), all)
	for _, r := range list {
		p.Recipes = append(p.Recipes, recipeRow{Link: fmt.Sprintf("%s/recipes/%d", fr.Base, r.ID), Title: r.Title,
			Versions: countWords(r.Versions, "version", "versions"), Saved: r.SavedAt.Format("2 January 2006")})
	}
	if err := s.addThumbs(c.Request.Context(), h.ID, fr.Base, list, p.Recipes); err != nil {
		return err
	}
	if err := s.glance(c.Request.Context(), h, list, p.Recipes); err != nil {
		return err
	}
	return s.show(c, http.StatusOK, "recipes", p)
}

func recipeQuery(c *gin.Context) kitchen.RecipeQuery {
	f := queryForm(c)
	from, err := strconv.Atoi(f.text("from"))
	if err != nil || from < 0 {
		from = 0
	}
	return kitchen.RecipeQuery{Words: f.text("q"), Tag: f.text("tag"), From: from, Most: rowsShown}
}

func (s *Site) searchFields(c *gin.Context, householdID int64, q kitchen.RecipeQuery, p *recipesPage) error {
	p.Search = entry{Name: "q", Label: "Look for", Hint: "Words of the title, an ingredient, a tag.", Value: q.Words, Mode: "search"}
	tags, err := s.store.ListTags(c.Request.Context(), householdID)
	if err != nil || len(tags) == 0 {
		return err
	}
	p.Tags = pick{Name: "tag", Label: "Filed under", Options: []option{{Label: "anything", On: q.Tag == ""}}}
	for _, t := range tags {
		p.Tags.Options = append(p.Tags.Options, option{t, t, t == q.Tag})
	}
	return nil
}

// turn says which part of the list is shown, and leads to the parts beside it.
func (p *recipesPage) turn(base string, q kitchen.RecipeQuery, shown, all int) {
	if q.Words+q.Tag != "" {
		p.Count = countWords(all, "recipe", "recipes") + " found."
	}
	if all > shown {
		p.Count = fmt.Sprintf("%d to %d of %s.", min(q.From+1, all), q.From+shown, countWords(all, "recipe", "recipes"))
	}
	address := func(from int) string {
		return base + "/recipes?" + url.Values{"q": {q.Words}, "tag": {q.Tag}, "from": {strconv.Itoa(from)}}.Encode()
	}
	if q.From > 0 {
		p.Earlier = address(max(0, q.From-rowsShown))
	}
	if q.From+shown < all {
		p.Later = address(q.From + rowsShown)
	}
}

// saveTags files the recipe under the tags typed, with commas between.
func (s *Site) saveTags(c *gin.Context) error {
	o, err := s.findRecipe(c, "")
	if err != nil {
		return err
	}
	f, err := readForm(c)
	if err != nil {
		return err
	}
	err = kitchen.Retag(c.Request.Context(), s.store, o.household.ID, o.recipeID, tagsIn(f.text("seen")), tagsIn(f.text("tags")))
	var fault diagnostic.Fault
	if errors.As(err, &fault) {
		return s.showMistagged(c, o, f, fault)
	}
	if err != nil {
		return err
	}
	return seeOther(c, o.base+"?done=tags")
}

// showMistagged shows the recipe with the tags as typed and what is wrong with them.
func (s *Site) showMistagged(c *gin.Context, o opened, f form, fault diagnostic.Fault) error {
	o, err := s.openVersion(c, o, o.latest)
	if err != nil {
		return err
	}
	p, err := s.recipePage(c, o)
	if err != nil {
		return err
	}
	p.Wrong.add("tags", "%s", sentence(faultWords(fault)))
	p.Tags.Value, p.TagsSeen, p.Tags.Wrong = f.text("tags"), f.text("seen"), p.Wrong.For("tags")
	return s.show(c, http.StatusUnprocessableEntity, "recipe", p)
}

// tagsIn are the tags of a field, with commas between.
func tagsIn(typed string) (tags []string) {
	for _, t := range strings.Split(printable(typed), ",") {
		if t = strings.Join(strings.Fields(t), " "); t != "" && !slices.Contains(tags, t) {
			tags = append(tags, t)
		}
	}
	return tags
}

// addThumbs puts to each recipe the photo that stands for its dish.
func (s *Site) addThumbs(ctx context.Context, householdID int64, base string, list []kitchen.RecipeSummary, rows []recipeRow) error {
	var ids []int64
	for _, r := range list {
		ids = append(ids, r.ID)
	}
	photos, err := s.store.MainPhotos(ctx, householdID, ids)
	for i, r := range list {
		if p, ok := photos[r.ID]; ok {
			view := newPhotoView(base+"/photos/", r.Title, p)
			rows[i].Photo = &view
		}
	}
	return err
}

// glance fills in the worst verdict of each recipe for everyone, in words.
func (s *Site) glance(ctx context.Context, h household.Household, list []kitchen.RecipeSummary, rows []recipeRow) error {
	if len(h.Members) == 0 {
		return nil
	}
	i := 0
	for swept, err := range s.kitchen.SweepOf(ctx, h.ID, list, kitchen.SweepOptions{}) {
		if err != nil {
			return fmt.Errorf("look at the recipes of household %d: %w", h.ID, err)
		}
		rows[i].Mark, rows[i].Verdict = swept.Fit, glanceWords(h, swept)
		i++
	}
	return nil
}

func glanceWords(h household.Household, swept kitchen.Swept) string {
	switch {
	case swept.Standing == kitchen.Suits:
		return "suits everyone"
	case swept.Standing == kitchen.Unread:
		return "can’t be read as it is"
	case len(swept.For) == len(h.Members):
		return "suits nobody as it is"
	}
	var suits []string
	for _, m := range h.Members {
		if !slices.Contains(swept.For, m.Name) {
			suits = append(suits, m.Name)
		}
	}
	return "suits " + strings.Join(suits, ", ") + " as it is"
}
