// Package fooddata is the food table that the program carries: about three
// thousand kitchen foods as text files, embedded and parsed by Load.
//
// # Where the figures come from
//
// Rows "sr:…" are rows of the USDA National Nutrient Database for Standard
// Reference, Release 28 (Agricultural Research Service, 2015), a work of the
// United States Government in the public domain: nutrients per 100 g edible
// portion, the number of samples, the standard deviation as standard error
// times the root of that number, refuse, and household measures.
//
// The USDA Food and Nutrient Database for Dietary Studies 2017-2018 used newer
// values for some of the same rows. Where it differs from SR28 by over 5 % both
// are kept; for sodium the newer value comes first. Where SR28 is blank and the
// survey is not, the survey's value stands and the row's source says so. Added
// sugars are inferred from the food-pattern equivalents of the same survey
// (teaspoon equivalents × 4.2 g), at most the total sugars.
//
// Rows "pw:…" are our own: what cooks buy and SR28 lacks, made from other rows
// by a recipe written in names/own.tsv together with the source of each figure
// that replaces one of the recipe.
//
// identifier/langual.tsv holds the codes of the thesaurus LanguaL that SR28 gives for
// its rows; the rows' ids are the agency's own numbers.
//
// Names, synonyms, kinds, states and what a bare phrase means are our own and
// stand in names/*.tsv, one file a food group.
//
// # How to make it again
//
// With the USDA files in ../shared/data beside the repository:
//
//	go generate ./internal/fooddata
//
// The same input gives the same bytes. Nothing else reads the USDA files.
package fooddata

//go:generate go run ./gen -data ../../../shared/data
