package pages

import (
	"testing"

	"github.com/jba/templatecheck"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/web"
)

func TestEveryTemplateFitsItsPage(t *testing.T) {
	vs, err := parseViews(web.Templates)
	require.NoError(t, err)
	pages := map[string]any{
		"home": homePage{}, "about": aboutPage{}, "people": peoplePage{}, "member": memberPage{}, "remove": removePage{}, "recipes": recipesPage{},
		"paste": pastePage{}, "scale": scalePage{}, "recipe": recipePage{}, "line": linePage{}, "table": tablePage{}, "adapt": adaptPage{}, "curve": curvePage{},
		"versions": versionsPage{}, "compare": comparePage{}, "error": errorPage{},
		"rules": rulesPage{}, "rule": rulePage{}, "pantry": pantryPage{}, "product": productPage{}, "productremove": removePage{},
		"sweep": sweepPage{}, "cook": cookPage{}, "shopping": shoppingPage{}, "freezer": portionsPage{}, "cookcard": cardPage{},
		"day": dayPage{}, "logdish": logDishPage{}, "logfood": logFoodPage{}, "dayentry": entryPage{}, "week": weekPage{},
		"stock": freezerPage{}, "takeout": takeOutPage{}, "made": madePage{}, "photos": photosPage{}, "photoremove": removePhotoPage{},
		"login": loginPage{}, "account": accountPage{}, "share": sharePage{},
	}
	for name := range vs {
		t.Run(name, func(t *testing.T) {
			page, ok := pages[name]
			require.True(t, ok, "the page has no struct in this test")
			require.NoError(t, templatecheck.CheckHTML(vs[name].Lookup("layout"), page))
			_, err := vs.render(name, page)
			assert.NoError(t, err, "an empty page renders")
		})
	}
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
