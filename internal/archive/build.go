package archive

import (
	"fmt"
	"slices"
	"strings"

	"potwright/internal/kitchen"
	"potwright/internal/photo"
	"potwright/internal/recipe"
)

// archive builds the holdings from the files.
func (u *unpacker) archive(list manifest) Archive {
	if list.Holds == ofRecipes {
		h := u.holdings("", list.Holds)
		return Archive{Recipes: &h}
	}
	var out Archive
	for _, folder := range u.folders("households/", sections()[0].file) {
		out.Households = append(out.Households, u.holdings(folder, list.Holds))
	}
	return out
}

// folders are the folders directly below a path that hold a file of the name, in
// the order of their names, which is that of writing.
func (u *unpacker) folders(below, file string) []string {
	var out []string
	for name := range u.files {
		rest, ok := strings.CutPrefix(name, below)
		folder, last, deeper := strings.Cut(rest, "/")
		if ok && deeper && last == file {
			out = append(out, below+folder+"/")
		}
	}
	slices.Sort(out)
	return out
}

func (u *unpacker) holdings(folder, holds string) kitchen.Holdings {
	var h kitchen.Holdings
	for _, s := range sections() {
		if !s.shared && holds != ofHouseholds {
			continue
		}
		if _, ok := u.files[folder+s.file]; ok {
			u.take(folder+s.file, s.at(&h))
		}
	}
	if holds == ofHouseholds && strings.TrimSpace(h.Household.Name) == "" {
		u.fault(folder+sections()[0].file, "a name", "the household has no name")
	}
	for _, f := range u.folders(folder+"recipes/", recipeName) {
		h.Recipes = append(h.Recipes, u.recipe(f))
	}
	return h
}

// recipe reads a recipe's folder. Version numbers stand for ids: they only tie
// versions to their parents.
func (u *unpacker) recipe(folder string) kitchen.HeldRecipe {
	name := folder + recipeName
	var f recipeFile
	u.take(name, &f)
	r := kitchen.HeldRecipe{Title: f.Title, CreatedAt: f.CreatedAt, Wishes: f.Wishes, Tags: f.Tags}
	if len(f.Versions) == 0 {
		u.fault(name, "at least one", "the recipe has no version")
	}
	if _, ok := u.files[folder+daybookName]; ok {
		u.take(folder+daybookName, &r.Daybook)
	}
	r.Photos = u.photos(folder)
	for i, v := range f.Versions {
		if v.Number != i+1 || (i == 0) != (v.Parent == 0) || v.Parent < 0 || v.Parent > i {
			u.fault(name, "1, 2, 3 …, each made from an earlier one", "version %d made from version %d stands in place %d", v.Number, v.Parent, i+1)
			continue
		}
		if _, ok := u.files[folder+textName(v.Number)]; !ok {
			u.fault(folder+textName(v.Number), "the recipe's text", "the file is missing")
		}
		r.Versions = append(r.Versions, recipe.Version{ID: int64(v.Number), ParentID: int64(v.Parent), Number: v.Number, SavedAt: v.SavedAt,
			Note: v.Note, Fixes: v.Fixes, Changes: v.Changes, Text: u.text(folder + textName(v.Number)),
			PanelJSON: u.text(folder + panelName(v.Number)), PlatesJSON: u.text(folder + platesName(v.Number))})
	}
	return r
}

// photos reads a recipe's photos. What they are is told by their own bytes: nothing but
// a picture as it is kept here is taken.
func (u *unpacker) photos(folder string) []photo.Photo {
	name := folder + photosName
	if _, ok := u.files[name]; !ok {
		return nil
	}
	var list []photoFile
	u.take(name, &list)
	if len(list) > photo.MostPhotos {
		u.fault(name, fmt.Sprintf("at most %d", photo.MostPhotos), "the recipe has %d photos", len(list))
		return nil
	}
	var out []photo.Photo
	for i, f := range list {
		picture, err := photo.Kept(u.content(folder+largeName(i+1)), u.content(folder+smallName(i+1)))
		p := photo.Photo{ID: int64(i + 1), Digest: picture.Digest(), Picture: picture, Caption: f.Caption, Main: f.Main, OnCard: f.OnCard, AddedAt: f.AddedAt}
		if err == nil {
			err = p.Check()
		}
		if err != nil {
			u.fault(folder+largeName(i+1), "a photo as it was written", "the photo can't be taken in (%v)", err)
		}
		out = append(out, p)
	}
	if !photo.Apart(out) {
		u.fault(name, "each photo once, and at most one that stands for the dish", "the photos can't be taken in")
	}
	return out
}
