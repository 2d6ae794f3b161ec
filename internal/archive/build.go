package archive

import (
	"fmt"
	"maps"
	"path"
	"slices"
	"strings"

	"potwright/internal/kitchen"
	"potwright/internal/photo"
	"potwright/internal/recipe"
)

// archive builds the holdings from the files.
func (u *unpacker) archive(list manifest) Archive {
	u.findFolders()
	if list.Holds == ofRecipes {
		h := u.holdings("", list.Holds)
		return Archive{Recipes: &h}
	}
	var out Archive
	for _, folder := range u.folders[place{"households/", sections()[0].file}] {
		out.Households = append(out.Households, u.holdings(folder, list.Holds))
	}
	return out
}

// place is where a folder lies and what it is known by.
type place struct{ below, file string }

// findFolders looks once for the folders of households and recipes.
func (u *unpacker) findFolders() {
	u.folders = map[place][]string{}
	for _, name := range slices.Sorted(maps.Keys(u.files)) {
		folder, file := path.Split(name)
		below, _ := path.Split(strings.TrimSuffix(folder, "/"))
		if file == recipeName || file == sections()[0].file {
			u.folders[place{below, file}] = append(u.folders[place{below, file}], folder)
		}
	}
}

func (u *unpacker) holdings(folder, holds string) kitchen.Holdings {
	pictures := album{}
	h := kitchen.Holdings{Album: pictures}
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
	for _, f := range u.folders[place{folder + "recipes/", recipeName}] {
		h.Recipes = append(h.Recipes, u.recipe(f, pictures))
	}
	return h
}

// recipe reads a recipe's folder. Version numbers stand for ids: they only tie
// versions to their parents.
func (u *unpacker) recipe(folder string, pictures album) kitchen.HeldRecipe {
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
	r.Photos = u.photos(folder, pictures)
	numbered := map[int64]map[int]recipe.Correction{}
	for i, v := range f.Versions {
		if v.Number != i+1 || (i == 0) != (v.Parent == 0) || v.Parent < 0 || v.Parent > i {
			u.fault(name, "1, 2, 3 …, each made from an earlier one", "version %d made from version %d stands in place %d", v.Number, v.Parent, i+1)
			continue
		}
		if _, ok := u.files[folder+textName(v.Number)]; !ok {
			u.fault(folder+textName(v.Number), "the recipe's text", "the file is missing")
		}
		r.Versions = append(r.Versions, recipe.Version{ID: int64(v.Number), ParentID: int64(v.Parent), Number: v.Number, SavedAt: v.SavedAt,
			Note: v.Note, Corrections: v.Corrections, Changes: v.Changes, Text: u.text(folder + textName(v.Number)),
			PanelJSON: u.text(folder + panelName(v.Number)), PlatesJSON: u.text(folder + platesName(v.Number))})
		if v.Corrections == nil {
			numbered[int64(v.Number)] = v.Fixes
		}
	}
	recipe.TieNumbered(r.Versions, numbered)
	return r
}

// photos reads a recipe's photos. What they are is told by their own bytes: nothing but
// a picture as it is kept here is taken. Their files go to the album.
func (u *unpacker) photos(folder string, pictures album) []photo.Photo {
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
		files := u.picture(folder, i+1)
		picture, err := files.open()
		p := photo.Photo{ID: int64(i + 1), Digest: picture.Digest(), Picture: picture.Light(), Caption: f.Caption, Main: f.Main, OnCard: f.OnCard, AddedAt: f.AddedAt}
		if err == nil {
			err = p.Check()
		}
		if err != nil {
			u.fault(folder+largeName(i+1), "a photo as it was written", "the photo can't be taken in (%v)", err)
		}
		pictures[p.Digest] = files
		out = append(out, p)
	}
	if !photo.Apart(out) {
		u.fault(name, "each photo once, and at most one that stands for the dish", "the photos can't be taken in")
	}
	return out
}
