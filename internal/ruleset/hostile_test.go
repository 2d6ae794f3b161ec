package ruleset_test

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/stretchr/testify/assert"

	"potwright/internal/ruleset"
	"potwright/rules"
)

// Files made to cost time or memory: each is told with its faults, soon, and nothing
// panics. A file has at most a megabyte.
func hostileFiles(n int) map[string]string {
	var keys, amounts strings.Builder
	for i := range n {
		fmt.Fprintf(&keys, "k%d: 1\n", i)
		fmt.Fprintf(&amounts, "  - {id: a%d}\n", i)
	}
	bomb := "a: &a [x,x,x,x,x,x,x,x,x]\n"
	for c := 'b'; c <= 'p'; c++ {
		bomb += fmt.Sprintf("%c: &%c [*%c,*%c,*%c,*%c,*%c,*%c,*%c,*%c,*%c]\n", c, c, c-1, c-1, c-1, c-1, c-1, c-1, c-1, c-1, c-1)
	}
	return map[string]string{
		"keys without end":       keys.String(),
		"one key again":          strings.Repeat("theme: a\n", 2*n),
		"entries without end":    "theme: a\nrules:\n" + amounts.String(),
		"empty entries":          "theme: a\nrules:\n" + strings.Repeat("  -\n", 4*n),
		"a ladder of lists":      "theme: " + strings.Repeat("[", 500_000),
		"a ladder of mappings":   "theme: " + strings.Repeat("{a: ", 4*n),
		"a ladder of dashes":     strings.Repeat("- ", 400_000) + "x",
		"aliases of aliases":     bomb + "rules: *p\n",
		"an alias of itself":     "theme: a\nrules: &r [*r]\n",
		"merged keys":            "theme: a\nx: &x {id: a}\nrules: [{<<: *x, <<: *x}]\n",
		"a key of a megabyte":    strings.Repeat("k", 1_000_000) + ": 1\n",
		"a word of a megabyte":   "theme: a\nrules: [{do: " + strings.Repeat("w", 1_000_000) + "}]\n",
		"a number of a megabyte": "theme: a\nrules: [{id: a, ratio: " + strings.Repeat("9", 1_000_000) + "}]\n",
		"a number with no end":   "theme: a\nrules: [{id: a, ratio: 1e999999999}]\n",
		"tags":                   "theme: !!binary aGk=\nrules: !!set {a, b}\n",
		"anchors without end":    strings.Repeat("? &a\n", 2*n),
	}
}

func TestHostileFilesAreToldSoon(t *testing.T) {
	check := ruleset.Checker(ruleset.Folder{FS: rules.FS}, stock(t))
	const soon = 5 * time.Second // some take a second with the race detector on
	n := 25_000
	if testing.Short() {
		n = 2_500
	}
	for name, data := range hostileFiles(n) {
		at := time.Now()
		assert.NotEmpty(t, check(ruleset.Folder{FS: fstest.MapFS{"swap/a.yaml": {Data: []byte(data)}}}), name)
		assert.Less(t, time.Since(at), soon, name)
		at = time.Now()
		_, err := ruleset.ReadHousehold(strings.NewReader(data), "a.yaml")
		assert.Error(t, err, name)
		assert.Less(t, time.Since(at), soon, "%s as a household", name)
	}
}
