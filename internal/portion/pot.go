package portion

import (
	"math"

	"potwright/internal/household"
	"potwright/internal/nutrient"
)

// room is the part of a pot that may be filled: what boils rises, and a full pot can
// not be stirred. Common practice, no source.
const room = 0.8

// InPot is how a batch lies in one pot.
type InPot struct {
	Pot household.Pot
	// Fit is Inside where there is room to stir, Close where it fills the pot further,
	// Over where it does not go in.
	Fit household.Fit
	// Servings is the largest batch with room to stir, in half servings.
	Servings float64
}

// InPots holds what the finished dish fills against each pot, in their order; nil where
// its volume is not known well enough, as of things that fill no pot. Leaves that wilt
// need more room at first.
func InPots(pot nutrient.Pot, pots []household.Pot) []InPot {
	fills := pot.YieldMillilitres
	if pot.Servings <= 0 || !tellableVolume(fills) {
		return nil
	}
	var out []InPot
	for _, p := range pots {
		holds := p.Litres * 1000
		in := InPot{Pot: p, Fit: household.Over, Servings: math.Floor(2*pot.Servings*room*holds/fills.High) / 2}
		switch {
		case fills.High <= room*holds:
			in.Fit = household.Inside
		case fills.Mid <= holds:
			in.Fit = household.Close
		}
		out = append(out, in)
	}
	return out
}
