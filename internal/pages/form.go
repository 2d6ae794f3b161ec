package pages

import (
	"encoding/json"
	"fmt"
	"io"
	"mime"
	"net/url"
	"sort"
	"strings"

	"github.com/gin-gonic/gin"

	"potwright/internal/kitchen"
)

// bodyLimit is the most a form may hold, in bytes. What comes before it is
// still read, so that a page can keep the first part.
const bodyLimit = 8 << 20

// keepLimit is how much of a text that is too long stays in its box, in bytes.
const keepLimit = 20_000

// form is a form as sent. TooLong is set where the rest was cut off.
type form struct {
	values  url.Values
	TooLong bool
}

// readForm reads a posted form; kitchen.ErrTooLong where it is over bodyLimit.
func readForm(c *gin.Context) (form, error) {
	f, err := readLongForm(c)
	if err == nil && f.TooLong {
		err = fmt.Errorf("a form of over %d bytes: %w", bodyLimit, kitchen.ErrTooLong)
	}
	return f, err
}

// readLongForm is readForm that cuts what is over bodyLimit off.
func readLongForm(c *gin.Context) (form, error) {
	kind, _, err := mime.ParseMediaType(c.GetHeader("Content-Type"))
	if err != nil || kind != "application/x-www-form-urlencoded" {
		return form{}, fmt.Errorf("%w: content type %q", errBadForm, c.GetHeader("Content-Type"))
	}
	body, err := io.ReadAll(io.LimitReader(c.Request.Body, bodyLimit+1))
	if err != nil {
		return form{}, fmt.Errorf("%w: %w", errBadForm, err)
	}
	f := form{TooLong: len(body) > bodyLimit}
	if f.TooLong {
		body = wholeEscapes(body[:bodyLimit])
	}
	if f.values, err = url.ParseQuery(string(body)); err != nil {
		return form{}, fmt.Errorf("%w: %w", errBadForm, err)
	}
	return f, nil
}

// wholeEscapes drops a %xx that was cut in two at the end.
func wholeEscapes(b []byte) []byte {
	for back := 1; back <= 2 && back <= len(b); back++ {
		if b[len(b)-back] == '%' {
			return b[:len(b)-back]
		}
	}
	return b
}

// seenOf is what a form was made from, for its hidden field "seen": a change is put into
// what is saved by then (kitchen.Describe, MoveEntry, Wish).
func seenOf(v any) string {
	text, _ := json.Marshal(v) // a few words and numbers
	return string(text)
}

// seenIn reads it; what there is now stands for it where the form has none.
func seenIn[T any](f form, now T) (T, error) {
	text := f.text("seen")
	if text == "" {
		return now, nil
	}
	var seen T
	if err := json.Unmarshal([]byte(text), &seen); err != nil {
		return seen, fmt.Errorf("%w: what it was made from: %w", errBadForm, err)
	}
	return seen, nil
}

// queryForm is the form of an address.
func queryForm(c *gin.Context) form { return form{values: c.Request.URL.Query()} }

// text is one value, without the blanks around it.
func (f form) text(name string) string { return strings.TrimSpace(f.values.Get(name)) }

// all are the values of a name, such as ticked boxes.
func (f form) all(name string) []string { return f.values[name] }

// has reports whether the name was sent at all.
func (f form) has(name string) bool { return f.values.Has(name) }

// ticked reports whether the box of a name and value was ticked.
func (f form) ticked(name, value string) bool {
	for _, v := range f.values[name] {
		if v == value {
			return true
		}
	}
	return false
}

// names are the fields whose name starts with a prefix, in order.
func (f form) names(prefix string) []string {
	var out []string
	for name := range f.values {
		if strings.HasPrefix(name, prefix) {
			out = append(out, name)
		}
	}
	sort.Strings(out)
	return out
}
