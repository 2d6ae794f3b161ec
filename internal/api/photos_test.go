package api

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"net/http"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func photos(f furnished, t *testing.T) {
	picture := func(width int) []byte {
		var b bytes.Buffer
		require.NoError(t, png.Encode(&b, image.NewGray(image.Rect(0, 0, width, 600))))
		return b.Bytes()
	}
	for width := range 2 {
		resp, text := f.send("POST", f.dish+"/photos?caption=the+pot", "image/png", picture(900+width))
		require.Equal(t, http.StatusCreated, resp.StatusCode, string(text))
	}
	var list photoList
	f.ask("GET", f.dish+"/photos", nil, &list)
	require.Len(t, list.Photos, 2)
	assert.True(t, list.Photos[0].Main)
	assert.Equal(t, "the pot", list.Photos[0].Caption)
	second := fmt.Sprintf("%s/photos/%d", f.dish, list.Photos[1].ID)
	var saved photoAnswer
	f.ask("PUT", second, map[string]any{"caption": "on the plate", "on_card": true, "main": true}, &saved)
	assert.True(t, saved.Main && saved.OnCard)
	f.ask("GET", second, nil, &saved)
	for size, width := range map[string]int{"large": 901, "small": 400} {
		resp, text := f.send("GET", second+"/file?size="+size, "", nil)
		require.Equal(t, http.StatusOK, resp.StatusCode)
		got, kind, err := image.DecodeConfig(bytes.NewReader(text))
		require.NoError(t, err)
		assert.Equal(t, "jpeg", kind)
		assert.Equal(t, width, got.Width)
	}
	f.ask("DELETE", second, nil, nil)
	f.ask("GET", f.dish+"/photos", nil, &list)
	require.Len(t, list.Photos, 1)

	for name, c := range map[string]struct {
		kind   string
		body   []byte
		query  string
		status int
		want   string
	}{
		"no picture":       {"image/jpeg", []byte("two onions"), "", http.StatusUnprocessableEntity, "this is no picture"},
		"the same again":   {"image/png", picture(900), "", http.StatusUnprocessableEntity, "has this photo already"},
		"another kind":     {"text/plain", picture(902), "", http.StatusUnsupportedMediaType, "expected image/*"},
		"a caption of 300": {"image/png", picture(902), "?caption=" + string(bytes.Repeat([]byte("a"), 300)), http.StatusUnprocessableEntity, "at most 200 characters"},
	} {
		resp, text := f.send("POST", f.dish+"/photos"+c.query, c.kind, c.body)
		assert.Equal(t, c.status, resp.StatusCode, name)
		assert.Contains(t, string(text), c.want, name)
	}
}
