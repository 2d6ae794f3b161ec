package api

import (
	"fmt"
	"net/http"
	"time"

	"potwright/internal/kitchen"
	"potwright/internal/photo"
)

const ofPhoto = ofRecipe + "/photos/:photo_id"

func photoOperations() []operation {
	caption := parameter{name: "caption", about: "what it shows", schema: schema{"type": "string", "maxLength": photo.MostCaption}}
	size := parameter{name: "size", about: "at most 1600 pixels a side, or 400", schema: schema{"type": "string", "enum": []string{"large", "small"}, "default": "large"}}
	return []operation{
		{method: http.MethodGet, path: ofRecipe + "/photos", id: "listPhotos", summary: "A recipe's photos, the one that stands for the dish first", answer: photoList{}, status: http.StatusOK, do: listPhotos},
		{method: http.MethodPost, path: ofRecipe + "/photos", id: "addPhoto", summary: "Keep a photo with a recipe: JPEG, PNG, GIF or WebP, as its bytes tell; where it was taken is not kept", query: []parameter{caption},
			takes: "image/*", answer: photoAnswer{}, status: http.StatusCreated, changes: true, do: addPhoto},
		{method: http.MethodGet, path: ofPhoto, id: "findPhoto", summary: "What is said of a photo", answer: photoAnswer{}, status: http.StatusOK, do: findPhoto},
		{method: http.MethodGet, path: ofPhoto + "/file", id: "findPhotoFile", summary: "The photo itself", query: []parameter{size}, gives: "image/jpeg", status: http.StatusOK, do: findPhotoFile},
		{method: http.MethodPut, path: ofPhoto, id: "savePhoto", summary: "Say what a photo shows, whether it may be seen outside the household, and with main that it stands for the dish", body: photoBody{}, answer: photoAnswer{},
			status: http.StatusOK, changes: true, state: findPhoto, do: savePhoto},
		{method: http.MethodDelete, path: ofPhoto, id: "deletePhoto", summary: "Remove a photo", status: http.StatusNoContent, changes: true, state: findPhoto, do: deletePhoto},
	}
}

// photoBody is what is said of a photo. OnCard lets it be seen on the card, by whoever
// has a link to it, and in the file for another household.
type photoBody struct {
	Caption string `json:"caption"`
	OnCard  bool   `json:"on_card"`
	Main    bool   `json:"main,omitempty"`
}

// photoAnswer is a photo without its files. Digest is the SHA-256 of the large one,
// Width and Height are its size in pixels.
type photoAnswer struct {
	ID      int64     `json:"id"`
	Caption string    `json:"caption"`
	OnCard  bool      `json:"on_card"`
	Main    bool      `json:"main"`
	Digest  string    `json:"digest"`
	Width   int       `json:"width"`
	Height  int       `json:"height"`
	AddedAt time.Time `json:"added_at"`
}

type photoList struct {
	Photos []photoAnswer `json:"photos"`
}

func photoAnswerOf(p photo.Photo) photoAnswer {
	large := p.Picture.Large
	return photoAnswer{p.ID, p.Caption, p.OnCard, p.Main, p.Digest, large.Width, large.Height, p.AddedAt}
}

// photos are those of the recipe of the path.
func (r *request) photos() ([]photo.Photo, error) {
	if _, err := r.store.FindRecipe(r.ctx, r.household.ID, r.id("recipe_id")); err != nil {
		return nil, err
	}
	return r.store.ListPhotos(r.ctx, r.household.ID, r.id("recipe_id"))
}

// photo is the one of the path.
func (r *request) photo() (photo.Photo, error) {
	if _, err := r.store.FindRecipe(r.ctx, r.household.ID, r.id("recipe_id")); err != nil {
		return photo.Photo{}, err
	}
	return kitchen.FindPhoto(r.ctx, r.store, r.household.ID, r.id("recipe_id"), r.id("photo_id"))
}

func listPhotos(r *request) (any, error) {
	photos, err := r.photos()
	out := photoList{[]photoAnswer{}}
	for _, p := range photos {
		out.Photos = append(out.Photos, photoAnswerOf(p))
	}
	return out, err
}

func addPhoto(r *request) (any, error) {
	p, err := r.kitchen.AddPhoto(r.ctx, r.household.ID, r.id("recipe_id"), r.body.([]byte), r.gin.Query("caption"))
	if err != nil {
		return nil, err
	}
	return photoAnswerOf(p), nil
}

func findPhoto(r *request) (any, error) {
	p, err := r.photo()
	return photoAnswerOf(p), err
}

func findPhotoFile(r *request) (any, error) {
	size := r.gin.DefaultQuery("size", "large")
	if size != "large" && size != "small" {
		return nil, badRequest("size is %q; expected large or small", size)
	}
	p, err := r.photo()
	if err != nil {
		return nil, err
	}
	content, err := r.store.PhotoFile(r.ctx, r.household.ID, p.Digest, size == "small")
	return file{fmt.Sprintf("photo-%d.jpg", p.ID), content}, err
}

func savePhoto(r *request) (any, error) {
	p, err := r.photo()
	if err != nil {
		return nil, err
	}
	over, err := r.over(p)
	if err != nil {
		return nil, err
	}
	b := *r.body.(*photoBody)
	p.Caption, p.OnCard, p.Main = b.Caption, b.OnCard, b.Main
	if err := p.Check(); err != nil {
		return nil, unusable("caption", "%s", err)
	}
	if err := r.store.SavePhoto(r.ctx, r.household.ID, p, over); err != nil {
		return nil, err
	}
	return findPhoto(r)
}

func deletePhoto(r *request) (any, error) {
	return nil, r.store.DeletePhoto(r.ctx, r.household.ID, r.id("recipe_id"), r.id("photo_id"))
}
