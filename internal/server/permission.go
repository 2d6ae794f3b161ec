package server

import (
	"net/http"
	"strings"

	"potwright/internal/access"
	"potwright/internal/api"
)

// open are the routes that nobody needs an account for.
var open = map[string]bool{
	"GET /healthz": true, "GET /static/:file": true, "GET /login": true, "POST /login": true, "GET /share/:secret": true, "GET /share/:secret/photos/:digest/:file": true,
	"GET /api/v1/shared/:secret": true,
}

// permissions are the routes that change something and are not the keeper's alone.
// Whatever stands neither here nor among what is only looked at is the keeper's.
func permissions() map[string]access.Action {
	out := map[string]access.Action{}
	for action, routes := range map[access.Action][]string{
		access.Read:     {"/logout", "/h/:hid/account/passphrase", "/h/:hid/account/sessions/:sid/end", "/h/:hid/sweep/stop"},
		access.LogEaten: {"/h/:hid/day/dish", "/h/:hid/day/food", "/h/:hid/day/entries/:eid", "/h/:hid/freezer/:cid"},
		access.ChangeRecipes: {
			"/h/:hid/recipes/new", "/h/:hid/recipes/file", ofRecipe + "/tags", ofRecipe + "/edit", ofRecipe + "/lines/:line", ofRecipe + "/strays",
			ofRecipe + "/adapt", ofRecipe + "/adapt/never", ofRecipe + "/adapt/save", ofRecipe + "/versions/:vid/again",
			ofRecipe + "/portions", ofRecipe + "/made", ofRecipe + "/made/:made/remove",
			ofRecipe + "/photos", ofRecipe + "/photos/:photo", ofRecipe + "/photos/:photo/remove",
			"/h/:hid/pantry/new", "/h/:hid/pantry/:pid", "/h/:hid/pantry/:pid/remove",
		},
		access.ChangePeople: {"/h/:hid/people", "/h/:hid/people/new", "/h/:hid/people/:mid", "/h/:hid/people/:mid/remove"},
		access.ManageAccounts: {"/h/:hid/accounts/new", "/h/:hid/accounts/:aid", "/h/:hid/accounts/:aid/remove",
			"/h/:hid/tokens/new", "/h/:hid/tokens/:tid/revoke", ofRecipe + "/share", ofRecipe + "/share/:link/revoke"},
		access.StartHousehold: {"/", "/demo"},
	} {
		for _, route := range routes {
			out["POST "+route] = action
		}
	}
	for action, routes := range doorPermissions() {
		for _, route := range routes {
			method, path, _ := strings.Cut(route, " ")
			out[method+" "+doorHousehold+path] = action
		}
	}
	for _, route := range []string{"/households", "/archives", "/demo"} {
		out["POST "+api.Base+route] = access.StartHousehold
	}
	return out
}

// doorPermissions are the routes of the JSON door below a household that change
// something, by what they do.
func doorPermissions() map[access.Action][]string {
	return map[access.Action][]string{
		access.LogEaten: {"POST /day/dish", "POST /day/food", "PUT /entries/:entry_id", "DELETE /entries/:entry_id", "POST /freezer/:container_id/out"},
		access.ChangeRecipes: {"POST /recipes", "POST /recipes/file", "POST /recipes/:recipe_id/versions", "PUT /recipes/:recipe_id/wishes", "PUT /recipes/:recipe_id/tags",
			"POST /recipes/:recipe_id/made", "DELETE /recipes/:recipe_id/made/:made_id",
			"POST /recipes/:recipe_id/photos", "PUT /recipes/:recipe_id/photos/:photo_id", "DELETE /recipes/:recipe_id/photos/:photo_id", "POST /versions/:version_id/adapted", "POST /versions/:version_id/again",
			"POST /versions/:version_id/containers", "PUT /refusals/:rule", "DELETE /refusals/:rule",
			"POST /products", "PUT /products/:product_id", "DELETE /products/:product_id", "PUT /choices/:phrase", "DELETE /choices/:phrase"},
		access.ChangePeople: {"PUT "},
		access.ManageAccounts: {"GET /archive", "GET /accounts", "POST /accounts", "PUT /accounts/:account_id", "DELETE /accounts/:account_id",
			"GET /tokens", "POST /tokens", "DELETE /tokens/:token_id",
			"GET /recipes/:recipe_id/links", "POST /recipes/:recipe_id/links", "DELETE /recipes/:recipe_id/links/:link_id"},
	}
}

const (
	ofRecipe      = "/h/:hid/recipes/:rid"
	doorHousehold = api.Base + "/households/:household_id"
)

// actionOf is what a route does, as the registered pattern names it.
func (d *door) actionOf(method, route string) access.Action {
	if method == http.MethodHead {
		method = http.MethodGet
	}
	if action, ok := d.permissions[method+" "+route]; ok {
		return action
	}
	if method == http.MethodGet && onlyLookedAt(route) {
		return access.Read
	}
	return access.ManageAccounts
}

// onlyLookedAt reports whether getting the route shows something of the household or
// of the rules.
func onlyLookedAt(route string) bool {
	switch route {
	case "/", "/about", "/rules", "/rules/:rule":
		return true
	}
	return strings.HasPrefix(route, "/h/:hid")
}
