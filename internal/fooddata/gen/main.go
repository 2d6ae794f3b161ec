// Command gen writes the embedded food table from the USDA files and the
// curated names beside it. Same input, same bytes.
package main

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
)

func main() {
	data := flag.String("data", "../../../shared/data", "folder with the USDA files")
	here := flag.String("fooddata", ".", "the fooddata folder: reads names/, writes table/, factor/ and identifier/")
	flag.Parse()
	if err := run(*data, *here); err != nil {
		fmt.Fprintln(os.Stderr, "gen:", err)
		os.Exit(1)
	}
}

// run generates every file in memory and then writes the foods below here/table,
// the retention factors below here/factor and the LanguaL codes below
// here/identifier.
func run(data, here string) error {
	usda, names := os.DirFS(data), os.DirFS(here)
	table, err := generate(usda, names)
	if err != nil {
		return err
	}
	factors, err := retention(usda)
	if err != nil {
		return err
	}
	codes, err := langual(usda, names)
	if err != nil {
		return err
	}
	folders := map[string]map[string][]byte{
		"table": table, "factor": {retentionFile: factors}, "identifier": {langualFile: codes},
	}
	for folder, files := range folders {
		dir := filepath.Join(here, folder)
		if err := os.MkdirAll(dir, 0o755); err != nil {
			return err
		}
		for name, b := range files {
			if err := os.WriteFile(filepath.Join(dir, name), b, 0o644); err != nil {
				return err
			}
		}
	}
	return nil
}
