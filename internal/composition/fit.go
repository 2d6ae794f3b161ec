package composition

import (
	"math"
	"slices"
	"strings"
)

// withoutVague drops "lean" where a percentage says how lean.
func withoutVague(states []string) []string {
	exact := slices.ContainsFunc(states, func(s string) bool { _, ok := leanPercent(s); return ok })
	return slices.DeleteFunc(states, func(s string) bool { return exact && s == "lean" })
}

// fitness is how a row's states go with those asked for.
type fitness struct {
	asked   float64 // points for and against what was asked
	unasked float64 // points against what was not
	sure    float64 // how sure the row still is, 0..1: less where a request is not met
	near    string  // the last state asked for that another stands in for
}

func fit(asked []string, a *alias) fitness {
	f := fitness{sure: 1}
	for _, s := range asked {
		gain, lost := meets(s, a)
		f.asked += gain
		if gain < -1 {
			f.sure *= 0.6
		}
		if lost > meaningUnless {
			f.near = s
		}
	}
	for _, s := range a.food.States {
		if !excused(s, asked, a.food) {
			f.unasked += unasked(s, a.food)
		}
	}
	for _, s := range a.states {
		if !slices.Contains(asked, s) && !a.food.HasState(s) && !tells(asked, s) {
			f.asked -= aliasState
		}
	}
	return f
}

// worst is the most that one request lost, those aside that a meaning tells.
func worst(asked, told []string, a *alias) float64 {
	var most float64
	for _, s := range asked {
		if !slices.Contains(told, s) {
			_, lost := meets(s, a)
			most = max(most, lost)
		}
	}
	return most
}

// meets scores one request: metState where the row has it, less by what is lost
// where another state of the row comes near; where nothing does, the loss alone.
func meets(s string, a *alias) (gain, lost float64) {
	if a.food.HasState(s) || slices.Contains(a.states, s) {
		return metState, 0
	}
	if percent, ok := leanPercent(s); ok {
		for _, have := range a.food.States {
			if p, ok := leanPercent(have); ok {
				lost = leanPoint * math.Abs(p-percent)
				return metState - lost, lost
			}
		}
	}
	best, found := 0.0, false
	for _, n := range nearStates[s] {
		if (!found || n.cost < best) && a.food.HasState(n.state) && standsIn(s, n, a.food) {
			best, found = n.cost, true
		}
	}
	if found {
		return metState - best, best
	}
	if saltless[s] && littleSodium(a.food) {
		return metState / 2, 0
	}
	if opposed(s, a.food) {
		return -wrongState, wrongState
	}
	if (s == "skin_on" || s == "skinless") && !a.food.HasKind("poultry") {
		return -skinElsewhere, skinElsewhere
	}
	if cost, ok := unmetState[s]; ok {
		return -cost, cost
	}
	return -wrongState, wrongState
}

// skinElsewhere is what a word on skin costs where the rows of a food are not
// told apart by it.
const skinElsewhere = 0.1

// opposed reports whether the row has a state that rules out the one asked for.
func opposed(asked string, f *Food) bool {
	for _, set := range opposites {
		if !slices.Contains(set, asked) {
			continue
		}
		for _, s := range set {
			if s != asked && f.HasState(s) {
				return true
			}
		}
	}
	return false
}

// standsIn reports whether a near state of the row may stand in for the one
// asked for: what is dry is raw among grains and pulses alone.
func standsIn(asked string, n near, f *Food) bool {
	return asked != "raw" || n.state != "dried" || f.HasKind("grain") || f.HasKind("legume")
}

// saltless are requests that any food meets which holds next to no sodium.
var saltless = wordSet("unsalted no_salt_added low_sodium reduced_sodium sodium_free")

// littleSodium is at most 70 mg in 100 g: half of what "low sodium" allows a
// serving (140 mg, 21 CFR 101.61).
func littleSodium(f *Food) bool {
	c := f.Nutrients[Sodium]
	return c.Known && c.Mid <= 70
}

// excused reports whether a state of the row is asked for, or stands in for one
// that is.
func excused(s string, asked []string, f *Food) bool {
	for _, want := range asked {
		if want == s {
			return true
		}
		for _, n := range nearStates[want] {
			if n.state == s && standsIn(want, n, f) {
				return true
			}
		}
	}
	return false
}

func unasked(s string, f *Food) float64 {
	if s == "dried" && (f.HasKind("spice") || f.HasKind("spice_blend")) {
		return 0 // as spices are
	}
	if cost, ok := quietStates[s]; ok {
		return cost
	}
	if _, ok := leanPercent(s); ok {
		return quietStates["lean"]
	}
	return loudState
}

func leanPercent(s string) (float64, bool) {
	digits, ok := strings.CutPrefix(s, "lean_")
	if !ok || len(digits) != 2 || digits[0] < '0' || digits[0] > '9' || digits[1] < '0' || digits[1] > '9' {
		return 0, false
	}
	return float64(digits[0]-'0')*10 + float64(digits[1]-'0'), true
}
