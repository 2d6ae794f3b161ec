package pages

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"mime"
	"mime/multipart"
	"net/http"
	"time"
	"unicode/utf8"

	"github.com/gin-gonic/gin"

	"potwright/internal/diagnostic"
	"potwright/internal/kitchen"
	"potwright/internal/photo"
)

// mostSent is the most that a form of photos may hold, bytes: as many as a recipe may
// have. One file at a time is in memory.
const mostSent = photo.MostPhotos*photo.MostBytes + 1<<20

// sendingTime is how long photos may take on their way, over the server's own limits: 20
// MB by a weak mobile network.
const sendingTime = 5 * time.Minute

// sentPhotos is what a form of photos brought.
type sentPhotos struct {
	caption string
	added   int
	// refused says why others were not taken, by the name of the file.
	refused []string
	// wrong is what is wrong with the files, wrongCaption with the words; "" where
	// nothing is.
	wrong, wrongCaption string
}

// addPhotos takes the photos of a form. Those that can be taken are; of the others the
// page says why not, so that nobody sends all of them again.
func (s *Site) addPhotos(c *gin.Context) error {
	o, err := s.findRecipe(c, "")
	if err != nil {
		return err
	}
	sent, err := s.takePhotos(c, o)
	if err != nil {
		return err
	}
	if len(sent.refused) == 0 && sent.wrong+sent.wrongCaption == "" {
		return seeOther(c, o.base+"/photos?done=photo")
	}
	p, err := s.photosPage(c, o)
	if err != nil {
		return err
	}
	p.Add = newPhotoAdd(o, len(p.Photos), sent.caption, sent.wrong, sent.wrongCaption)
	p.Refused = sent.refused
	if sent.added > 0 {
		p.Added = countWords(sent.added, "photo is", "photos are") + " added. "
	}
	return s.show(c, http.StatusUnprocessableEntity, "photos", p)
}

// takePhotos reads the form part by part: the words first, as the page has them, then
// each photo, which is kept before the next one is read.
func (s *Site) takePhotos(c *gin.Context, o opened) (sent sentPhotos, err error) {
	kind, parameters, err := mime.ParseMediaType(c.GetHeader("Content-Type"))
	if err != nil || kind != "multipart/form-data" {
		return sent, fmt.Errorf("%w: content type %q", errBadForm, c.GetHeader("Content-Type"))
	}
	if c.Request.ContentLength > mostSent {
		sent.wrong = fmt.Sprintf("That is over %d MB in all. Send fewer photos at once.", mostSent>>20)
		return sent, nil
	}
	way, until := http.NewResponseController(c.Writer), time.Now().Add(sendingTime)
	_ = errors.Join(way.SetReadDeadline(until), way.SetWriteDeadline(until)) // else the server's own limits hold
	parts := multipart.NewReader(http.MaxBytesReader(c.Writer, c.Request.Body, mostSent), parameters["boundary"])
	for {
		part, err := parts.NextPart()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return sent, fmt.Errorf("%w: %w", errBadForm, err)
		}
		if err := s.takePart(c, o, part, &sent); err != nil {
			return sent, err
		}
	}
	if sent.added+len(sent.refused) == 0 && sent.wrongCaption == "" {
		sent.wrong = "Choose a photo first, then send it."
	}
	return sent, nil
}

// takePart takes the words or one photo of a form.
func (s *Site) takePart(c *gin.Context, o opened, part *multipart.Part, sent *sentPhotos) error {
	name := printable(part.FileName())
	isPhoto := part.FormName() == "photo" && name != ""
	if !isPhoto && part.FormName() != "caption" {
		return nil
	}
	content, err := io.ReadAll(io.LimitReader(part, photo.MostBytes+1))
	if err != nil {
		return fmt.Errorf("%w: %w", errBadForm, err)
	}
	if !isPhoto {
		sent.caption = captionOf(string(content[:min(len(content), keepLimit)]))
		if utf8.RuneCountInString(sent.caption) > photo.MostCaption {
			sent.wrongCaption = captionTooLong() + " Then choose the photos once more."
		}
		return nil
	}
	if sent.wrongCaption != "" {
		return nil
	}
	_, err = s.kitchen.AddPhoto(c.Request.Context(), o.household.ID, o.recipeID, content, sent.caption)
	var fault diagnostic.Fault
	if errors.As(err, &fault) {
		sent.refused = append(sent.refused, fmt.Sprintf("“%s”: %s.", short(name, nameLimit), faultWords(fault)))
		return nil
	}
	if err == nil {
		sent.added++
	}
	return err
}

// photoTime is how long a browser keeps a photo without asking: what its address names
// never changes.
const photoTime = "private, max-age=31536000, immutable"

func (s *Site) sendPhoto(c *gin.Context) error {
	h, _, err := s.household(c, "recipes", "")
	if err != nil {
		return err
	}
	return s.sendFileOf(c, h.ID, photoTime)
}

// sendFileOf sends the photo of the address, of a household.
func (s *Site) sendFileOf(c *gin.Context, householdID int64, keep string) error {
	file := c.Param("file")
	if file != largeFile && file != smallFile {
		return kitchen.ErrNotFound
	}
	content, err := s.store.PhotoFile(c.Request.Context(), householdID, c.Param("digest"), file == smallFile)
	if err != nil {
		return err
	}
	sum := sha256.Sum256(content)
	c.Header("Content-Type", "image/jpeg")
	c.Header("Content-Security-Policy", "default-src 'none'")
	c.Header("Cache-Control", keep)
	c.Header("ETag", `"`+hex.EncodeToString(sum[:])+`"`)
	http.ServeContent(c.Writer, c.Request, file, time.Time{}, bytes.NewReader(content))
	return nil
}

// sendSharedPhoto sends a photo of the card that a link shows, and no other.
func (s *Site) sendSharedPhoto(c *gin.Context) error {
	l, err := s.gate.Shared(c.Request.Context(), c.Param("secret"))
	if err != nil {
		return err
	}
	photos, err := s.store.ListPhotos(c.Request.Context(), l.HouseholdID, l.RecipeID)
	if err != nil {
		return err
	}
	for _, p := range photo.OnCards(photos) {
		if p.Digest == c.Param("digest") {
			// A link may be revoked: it is asked for again each time.
			return s.sendFileOf(c, l.HouseholdID, "private, no-cache")
		}
	}
	return kitchen.ErrNotFound
}
