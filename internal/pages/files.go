package pages

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"mime"
	"mime/multipart"
	"net/http"
	"strings"
	"unicode/utf8"

	"github.com/gin-gonic/gin"

	"potwright/internal/diagnostic"
	"potwright/internal/kitchen"
	"potwright/internal/recipe"
)

// Formats are the files a recipe is read from and written as.
type Formats interface {
	// Markup finds a recipe in the code of a web page or in JSON-LD and gives its
	// words and what was left; text that is neither is given as it is. A
	// diagnostic.Fault says why a recipe that is there can't be read.
	Markup(text string) (words string, lost []string, err error)
	// JSONLD writes a recipe for other programs.
	JSONLD(w io.Writer, a kitchen.Analysis) (lost []string, err error)
	// Pack writes recipes as a file for another household, Unpack reads one: what is
	// wrong with it is a diagnostic.Faults, notTaken what was left of it.
	Pack(ctx context.Context, w io.Writer, h kitchen.Holdings) error
	Unpack(r io.ReaderAt, size int64) (h kitchen.Holdings, notTaken []string, err error)
}

// marked is the recipe's words out of what was pasted.
func (s *Site) marked(text string) (words string, lost []string, err error) {
	if s.formats == nil {
		return text, nil, nil
	}
	return s.formats.Markup(text)
}

// fileLimit is the most that a file for another household may hold, bytes.
const fileLimit = 24 << 20

func (s *Site) registerFiles(h, one *gin.RouterGroup) {
	if s.formats == nil {
		return
	}
	one.GET("/versions/:vid/jsonld", s.do(s.exportJSONLD))
	one.GET("/versions/:vid/markdown", s.do(s.exportMarkdown))
	one.GET("/file", s.do(s.exportFile))
	h.POST("/recipes/file", s.do(s.takeFile))
}

// sendFile sends a file to keep.
func sendFile(c *gin.Context, name, kind string, content []byte) {
	c.Header("Cache-Control", "no-store")
	c.Header("Content-Disposition", fmt.Sprintf("attachment; filename=%q", name))
	c.Data(http.StatusOK, kind, content)
}

func (s *Site) exportJSONLD(c *gin.Context) error {
	o, err := s.openNamed(c)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if _, err := s.formats.JSONLD(&b, o.analysis); err != nil {
		return err
	}
	sendFile(c, fmt.Sprintf("recipe-%d-version-%d.jsonld", o.recipeID, o.version.Number), "application/ld+json", b.Bytes())
	return nil
}

func (s *Site) exportMarkdown(c *gin.Context) error {
	o, err := s.openNamed(c)
	if err != nil {
		return err
	}
	sendFile(c, fmt.Sprintf("recipe-%d-version-%d.md", o.recipeID, o.version.Number), "text/markdown; charset=utf-8", []byte(recipe.Markdown(o.analysis.Recipe)))
	return nil
}

// exportFile sends the recipe with all its versions as a file for another
// household.
func (s *Site) exportFile(c *gin.Context) error {
	o, err := s.findRecipe(c, "")
	if err != nil {
		return err
	}
	h, err := s.kitchen.Given(c.Request.Context(), o.household.ID, o.recipeID)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if err := s.formats.Pack(c.Request.Context(), &b, h); err != nil {
		return err
	}
	sendFile(c, fmt.Sprintf("recipe-%d.zip", o.recipeID), "application/zip", b.Bytes())
	return nil
}

// isText reports whether a file is words, a saved web page among them, and no archive.
func isText(content []byte) bool {
	return utf8.Valid(content) && !bytes.ContainsRune(content, 0) && !bytes.HasPrefix(content, []byte("PK\x03\x04"))
}

// takeFile takes in a file: words as if they were pasted, and of the archive that
// another household gave all its recipes or none.
func (s *Site) takeFile(c *gin.Context) error {
	h, fr, err := s.household(c, "recipes", "A new recipe")
	if err != nil {
		return err
	}
	p := newPastePage(fr, "", "")
	content, wrong, err := uploaded(c, "file")
	if err != nil {
		return err
	}
	if wrong == "" && isText(content) {
		p.Text = string(content)
		return s.saveNew(c, h.ID, p, form{})
	}
	var given kitchen.Holdings
	if wrong == "" {
		given, p.Notes, err = s.formats.Unpack(bytes.NewReader(content), int64(len(content)))
		wrong = fileFault(err)
		if wrong == "" && err != nil {
			return err
		}
	}
	if wrong != "" {
		p.Wrong = wrong
		return s.show(c, http.StatusUnprocessableEntity, "paste", p)
	}
	ids, err := s.store.TakeRecipes(c.Request.Context(), h.ID, given)
	if err != nil {
		return fmt.Errorf("take in a file of recipes: %w", err)
	}
	if len(p.Notes) > 0 {
		p.Notes = append([]string{"The file is taken in. What of it this program does not know:"}, p.Notes...)
		return s.show(c, http.StatusOK, "paste", p)
	}
	if len(ids) == 1 {
		return seeOther(c, fmt.Sprintf("%s/recipes/%d?done=file", fr.Base, ids[0]))
	}
	return seeOther(c, fr.Base+"/recipes?done=file")
}

// fileFault is what is wrong with a file in words, "" where the error is ours.
func fileFault(err error) string {
	var faults diagnostic.Faults
	if !errors.As(err, &faults) || len(faults) == 0 {
		return ""
	}
	where := ""
	if faults[0].File != "" {
		where = " (" + faults[0].File + ")"
	}
	return "The file could not be taken in, and nothing was saved: " + faultWords(faults[0]) + where + "."
}

// uploaded reads the file of a form of files, up to fileLimit; what is wrong with
// it is told in words.
func uploaded(c *gin.Context, field string) (content []byte, wrong string, err error) {
	kind, parameters, err := mime.ParseMediaType(c.GetHeader("Content-Type"))
	if err != nil || kind != "multipart/form-data" {
		return nil, "", fmt.Errorf("%w: content type %q", errBadForm, c.GetHeader("Content-Type"))
	}
	parts := multipart.NewReader(io.LimitReader(c.Request.Body, fileLimit+1<<16), parameters["boundary"])
	for {
		part, err := parts.NextPart()
		if errors.Is(err, io.EOF) {
			return nil, "Choose a file first, then send it.", nil
		}
		if err != nil {
			return nil, "", fmt.Errorf("%w: %w", errBadForm, err)
		}
		if part.FormName() != field {
			continue
		}
		content, err = io.ReadAll(io.LimitReader(part, fileLimit+1))
		switch {
		case len(content) > fileLimit:
			return nil, "The file is far more than a recipe: at most 24 MB are taken.", nil
		case err != nil:
			return nil, "", fmt.Errorf("%w: %w", errBadForm, err)
		case len(content) == 0 || strings.TrimSpace(part.FileName()) == "":
			return nil, "Choose a file first, then send it.", nil
		}
		return content, "", nil
	}
}
