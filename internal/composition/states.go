package composition

import (
	"sort"
	"strings"
)

// stateRule reads a run of words as a state in normal form.
type stateRule struct {
	words []string
	state string
}

// stateWords are the ways states are written inside a food phrase or a name, by
// their first word.
var stateWords = parseStateWords(`
no_salt_added: no salt added; without added salt; no added salt; without salt added
unsalted: without salt; salt free; unsalted; no salt
low_sodium: very low sodium; low sodium; low salt; lower sodium
reduced_sodium: reduced sodium; less sodium; reduced salt; lightly salted
sodium_free: sodium free
fat_free: fat free; non fat; nonfat; skim; skimmed; fatfree
low_fat: low fat; lowfat; lower fat; 1%
reduced_fat: reduced fat; 2%
part_skim: part skim
full_fat: full fat; whole fat
lean: extra lean; lean
light: light
low_calorie: low calorie; reduced calorie
canned: canned; tinned
drained: drained
rinsed: rinsed
frozen: frozen
dried: dried; dry; dehydrated
fresh: fresh; freshly
cooked: cooked
raw: raw; uncooked
skinless: skinless
boneless: boneless
bone_in: bone in
skin_on: skin on; with skin
salted: salted
sweetened: sweetened
unsweetened: unsweetened; no sugar added; sugar free; without sugar
in_water: packed in water; in water; water packed
in_oil: packed in oil; in oil; oil packed
in_juice: packed in juice; in juice; in own juice
in_light_syrup: in light syrup
in_heavy_syrup: in heavy syrup
condensed: condensed
ready_to_serve: ready to serve
homemade: homemade; home made
shredded: shredded
grated: grated
roasted: roasted
boiled: boiled
baked: baked
braised: braised
broiled: broiled
grilled: grilled
fried: fried; pan fried
steamed: steamed
simmered: simmered
poached: poached
scrambled: scrambled
toasted: toasted
smoked: smoked
instant: instant
`)

// parseStateWords reads "state: spelling; spelling" lines into rules by first
// word, longer ones first.
func parseStateWords(text string) map[string][]stateRule {
	rules := map[string][]stateRule{}
	for _, line := range strings.Split(text, "\n") {
		state, spellings, ok := strings.Cut(line, ":")
		if !ok {
			continue
		}
		for _, s := range strings.Split(spellings, ";") {
			words := strings.Fields(s)
			first := words[0]
			rules[first] = append(rules[first], stateRule{words: words, state: state})
		}
	}
	for _, rs := range rules {
		sort.SliceStable(rs, func(i, j int) bool { return len(rs[i].words) > len(rs[j].words) })
	}
	return rules
}

// takeStates splits words into those that name the food and the states the
// others tell. "90% lean" becomes lean_90.
func takeStates(words []string) (core, states []string) {
	core = make([]string, 0, len(words))
	for i := 0; i < len(words); {
		if state, n := stateAt(words[i:]); n > 0 {
			states = append(states, state)
			i += n
			continue
		}
		core = append(core, words[i])
		i++
	}
	return core, states
}

func stateAt(words []string) (state string, n int) {
	if len(words) >= 2 && words[1] == "lean" && strings.HasSuffix(words[0], "%") {
		return "lean_" + strings.TrimSuffix(words[0], "%"), 2
	}
	for _, r := range stateWords[words[0]] {
		if len(r.words) <= len(words) && sameWords(r.words, words) {
			return r.state, len(r.words)
		}
	}
	return "", 0
}

func sameWords(rule, words []string) bool {
	for i, w := range rule {
		if words[i] != w {
			return false
		}
	}
	return true
}

// near is a state that stands in for another, and what that costs in points of
// score.
type near struct {
	state string
	cost  float64
}

// nearStates are states of a row that satisfy a request less than exactly. A
// request not listed is met only by itself.
var nearStates = map[string][]near{
	"unsalted":       {{"no_salt_added", 0}, {"low_sodium", 2.4}, {"sodium_free", 1.6}},
	"no_salt_added":  {{"unsalted", 0}, {"low_sodium", 2.4}, {"sodium_free", 1.6}},
	"low_sodium":     {{"no_salt_added", 0.8}, {"unsalted", 0.8}, {"reduced_sodium", 1.6}, {"sodium_free", 1.6}},
	"sodium_free":    {{"unsalted", 0.8}, {"no_salt_added", 0.8}, {"low_sodium", 1.6}},
	"reduced_sodium": {{"low_sodium", 0.8}, {"no_salt_added", 2.4}, {"unsalted", 2.4}},
	"fat_free":       {{"low_fat", 1.6}, {"reduced_fat", 2.4}, {"light", 2.4}},
	"low_fat":        {{"reduced_fat", 0.8}, {"light", 1.28}, {"part_skim", 1.12}, {"fat_free", 1.92}},
	"reduced_fat":    {{"light", 0.8}, {"low_fat", 0.8}, {"part_skim", 0.8}, {"fat_free", 2.4}},
	"light":          {{"reduced_fat", 0.48}, {"low_fat", 0.8}, {"in_light_syrup", 0}, {"low_calorie", 0.8}, {"reduced_sodium", 1.6}},
	"part_skim":      {{"reduced_fat", 0.8}, {"low_fat", 1.28}},
	"full_fat":       {{"whole", 0}},
	"fresh":          {{"raw", 0}},
	"raw":            {{"fresh", 0}, {"dried", 0.3}},
	"dried":          {{"powdered", 0.48}, {"concentrate", 1.6}},
	"cooked":         {{"roasted", 0}, {"boiled", 0}, {"baked", 0}, {"braised", 0}, {"broiled", 0}, {"grilled", 0}, {"fried", 0.5}, {"steamed", 0}, {"simmered", 0}, {"toasted", 1.5}},
	"roasted":        {{"cooked", 0.5}},
	"boiled":         {{"cooked", 0.5}},
	"baked":          {{"roasted", 0.3}, {"cooked", 0.5}},
	"braised":        {{"cooked", 0.5}},
	"broiled":        {{"grilled", 0.2}, {"cooked", 0.5}},
	"grilled":        {{"broiled", 0.2}, {"cooked", 0.5}},
	"fried":          {{"cooked", 0.5}},
	"steamed":        {{"boiled", 0.2}, {"cooked", 0.5}},
	"simmered":       {{"boiled", 0.2}, {"cooked", 0.5}},
	"poached":        {{"boiled", 0.3}, {"cooked", 0.5}},
	"scrambled":      {{"cooked", 0.5}},
	"rinsed":         {{"drained", 1.6}},
	"unsweetened":    {{"in_juice", 0.48}, {"in_water", 0.8}, {"low_calorie", 0.8}},
	"canned":         {{"in_juice", 0}, {"ready_to_serve", 0}, {"condensed", 0}},
}

// quietStates of a row cost nothing, or little, where nobody asked for them.
var quietStates = map[string]float64{
	"raw": 0, "fresh": 0, "ground": 0, "boneless": 0, "skinless": 0.3, "skin_on": 0.4, "bone_in": 0.3,
	"plain": 0, "ready_to_serve": 0, "smooth": 0.2, "grated": 0.2, "whole": 0, "salted": 0.1, "drained": 0.1,
	"homemade": 1.2, "shredded": 0.4, "prepared": 0.6, "instant": 1, "sweetened": 0.6, "unsweetened": 0.3,
	"in_juice": 0.2, "in_water": 0.4, "in_oil": 1, "toasted": 1, "cube": 0.3, "granules": 0.3, "powdered": 0.5,
	"roasted": 0, "boiled": 0, "baked": 0, "fried": 0.5, "braised": 0, "broiled": 0.1, "grilled": 0.1, "steamed": 0.1,
	"simmered": 0, "poached": 0.2, "scrambled": 0.3, "lean": 0.5, "peeled": 1.2, "with_peel": 0.6,
	"condensed": 0.4, "stick": 0.1, "tub": 0.4, "part_skim": 0.3, "coarse": 0.5, "no_salt_added": 0,
	"unenriched": 1.2, "whole_wheat": 0.3, "chunky": 0.4,
}

// loudState is what any other state costs where nobody asked for it.
const loudState = 2.5

// unmetState is what a request costs that a row does not meet, by request.
var unmetState = map[string]float64{
	"fresh": 1.2, "raw": 1.2, "skinless": 0.8, "boneless": 0.1, "bone_in": 0.2, "ground": 0.4, "whole": 0, "lean": 0.6,
	"drained": 0.3, "rinsed": 0.3, "undrained": 0.3, "salted": 0.6, "sweetened": 0.6, "unsweetened": 0.9, "homemade": 0.3,
	"shredded": 0, "grated": 0, "light": 1, "in_water": 0.8, "in_oil": 0.8, "in_brine": 0.3, "condensed": 0.8,
	"full_fat": 0.1, "skin_on": 1.5, "cooked": 2.2, "canned": 2.2, "in_juice": 0.8, "in_light_syrup": 0.8,
	"in_heavy_syrup": 0.8, "frozen": 3, "smoked": 1, "instant": 0.4, "toasted": 0.5, "baked": 1, "fried": 1,
}

// opposites are states that rule each other out: a row that has one where
// another of its set is asked for is the wrong row.
var opposites = [][]string{
	{"sweetened", "unsweetened"},
	{"salted", "unsalted", "no_salt_added"},
	{"in_juice", "in_water", "in_light_syrup", "in_heavy_syrup", "in_oil", "in_brine"},
	{"skin_on", "skinless"},
	{"raw", "cooked"},
}

const (
	metState   = 2.0
	wrongState = 2.6 // for a request not listed in unmetState
)
