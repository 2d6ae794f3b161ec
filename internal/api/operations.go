package api

import (
	"net/http"

	"potwright/internal/adaptation"
	"potwright/internal/kitchen"
	"potwright/internal/product"
	"potwright/internal/recipe"
)

// operations is everything a caller may ask, in the order of the document.
func operations() []operation {
	groups := [][]operation{aboutOperations(), bookOperations(), householdOperations(), dishOperations(), recipeOperations(), versionOperations(), libraryOperations(), photoOperations(),
		formOperations(), mealOperations(), dayOperations(), freezerOperations(), pantryOperations(), entranceOperations()}
	var out []operation
	for _, g := range groups {
		out = append(out, g...)
	}
	return out
}

const (
	ofHousehold = "/households/:household_id"
	ofChoice    = ofHousehold + "/choices/:phrase"
	ofRecipe    = ofHousehold + "/recipes/:recipe_id"
	ofVersion   = ofHousehold + "/versions/:version_id"
)

func foodParameters() []parameter {
	return []parameter{
		{name: "q", about: "words of the food, the last one may be a beginning", schema: schema{"type": "string"}, required: true},
		{name: "limit", about: "at most so many", schema: schema{"type": "integer", "minimum": 1, "maximum": maxFoods, "default": usualFoods}},
	}
}

func aboutOperations() []operation {
	return []operation{
		{method: http.MethodGet, path: "/openapi.json", id: "describe", summary: "This document", answer: map[string]any{}, status: http.StatusOK,
			do: func(*request) (any, error) { return Document(), nil }},
		{method: http.MethodGet, path: "/foods", id: "searchFoods", summary: "Search the food table", query: foodParameters(), answer: foodList{}, status: http.StatusOK, do: searchFoods},
		{method: http.MethodGet, path: "/foods/:food", id: "findFood", summary: "One food, per 100 g edible portion", answer: foodDocument{}, status: http.StatusOK, do: findFood},
		{method: http.MethodGet, path: "/rules", id: "listRules", summary: "The swap rules in force", answer: ruleList{}, status: http.StatusOK, do: listRules},
		{method: http.MethodGet, path: "/limits", id: "listPublishedLimits", summary: "Published limits to start from; a clinician's figure comes first", answer: presetList{}, status: http.StatusOK, do: listPresets},
	}
}

func householdOperations() []operation {
	return []operation{
		{method: http.MethodGet, path: "/households", id: "listHouseholds", summary: "Every household the caller may see", answer: householdList{}, status: http.StatusOK, do: listHouseholds},
		{method: http.MethodPost, path: "/households", id: "createHousehold", summary: "Start a household", body: householdBody{}, answer: householdAnswer{}, status: http.StatusCreated, changes: true, do: createHousehold},
		{method: http.MethodGet, path: ofHousehold, id: "findHousehold", summary: "One household with its members", answer: householdAnswer{}, status: http.StatusOK, do: findHousehold},
		{method: http.MethodPut, path: ofHousehold, id: "saveHousehold", summary: "Replace a household's settings and members; members keep their ids", body: householdBody{}, answer: householdAnswer{}, status: http.StatusOK, changes: true, state: findHousehold, do: saveHousehold},
	}
}

func dishOperations() []operation {
	return []operation{
		{method: http.MethodPost, path: ofHousehold + "/analyse", id: "analyse", summary: "What a recipe's pot and servings hold", body: dishBody{}, answer: kitchen.AnalysisDocument{}, status: http.StatusOK, do: analyse},
		{method: http.MethodPost, path: ofHousehold + "/check", id: "check", summary: "What a dish means for everyone at the table", body: dishBody{}, answer: kitchen.CheckDocument{}, status: http.StatusOK, do: check},
		{method: http.MethodPost, path: ofHousehold + "/adapt", id: "adapt", summary: "The least change that suits everyone", body: adaptBody{}, answer: kitchen.AdaptDocument{}, status: http.StatusOK, do: adapt},
		{method: http.MethodPost, path: ofHousehold + "/report", id: "report", summary: "Every figure line by line, with its source", body: dishBody{}, answer: kitchen.Account{}, status: http.StatusOK, do: report},
		{method: http.MethodPost, path: ofHousehold + "/tradeoff", id: "tradeoff", summary: "Change of the dish against a figure, point by point", body: tradeoffBody{}, answer: tradeoffAnswer{}, status: http.StatusOK, do: tradeoff},
		{method: http.MethodGet, path: ofHousehold + "/sweep", id: "sweep", summary: "Whether each saved recipe suits the household now", query: append(searchParameters(),
			parameter{name: "swaps", about: "look for swaps where one does not", schema: schema{"type": "boolean", "default": false}}), answer: sweepAnswer{}, status: http.StatusOK, do: sweep},
	}
}

func searchParameters() []parameter {
	return append([]parameter{
		{name: "q", about: "words that all stand in the title, a tag or the newest version's text", schema: schema{"type": "string"}},
		{name: "tag", about: "a tag that it is filed under", schema: schema{"type": "string"}},
	}, partParameters()...)
}

func recipeOperations() []operation {
	return []operation{
		{method: http.MethodGet, path: ofHousehold + "/recipes", id: "listRecipes", summary: "Saved recipes, the one saved last first", query: searchParameters(), answer: recipeList{}, status: http.StatusOK, do: listRecipes},
		{method: http.MethodPost, path: ofHousehold + "/recipes", id: "createRecipe", summary: "Save a recipe as its first version", body: saveBody{}, answer: versionAnswer{}, status: http.StatusCreated, changes: true, do: createRecipe},
		{method: http.MethodGet, path: ofRecipe, id: "findRecipe", summary: "One saved recipe", answer: recipeAnswer{}, status: http.StatusOK, do: findRecipe},
		{method: http.MethodGet, path: ofRecipe + "/versions", id: "listVersions", summary: "A recipe's versions, oldest first", query: partParameters(), answer: versionList{}, status: http.StatusOK, do: listVersions},
		{method: http.MethodPost, path: ofRecipe + "/versions", id: "addVersion", summary: "Save changed text as a further version; the one it was made from is kept", body: addBody{}, answer: versionAnswer{}, status: http.StatusCreated, changes: true, do: addVersion},
		{method: http.MethodGet, path: ofRecipe + "/wishes", id: "findWishes", summary: "What was asked of adaptations of this recipe", answer: adaptation.Wishes{}, status: http.StatusOK, do: findWishes},
		{method: http.MethodPut, path: ofRecipe + "/wishes", id: "saveWishes", summary: "Keep what is asked of adaptations of this recipe", body: adaptation.Wishes{}, answer: adaptation.Wishes{}, status: http.StatusOK, changes: true, state: findWishes, do: saveWishes},
		{method: http.MethodGet, path: ofVersion, id: "findVersion", summary: "One version with its text", answer: versionAnswer{}, status: http.StatusOK, do: findVersion},
		{method: http.MethodPost, path: ofVersion + "/adapted", id: "saveAdapted", summary: "Adapt a version and save the answer as its child", body: saveAdaptedBody{}, answer: versionAnswer{}, status: http.StatusCreated, changes: true, do: saveAdapted},
	}
}

func pantryOperations() []operation {
	return []operation{
		{method: http.MethodGet, path: ofHousehold + "/products", id: "listProducts", summary: "Labels of the pantry", answer: productList{}, status: http.StatusOK, do: listProducts},
		{method: http.MethodPost, path: ofHousehold + "/products", id: "createProduct", summary: "Save a label", body: product.Label{}, answer: product.Product{}, status: http.StatusCreated, changes: true, do: createProduct},
		{method: http.MethodPost, path: ofHousehold + "/products/read", id: "readProduct", summary: "What a label means, without saving it", body: product.Label{}, answer: readingAnswer{}, status: http.StatusOK, do: readProduct},
		{method: http.MethodGet, path: ofHousehold + "/products/:product_id", id: "findProduct", summary: "A label and what it means", answer: keptProduct{}, status: http.StatusOK, do: findProduct},
		{method: http.MethodGet, path: ofHousehold + "/foods", id: "searchOwnFoods", summary: "Search the food table with the household's products in it", query: foodParameters(), answer: foodList{}, status: http.StatusOK, do: searchOwnFoods},
		{method: http.MethodPut, path: ofHousehold + "/products/:product_id", id: "saveProduct", summary: "Replace a label", body: product.Label{}, answer: product.Product{}, status: http.StatusOK, changes: true, state: findProduct, do: saveProduct},
		{method: http.MethodDelete, path: ofHousehold + "/products/:product_id", id: "deleteProduct", summary: "Drop a label; lines tied to it fall back on their words", status: http.StatusNoContent, changes: true, state: findProduct, do: deleteProduct},
		{method: http.MethodGet, path: ofHousehold + "/choices", id: "listChoices", summary: "Remembered corrections by food phrase", answer: choiceList{}, status: http.StatusOK, do: listChoices},
		{method: http.MethodGet, path: ofChoice, id: "findChoice", summary: "What is remembered of a phrase; empty where nothing is", answer: recipe.Correction{}, status: http.StatusOK, do: findChoice},
		{method: http.MethodPut, path: ofChoice, id: "saveChoice", summary: "Remember what a phrase means", body: recipe.Correction{}, answer: recipe.Correction{}, status: http.StatusOK, changes: true, state: findChoice, do: saveChoice},
		{method: http.MethodDelete, path: ofChoice, id: "deleteChoice", summary: "Forget what a phrase means", status: http.StatusNoContent, changes: true, state: findChoice, do: deleteChoice},
	}
}
