package main

import (
	"fmt"
	"io"
	"io/fs"
	"maps"
	"slices"
	"strings"

	"potwright/internal/fooddata/usda"
)

// langualFile is written below identifier/, beside the food table.
const langualFile = "langual.tsv"

// langual renders the LanguaL codes that SR28 gives for the rows of the table, one
// line a food.
func langual(data, here fs.FS) ([]byte, error) {
	names, err := readNames(here)
	if err != nil {
		return nil, err
	}
	wanted := map[string]bool{}
	for _, n := range names {
		wanted[n.ndb] = true
	}
	const name = "usda-sr28/LANGUAL.txt"
	codes := map[string][]string{}
	err = within(data, name, func(r io.Reader) error {
		return usda.EachRecord(r, name, usda.Stop, func(f []string) error {
			if len(f) < 2 {
				return fmt.Errorf("%d fields; expected 2", len(f))
			}
			if wanted[f[0]] {
				codes[f[0]] = append(codes[f[0]], f[1])
			}
			return nil
		})
	})
	if err != nil {
		return nil, err
	}
	var b strings.Builder
	b.WriteString("# id\tLanguaL codes (USDA SR28, file LANGUAL)\n")
	for _, ndb := range slices.Sorted(maps.Keys(codes)) {
		slices.Sort(codes[ndb])
		fmt.Fprintf(&b, "sr:%s\t%s\n", ndb, strings.Join(codes[ndb], " "))
	}
	return []byte(b.String()), nil
}
