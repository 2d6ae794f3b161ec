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
	"maps"
	"slices"
	"strings"

	"potwright/internal/diagnostic"
	"potwright/internal/kitchen"
)

// Limits bound what is unpacked, whatever the archive claims of itself.
type Limits struct {
	Files int   // files in it
	File  int64 // bytes of one, unpacked
	Words int64 // bytes of all that is held in memory: all but photos
	Total int64 // bytes of all, unpacked
}

// WholeLimits are those of an archive that someone chose on this computer: a photo takes
// about 400 kB, a version 10 kB.
func WholeLimits() Limits {
	return Limits{Files: 500_000, File: 16 << 20, Words: 1 << 30, Total: 16 << 30}
}

// SentLimits are those of an archive sent to a server.
func SentLimits() Limits {
	return Limits{Files: 50_000, File: 16 << 20, Words: 128 << 20, Total: 1 << 30}
}

// SharedLimits are those of recipes sent to a page: a recipe of ten versions takes
// about 100 kB.
func SharedLimits() Limits {
	return Limits{Files: 2_000, File: 4 << 20, Words: 32 << 20, Total: 32 << 20}
}

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
// program may have added is listed in NotTaken. The files of photos are looked through
// and stay in r: the albums of the holdings read them there.
func Read(r io.ReaderAt, size int64, within Limits) (Archive, error) {
	u := &unpacker{files: map[string]*zip.File{}, within: within, words: within.Words}
	u.index(r, size)
	if len(u.faults) > 0 {
		return Archive{}, u.faults.Err()
	}
	list := u.manifest()
	if len(u.faults) > 0 {
		return Archive{}, u.faults.Err()
	}
	out := u.archive(list)
	for _, name := range slices.Sorted(maps.Keys(u.files)) {
		u.notes = append(u.notes, name+" is not a file that this program knows")
	}
	out.NotTaken = u.notes
	return out, u.faults.Err()
}

// unpacker holds the files of an archive until each is taken, and what is wrong.
type unpacker struct {
	files  map[string]*zip.File
	within Limits
	words  int64 // bytes that may still be held in memory
	// folders are those of households and recipes, in the order of their names, which is
	// that of writing.
	folders map[place][]string
	faults  diagnostic.Faults
	notes   []string
}

func (u *unpacker) fault(file, expected, format string, args ...any) {
	u.faults = append(u.faults, diagnostic.Fault{File: file, Problem: fmt.Sprintf(format, args...), Expected: expected})
}

// index finds every file of the zip. Nothing is written anywhere: a name is never a path
// on this computer. What the archive says of its own length is held against the limits
// here, so that a large one that is honest costs nothing.
func (u *unpacker) index(r io.ReaderAt, size int64) {
	z, err := zip.NewReader(r, size)
	if err != nil && !errors.Is(err, zip.ErrInsecurePath) {
		u.fault("", "a file that potwright export or a recipe's page wrote", "this is not an archive, or its end is missing")
		return
	}
	if len(z.File) > u.within.Files {
		u.fault("", fmt.Sprintf("at most %d", u.within.Files), "the archive holds %d files", len(z.File))
		return
	}
	left := uint64(u.within.Total)
	for _, f := range z.File {
		switch {
		case strings.HasSuffix(f.Name, "/"): // a folder
			continue
		case !fs.ValidPath(f.Name) || strings.Contains(f.Name, `\`) || !f.Mode().IsRegular():
			u.fault(fmt.Sprintf("%.80q", f.Name), "names of plain files below the archive, such as recipes/0001-soup/version-1.txt", "this is no name of a file in an archive")
		case u.files[f.Name] != nil:
			u.fault(f.Name, "each file once", "the file is in the archive twice")
		case f.UncompressedSize64 > min(left, uint64(u.within.File)):
			u.tooMuch(f.Name)
		default:
			left -= f.UncompressedSize64
			u.files[f.Name] = f
			continue
		}
		return
	}
}

func (u *unpacker) tooMuch(name string) {
	u.fault(name, fmt.Sprintf("at most %d bytes a file, %d in all, and %d without photos", u.within.File, u.within.Total, u.within.Words), "the archive holds too much")
}

// sumOf unpacks a file without keeping it, up to the length that it claims: it is read
// once more where it is taken.
func sumOf(f *zip.File) (sum string, err error) {
	r, err := f.Open()
	if err != nil {
		return "", err
	}
	defer r.Close()
	h := sha256.New()
	n, err := io.Copy(h, io.LimitReader(r, int64(f.UncompressedSize64)+1))
	if err == nil && uint64(n) != f.UncompressedSize64 {
		err = zip.ErrFormat
	}
	return hex.EncodeToString(h.Sum(nil)), err
}

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

var errTooLong = errors.New("too long")

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
	u.compare(list.Files)
	delete(u.files, readmeName)
	return list
}

// mostFaults is where looking for more of them ends.
const mostFaults = 50

// compare holds the files against what the manifest lists, each once, and lays aside
// those that it does not list.
func (u *unpacker) compare(list []manifestFile) {
	listed := make(map[string]bool, len(list))
	for _, l := range list {
		if len(u.faults) >= mostFaults {
			return
		}
		f, ok := u.files[l.Name]
		switch {
		case listed[l.Name]:
			u.fault(manifestName, "each file once", "it lists %.80q twice", l.Name)
		case !ok:
			u.fault(l.Name, "the file that the manifest lists", "the file is missing")
		default:
			u.compareOne(f, l)
		}
		listed[l.Name] = true
	}
	for _, name := range slices.Sorted(maps.Keys(u.files)) {
		if !listed[name] {
			u.notes = append(u.notes, name+" is not listed in the manifest")
			delete(u.files, name)
		}
	}
}

func (u *unpacker) compareOne(f *zip.File, l manifestFile) {
	sum, err := sumOf(f)
	switch {
	case err != nil:
		u.unreadable(l.Name)
	case f.UncompressedSize64 != uint64(l.Bytes) || sum != l.SHA256:
		u.fault(l.Name, "the bytes that the manifest lists", "the file is damaged, or was changed after the archive was written")
	}
}

func (u *unpacker) unreadable(name string) {
	u.fault(name, "an archive as it was written", "the file can't be unpacked: it is damaged, or is not as long as it says")
}

// take reads a JSON file and counts it as taken. A field that this program does not
// know is noted, not taken.
func (u *unpacker) take(name string, into any) {
	content := u.content(name)
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

// content is a file's bytes, and counts it as taken; none where there is no such file.
func (u *unpacker) content(name string) []byte {
	f, ok := u.files[name]
	if !ok {
		return nil
	}
	delete(u.files, name)
	content, err := contentOf(f, min(u.words, u.within.File))
	switch {
	case errors.Is(err, errTooLong):
		u.tooMuch(name)
	case err != nil:
		u.unreadable(name)
	}
	u.words -= int64(len(content))
	return content
}

func (u *unpacker) text(name string) string { return string(u.content(name)) }
