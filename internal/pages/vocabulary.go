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
	cautions        []optionGroup
}

// optionGroup is a choice under a heading.
type optionGroup struct {
	title   string
	options []option
}

// tickGroup is boxes under a heading.
type tickGroup struct {
	Title string
	Ticks []tick
}

func newVocabulary(n *household.Needs) vocabulary {
	var v vocabulary
	for _, r := range n.AvoidRules() {
		v.avoid = append(v.avoid, option{Value: r.ID, Label: r.Title})
	}
	for _, f := range n.Features() {
		v.features = append(v.features, option{Value: f.ID, Label: f.Title})
	}
	for _, r := range n.CautionRules() {
		if len(v.cautions) == 0 || v.cautions[len(v.cautions)-1].title != r.Group {
			v.cautions = append(v.cautions, optionGroup{title: r.Group})
		}
		g := &v.cautions[len(v.cautions)-1]
		g.options = append(g.options, option{Value: r.ID, Label: r.Title})
	}
	return v
}

// cautionTicks are the boxes of all cautions by heading, those of on ticked.
func (v vocabulary) cautionTicks(on []string) []tickGroup {
	var out []tickGroup
	for _, g := range v.cautions {
		out = append(out, tickGroup{Title: g.title, Ticks: ticks("caution", g.options, on)})
	}
	return out
}

// toldOf are a member's cautions by their ids, whatever words they were written in.
func toldOf(keys []string, needs *household.Needs) []string {
	var out []string
	for _, key := range keys {
		if r, ok := needs.Caution(key); ok {
			key = r.ID
		}
		out = append(out, key)
	}
	return out
}

// cautionTitle is what a caution is called where it is ticked.
func (v vocabulary) cautionTitle(id string) string {
	for _, g := range v.cautions {
		for _, o := range g.options {
			if o.Value == id {
				return o.Label
			}
		}
	}
	return readableKey(id)
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
