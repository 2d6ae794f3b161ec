package ruleset

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"potwright/internal/composition"
	"potwright/internal/household"

	"github.com/stretchr/testify/require"
)

// rows are the foods of the real table by name, kinds and states alone, from the
// lists that the table is made of.
type rows []*composition.Food

func (r rows) Foods() []*composition.Food { return r }

func (r rows) find(t *testing.T, name string) *composition.Food {
	t.Helper()
	for _, f := range r {
		if f.Name == name {
			return f
		}
	}
	require.Fail(t, "no such food", name)
	return nil
}

func realRows(t *testing.T) rows {
	t.Helper()
	files, err := filepath.Glob("../fooddata/names/*.tsv")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	var out rows
	for _, file := range files {
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		for _, line := range strings.Split(string(data), "\n") {
			cols := append(strings.Split(line, "\t"), "", "", "", "")
			if strings.HasPrefix(line, "#") || cols[1] == "" {
				continue
			}
			out = append(out, &composition.Food{ID: "sr:" + cols[0], Name: cols[1],
				Kinds: strings.Fields(cols[2]), States: strings.Fields(cols[3])})
		}
	}
	return out
}

func realNeeds(t *testing.T) (*household.Needs, rows) {
	t.Helper()
	foods := realRows(t)
	needs, err := LoadNeeds(os.DirFS("../../rules"), foods)
	require.NoError(t, err)
	return needs, foods
}

func TestTheRealNeedsLoadWithoutAFault(t *testing.T) {
	needs, _ := realNeeds(t)
	require.Greater(t, len(needs.AvoidRules()), 20)
	require.Greater(t, len(needs.Features()), 15)
	require.Greater(t, len(needs.Presets()), 15)
	require.NotEmpty(t, needs.Plans())
}
