package pages

import (
	"fmt"
	"strconv"
	"strings"

	"potwright/internal/kitchen"
)

// dishChoice is what of a household's dishes may be ticked besides those that are.
type dishChoice struct {
	Rest []tick
	// More says how many fold out, and Open unfolds them from the start.
	More string
	Open bool
	// Find looks for dishes by their titles; without a name where all are listed.
	Find entry
}

const (
	// mostOffered is how many dishes are offered at once, and fewDishes how many
	// need no folding.
	mostOffered = 40
	fewDishes   = 8
)

// offerDishes parts a household's dishes, newest first, into those ticked and those
// offered besides: the newest, or those whose titles hold every word of find.
func offerDishes(list []kitchen.RecipeSummary, ticked func(kitchen.RecipeSummary) bool, find string) (chosen []kitchen.RecipeSummary, besides dishChoice) {
	words := strings.Fields(strings.ToLower(find))
	found := 0
	for _, r := range list {
		if ticked(r) {
			chosen = append(chosen, r)
			continue
		}
		if !holdsAll(strings.ToLower(r.Title), words) {
			continue
		}
		if found++; found <= mostOffered {
			besides.Rest = append(besides.Rest, dishTick(r, false))
		}
	}
	switch {
	case find != "":
		besides.More = countWords(found, "dish has these words", "dishes have these words")
	case found > 0:
		besides.More = countWords(found, "more dish to choose from", "more dishes to choose from")
	}
	if found > mostOffered {
		besides.More += fmt.Sprintf("; the newest %d are listed", mostOffered)
	}
	if find != "" || found > mostOffered {
		besides.Find = entry{Name: "find", Label: "Look for a dish", Hint: "Words of its title; what is ticked stays.", Value: find, Mode: "search", Max: 200}
	}
	besides.Open = find != "" || len(chosen) == 0 || found <= fewDishes
	return chosen, besides
}

// holdsAll reports whether a text holds every word.
func holdsAll(text string, words []string) bool {
	for _, w := range words {
		if !strings.Contains(text, w) {
			return false
		}
	}
	return true
}

// dishTick is the box of one dish.
func dishTick(r kitchen.RecipeSummary, on bool) tick {
	return tick{Name: "dish", Value: strconv.FormatInt(r.ID, 10), Label: r.Title, On: on}
}
