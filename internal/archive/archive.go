// Package archive writes what households keep as one readable file and reads it
// back: a zip of plain text and JSON with a manifest, described by the README.txt
// inside it. It fills no interface of the kitchen; it turns kitchen.Holdings into
// bytes and back, exactly.
package archive

import (
	_ "embed"
	"encoding/json"
	"fmt"
	"strings"
	"time"

	"potwright/internal/adaptation"
	"potwright/internal/kitchen"
	"potwright/internal/recipe"
)

// Format and Version name what this package writes. A reader refuses a higher
// version; one that only adds files or fields keeps the number, and an older reader
// lists what it did not take.
const (
	Format  = "potwright archive"
	Version = 1
)

// What an archive holds.
const (
	ofHouseholds = "households"
	ofRecipes    = "recipes"
)

const (
	manifestName = "manifest.json"
	readmeName   = "README.txt"
)

//go:embed README.txt
var readme string

// manifest is manifest.json.
type manifest struct {
	Format    string         `json:"format"`
	Version   int            `json:"version"`
	WrittenAt time.Time      `json:"written_at"`
	Holds     string         `json:"holds"`
	Files     []manifestFile `json:"files"`
}

type manifestFile struct {
	Name   string `json:"name"`
	Bytes  int    `json:"bytes"`
	SHA256 string `json:"sha256"`
}

// section is a JSON file of a household's folder. What a household keeps beside its
// recipes is a section each: a new one is a field of kitchen.Holdings and a line
// here.
type section struct {
	file string
	// at points at the part of the holdings that the file holds.
	at func(*kitchen.Holdings) any
	// shared is set where the section also goes with recipes given away.
	shared bool
}

func sections() []section {
	return []section{
		{"household.json", func(h *kitchen.Holdings) any { return &h.Household }, false},
		{"choices.json", func(h *kitchen.Holdings) any { return &h.Choices }, false},
		{"products.json", func(h *kitchen.Holdings) any { return &h.Products }, true},
		{"refusals.json", func(h *kitchen.Holdings) any { return &h.Refusals }, false},
		{"eaten.json", func(h *kitchen.Holdings) any { return &h.Eaten }, false},
	}
}

// recipeFile is recipe.json.
type recipeFile struct {
	Title     string             `json:"title"`
	CreatedAt time.Time          `json:"created_at"`
	Wishes    *adaptation.Wishes `json:"wishes"`
	Tags      []string           `json:"tags,omitempty"`
	Versions  []versionFile      `json:"versions"`
}

// versionFile is a version in recipe.json; its text stands in a file of its own.
type versionFile struct {
	Number      int                     `json:"number"`
	Parent      int                     `json:"parent"` // number of the version it was made from; 0 for the first
	SavedAt     time.Time               `json:"saved_at"`
	Note        string                  `json:"note"`
	Corrections []recipe.LineCorrection `json:"corrections"`
	// Fixes are corrections by the number of their line, as archives held them before.
	Fixes   map[int]recipe.Correction `json:"fixes,omitempty"`
	Changes []recipe.Change           `json:"changes"`
}

const (
	recipeName  = "recipe.json"
	daybookName = "daybook.json"
	photosName  = "photos.json"
)

// photoFile is a photo in photos.json; its pictures stand in files of their own, which
// tell its size and digest.
type photoFile struct {
	Caption string    `json:"caption"`
	Main    bool      `json:"main"`
	OnCard  bool      `json:"on_card"`
	AddedAt time.Time `json:"added_at"`
}

// names of a photo's files in its recipe's folder.
func largeName(number int) string { return fmt.Sprintf("photo-%d.jpg", number) }
func smallName(number int) string { return fmt.Sprintf("photo-%d.small.jpg", number) }

// names of a version's files in its recipe's folder.
func textName(number int) string   { return fmt.Sprintf("version-%d.txt", number) }
func panelName(number int) string  { return fmt.Sprintf("version-%d.panel.json", number) }
func platesName(number int) string { return fmt.Sprintf("version-%d.plates.json", number) }

// folderName is a folder that a person recognises: the number keeps it apart, the
// letters and digits of the title that every file system takes tell what it is.
func folderName(digits, number int, title string) string {
	const longest = 40
	var b strings.Builder
	for _, r := range strings.ToLower(title) {
		switch {
		case b.Len() >= longest:
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
	}
	return strings.TrimSuffix(fmt.Sprintf("%0*d-%s", digits, number, b.String()), "-")
}

// indented writes JSON for people to read, with its own characters.
func indented(v any) ([]byte, error) {
	var b strings.Builder
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	err := enc.Encode(v)
	return []byte(b.String()), err
}
