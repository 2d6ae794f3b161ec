package ingredient_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/ingredient"
	"potwright/internal/measure"
)

var update = flag.Bool("update", false, "write the golden files anew")

// describe writes a reading on one line, for people to review.
func describe(r ingredient.Reading) string {
	var b strings.Builder
	if r.HasAmount {
		b.WriteString(amount(r.Amount))
	}
	if r.HasContainer {
		b.WriteString(" of " + amount(r.Container))
	}
	for _, o := range r.Other {
		b.WriteString(" = " + amount(o))
	}
	if r.Size != "" {
		b.WriteString(" <" + r.Size + ">")
	}
	fmt.Fprintf(&b, " '%s'", r.Food)
	list(&b, " states", r.States)
	list(&b, " preparation", r.Preparation)
	for _, flagged := range []struct {
		on   bool
		name string
	}{{r.Optional, " optional"}, {r.ToTaste, " without amount"}, {r.PlusMore, " plus more"}} {
		if flagged.on {
			b.WriteString(flagged.name)
		}
	}
	if r.UseOf != "" {
		b.WriteString(" use: " + r.UseOf)
	}
	for _, a := range r.Alternatives {
		b.WriteString(" or {" + describe(a) + "}")
	}
	for _, a := range r.Together {
		b.WriteString(" and {" + describe(a) + "}")
	}
	for _, n := range r.Notes {
		b.WriteString(" # " + n)
	}
	return strings.TrimSpace(b.String())
}

func amount(a ingredient.Amount) string {
	text := measure.Format(a.Quantity, a.Unit)
	if a.Unit.Name == "each" {
		text += " each"
	}
	return text
}

func list(b *strings.Builder, name string, items []string) {
	if len(items) > 0 {
		fmt.Fprintf(b, "%s [%s]", name, strings.Join(items, "; "))
	}
}

func TestLinesReadAsReviewed(t *testing.T) {
	files, err := filepath.Glob("testdata/lines/*.txt")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			text, err := os.ReadFile(file)
			require.NoError(t, err)
			var got strings.Builder
			for _, line := range strings.Split(strings.TrimSuffix(string(text), "\n"), "\n") {
				got.WriteString(line + "\n    " + describe(ingredient.Read(line)) + "\n")
			}
			golden := strings.TrimSuffix(file, ".txt") + ".golden"
			if *update {
				require.NoError(t, os.WriteFile(golden, []byte(got.String()), 0o644))
			}
			want, err := os.ReadFile(golden)
			require.NoError(t, err)
			assert.Equal(t, string(want), got.String())
		})
	}
}
