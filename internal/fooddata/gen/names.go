package main

import (
	"bufio"
	"fmt"
	"io/fs"
	"path"
	"strings"
)

// named is one line of names/*.tsv: what we call a row of SR28 and how it is
// told from its siblings.
type named struct {
	file                    string
	line                    int
	ndb, name               string
	kinds, states, synonyms []string
	defaults                string
}

// Files of names/ that hold no names of SR28 rows.
const (
	ownFile   = "own.tsv"
	extraFile = "measures.tsv"
)

// readNames reads the names of SR28 rows in names/*.tsv, in file order.
func readNames(here fs.FS) ([]named, error) {
	files, err := fs.Glob(here, "names/*.tsv")
	if err != nil {
		return nil, err
	}
	var out []named
	seen := map[string]string{}
	for _, name := range files {
		if base := path.Base(name); base == ownFile || base == extraFile {
			continue
		}
		err := eachLine(here, name, 6, func(line int, f []string) error {
			if was, dup := seen[f[0]]; dup {
				return fmt.Errorf("food %s stands twice, first as %q", f[0], was)
			}
			seen[f[0]] = f[1]
			out = append(out, named{path.Base(name), line, f[0], f[1],
				strings.Fields(f[2]), strings.Fields(f[3]), list(f[4]), f[5]})
			return nil
		})
		if err != nil {
			return nil, err
		}
	}
	return out, nil
}

// eachLine calls f with the tab-separated fields of every line that is neither
// empty nor a comment.
func eachLine(here fs.FS, name string, fields int, f func(line int, fields []string) error) error {
	file, err := here.Open(name)
	if err != nil {
		return err
	}
	defer file.Close()
	sc := bufio.NewScanner(file)
	for line := 1; sc.Scan(); line++ {
		text := sc.Text()
		if text == "" || strings.HasPrefix(text, "#") {
			continue
		}
		cells := strings.Split(text, "\t")
		if len(cells) != fields {
			return fmt.Errorf("%s:%d: %d fields; expected %d", name, line, len(cells), fields)
		}
		if err := f(line, cells); err != nil {
			return fmt.Errorf("%s:%d: %w", name, line, err)
		}
	}
	return sc.Err()
}

// list splits "a; b; c".
func list(s string) []string {
	var out []string
	for _, x := range strings.Split(s, ";") {
		if x = strings.TrimSpace(x); x != "" {
			out = append(out, x)
		}
	}
	return out
}
