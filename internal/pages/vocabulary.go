package pages

import (
	"strings"

	"potwright/internal/composition"
	"potwright/internal/household"
)

// loads are the hand loads a cook may be spared, with their words.
func loads() []option {
	return options("", "fine_knife_work", "fine knife work", "grip", "a firm grip", "pinch", "pinching with the fingertips",
		"tight_twist", "twisting tight lids and tools", "lift", "lifting", "long_stirring", "long stirring",
		"pour_hot_liquid", "pouring hot liquid")
}

// vocabulary is what members may avoid and shun, from the book of needs.
type vocabulary struct {
	avoid, features []option
}

func newVocabulary(n *household.Needs) vocabulary {
	var v vocabulary
	for _, r := range n.AvoidRules() {
		v.avoid = append(v.avoid, option{Value: r.ID, Label: r.Title})
	}
	for _, f := range n.Features() {
		v.features = append(v.features, option{Value: f.ID, Label: f.Title})
	}
	return v
}

// levels are the texture levels for food, by their IDDSI names (framework 2.0,
// July 2019); Potwright is not affiliated with IDDSI.
func levels(chosen string) []option {
	return options(chosen, "", "no texture need", "7", "level 7: regular, with features to avoid",
		"6", "level 6: soft and bite-sized", "5", "level 5: minced and moist", "4", "level 4: puréed", "3", "level 3: liquidised")
}

func periods(chosen household.Period) []option {
	return options(string(chosen), "meal", "a meal", "day", "a day", "serving", "a serving")
}

func setters(chosen household.SetBy) []option {
	return options(string(chosen), "clinician", "a clinician set it", "guidance", "published guidance", "own_choice", "own choice")
}

// nutrientOptions lists every nutrient with its unit after an empty choice.
func nutrientOptions(chosen string) []option {
	os := []option{{Value: "", Label: "–", On: chosen == ""}}
	for _, n := range composition.Nutrients() {
		os = append(os, option{n.Key(), n.Name() + ", " + n.Unit(), n.Key() == chosen})
	}
	return os
}

// labelOf is a value's own words in a list; a value that is not in it is shown
// as it is, readable.
func labelOf(value string, os []option) string {
	for _, o := range os {
		if o.Value == value {
			return o.Label
		}
	}
	return readableKey(value)
}

// readableKey is a key as words: "kind:cured_meat" is cured meat.
func readableKey(key string) string {
	return strings.ReplaceAll(strings.TrimPrefix(strings.TrimPrefix(key, "food:"), "kind:"), "_", " ")
}

// ticks makes boxes of a list, those of on ticked.
func ticks(name string, os []option, on []string) []tick {
	var ts []tick
	for _, o := range os {
		ts = append(ts, tick{Name: name, Value: o.Value, Label: o.Label, On: contains(on, o.Value)})
	}
	return ts
}

func contains(list []string, x string) bool {
	for _, v := range list {
		if v == x {
			return true
		}
	}
	return false
}
