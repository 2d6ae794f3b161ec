package pages

import (
	"io/fs"
	"path"
	"strings"
	"testing"

	"github.com/jba/templatecheck"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/web"
)

func TestEveryTemplateFitsItsPage(t *testing.T) {
	vs, err := parseViews(web.Templates)
	require.NoError(t, err)
	pages := map[string]framed{
		"home": homePage{}, "about": aboutPage{}, "people": peoplePage{}, "member": memberPage{}, "remove": removePage{}, "recipes": recipesPage{},
		"paste": pastePage{}, "scale": scalePage{}, "recipe": recipePage{}, "line": linePage{}, "table": tablePage{}, "adapt": adaptPage{}, "curve": curvePage{},
		"versions": versionsPage{}, "compare": comparePage{}, "error": errorPage{},
		"rules": rulesPage{}, "rule": rulePage{}, "pantry": pantryPage{}, "product": productPage{}, "productremove": removePage{},
		"sweep": sweepPage{}, "cook": cookPage{}, "shopping": shoppingPage{}, "freezer": portionsPage{}, "cookcard": cardPage{},
		"day": dayPage{}, "logdish": logDishPage{}, "logfood": logFoodPage{}, "dayentry": entryPage{}, "gone": gonePage{}, "week": weekPage{},
		"stock": freezerPage{}, "takeout": takeOutPage{}, "made": madePage{}, "photos": photosPage{}, "photoremove": removePhotoPage{},
		"login": loginPage{}, "account": accountPage{}, "share": sharePage{},
	}
	files, err := fs.Glob(web.Templates, "templates/*.html")
	require.NoError(t, err)
	require.NoError(t, templatecheck.CheckHTML(vs.all.Lookup("layout"), laid{}))
	for _, file := range files {
		name := strings.TrimSuffix(path.Base(file), ".html")
		own := vs.all.Lookup(named(name))
		if own == nil {
			continue // parts that pages share
		}
		t.Run(name, func(t *testing.T) {
			page, ok := pages[name]
			require.True(t, ok, "the page has no struct in this test")
			require.NoError(t, templatecheck.CheckHTML(own, page))
			_, err := vs.render(name, page)
			assert.NoError(t, err, "an empty page renders")
			delete(pages, name)
		})
	}
	assert.Empty(t, pages, "structs without a template")
}

func TestEveryErrorStatusHasItsPage(t *testing.T) {
	vs, err := parseViews(web.Templates)
	require.NoError(t, err)
	pages, err := renderErrors(vs)
	require.NoError(t, err)
	for status, w := range errorWords() {
		assert.Contains(t, string(pages[status]), w[0])
	}
}
