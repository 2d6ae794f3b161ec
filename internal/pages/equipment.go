package pages

import (
	"fmt"
	"math"
	"strings"

	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/measure"
	"potwright/internal/method"
	"potwright/internal/portion"
)

// equipmentForm is what the kitchen has to cook with, as typed.
type equipmentForm struct {
	// In is the unit that the sizes are typed in: "quart" or "l".
	In               string
	Pots             []potRow
	NoScales, NoOven tick
}

// potRow is one pot as typed.
type potRow struct {
	Row         int
	Name, Holds entry
}

// sparePots are rows offered beyond those in use.
const sparePots = 2

// potUnit is the unit in which a kitchen tells the size of its pots.
func potUnit(s measure.System) measure.Unit {
	name := "l"
	if s == measure.US {
		name = "quart"
	}
	u, _ := measure.FindUnit(name)
	return u
}

// inUnit is a pot's size in a unit, to a hundredth.
func inUnit(litres float64, u measure.Unit) string {
	return typedAmount(math.Round(litres*1000/u.Size*100) / 100)
}

func potWords(p household.Pot, s measure.System) string {
	u := potUnit(s)
	size := inUnit(p.Litres, u)
	if u.Name == "l" {
		return fmt.Sprintf("%s, %s l", p.Name, size)
	}
	return fmt.Sprintf("%s, %s", p.Name, measured(size, u.Name))
}

// measured is a number with its unit, "1 quart" and "5 quarts".
func measured(n, unit string) string {
	if n == "1" {
		return n + " " + unit
	}
	return n + " " + unit + "s"
}

func newEquipmentForm(h household.Household) equipmentForm {
	u := potUnit(h.Measures)
	f := equipmentForm{In: u.Name}
	for _, p := range h.Equipment.Pots {
		f.add(p.Name, inUnit(p.Litres, u), nil)
	}
	return f.ticked(h.Equipment)
}

func (f *equipmentForm) add(name, holds string, m messages) {
	i := len(f.Pots)
	unit := "litres"
	if f.In == "quart" {
		unit = "quarts"
	}
	f.Pots = append(f.Pots, potRow{Row: i + 1,
		Name:  entry{Name: rowName("pot_name", i), Label: "Pot or pan", Value: name, Wrong: m.For(rowName("pot_name", i))},
		Holds: entry{Name: rowName("pot_holds", i), Label: "Holds", Unit: unit, Value: holds, Wrong: m.For(rowName("pot_holds", i)), Mode: "decimal"}})
}

func (f equipmentForm) ticked(e household.Equipment) equipmentForm {
	for i := 0; i < sparePots && len(f.Pots) < household.MostPots; i++ {
		f.add("", "", nil)
	}
	f.NoScales = tick{Name: "no_scales", Value: "yes", Label: "No kitchen scales", Hint: "Weights then come with cups and spoons beside them, where the food has such a measure.", On: e.NoScales}
	f.NoOven = tick{Name: "no_oven", Value: "yes", Label: "No oven", Hint: "A dish that needs one says so.", On: e.NoOven}
	return f
}

// readEquipment reads what was typed; a form without these fields leaves what was.
func readEquipment(in form, was household.Equipment, m *messages) (household.Equipment, equipmentForm) {
	f := equipmentForm{In: in.text("pots_in")}
	u, ok := measure.FindUnit(f.In)
	if !ok || u.Kind != measure.Volume {
		return was, f.ticked(was)
	}
	e := household.Equipment{NoScales: in.ticked("no_scales", "yes"), NoOven: in.ticked("no_oven", "yes")}
	most := household.MostLitres * 1000 / u.Size
	for i := 0; i < household.MostPots && in.has(rowName("pot_name", i)); i++ {
		nameField, sizeField := rowName("pot_name", i), rowName("pot_holds", i)
		name, holds := in.text(nameField), in.text(sizeField)
		if name == "" && holds == "" {
			continue
		}
		var wrong messages
		named, fault := cleanName(name)
		if fault != "" {
			wrong.add(nameField, "%s Such as blue pot.", fault)
		}
		size, ok := numberIn(&wrong, sizeField, holds, bounds{Low: 0.1, High: math.Floor(most), Example: "5"})
		if !ok && holds == "" {
			wrong.add(sizeField, "Write how much it holds, such as 5; the size is often stamped underneath.")
		}
		f.add(name, holds, wrong)
		*m = append(*m, wrong...)
		e.Pots = append(e.Pots, household.Pot{Name: named, Litres: size * u.Size / 1000})
	}
	return e, f.ticked(e)
}

// equipmentWords tell what the kitchen has, a line each.
func equipmentWords(h household.Household) []string {
	var out []string
	for _, p := range h.Equipment.Pots {
		out = append(out, potWords(p, h.Measures))
	}
	if h.Equipment.NoScales {
		out = append(out, "no scales")
	}
	if h.Equipment.NoOven {
		out = append(out, "no oven")
	}
	return out
}

// ovenWords says that a dish needs an oven where the kitchen has none, else "".
func ovenWords(h household.Household, a kitchen.Analysis) string {
	if !h.Equipment.NoOven {
		return ""
	}
	step, needs := method.NeedsOven(a.Recipe.Steps)
	if !needs {
		return ""
	}
	return fmt.Sprintf("This dish needs an oven, from step %d on, and this kitchen has none.", step+1)
}

// inPotWords tell how a batch lies in the kitchen's pots, the one to take first; nil
// where no pot is told of or the dish fills none.
func inPotWords(h household.Household, a kitchen.Analysis) []string {
	in := portion.InPots(a.Pot, h.Equipment.Pots)
	if len(in) == 0 {
		return nil
	}
	var out []string
	if best := smallestWithRoom(in); best != nil {
		out = append(out, fmt.Sprintf("Cook it in the %s: there is room to stir.", potWords(best.Pot, h.Measures)))
	} else {
		out = append(out, "None of your pots holds this batch with room to stir. Make it smaller, or use two pots.")
	}
	for _, p := range in {
		out = append(out, fmt.Sprintf("%s: %s", potWords(p.Pot, h.Measures), potFitWords(p)))
	}
	return out
}

func smallestWithRoom(in []portion.InPot) *portion.InPot {
	var best *portion.InPot
	for i, p := range in {
		if p.Fit == household.Inside && (best == nil || p.Pot.Litres < best.Pot.Litres) {
			best = &in[i]
		}
	}
	return best
}

func potFitWords(p portion.InPot) string {
	most := "not even half a serving fits with room to stir"
	if p.Servings > 0 {
		most = "up to " + countLoose(p.Servings) + " with room to stir"
	}
	switch p.Fit {
	case household.Inside:
		return "fits; " + most + "."
	case household.Close:
		return "only just holds it, and may boil over; " + most + "."
	default:
		return "too small; " + strings.TrimSuffix(most, ".") + "."
	}
}
