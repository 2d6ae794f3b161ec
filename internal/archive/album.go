package archive

import (
	"archive/zip"
	"context"
	"fmt"

	"potwright/internal/kitchen"
	"potwright/internal/photo"
)

// album finds the files of a household's photos in the archive by their digests.
type album map[string]files

// files are those of one photo; nil where one is missing.
type files struct {
	large, small *zip.File
	most         int64 // bytes of each
}

// Picture unpacks a photo.
func (a album) Picture(_ context.Context, digest string) (photo.Picture, error) {
	f, ok := a[digest]
	if !ok {
		return photo.Picture{}, fmt.Errorf("photo %.12s: %w in the archive", digest, kitchen.ErrNotFound)
	}
	return f.open()
}

func (f files) open() (photo.Picture, error) {
	var content [2][]byte
	for i, one := range []*zip.File{f.large, f.small} {
		if one == nil {
			continue // photo.Kept says that there is no picture
		}
		var err error
		if content[i], err = contentOf(one, f.most); err != nil {
			return photo.Picture{}, fmt.Errorf("unpack %s: %w", one.Name, err)
		}
	}
	return photo.Kept(content[0], content[1])
}

// picture takes the files of a photo out of those of the archive.
func (u *unpacker) picture(folder string, number int) files {
	large, small := folder+largeName(number), folder+smallName(number)
	f := files{u.files[large], u.files[small], u.within.File}
	delete(u.files, large)
	delete(u.files, small)
	return f
}
