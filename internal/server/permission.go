package server

import (
	"net/http"
	"strings"

	"potwright/internal/access"
)

// open are the routes that nobody needs an account for.
var open = map[string]bool{
	"GET /healthz": true, "GET /static/:file": true, "GET /login": true, "POST /login": true, "GET /share/:secret": true,
}

// permissions are the routes that change something and are not the keeper's alone.
// Whatever stands neither here nor among what is only looked at is the keeper's.
func permissions() map[string]access.Action {
	out := map[string]access.Action{}
	for action, routes := range map[access.Action][]string{
		access.Read:     {"/logout", "/h/:hid/account/passphrase", "/h/:hid/account/sessions/:sid/end"},
		access.LogEaten: {"/h/:hid/day/dish", "/h/:hid/day/food", "/h/:hid/day/entries/:eid", "/h/:hid/freezer/:cid"},
		access.ChangeRecipes: {
			"/h/:hid/recipes/new", "/h/:hid/recipes/file", ofRecipe + "/tags", ofRecipe + "/edit", ofRecipe + "/lines/:line",
			ofRecipe + "/adapt", ofRecipe + "/adapt/never", ofRecipe + "/adapt/save", ofRecipe + "/versions/:vid/again",
			ofRecipe + "/portions", ofRecipe + "/made", ofRecipe + "/made/:made/remove",
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
	for _, route := range []string{"POST /recipes", "POST /recipes/:recipe_id/versions", "PUT /recipes/:recipe_id/wishes", "POST /versions/:version_id/adapted",
		"POST /products", "PUT /products/:product_id", "DELETE /products/:product_id", "PUT /choices/:phrase", "DELETE /choices/:phrase"} {
		method, path, _ := strings.Cut(route, " ")
		out[method+" "+doorHousehold+path] = access.ChangeRecipes
	}
	out["PUT "+doorHousehold] = access.ChangePeople
	out["POST /api/v1/households"] = access.StartHousehold
	return out
}

const (
	ofRecipe      = "/h/:hid/recipes/:rid"
	doorHousehold = "/api/v1/households/:household_id"
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
