package ruleset

import (
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"potwright/internal/composition"
	"potwright/internal/household"

	"github.com/stretchr/testify/require"
)

// rows are the foods of the real table by name, kinds and states alone, from the
// lists that the table is made of.
type rows []*composition.Food

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

var realRows = sync.OnceValues(func() (rows, error) {
	files, err := filepath.Glob("../fooddata/names/*.tsv")
	if err != nil {
		return nil, err
	}
	var out rows
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			return nil, err
		}
		for _, line := range strings.Split(string(data), "\n") {
			cols := append(strings.Split(line, "\t"), "", "", "", "")
			if strings.HasPrefix(line, "#") || cols[1] == "" {
				continue
			}
			out = append(out, &composition.Food{ID: cols[0], Name: cols[1],
				Kinds: strings.Fields(cols[2]), States: strings.Fields(cols[3])})
		}
	}
	return out, nil
})

var loadReal = sync.OnceValues(func() (*household.Needs, error) {
	foods, err := realRows()
	if err != nil {
		return nil, err
	}
	files, err := needFiles()
	if err != nil {
		return nil, err
	}
	return loadNeeds(files, foods)
})

func realNeeds(t *testing.T) (*household.Needs, rows) {
	t.Helper()
	foods, err := realRows()
	require.NoError(t, err)
	require.NotEmpty(t, foods)
	needs, err := loadReal()
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
