package fooddata

import (
	"fmt"
	"io/fs"
	"strconv"
	"strings"

	"potwright/internal/composition"
	"potwright/internal/cooking"
)

const retentionFile = "factor/retention.tsv"

// LoadRetentions parses the embedded USDA Table of Nutrient Retention Factors,
// Release 6. Errors say file and line.
func LoadRetentions() (cooking.Retentions, error) { return loadRetentions(embedded) }

func loadRetentions(files fs.FS) (cooking.Retentions, error) {
	columns, err := retentionColumns(files)
	if err != nil {
		return nil, err
	}
	out := cooking.Retentions{}
	err = eachLine(files, retentionFile, func(line string) error {
		cols := strings.Split(line, "\t")
		if len(cols) != 2+len(columns) {
			return fmt.Errorf("%d columns; expected %d", len(cols), 2+len(columns))
		}
		r := cooking.Retention{Code: cols[0], Name: cols[1]}
		for i, n := range columns {
			if cols[2+i] == "" {
				continue
			}
			percent, err := strconv.Atoi(cols[2+i])
			if err != nil || percent < 0 || percent > 100 {
				return fmt.Errorf("%s %q; expected a whole percentage from 0 to 100", n.Key(), cols[2+i])
			}
			r.Percent[n], r.Known[n] = float64(percent), true
		}
		if _, twice := out[r.Code]; twice {
			return fmt.Errorf("code %s stands twice", r.Code)
		}
		out[r.Code] = r
		return nil
	})
	return out, err
}

// retentionColumns are the nutrients of the table, from its heading.
func retentionColumns(files fs.FS) ([]composition.Nutrient, error) {
	b, err := fs.ReadFile(files, retentionFile)
	if err != nil {
		return nil, err
	}
	_, rest, _ := strings.Cut(string(b), "# code\tname\t")
	heading, _, _ := strings.Cut(rest, "\n")
	var out []composition.Nutrient
	for _, key := range strings.Split(heading, "\t") {
		n, ok := composition.ParseNutrient(key)
		if !ok {
			return nil, fmt.Errorf("%s: heading %q; expected the key of a nutrient", retentionFile, key)
		}
		out = append(out, n)
	}
	return out, nil
}
