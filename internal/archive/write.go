package archive

import (
	"archive/zip"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"potwright/internal/kitchen"
	"potwright/internal/photo"
)

// Write writes whole households as an archive; at is when. Photos are read one after the
// other; one that was removed since the holdings were read is left out.
func Write(ctx context.Context, w io.Writer, all []kitchen.Holdings, at time.Time) error {
	p := newPacker(w, at, ofHouseholds)
	for i, h := range all {
		p.holdings(ctx, "households/"+folderName(2, i+1, h.Household.Name)+"/", h)
	}
	return p.close()
}

// WriteRecipes writes the recipes of h and the products they are tied to, and
// nothing of the household: h is best a kitchen.Holdings.Shared.
func WriteRecipes(ctx context.Context, w io.Writer, h kitchen.Holdings, at time.Time) error {
	p := newPacker(w, at, ofRecipes)
	p.holdings(ctx, "", h)
	return p.close()
}

// packer adds files to the zip and to the manifest; the first error stays.
type packer struct {
	zip  *zip.Writer
	list manifest
	err  error
}

func newPacker(w io.Writer, at time.Time, holds string) *packer {
	p := &packer{zip: zip.NewWriter(w), list: manifest{Format: Format, Version: Version, WrittenAt: at.UTC(), Holds: holds}}
	p.add(readmeName, []byte(readme))
	return p
}

func (p *packer) add(name string, content []byte) {
	sum := sha256.Sum256(content)
	p.list.Files = append(p.list.Files, manifestFile{name, len(content), hex.EncodeToString(sum[:])})
	p.put(name, content)
}

func (p *packer) put(name string, content []byte) {
	if p.err != nil {
		return
	}
	method := zip.Deflate
	if strings.HasSuffix(name, ".jpg") {
		method = zip.Store // it is as short as it gets
	}
	f, err := p.zip.CreateHeader(&zip.FileHeader{Name: name, Method: method, Modified: p.list.WrittenAt})
	if err == nil {
		_, err = f.Write(content)
	}
	if err != nil {
		p.err = fmt.Errorf("write archive: %s: %w", name, err)
	}
}

func (p *packer) json(name string, v any) {
	content, err := indented(v)
	if err != nil && p.err == nil {
		p.err = fmt.Errorf("write archive: %s: %w", name, err)
	}
	p.add(name, content)
}

func (p *packer) holdings(ctx context.Context, folder string, h kitchen.Holdings) {
	for _, s := range sections() {
		if s.shared || p.list.Holds == ofHouseholds {
			p.json(folder+s.file, s.at(&h))
		}
	}
	for i, r := range h.Recipes {
		inside := folder + "recipes/" + folderName(4, i+1, r.Title) + "/"
		p.recipe(inside, r)
		p.photos(ctx, inside, h, r.Photos)
	}
}

func (p *packer) recipe(folder string, r kitchen.HeldRecipe) {
	numbers := map[int64]int{}
	f := recipeFile{Title: r.Title, CreatedAt: r.CreatedAt.UTC(), Wishes: r.Wishes, Tags: r.Tags}
	for _, v := range r.Versions {
		numbers[v.ID] = v.Number
		f.Versions = append(f.Versions, versionFile{Number: v.Number, Parent: numbers[v.ParentID], SavedAt: v.SavedAt.UTC(),
			Note: v.Note, Corrections: v.Corrections, Changes: v.Changes})
	}
	p.json(folder+recipeName, f)
	if !r.Daybook.Empty() {
		byNumber := map[int64]int64{}
		for id, number := range numbers {
			byNumber[id] = int64(number)
		}
		p.json(folder+daybookName, r.Daybook.Renamed(byNumber))
	}
	for _, v := range r.Versions {
		p.add(folder+textName(v.Number), []byte(v.Text))
		if v.PanelJSON != "" {
			p.add(folder+panelName(v.Number), []byte(v.PanelJSON))
		}
		if v.PlatesJSON != "" {
			p.add(folder+platesName(v.Number), []byte(v.PlatesJSON))
		}
	}
}

func (p *packer) photos(ctx context.Context, folder string, h kitchen.Holdings, photos []photo.Photo) {
	var list []photoFile
	for _, one := range photos {
		if p.err != nil {
			return
		}
		picture, err := h.Picture(ctx, one)
		if errors.Is(err, kitchen.ErrNotFound) {
			continue
		}
		if err != nil {
			p.err = fmt.Errorf("write archive: %s: %w", folder+photosName, err)
			return
		}
		list = append(list, photoFile{one.Caption, one.Main, one.OnCard, one.AddedAt.UTC()})
		p.add(folder+largeName(len(list)), picture.Large.JPEG)
		p.add(folder+smallName(len(list)), picture.Small.JPEG)
	}
	if len(list) > 0 {
		p.json(folder+photosName, list)
	}
}

func (p *packer) close() error {
	content, err := indented(p.list)
	if err != nil && p.err == nil {
		p.err = fmt.Errorf("write archive: %s: %w", manifestName, err)
	}
	p.put(manifestName, content)
	if err := p.zip.Close(); err != nil && p.err == nil {
		p.err = fmt.Errorf("write archive: %w", err)
	}
	return p.err
}
