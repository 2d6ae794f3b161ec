package server_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"potwright/internal/api"
)

// operationsOf says for each route of a page which operations of the JSON door do what
// it does. A route that stands in no line fails the test below: a new page brings its
// operation. What stands behind "-" is why there is none.
func operationsOf() map[string]string {
	return map[string]string{
		"GET /healthz":       "- for whoever watches the server",
		"GET /static/:file":  "- part of the pages themselves",
		"GET /login":         "- a client has a token",
		"POST /login":        "- a client has a token",
		"POST /logout":       "- a token is revoked",
		"GET /":              "listHouseholds",
		"POST /":             "createHousehold",
		"POST /demo":         "startDemo",
		"GET /about":         "about",
		"GET /share/:secret": "findShared",

		"GET /rules": "listRules listRulebook listPublishedLimits", "GET /rules/:rule": "listRules listRulebook",
		"GET /h/:hid/rules": "listRules listRulebook", "GET /h/:hid/rules/:rule": "listRules listRulebook",

		"GET /h/:hid":              "findHousehold",
		"GET /h/:hid/table":        "check adapt sumMeal",
		"GET /h/:hid/sweep":        "sweep",
		"POST /h/:hid/sweep/stop":  "- a client ends its request",
		"GET /h/:hid/people":       "findHousehold",
		"POST /h/:hid/people":      "saveHousehold",
		"GET /h/:hid/people/new":   "listPublishedLimits listRulebook",
		"POST /h/:hid/people/new":  "saveHousehold",
		"GET /h/:hid/people/:mid":  "findHousehold",
		"POST /h/:hid/people/:mid": "saveHousehold", "GET /h/:hid/people/:mid/remove": "findHousehold", "POST /h/:hid/people/:mid/remove": "saveHousehold",

		"GET /h/:hid/pantry": "listProducts", "GET /h/:hid/pantry/new": "searchFoods", "POST /h/:hid/pantry/new": "createProduct readProduct",
		"GET /h/:hid/pantry/:pid": "findProduct", "POST /h/:hid/pantry/:pid": "saveProduct readProduct",
		"GET /h/:hid/pantry/:pid/remove": "findProduct", "POST /h/:hid/pantry/:pid/remove": "deleteProduct",

		"GET /h/:hid/account": "whoAmI listAccounts listTokens", "POST /h/:hid/account/passphrase": "- a client has a token; a keeper resets by saveAccount",
		"POST /h/:hid/account/sessions/:sid/end": "- sessions are of browsers",
		"POST /h/:hid/accounts/new":              "createAccount", "POST /h/:hid/accounts/:aid": "saveAccount", "POST /h/:hid/accounts/:aid/remove": "deleteAccount",
		"POST /h/:hid/tokens/new": "createToken", "POST /h/:hid/tokens/:tid/revoke": "deleteToken",

		"GET /h/:hid/recipes": "listRecipes listTags sweep", "GET /h/:hid/recipes/new": "analyse", "POST /h/:hid/recipes/new": "createRecipe findAlike",
		"POST /h/:hid/recipes/file":      "takeRecipes",
		"GET /h/:hid/recipes/:rid":       "findRecipe findVersion analyse check findTags findClaims listMade",
		"POST /h/:hid/recipes/:rid/tags": "saveTags",
		"GET /h/:hid/recipes/:rid/edit":  "findVersion", "POST /h/:hid/recipes/:rid/edit": "addVersion",
		"GET /h/:hid/recipes/:rid/scale":       "scale",
		"GET /h/:hid/recipes/:rid/lines/:line": "analyse searchOwnFoods findChoice", "POST /h/:hid/recipes/:rid/lines/:line": "addVersion saveChoice deleteChoice listChoices",
		"POST /h/:hid/recipes/:rid/strays": "addVersion",
		"GET /h/:hid/recipes/:rid/adapt":   "adapt findWishes listMade", "POST /h/:hid/recipes/:rid/adapt": "saveWishes",
		"POST /h/:hid/recipes/:rid/adapt/never": "refuse allowAgain listRefusals", "POST /h/:hid/recipes/:rid/adapt/save": "saveAdapted",
		"GET /h/:hid/recipes/:rid/adapt/curve": "tradeoff",
		"GET /h/:hid/recipes/:rid/versions":    "listVersions listMade", "GET /h/:hid/recipes/:rid/versions/:vid": "findVersion report",
		"POST /h/:hid/recipes/:rid/versions/:vid/again": "takeUpAgain", "GET /h/:hid/recipes/:rid/compare": "compareVersions",
		"GET /h/:hid/recipes/:rid/versions/:vid/text":     "exportText",
		"GET /h/:hid/recipes/:rid/versions/:vid/figures":  "report exportFigures exportFiguresText",
		"GET /h/:hid/recipes/:rid/versions/:vid/jsonld":   "exportJSONLD",
		"GET /h/:hid/recipes/:rid/versions/:vid/markdown": "exportMarkdown",
		"GET /h/:hid/recipes/:rid/file":                   "exportRecipe",
		"GET /h/:hid/recipes/:rid/cook":                   "cook", "GET /h/:hid/recipes/:rid/card": "check cook",
		"GET /h/:hid/recipes/:rid/portions": "divide", "POST /h/:hid/recipes/:rid/portions": "putInFreezer",
		"GET /h/:hid/recipes/:rid/made": "listMade", "POST /h/:hid/recipes/:rid/made": "saveMade", "POST /h/:hid/recipes/:rid/made/:made/remove": "deleteMade",
		"GET /h/:hid/recipes/:rid/photos": "listPhotos", "POST /h/:hid/recipes/:rid/photos": "addPhoto", "POST /h/:hid/recipes/:rid/photos/:photo": "savePhoto",
		"GET /h/:hid/recipes/:rid/photos/:photo/remove": "findPhoto", "POST /h/:hid/recipes/:rid/photos/:photo/remove": "deletePhoto",
		"GET /h/:hid/photos/:digest/:file": "findPhotoFile", "GET /share/:secret/photos/:digest/:file": "- part of the card that a link shows",
		"GET /h/:hid/recipes/:rid/share": "listLinks", "POST /h/:hid/recipes/:rid/share": "createLink", "POST /h/:hid/recipes/:rid/share/:link/revoke": "deleteLink",

		"GET /h/:hid/shopping": "shop",
		"GET /h/:hid/day":      "findDay", "GET /h/:hid/week": "findWeek",
		"GET /h/:hid/day/dish": "listRecipes", "POST /h/:hid/day/dish": "logDish", "GET /h/:hid/day/food": "searchOwnFoods findFood", "POST /h/:hid/day/food": "logFood",
		"GET /h/:hid/day/entries/:eid": "findEntry", "POST /h/:hid/day/entries/:eid": "moveEntry deleteEntry",
		"GET /h/:hid/freezer": "listFreezer", "GET /h/:hid/freezer/:cid": "findContainer", "POST /h/:hid/freezer/:cid": "takeOut",
	}
}

var documentName = regexp.MustCompile(`\{([a-z_]+)\}`)

// described are the operations of the document: the route of each by its id.
func described() map[string]string {
	out := map[string]string{}
	for path, item := range api.Document()["paths"].(map[string]any) {
		for method, op := range item.(map[string]any) {
			out[op.(map[string]any)["operationId"].(string)] = strings.ToUpper(method) + " " + documentName.ReplaceAllString(path, ":$1")
		}
	}
	return out
}

func TestWhatAPageDoesTheJSONDoorDoes(t *testing.T) {
	s := newStreet(t)
	done, known, named := operationsOf(), described(), map[string]bool{}
	routes := map[string]bool{}
	for _, r := range s.routes {
		route := r.Method + " " + r.Path
		routes[route] = true
		if strings.HasPrefix(r.Path, api.Base) || r.Path == "/h/:hid/novel" {
			continue
		}
		ids, ok := done[route]
		assert.True(t, ok, "%s is a page; name in operationsOf what does the same at the JSON door", route)
		if why, none := strings.CutPrefix(ids, "- "); none {
			assert.NotEmpty(t, why, route)
			continue
		}
		for _, id := range strings.Fields(ids) {
			assert.Contains(t, known, id, route)
			named[id] = true
		}
	}
	for route := range done {
		assert.True(t, routes[route], "%s is no page any more", route)
	}
	beyond := []string{"describe", "exportHousehold", "takeHouseholds"} // of the command line
	for id, route := range known {
		assert.True(t, routes[route], "%s is described and not served: %s", id, route)
		assert.True(t, named[id] || slices.Contains(beyond, id), "%s does what no page does", id)
		delete(routes, route)
	}
	for route := range routes {
		assert.False(t, strings.Contains(route, " "+api.Base), "%s is served and not described", route)
	}
}
