package pages

import (
	"fmt"
	"net/http"

	"github.com/gin-gonic/gin"

	"potwright/internal/access"
	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/photo"
)

// sharePage makes and revokes the links to a recipe's card.
type sharePage struct {
	frame
	RecipeBase string
	Dish       string
	VersionID  int64
	Number     int
	Links      []linkView
	// Photos says how many photos are on the card.
	Photos string
	// Made is the address that was made just now: it is shown this once.
	Made string
}

type linkView struct {
	ID            int64
	Number        int
	Since, Revoke string
}

func (s *Site) registerShare(r *gin.RouterGroup) {
	if s.gate == nil {
		return
	}
	r.GET("/share", s.do(s.showShare))
	r.POST("/share", s.do(s.shareCard))
	r.POST("/share/:link/revoke", s.do(s.revokeShare))
}

func (s *Site) sharePage(c *gin.Context, o opened) (sharePage, error) {
	p := sharePage{frame: o.frame, RecipeBase: o.base, Dish: dishTitle(o), VersionID: o.version.ID, Number: o.version.Number}
	p.Title = "Share the card"
	versions, err := s.store.ListVersions(c.Request.Context(), o.household.ID, o.recipeID)
	if err != nil {
		return p, err
	}
	numbers := map[int64]int{}
	for _, v := range versions {
		numbers[v.ID] = v.Number
	}
	photos, err := s.photosOf(c, o)
	if err != nil {
		return p, err
	}
	if n := len(photo.OnCards(photos)); n > 0 {
		p.Photos = countWords(n, "photo that is", "photos that are")
	}
	links, err := s.gate.Store.ListLinks(c.Request.Context(), o.household.ID, o.recipeID)
	if err != nil {
		return p, err
	}
	for _, l := range links {
		p.Links = append(p.Links, linkView{ID: l.ID, Number: numbers[l.VersionID], Since: s.dayWords(l.CreatedAt),
			Revoke: fmt.Sprintf("%s/share/%d/revoke", o.base, l.ID)})
	}
	return p, nil
}

func (s *Site) showShare(c *gin.Context) error {
	o, err := s.openChosen(c)
	if err != nil {
		return err
	}
	p, err := s.sharePage(c, o)
	if err != nil {
		return err
	}
	return s.show(c, http.StatusOK, "share", p)
}

// shareCard makes a link to a version: what is saved later is not shown by it.
func (s *Site) shareCard(c *gin.Context) error {
	f, err := readForm(c)
	if err != nil {
		return err
	}
	o, err := s.openFrom(c, f)
	if err != nil {
		return err
	}
	made, err := s.gate.Share(c.Request.Context(), access.Link{HouseholdID: o.household.ID, RecipeID: o.recipeID, VersionID: o.version.ID})
	if err != nil {
		return err
	}
	p, err := s.sharePage(c, o)
	if err != nil {
		return err
	}
	scheme := "http"
	if s.secure {
		scheme = "https"
	}
	p.Made = fmt.Sprintf("%s://%s/share/%s", scheme, c.Request.Host, made)
	return s.show(c, http.StatusOK, "share", p)
}

func (s *Site) revokeShare(c *gin.Context) error {
	o, err := s.findRecipe(c, "")
	if err != nil {
		return err
	}
	id, err := number(c, "link")
	if err != nil {
		return err
	}
	if err := s.gate.Store.DeleteLink(c.Request.Context(), o.household.ID, o.recipeID, id); err != nil {
		return err
	}
	return seeOther(c, o.base+"/share?done=unshared")
}

// showShared shows a card to whoever has its link: the dish, its figures and
// allergens, and nothing of the household it was cooked for.
func (s *Site) showShared(c *gin.Context) error {
	l, err := s.gate.Shared(c.Request.Context(), c.Param("secret"))
	if err != nil {
		return err
	}
	c.Header("X-Robots-Tag", "noindex, nofollow")
	o, err := s.openVersion(c, opened{household: household.Household{ID: l.HouseholdID}, recipeID: l.RecipeID}, l.VersionID)
	if err != nil {
		return err
	}
	if o.analysis.Recipe.Title == "" {
		sum, err := s.store.FindRecipe(c.Request.Context(), l.HouseholdID, l.RecipeID)
		if err != nil {
			return err
		}
		o.frame.Title = sum.Title
	}
	o.frame.Bare = true
	p := s.newCardPage(o, kitchen.Report{})
	p.Shared = true
	photos, err := s.photosOf(c, o)
	if err != nil {
		return err
	}
	p.Photos = photoViews("/share/"+c.Param("secret")+"/photos/", p.Title, photo.OnCards(photos))
	return s.show(c, http.StatusOK, "cookcard", p)
}
