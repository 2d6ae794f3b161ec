package pages

import (
	"errors"
	"fmt"
	"io"
	"net/http"
	"strconv"
	"strings"

	"github.com/gin-gonic/gin"

	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/label"
	"potwright/internal/recipe"
)

// opened is a recipe's version, read, with the frame of its pages.
type opened struct {
	household household.Household
	frame     frame
	base      string // address of the recipe
	recipeID  int64
	version   recipe.Version
	analysis  kitchen.Analysis
	// earlier is the version it came from, where the page compares them.
	earlier *kitchen.Analysis
	// latest is the id of the newest version.
	latest int64
	// beside are the versions saved meanwhile, which this one does not hold.
	beside []recipe.Version
}

// openRecipe opens the newest version of the recipe of the address.
func (s *Site) openRecipe(c *gin.Context, title string) (opened, error) {
	o, err := s.findRecipe(c, title)
	if err != nil {
		return opened{}, err
	}
	return s.openVersion(c, o, o.latest)
}

// findRecipe finds the recipe of the address without opening a version.
func (s *Site) findRecipe(c *gin.Context, title string) (opened, error) {
	h, fr, err := s.household(c, "recipes", title)
	if err != nil {
		return opened{}, err
	}
	id, err := number(c, "rid")
	if err != nil {
		return opened{}, err
	}
	sum, err := s.store.FindRecipe(c.Request.Context(), h.ID, id)
	if err != nil {
		return opened{}, fmt.Errorf("find recipe %d: %w", id, err)
	}
	if fr.Title == "" {
		fr.Title = sum.Title
	}
	return opened{household: h, frame: fr, base: fmt.Sprintf("%s/recipes/%d", fr.Base, id), recipeID: id, latest: sum.LatestID}, nil
}

// openFrom opens the version that a form was made from, so that what is saved has
// it for its parent and nobody's work is taken for read; the newest where the form
// does not say.
func (s *Site) openFrom(c *gin.Context, f form) (opened, error) {
	o, err := s.findRecipe(c, "")
	if err != nil {
		return opened{}, err
	}
	from := o.latest
	if f.has("from") {
		if from, err = strconv.ParseInt(f.text("from"), 10, 64); err != nil {
			return opened{}, kitchen.ErrNotFound
		}
	}
	return s.openVersion(c, o, from)
}

// openVersion opens one version; one that belongs to another recipe is not
// found.
func (s *Site) openVersion(c *gin.Context, o opened, versionID int64) (opened, error) {
	v, a, err := s.kitchen.Open(c.Request.Context(), o.household.ID, versionID)
	if err != nil {
		return opened{}, fmt.Errorf("open version %d: %w", versionID, err)
	}
	if v.RecipeID != o.recipeID {
		return opened{}, kitchen.ErrNotFound
	}
	o.version, o.analysis = v, a
	return o, nil
}

// recipePage is a version as the ledger shows it.
type recipePage struct {
	frame
	RecipeBase string
	Dish       dishView
	// Latest is set for the newest version: only that one can be worked on.
	Latest bool
	// Number, Saved and Note say which version this is.
	Number  int
	Saved   string
	Note    string
	Changes []changeView
	// Beside are the versions saved meanwhile.
	Beside []besideView
	// Strays are corrections that have no line any more.
	Strays    []strayView
	Plates    []plateView
	VersionID int64
	TableLink string
	// Servings asks for how many to cook.
	Servings entry
	Claims   *claimsView
	// Brings is what each line brings of the nutrient chosen in Shown; Address is
	// this page's own; ShownAsked is set where that asks for one.
	Brings     contributions
	Shown      pick
	ShownAsked bool
	Address    string
	// Tags are what the recipe is filed under, TagsSeen as they are kept, so that what
	// others file meanwhile stays; Wrong is what is wrong with those typed. Like is the address of a recipe that
	// this one looks like, "" for none.
	Tags            entry
	TagsSeen        string
	Wrong           messages
	Like, LikeTitle string
	// Again is the note with which an earlier version is taken up again.
	Again   entry
	Keeping keepingView
	// Files are what a file for other programs leaves out, where files are given.
	Files []string
	// Oven says that the dish needs one where the kitchen has none.
	Oven string
	// Photos are of the dish, the one that stands for it first; Add takes more.
	Photos []photoView
	Add    *photoAdd
	// DailyRule names the rule of the shares of a day.
	DailyRule string
}

// besideView is a version that was saved while this one was being written.
type besideView struct {
	Number  int
	Compare string // address where both stand side by side
}

func besideViews(o opened) (views []besideView) {
	for _, v := range o.beside {
		views = append(views, besideView{v.Number, fmt.Sprintf("%s/compare?a=%d&b=%d", o.base, v.ID, o.version.ID)})
	}
	return views
}

func (s *Site) showRecipe(c *gin.Context) error {
	o, err := s.openRecipe(c, "")
	if err != nil {
		return err
	}
	if o, err = s.withEarlier(c, o); err != nil {
		return err
	}
	return s.showOpened(c, o)
}

func (s *Site) showOpened(c *gin.Context, o opened) error {
	p, err := s.recipePage(c, o)
	if err != nil {
		return err
	}
	return s.show(c, http.StatusOK, "recipe", p)
}

// recipePage is the page of a version with what is kept beside it.
func (s *Site) recipePage(c *gin.Context, o opened) (recipePage, error) {
	p := newRecipePage(o, queryForm(c))
	if s.formats != nil {
		lost, err := s.formats.JSONLD(io.Discard, o.analysis)
		if err != nil {
			return p, err
		}
		p.Files = lost
	}
	photos, err := s.photosOf(c, o)
	if err != nil {
		return p, err
	}
	p.Photos = photoViews(photosBelow(o), p.Title, photos)
	if p.Latest {
		add := newPhotoAdd(o, len(photos), "", "", "")
		p.Add = &add
		err = s.fileUnder(c, o, &p)
	}
	return p, err
}

// fileUnder adds the tags, and the recipe that this one looked like when it was
// pasted.
func (s *Site) fileUnder(c *gin.Context, o opened, p *recipePage) error {
	tags, err := s.store.TagsOf(c.Request.Context(), o.household.ID, o.recipeID)
	if err != nil {
		return err
	}
	p.TagsSeen = strings.Join(tags, ", ")
	p.Tags = entry{Name: "tags", Label: "Filed under", Hint: "Words of your own, with commas between: supper, freezer.", Value: p.TagsSeen}
	id, err := strconv.ParseInt(c.Query("like"), 10, 64)
	if err != nil {
		return nil
	}
	like, err := s.store.FindRecipe(c.Request.Context(), o.household.ID, id)
	if errors.Is(err, kitchen.ErrNotFound) {
		return nil
	}
	p.Like, p.LikeTitle = fmt.Sprintf("%s/recipes/%d", o.frame.Base, id), like.Title
	return err
}

// openNamed opens the version that the address names, of the recipe it names.
func (s *Site) openNamed(c *gin.Context) (opened, error) {
	o, err := s.findRecipe(c, "")
	if err != nil {
		return opened{}, err
	}
	id, err := number(c, "vid")
	if err != nil {
		return opened{}, err
	}
	return s.openVersion(c, o, id)
}

// showVersion shows any version, old ones as they were.
func (s *Site) showVersion(c *gin.Context) error {
	o, err := s.openNamed(c)
	if err != nil {
		return err
	}
	if o, err = s.withEarlier(c, o); err != nil {
		return err
	}
	return s.showOpened(c, o)
}

// withEarlier opens the version that this one came from, if it came from one that it is
// compared with, and lists those saved beside it; one that no longer reads has nothing
// to compare with.
func (s *Site) withEarlier(c *gin.Context, o opened) (opened, error) {
	if o.version.ParentID == 0 {
		return o, nil
	}
	ctx := c.Request.Context()
	// Where nothing was changed nothing of others can be missing: an earlier version
	// was taken up again.
	changed := len(o.version.Changes) > 0
	var earlier recipe.Version
	var err error
	if kitchen.ComparesClaims(o.analysis) {
		var a kitchen.Analysis
		if earlier, a, err = s.kitchen.Open(ctx, o.household.ID, o.version.ParentID); err == nil {
			o.earlier = &a
		}
	} else if changed {
		if earlier, err = s.store.FindVersion(ctx, o.household.ID, o.version.ParentID); err != nil {
			return o, fmt.Errorf("find version %d: %w", o.version.ParentID, err)
		}
	}
	if !changed || earlier.Number == o.version.Number-1 {
		return o, nil
	}
	all, err := s.store.ListVersions(ctx, o.household.ID, o.recipeID)
	if err != nil {
		return o, fmt.Errorf("list versions of recipe %d: %w", o.recipeID, err)
	}
	o.beside = recipe.Beside(all, o.version)
	return o, nil
}

func newRecipePage(o opened, f form) recipePage {
	p := recipePage{frame: o.frame, RecipeBase: o.base, Dish: newDishView(o.analysis), Latest: o.version.ID == o.latest,
		Number: o.version.Number, Saved: o.version.SavedAt.Format("2 January 2006, 15:04"), Note: o.version.Note,
		Changes: savedChanges(o.version.Changes), Beside: besideViews(o), Strays: strayViews(o.analysis), Plates: savedPlates(o.version, measuringFor(o)), VersionID: o.version.ID,
		TableLink: fmt.Sprintf("%s/table?dish=%d", o.frame.Base, o.recipeID)}
	p.Keeping, p.Oven = newKeepingView(o.analysis), ovenWords(o.household, o.analysis)
	p.Caution, p.Claims, p.DailyRule = true, newClaimsView(kitchen.DishClaims(o.analysis, o.earlier)), label.DailyRule
	if o.analysis.Recipe.Title != "" {
		p.Title = o.analysis.Recipe.Title
	}
	p.Again = noteEntry("")
	n := shownNutrient(f, o.household)
	p.Shown, p.ShownAsked, p.Brings = nutrientPick(n), f.has("show"), newContributions(n, o.analysis)
	if p.Address = o.base; !p.Latest {
		p.Address = fmt.Sprintf("%s/versions/%d", o.base, o.version.ID)
	}
	if p.Latest {
		p.Servings = servingsEntry(plain(o.analysis.Recipe.Servings), "")
		for i := range p.Dish.Lines {
			p.Dish.Lines[i].Link = fmt.Sprintf("%s/lines/%d", o.base, i+1)
		}
	}
	return p
}
