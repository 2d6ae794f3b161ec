package archtest

import (
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const module = "potwright/"

// layers, innermost first. A package may import those of lower layers, and of
// its own layer only those that stand before it.
var layers = [][]string{
	{"spread", "diagnostic", "about", "access", "recall"},
	{"certificate", "choice", "measure", "ingredient", "composition", "label", "taste", "photo"},
	{"household", "recipe", "foodmatch", "product"},
	{"nutrient", "daybook", "swap", "portion", "adaptation", "method", "cooking", "keeping", "shopping"},
	{"kitchen"},
	{"fooddata", "ruleset", "schemaorg", "archive", "store", "pages", "api"},
	{"demo", "server", "cli"},
}

// adapters fill an interface of the kitchen each and never import one another.
const adapterLayer = 5

// domainLayers know nothing of web, storage or files.
const domainLayers = 5

var outsideDomain = []string{"net/http", "database/sql", "html/template", "os", "log", "log/slog", "os/exec"}

// homes are the only folders that may import a library.
var homes = map[string][]string{
	"github.com/gin-gonic/gin": {"pages", "server", "api"},
	"gorm.io/gorm":             {"store", "store/sqlite", "store/postgres"},
	"gorm.io/driver/sqlite":    {"store/sqlite"},
	"gorm.io/driver/postgres":  {"store/postgres"},
	"github.com/jackc/pgx/v5":  {"store/postgres"},
	"go.yaml.in/yaml/v4":       {"ruleset"},
	"golang.org/x/net/html":    {"schemaorg"},
	"golang.org/x/image":       {"photo"},
}

type place struct{ layer, order int }

func places() map[string]place {
	out := map[string]place{}
	for l, names := range layers {
		for o, name := range names {
			out[name] = place{l, o}
		}
	}
	return out
}

func TestImportsPointInward(t *testing.T) {
	known := places()
	eachImport(t, func(pkg, file, path string) {
		mine, ok := known[pkg]
		if !assert.True(t, ok, "package %s has no layer in this test", pkg) {
			return
		}
		if !strings.HasPrefix(path, module+"internal/") {
			return
		}
		other := strings.SplitN(strings.TrimPrefix(path, module+"internal/"), "/", 2)[0]
		if other == pkg {
			return
		}
		theirs, ok := known[other]
		assert.True(t, ok, "%s imports %s, which has no layer", file, path)
		inward := theirs.layer < mine.layer || theirs.layer == mine.layer && theirs.order < mine.order
		assert.True(t, inward, "%s: %s must not import %s", file, pkg, other)
		if mine.layer == adapterLayer {
			assert.Less(t, theirs.layer, adapterLayer, "%s: an adapter must not import another", file)
		}
	})
}

func TestTheDomainKnowsNothingOfWebStorageOrFiles(t *testing.T) {
	known := places()
	eachImport(t, func(pkg, file, path string) {
		if known[pkg].layer >= domainLayers {
			return
		}
		assert.False(t, slices.Contains(outsideDomain, path), "%s imports %s", file, path)
		ours := strings.HasPrefix(path, module)
		standard := !strings.Contains(strings.SplitN(path, "/", 2)[0], ".")
		computes := pkg == "access" && path == "golang.org/x/crypto/argon2" || pkg == "photo" && strings.HasPrefix(path, "golang.org/x/image/")
		assert.True(t, ours || standard || computes || strings.HasPrefix(path, "golang.org/x/text/"), "%s imports %s", file, path)
	})
}

func TestEachLibraryHasOneHome(t *testing.T) {
	eachImport(t, func(_, file, path string) {
		for library, allowed := range homes {
			if path == library || strings.HasPrefix(path, strings.TrimSuffix(library, "/")+"/") {
				assert.Contains(t, allowed, filepath.ToSlash(filepath.Dir(file)), "%s imports %s", file, path)
			}
		}
	})
}

// eachImport visits every import of every non-test file under internal.
func eachImport(t *testing.T, visit func(pkg, file, path string)) {
	t.Helper()
	root := ".."
	skip := []string{"archtest", "nocgo", "testkit"}
	err := filepath.WalkDir(root, func(file string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(file, ".go") || strings.HasSuffix(file, "_test.go") {
			return err
		}
		rel, err := filepath.Rel(root, file)
		if err != nil {
			return err
		}
		pkg := strings.Split(filepath.ToSlash(rel), "/")[0]
		if slices.Contains(skip, pkg) || strings.Contains(filepath.ToSlash(rel), "/gen/") {
			return nil
		}
		f, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		for _, imp := range f.Imports {
			visit(pkg, rel, strings.Trim(imp.Path.Value, `"`))
		}
		return nil
	})
	require.NoError(t, err)
}
