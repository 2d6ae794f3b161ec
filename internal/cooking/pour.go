package cooking

import (
	"slices"

	"potwright/internal/method"
)

func isPreheat(c method.Clause) bool {
	if has(c.Words, "preheat") {
		return true
	}
	return c.Heat == method.Cook && has(c.Words, "heat") && has(c.Words, "oven", "grill", "broiler", "skillet", "pan", "griddle") && len(c.Mentions) == 0 && len(c.Periods) == 0
}

func isDrain(ws []string) bool { return has(ws, "drain", "strain") }

// isFatOff looks for fat that is poured or skimmed off, and for paper that
// takes it up.
func isFatOff(ws []string) bool {
	if !has(ws, "fat", "grease", "dripping") {
		return has(ws, "towel") && has(ws, "drain", "paper")
	}
	return has(ws, "drain", "discard", "skim", "pour", "spoon", "remove") && !has(ws, "reserve", "reserving", "leave", "leaving", "all", "keep", "add")
}

func isMarinadeOff(ws []string) bool {
	return has(ws, "marinade") && has(ws, "discard", "discarding", "drain", "remove", "throw", "lift", "shake")
}

// usesMarinade reports whether a step heats, brushes or keeps back the marinade.
func usesMarinade(clauses []method.Clause) bool {
	for _, c := range clauses {
		if has(c.Words, "marinade") && has(c.Words, "baste", "basting", "brush", "boil", "reserve", "reserved", "reserving", "simmer", "heat", "save") {
			return true
		}
	}
	return false
}

// drain pours off what a food was boiled in; where it was browned, its fat.
func (t *trace) drain(c method.Clause) {
	boiled, fried, cooked := t.wasHeated()
	if meat := t.any("meat", "poultry", "sausage", "bacon"); !boiled && meat && (fried || cooked) {
		t.pourFat(c)
		return
	}
	boiled = boiled || cooked || t.any("pasta", "noodle", "rice", "dry_beans") && !fried
	if !boiled {
		return
	}
	other := t.any("broth", "milk", "tomato_product", "wine", "soup", "sauce")
	if !other {
		t.periods = slices.DeleteFunc(t.periods, func(p vesselPeriod) bool { return p.vessel == t.cur })
	}
	for i := range t.lines {
		l := &t.lines[i]
		if l.vessel != t.cur || t.cur == 0 {
			continue
		}
		l.drained, l.drainDoubt = !other, other
		switch {
		case other:
		case t.isKind(i, "water"):
			l.away = pouredWater
		case t.isKind(i, "salt", "oil", "vinegar", "bouillon") && !t.pouredOff(i):
			l.away = pouredSalt
		}
	}
}

// wasHeated tells how the vessel worked on was: boiled, fried, or cooked in a way
// that is not said.
func (t *trace) wasHeated() (boiled, fried, cooked bool) {
	note := func(heat method.Heat, wet bool) {
		switch {
		case heat == method.Boil || heat == method.Simmer || heat == method.Steam || heat == method.Cook && wet:
			boiled = true
		case heat == method.Fry:
			fried = true
		case heat == method.Cook:
			cooked = true
		}
	}
	t.each(func(l *course) {
		for _, e := range l.exposures {
			note(e.heat, e.wet)
		}
	})
	for _, w := range t.waiting {
		note(w.Heat, false)
	}
	return boiled, fried, cooked
}

// any reports whether the vessel worked on holds a food of a kind.
func (t *trace) any(kinds ...string) bool {
	for i := range t.lines {
		if t.cur > 0 && t.lines[i].vessel == t.cur && t.isKind(i, kinds...) {
			return true
		}
	}
	return false
}

func (t *trace) pourFat(c method.Clause) {
	for i := range t.lines {
		if l := &t.lines[i]; t.cur > 0 && l.vessel == t.cur && t.isKind(i, "meat", "poultry", "sausage", "bacon") {
			l.fatDrained, l.fatSure = true, !has(c.Words, "skim", "if")
		}
	}
}

// pourBath throws away the marinade: all in the vessel but what was put into it
// to be eaten.
func (t *trace) pourBath(c method.Clause) {
	bathed := func(i int) bool {
		return t.isKind(i, "meat", "poultry", "fish", "shellfish", "tofu", "tempeh", "meat_substitute", "mushroom", "squash", "bell_pepper")
	}
	found, heated := false, false
	for i := range t.lines {
		if t.cur > 0 && t.lines[i].vessel == t.cur {
			found = found || bathed(i)
			heated = heated || len(t.lines[i].exposures) > 0
		}
	}
	if !found {
		return
	}
	for i := range t.lines {
		l := &t.lines[i]
		switch {
		case t.pouredOff(i):
		case l.vessel == t.cur && !bathed(i):
			l.away = pouredBath
			if t.bathKept || heated {
				l.away = pouredDoubt
			}
		case !l.named && t.isKind(i, bath...):
			l.away = pouredDoubt // "the soy mixture": not named, and likely part of it
		}
	}
}

// bath are the liquids of marinades.
var bath = words("soy_sauce", "vinegar", "citrus_juice", "oil", "wine", "beer", "hot_sauce", "worcestershire", "yogurt", "buttermilk", "salad_dressing", "asian_sauce", "fish_sauce")

// pouredOff reports whether the line's grams are already those taken up.
func (t *trace) pouredOff(line int) bool {
	items := t.matched[line].Line.Items
	return len(items) > 0 && items[0].PouredOff
}
