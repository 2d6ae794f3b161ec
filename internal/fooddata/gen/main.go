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
	here := flag.String("fooddata", ".", "the fooddata folder: reads names/, writes table/ and factor/")
	flag.Parse()
	if err := run(*data, *here); err != nil {
		fmt.Fprintln(os.Stderr, "gen:", err)
		os.Exit(1)
	}
}

// run generates every file in memory and then writes the foods below here/table
// and the retention factors below here/factor.
func run(data, here string) error {
	files, err := generate(os.DirFS(data), os.DirFS(here))
	if err != nil {
		return err
	}
	dir := filepath.Join(here, "table")
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	for name, b := range files {
		if err := os.WriteFile(filepath.Join(dir, name), b, 0o644); err != nil {
			return err
		}
	}
	factors, err := retention(os.DirFS(data))
	if err != nil {
		return err
	}
	dir = filepath.Join(here, "factor")
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(dir, retentionFile), factors, 0o644)
}
