package household

import "fmt"

// Equipment is what the kitchen has to cook with. The zero value has an oven and
// scales, and tells of no pot.
type Equipment struct {
	Pots     []Pot `json:"pots"`
	NoScales bool  `json:"no_scales"`
	NoOven   bool  `json:"no_oven"`
}

// Pot is one of the household's own, by its name and what it holds to the brim, in
// litres.
type Pot struct {
	Name   string  `json:"name"`
	Litres float64 `json:"litres"`
}

// Bounds of a kitchen's equipment: more is a slip of the pen. Design choices.
const (
	MostPots   = 20
	MostLitres = 100
)

func (c *checks) equipment(e Equipment) {
	if len(e.Pots) > MostPots {
		c.add("equipment.pots", fmt.Sprintf("%d pots", len(e.Pots)), fmt.Sprintf("at most %d", MostPots))
	}
	for i, p := range e.Pots {
		field := fmt.Sprintf("equipment.pots[%d]", i)
		c.name(field+".name", "the pot", p.Name, "blue pot")
		if !(p.Litres > 0 && p.Litres <= MostLitres) {
			c.add(field+".litres", fmt.Sprintf("%v litres is out of range", p.Litres), fmt.Sprintf("above 0 and at most %d", MostLitres))
		}
	}
}
