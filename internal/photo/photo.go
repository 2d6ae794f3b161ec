// Package photo makes a picture that someone sends fit to keep beside a recipe. What a
// file is, is told from its bytes; how large it is, before it is opened. It is turned
// upright, scaled down and written afresh as JPEG: where and when it was taken, with
// what, and by whom, is gone then.
package photo

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"time"
	"unicode/utf8"
)

// Image is a JPEG file and its size in pixels. Lists leave the file out.
type Image struct {
	JPEG          []byte
	Width, Height int
}

// Picture is a picture as it is kept, in two sizes.
type Picture struct{ Large, Small Image }

// Digest is the SHA-256 of the large file in hexadecimal digits: two pictures of one
// digest are the same.
func (p Picture) Digest() string {
	sum := sha256.Sum256(p.Large.JPEG)
	return hex.EncodeToString(sum[:])
}

// Light is the picture without its files.
func (p Picture) Light() Picture {
	p.Large.JPEG, p.Small.JPEG = nil, nil
	return p
}

// Photo is a picture of a dish, kept with its recipe.
type Photo struct {
	ID, RecipeID int64
	Digest       string
	Picture      Picture
	// Caption says what it shows; "" where nobody said.
	Caption string
	// Main is set on the one that stands for the dish.
	Main bool
	// OnCard lets it be seen outside the household: on the printed card, the shared
	// page and in the file for another household. It may show a person, so that only a
	// cook sets it.
	OnCard  bool
	AddedAt time.Time
}

// MostCaption is the most characters of a caption.
const MostCaption = 200

// MostPhotos is how many photos a recipe may have. A design choice: the steps of a long
// method, some 5 MB.
const MostPhotos = 12

// OnCards are those that may be seen outside the household, in their order.
func OnCards(photos []Photo) []Photo {
	var out []Photo
	for _, p := range photos {
		if p.OnCard {
			out = append(out, p)
		}
	}
	return out
}

// Apart reports whether the photos may belong to one recipe: each is there once, and at
// most one stands for the dish.
func Apart(photos []Photo) bool {
	digests, mains := map[string]bool{}, 0
	for _, p := range photos {
		if p.Main {
			mains++
		}
		digests[p.Digest] = true
	}
	return len(digests) == len(photos) && mains <= 1
}

// Check says what keeps it from being saved.
func (p Photo) Check() error {
	switch {
	case p.Digest == "" || p.Picture.Large.Width < 1 || p.Picture.Small.Width < 1:
		return fmt.Errorf("photo: there is no picture")
	case utf8.RuneCountInString(p.Caption) > MostCaption:
		return fmt.Errorf("photo: the words under it have over %d characters", MostCaption)
	}
	return nil
}
