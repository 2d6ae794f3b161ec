package archive

import (
	"archive/zip"
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math"
	"slices"
	"strings"

	"potwright/internal/diagnostic"
	"potwright/internal/kitchen"
)

// Limits bound what is unpacked, whatever the archive claims of itself.
type Limits struct {
	Files int   // files in it
	File  int64 // bytes of one, unpacked
	Total int64 // bytes of all, unpacked
}

// WholeLimits are those of an archive read from a file on this computer: a photo takes
// about 400 kB.
func WholeLimits() Limits { return Limits{Files: 500_000, File: 16 << 20, Total: 4 << 30} }

// SentLimits are those of an archive sent to a server: it is held in memory, and photos
// are no shorter packed.
func SentLimits() Limits { return Limits{Files: 50_000, File: 16 << 20, Total: 128 << 20} }

// SharedLimits are those of recipes sent to a page: a recipe of ten versions takes
// about 100 kB.
func SharedLimits() Limits { return Limits{Files: 2_000, File: 4 << 20, Total: 32 << 20} }

// Archive is what an archive holds.
type Archive struct {
	Households []kitchen.Holdings
	// Recipes are those of an archive of recipes alone, with their products.
	Recipes *kitchen.Holdings
	// NotTaken lists what is in the archive and was left aside, in words.
	NotTaken []string
}

// Read reads an archive of size bytes. What keeps it from being taken in whole is
// given as diagnostic.Faults, each with the file inside the archive; what a newer
// program may have added is listed in NotTaken.
func Read(r io.ReaderAt, size int64, within Limits) (Archive, error) {
	u := &unpacker{files: map[string][]byte{}}
	u.unpack(r, size, within)
	if len(u.faults) > 0 {
		return Archive{}, u.faults.Err()
	}
	list := u.manifest()
	if len(u.faults) > 0 {
		return Archive{}, u.faults.Err()
	}
	out := u.archive(list)
	for _, name := range slices.Sorted(keys(u.files)) {
		u.notes = append(u.notes, name+" is not a file that this program knows")
	}
	out.NotTaken = u.notes
	return out, u.faults.Err()
}

func keys(m map[string][]byte) func(func(string) bool) {
	return func(yield func(string) bool) {
		for k := range m {
			if !yield(k) {
				return
			}
		}
	}
}

// unpacker holds the files of an archive until each is taken, and what is wrong.
type unpacker struct {
	files  map[string][]byte
	faults diagnostic.Faults
	notes  []string
}

func (u *unpacker) fault(file, expected, format string, args ...any) {
	u.faults = append(u.faults, diagnostic.Fault{File: file, Problem: fmt.Sprintf(format, args...), Expected: expected})
}

// unpack reads every file of the zip into memory, within limits. Nothing is written
// anywhere: a name is never a path on this computer.
func (u *unpacker) unpack(r io.ReaderAt, size int64, within Limits) {
	z, err := zip.NewReader(r, size)
	if err != nil && !errors.Is(err, zip.ErrInsecurePath) {
		u.fault("", "a file that potwright export or a recipe's page wrote", "this is not an archive, or its end is missing")
		return
	}
	if len(z.File) > within.Files {
		u.fault("", fmt.Sprintf("at most %d", within.Files), "the archive holds %d files", len(z.File))
		return
	}
	left := within.Total
	if claimed(z.File) > uint64(left) {
		u.fault("", fmt.Sprintf("at most %d bytes unpacked", left), "the archive holds too much")
		return
	}
	for _, f := range z.File {
		if strings.HasSuffix(f.Name, "/") {
			continue // a folder
		}
		if !fs.ValidPath(f.Name) || strings.Contains(f.Name, `\`) || !f.Mode().IsRegular() {
			u.fault(fmt.Sprintf("%.80q", f.Name), "names of plain files below the archive, such as recipes/0001-soup/version-1.txt", "this is no name of a file in an archive")
			return
		}
		if _, twice := u.files[f.Name]; twice {
			u.fault(f.Name, "each file once", "the file is in the archive twice")
			return
		}
		content, err := contentOf(f, min(within.File, left))
		if errors.Is(err, errTooLong) {
			u.fault(f.Name, fmt.Sprintf("at most %d bytes a file and %d in all", within.File, within.Total), "the archive holds too much")
			return
		}
		if err != nil {
			u.fault(f.Name, "an archive as it was written", "the file can't be unpacked: it is damaged, or is not as long as it says")
			return
		}
		left -= int64(len(content))
		u.files[f.Name] = content
	}
}

// claimed is how many bytes an archive says it holds, unpacked; so a large one that is
// honest costs no memory.
func claimed(files []*zip.File) (sum uint64) {
	for _, f := range files {
		if f.UncompressedSize64 > math.MaxInt64-sum {
			return math.MaxInt64
		}
		sum += f.UncompressedSize64
	}
	return sum
}

var errTooLong = errors.New("too long")

// contentOf unpacks a file up to most bytes; what the zip says of its length is not
// believed.
func contentOf(f *zip.File, most int64) ([]byte, error) {
	r, err := f.Open()
	if err != nil {
		return nil, err
	}
	defer r.Close()
	content, err := io.ReadAll(io.LimitReader(r, most+1))
	if int64(len(content)) > most {
		return nil, errTooLong
	}
	return content, err
}

// manifest reads the manifest and holds every file against it.
func (u *unpacker) manifest() manifest {
	var list manifest
	if _, ok := u.files[manifestName]; !ok {
		u.fault(manifestName, "an archive that potwright wrote", "there is no manifest")
		return list
	}
	u.take(manifestName, &list)
	switch {
	case len(u.faults) > 0:
		return list
	case list.Format != Format:
		u.fault(manifestName, fmt.Sprintf("%q", Format), "the format is %.60q", list.Format)
	case list.Version > Version || list.Version < 1:
		u.fault(manifestName, fmt.Sprintf("a version up to %d: use a newer program", Version), "the format's version is %d", list.Version)
	case list.Holds != ofHouseholds && list.Holds != ofRecipes:
		u.fault(manifestName, ofHouseholds+" or "+ofRecipes, "it holds %.60q", list.Holds)
	}
	for _, f := range list.Files {
		content, ok := u.files[f.Name]
		sum := sha256.Sum256(content)
		switch {
		case !ok:
			u.fault(f.Name, "the file that the manifest lists", "the file is missing")
		case len(content) != f.Bytes || hex.EncodeToString(sum[:]) != f.SHA256:
			u.fault(f.Name, "the bytes that the manifest lists", "the file is damaged, or was changed after the archive was written")
		}
	}
	for _, name := range slices.Sorted(keys(u.files)) {
		if !slices.ContainsFunc(list.Files, func(f manifestFile) bool { return f.Name == name }) {
			u.notes = append(u.notes, name+" is not listed in the manifest")
			delete(u.files, name)
		}
	}
	delete(u.files, readmeName)
	return list
}

// take reads a JSON file and counts it as taken. A field that this program does not
// know is noted, not taken.
func (u *unpacker) take(name string, into any) {
	content := u.files[name]
	delete(u.files, name)
	strict := json.NewDecoder(bytes.NewReader(content))
	strict.DisallowUnknownFields()
	err := strict.Decode(into)
	if err == nil {
		return
	}
	field, unknown := strings.CutPrefix(err.Error(), "json: unknown field ")
	if unknown && json.Unmarshal(content, into) == nil {
		u.notes = append(u.notes, fmt.Sprintf("%s: the field %s, and perhaps others, is not known to this program", name, field))
		return
	}
	f := diagnostic.JSON(content, err)
	if f.File = name; f.Expected == "" {
		f.Expected = "JSON as the README in the archive describes it"
	}
	u.faults = append(u.faults, f)
}

func (u *unpacker) content(name string) []byte {
	content := u.files[name]
	delete(u.files, name)
	return content
}

func (u *unpacker) text(name string) string { return string(u.content(name)) }
