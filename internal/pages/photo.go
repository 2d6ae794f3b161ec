package pages

import (
	"errors"
	"fmt"
	"net/http"
	"strings"

	"github.com/gin-gonic/gin"

	"potwright/internal/kitchen"
	"potwright/internal/photo"
)

// photoView is a photo as a page shows it.
type photoView struct {
	// Large and Small are addresses of the files, with their sizes in pixels, so that
	// nothing moves when they arrive.
	Large, Small            string
	Width, Height           int
	SmallWidth, SmallHeight int
	// Alt names it for whoever can't see it; Caption stands under it.
	Alt, Caption string
	// Lazy lets it wait until it is scrolled to; what is printed must not.
	Lazy bool
}

// newPhotoView shows a photo whose files are below an address.
func newPhotoView(below, dish string, p photo.Photo) photoView {
	large, small := p.Picture.Large, p.Picture.Small
	return photoView{Large: below + p.Digest + "/" + largeFile, Small: below + p.Digest + "/" + smallFile,
		Width: large.Width, Height: large.Height, SmallWidth: small.Width, SmallHeight: small.Height,
		Alt: "Photo of the dish: " + dish, Caption: p.Caption}
}

// The names of a photo's files below its digest.
const (
	largeFile = "large.jpg"
	smallFile = "small.jpg"
)

// photosBelow is where a household's photos are.
func photosBelow(o opened) string { return o.frame.Base + "/photos/" }

// photosOf are a recipe's photos, the one that stands for the dish first.
func (s *Site) photosOf(c *gin.Context, o opened) ([]photo.Photo, error) {
	return s.store.ListPhotos(c.Request.Context(), o.household.ID, o.recipeID)
}

// photoViews are photos whose files are below an address.
func photoViews(below, dish string, photos []photo.Photo) (views []photoView) {
	for _, p := range photos {
		views = append(views, newPhotoView(below, dish, p))
	}
	return views
}

// photosPage is a recipe's photos, each with what can be said of it, and the form for
// more.
type photosPage struct {
	frame
	RecipeBase, Dish string
	Photos           []photoForm
	Add              photoAdd
	// Added says how many of those sent were taken, Refused why the others were not.
	Added   string
	Refused []string
}

// photoForm is a photo with its own form.
type photoForm struct {
	View         photoView
	Self, Remove string
	// Seen is what was said of the photo when the form was made.
	Seen      string
	Collision *collision
	Main      bool
	Caption   entry
	MakeMain  tick
	OnCard    tick
}

// photoAdd is the form that takes photos.
type photoAdd struct {
	To      string
	Caption entry
	// Hint says what is taken, Wrong what is wrong with what was sent.
	Hint, Wrong string
	Full        bool
}

func newPhotoAdd(o opened, had int, caption, wrong, wrongCaption string) photoAdd {
	return photoAdd{To: o.base + "/photos", Full: had >= photo.MostPhotos, Wrong: wrong,
		Hint: fmt.Sprintf("JPEG, PNG, GIF or WebP, several at once if you like, up to %d MB each. Where and when they were taken is not kept.", photo.MostBytes>>20),
		Caption: entry{Name: "caption", Label: "What they show", Hint: "Stands under the photo, and is read out to whoever can’t see it. May be left empty.",
			Value: caption, Wrong: wrongCaption}}
}

func (s *Site) registerPhotos(h, one *gin.RouterGroup) {
	h.GET("/photos/:digest/:file", s.do(s.sendPhoto))
	one.GET("/photos", s.do(s.showPhotos))
	one.POST("/photos", s.do(s.addPhotos))
	one.POST("/photos/:photo", s.do(s.savePhoto))
	one.GET("/photos/:photo/remove", s.do(s.askRemovePhoto))
	one.POST("/photos/:photo/remove", s.do(s.removePhoto))
}

func (s *Site) showPhotos(c *gin.Context) error {
	o, err := s.findRecipe(c, "")
	if err != nil {
		return err
	}
	p, err := s.photosPage(c, o)
	if err != nil {
		return err
	}
	return s.show(c, http.StatusOK, "photos", p)
}

func (s *Site) photosPage(c *gin.Context, o opened) (photosPage, error) {
	p := photosPage{frame: o.frame, RecipeBase: o.base, Dish: o.frame.Title}
	p.Title = "Photos"
	photos, err := s.photosOf(c, o)
	for _, one := range photos {
		p.Photos = append(p.Photos, newPhotoForm(o, one))
	}
	p.Add = newPhotoAdd(o, len(photos), "", "", "")
	return p, err
}

func newPhotoForm(o opened, p photo.Photo) photoForm {
	self := fmt.Sprintf("%s/photos/%d", o.base, p.ID)
	view := newPhotoView(photosBelow(o), o.frame.Title, p)
	view.Lazy = true
	return photoForm{View: view, Self: self, Remove: self + "/remove", Main: p.Main, Seen: seenOf(kitchen.WordsOf(p)),
		Caption:  entry{Name: captionField(p), Label: "What it shows", Value: p.Caption},
		MakeMain: tick{Name: "main", Value: "yes", Label: "Let it stand for the dish", Hint: "In the list of recipes, and first on its page."},
		OnCard: tick{Name: "card", Value: "yes", Label: "Show it outside this household", On: p.OnCard,
			Hint: "On the printed card, to whoever has a link to it, and in the file for another household. A photo may show a person: tick it only where they agree."}}
}

// captionField is the name of a photo's field, apart from those of others on the page.
func captionField(p photo.Photo) string { return fmt.Sprintf("caption%d", p.ID) }

// findPhoto finds the photo of the address among the recipe's.
func (s *Site) findPhoto(c *gin.Context) (opened, photo.Photo, error) {
	o, err := s.findRecipe(c, "")
	if err != nil {
		return o, photo.Photo{}, err
	}
	id, err := number(c, "photo")
	if err != nil {
		return o, photo.Photo{}, err
	}
	p, err := kitchen.FindPhoto(c.Request.Context(), s.store, o.household.ID, o.recipeID, id)
	return o, p, err
}

func (s *Site) savePhoto(c *gin.Context) error {
	f, err := readForm(c)
	if err != nil {
		return err
	}
	o, one, err := s.findPhoto(c)
	if o.recipeID != 0 && goneFrom(err, f) {
		return s.photoGone(c, o, f)
	}
	if err != nil {
		return err
	}
	seen, err := seenIn(f, kitchen.WordsOf(one))
	if err != nil {
		return err
	}
	one.Caption, one.OnCard, one.Main = captionOf(f.text(captionField(one))), f.ticked("card", "yes"), f.ticked("main", "yes")
	status, wrong, collided := http.StatusUnprocessableEntity, captionTooLong(), (*collision)(nil)
	if one.Check() == nil {
		saved, err := kitchen.Describe(c.Request.Context(), s.store, o.household.ID, one, seen, kitchen.WordsOf(one), one.Main)
		if err == nil {
			return seeOther(c, o.base+"/photos?done=photosaved")
		}
		if goneFrom(err, f) {
			return s.photoGone(c, o, f)
		}
		if !errors.Is(err, kitchen.ErrChanged) {
			return err
		}
		status, wrong, seen = http.StatusConflict, "", saved
		collided = newCollision(o.base+"/photos", captionWords(saved), captionWords(kitchen.WordsOf(one)))
	}
	p, err := s.photosPage(c, o)
	if err != nil {
		return err
	}
	for i := range p.Photos {
		if p.Photos[i].Caption.Name == captionField(one) {
			p.Photos[i].keepTyped(one, seen, wrong, collided)
		}
	}
	return s.show(c, status, "photos", p)
}

// photoGone tells that somebody else removed the photo, and keeps the words for it.
func (s *Site) photoGone(c *gin.Context, o opened, f form) error {
	words := f.text("caption" + c.Param("photo"))
	return s.showGone(c, gonePage{frame: o.frame, Says: "Someone else removed this photo while you were writing, so nothing was saved.",
		Kept: captionWords(kitchen.PhotoWords{Caption: captionOf(words)}), Back: action{o.base + "/photos", "Open the photos"}})
}

// keepTyped puts what was typed of a photo back into its form, with what is wrong.
func (f *photoForm) keepTyped(typed photo.Photo, seen kitchen.PhotoWords, wrong string, collided *collision) {
	f.Caption.Value, f.OnCard.On, f.MakeMain.On = typed.Caption, typed.OnCard, typed.Main
	f.Seen, f.Caption.Wrong, f.Collision = seenOf(seen), wrong, collided
}

// captionWords is a photo's caption, a line.
func captionWords(w kitchen.PhotoWords) []string {
	if w.Caption == "" {
		return []string{"no words under it"}
	}
	return []string{"under it: " + w.Caption}
}

func captionTooLong() string { return fmt.Sprintf("Write at most %d characters.", photo.MostCaption) }

// captionOf is a caption as typed, on one line.
func captionOf(typed string) string { return strings.Join(strings.Fields(printable(typed)), " ") }

// removePhotoPage asks before a photo is removed.
type removePhotoPage struct {
	frame
	Self, Back string
	View       photoView
}

func (s *Site) askRemovePhoto(c *gin.Context) error {
	o, p, err := s.findPhoto(c)
	if err != nil {
		return err
	}
	view := newPhotoView(photosBelow(o), o.frame.Title, p)
	o.frame.Title = "Remove this photo?"
	return s.show(c, http.StatusOK, "photoremove", removePhotoPage{o.frame, fmt.Sprintf("%s/photos/%d/remove", o.base, p.ID), o.base + "/photos", view})
}

func (s *Site) removePhoto(c *gin.Context) error {
	o, p, err := s.findPhoto(c)
	if err != nil {
		return err
	}
	if err := s.store.DeletePhoto(c.Request.Context(), o.household.ID, o.recipeID, p.ID); err != nil {
		return err
	}
	return seeOther(c, o.base+"/photos?done=photogone")
}
