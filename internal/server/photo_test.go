package server_test

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"mime/multipart"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/photo"
)

// aPhoto is the picture of an invented dish: a pale plate on a table, with something in
// the middle that no two have alike.
func aPhoto(t testing.TB, width, height, sort int) []byte {
	t.Helper()
	m := image.NewRGBA(image.Rect(0, 0, width, height))
	for y := range height {
		for x := range width {
			dx, dy := float64(x-width/2)/float64(height), float64(y-height/2)/float64(height)
			c := color.RGBA{110, 80, 60, 255}
			switch r := dx*dx + dy*dy; {
			case r < 0.06:
				c = color.RGBA{byte(150 + 40*(sort%3)), 70, byte(20 + x/8%2*40), 255}
			case r < 0.16:
				c = color.RGBA{240, 236, 225, 255}
			}
			m.Set(x, y, c)
		}
	}
	var b bytes.Buffer
	require.NoError(t, jpeg.Encode(&b, m, nil))
	return b.Bytes()
}

// sendPhotos sends the form of photos as a browser does: files by name and content in
// turn.
func (h *house) sendPhotos(dish, caption string, files ...string) reply {
	h.t.Helper()
	var b bytes.Buffer
	w := multipart.NewWriter(&b)
	require.NoError(h.t, w.WriteField("caption", caption))
	for i := 0; i+1 < len(files); i += 2 {
		part, err := w.CreateFormFile("photo", files[i])
		require.NoError(h.t, err)
		_, err = part.Write([]byte(files[i+1]))
		require.NoError(h.t, err)
	}
	require.NoError(h.t, w.Close())
	return h.ask(http.MethodPost, dish+"/photos", w.FormDataContentType(), b.String())
}

// sources are the addresses of a page's pictures.
func sources(t *testing.T, r reply) []string {
	t.Helper()
	var out []string
	for _, img := range elements(parse(t, r), "img") {
		out = append(out, attr(img, "src"))
	}
	return out
}

func TestPhotosAreShownWhereTheDishIs(t *testing.T) {
	h := newHouse(t)
	base, dish := h.furnish()
	r := h.sendPhotos(dish, `<script>alert("x")</script>`, "a.jpg", string(aPhoto(t, 900, 600, 1)), "b.jpg", string(aPhoto(t, 600, 900, 2)))
	require.Equal(t, http.StatusSeeOther, r.StatusCode, alertOf(t, r.body))
	assert.Equal(t, dish+"/photos?done=photo", r.Header.Get("Location"))

	page := h.get(dish + "/photos")
	require.Len(t, sources(t, page), 2)
	assert.NotContains(t, page.body, "<script>alert")
	assert.Contains(t, page.body, "&lt;script&gt;alert")
	large := sources(t, page)[0]
	small := strings.Replace(large, "large", "small", 1)
	for _, at := range []string{dish, dish + "/cook"} {
		assert.Contains(t, sources(t, h.get(at)), large, at)
	}
	assert.Equal(t, []string{small}, sources(t, h.get(base+"/recipes")))
	assert.Empty(t, sources(t, h.get(dish+"/card")), "nobody said that it may be seen outside")
	for _, img := range elements(parse(t, page), "img") {
		assert.NotEmpty(t, attr(img, "alt"))
		assert.NotEmpty(t, attr(img, "width"), "nothing moves when it arrives")
		assert.NotEmpty(t, attr(img, "height"))
	}

	second := photoForm(t, page, 1)
	h.must(second, strings.Replace(second[strings.LastIndex(second, "/"):], "/", "caption", 1), "on the plate", "main", "yes", "card", "yes")
	card := h.get(dish + "/card")
	require.Len(t, sources(t, card), 1)
	assert.NotEqual(t, large, sources(t, card)[0])
	assert.Contains(t, card.body, "on the plate")
	assert.Equal(t, sources(t, card)[0], sources(t, h.get(dish))[0], "it stands for the dish now")

	assert.Contains(t, h.get(second+"/remove").body, "Remove it")
	h.must(second + "/remove")
	assert.Equal(t, []string{large}, sources(t, h.get(dish+"/photos")))
	assert.Equal(t, http.StatusNotFound, h.post(second+"/remove").StatusCode)
}

// photoForm is where the form of a photo on the page leads.
func photoForm(t testing.TB, r reply, at int) string {
	t.Helper()
	var out []string
	for _, f := range elements(parse(t, r), "form") {
		if attr(f, "method") == "post" && attr(f, "enctype") == "" {
			out = append(out, attr(f, "action"))
		}
	}
	require.Greater(t, len(out), at)
	return out[at]
}

func TestAPhotoIsSentAsAPictureAndNothingElse(t *testing.T) {
	h := newHouse(t)
	_, dish := h.furnish()
	sent := aPhoto(t, 900, 600, 1)
	polyglot := string(sent) + "<script>alert(1)</script>PK\x03\x04"
	require.Equal(t, http.StatusSeeOther, h.sendPhotos(dish, "", "a.html", polyglot).StatusCode)
	at := sources(t, h.get(dish))[0]
	r := h.get(at)
	require.Equal(t, http.StatusOK, r.StatusCode)
	assert.Equal(t, "image/jpeg", r.Header.Get("Content-Type"))
	assert.Equal(t, "nosniff", r.Header.Get("X-Content-Type-Options"))
	assert.Equal(t, "default-src 'none'", r.Header.Get("Content-Security-Policy"))
	assert.Equal(t, "private, max-age=31536000, immutable", r.Header.Get("Cache-Control"))
	assert.NotContains(t, r.body, "<script")
	assert.Regexp(t, `^"[0-9a-f]{64}"$`, r.Header.Get("ETag"))

	req, err := http.NewRequestWithContext(t.Context(), http.MethodGet, h.url+at, nil)
	require.NoError(t, err)
	req.Header.Set("If-None-Match", r.Header.Get("ETag"))
	again := h.send(req)
	assert.Equal(t, http.StatusNotModified, again.StatusCode)
	assert.Empty(t, again.body)
	for _, wrong := range []string{strings.Replace(at, "large", "huge", 1), strings.Replace(at, "photos/", "photos/0", 1), at + "/x"} {
		assert.Equal(t, http.StatusNotFound, h.get(wrong).StatusCode, wrong)
	}
}

// Those that can be taken are; of each other one the page says why not, and the words
// typed still stand.
func TestPhotosThatAreRefused(t *testing.T) {
	h := newHouse(t)
	_, dish := h.furnish()
	good := string(aPhoto(t, 90, 60, 1))
	for _, c := range []struct {
		name  string
		files []string
		want  []string
	}{
		{"none chosen", nil, []string{"Choose a photo first"}},
		{"a field left empty", []string{"", ""}, []string{"Choose a photo first"}},
		{"a picture in name", []string{"soup.jpg", "two onions"}, []string{"Not added:", "“soup.jpg”: this is no picture of a sort that is read here; expected a JPEG"}},
		{"one good, one not", []string{"a.jpg", good, "b.heic", "\x00\x00\x00\x18ftypheic\x00\x00\x00\x00"}, []string{"1 photo is added. These are not:", "HEIC"}},
		{"the same once more", []string{"a.jpg", good}, []string{"has this photo already"}},
		{"half a picture", []string{"c.jpg", good[:len(good)/2]}, []string{"damaged, cut off"}},
		{"a script for a name", []string{"<script>alert(1)<script>.jpg", "x"}, []string{"&lt;script&gt;"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := h.sendPhotos(dish, "the pot", c.files...)
			assert.Equal(t, http.StatusUnprocessableEntity, r.StatusCode)
			for _, want := range c.want {
				assert.Contains(t, r.body, want)
			}
			assert.NotContains(t, r.body, "<script>alert")
			assert.Contains(t, r.body, `value="the pot"`, "what was typed stands")
		})
	}
	long := h.sendPhotos(dish, strings.Repeat("é", photo.MostCaption+1), "d.jpg", string(aPhoto(t, 91, 60, 1)))
	assert.Contains(t, long.body, "at most 200 characters. Then choose the photos once more.")
	assert.Contains(t, long.body, strings.Repeat("é", photo.MostCaption+1))
	assert.Len(t, sources(t, h.get(dish+"/photos")), 1)

	form := photoForm(t, h.get(dish+"/photos"), 0)
	field := strings.Replace(form[strings.LastIndex(form, "/"):], "/", "caption", 1)
	r := h.post(form, field, strings.Repeat("é", photo.MostCaption+1), "card", "yes")
	assert.Equal(t, http.StatusUnprocessableEntity, r.StatusCode)
	assert.Contains(t, r.body, "Write at most 200 characters.")
	assert.Equal(t, http.StatusBadRequest, h.post(dish+"/photos", "caption", "x").StatusCode, "no form of files")
}

// What says that it is larger than may be sent is not read.
func TestMoreThanMayBeSentIsNotRead(t *testing.T) {
	h := newHouse(t)
	_, dish := h.furnish()
	req, err := http.NewRequestWithContext(t.Context(), http.MethodPost, h.url+dish+"/photos", http.NoBody)
	require.NoError(t, err)
	unread := &untouched{}
	req.Body, req.ContentLength = unread, photo.MostPhotos*photo.MostBytes*2
	req.Header.Set("Content-Type", "multipart/form-data; boundary=x")
	req.Header.Set("Expect", "100-continue")
	r := h.send(req)
	assert.Equal(t, http.StatusUnprocessableEntity, r.StatusCode)
	assert.Contains(t, r.body, "Send fewer photos at once")
}

// untouched is a body without end.
type untouched struct{}

func (*untouched) Read(p []byte) (int, error) { return len(p), nil }
func (*untouched) Close() error               { return nil }

func TestPhotosAreTheHouseholdsOwn(t *testing.T) {
	s := newStreet(t)
	ana := s.as("ana")
	require.Equal(t, http.StatusSeeOther, s.as("cora").sendPhotos(s.dish, "", "a.jpg", string(aPhoto(t, 90, 60, 1))).StatusCode)
	assert.Equal(t, http.StatusForbidden, s.as("ed").sendPhotos(s.dish, "", "b.jpg", string(aPhoto(t, 91, 60, 1))).StatusCode)
	at := sources(t, ana.get(s.dish))[0]
	assert.Equal(t, http.StatusOK, s.as("ed").get(at).StatusCode, "who eats may look")
	mel := s.as("mel")
	for _, path := range []string{at, s.dish + "/photos", strings.Replace(at, "/h/1/", "/h/2/", 1)} {
		assert.Equal(t, http.StatusNotFound, mel.get(path).StatusCode, path)
	}

	// Whoever has a link sees those that a cook ticked, while the link holds.
	link := strings.TrimPrefix(s.share, s.url)
	assert.Empty(t, sources(t, s.get(link)))
	_, digest, _ := strings.Cut(at, "/photos/")
	assert.Equal(t, http.StatusNotFound, s.get(link+"/photos/"+digest).StatusCode)
	ana.must(photoForm(t, ana.get(s.dish+"/photos"), 0), "card", "yes")
	shown := sources(t, s.get(link))
	require.Equal(t, []string{link + "/photos/" + digest}, shown)
	r := s.get(shown[0])
	assert.Equal(t, http.StatusOK, r.StatusCode)
	assert.Equal(t, "private, no-cache", r.Header.Get("Cache-Control"))
	assert.Contains(t, ana.get(s.dish+"/share").body, "1 photo that is ticked")
	ana.must(s.dish + "/share/1/revoke")
	assert.Equal(t, http.StatusNotFound, s.get(shown[0]).StatusCode)
}

func TestAPhotoIsSentFromAPhone(t *testing.T) {
	needBrowser(t)
	file := filepath.Join(t.TempDir(), "pot.jpg")
	require.NoError(t, os.WriteFile(file, aPhoto(t, 2400, 1800, 1), 0o600))
	for _, screen := range screens()[:2] {
		t.Run(screen.name, func(t *testing.T) {
			h := newHouse(t)
			base, dish := h.furnish()
			b := newTab(t, h, screen)
			b.open(dish)
			b.do(chromedp.Click(chromedp.CSS("#photos summary")))
			b.fill("caption", "The pot, with a very long word: "+strings.Repeat("moonroot", 12))
			b.do(chromedp.SetUploadFiles(chromedp.CSS("#photo"), []string{file}))
			b.click("#photos button")
			assert.Contains(t, b.words(), "Added. Say below")
			b.do(chromedp.Click(chromedp.CSS("main [name=card]")))
			b.click("main .photo-list button")
			for _, at := range []string{dish, dish + "/card", dish + "/cook", base + "/recipes"} {
				b.open(at)
				shown, err := chromedp.Run(b.ctx, chromedp.Evaluate[bool](`[...document.images].length > 0 && [...document.images].every(i => i.getBoundingClientRect().width >= 44 && i.naturalWidth > 0)`))
				require.NoError(t, err)
				assert.True(t, shown, "%s shows it", at)
			}
		})
	}
}
