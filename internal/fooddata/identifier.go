package fooddata

import (
	"embed"
	"strings"

	"potwright/internal/composition"
)

//go:embed identifier/langual.tsv
var identifierFiles embed.FS

// Identifiers are the names by which others know a food; empty where none is known.
type Identifiers struct {
	// NDB is the number in the USDA Standard Reference, such as "01001".
	NDB string `json:"ndb,omitempty"`
	// FDC is the number in USDA FoodData Central.
	FDC string `json:"fdc,omitempty"`
	// LanguaL are the codes of the food description thesaurus LanguaL, a letter for
	// the facet and four digits, as USDA SR28 gives them.
	LanguaL []string `json:"langual,omitempty"`
}

// LanguaL loads the codes of every row of the embedded table that has any, by food
// id. Nothing that computes needs them, so Load does not read them.
func LanguaL() (map[string][]string, error) {
	out := map[string][]string{}
	err := eachLine(identifierFiles, "identifier/langual.tsv", func(line string) error {
		id, codes, _ := strings.Cut(line, "\t")
		out[id] = strings.Fields(codes)
		return nil
	})
	return out, err
}

// IdentifiersOf are the identifiers of a food, with the codes of LanguaL.
func IdentifiersOf(f *composition.Food, langual map[string][]string) Identifiers {
	out := Identifiers{LanguaL: langual[f.ID]}
	if number, ok := strings.CutPrefix(f.ID, "sr:"); ok {
		out.NDB = number
	}
	if number, ok := strings.CutPrefix(f.ID, "fdc:"); ok {
		out.FDC = number
	}
	return out
}
