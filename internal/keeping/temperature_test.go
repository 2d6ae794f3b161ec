package keeping

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestTheTemperatureOfFoodIsToldFromThatOfAnOven(t *testing.T) {
	for step, want := range map[string][]float64{
		"Bake until the internal temperature reaches 165 °F.":       {165},
		"Roast at 400 °F until a thermometer reads 145°F.":          {145},
		"Cook until it registers 160 degrees F in the center.":      {160},
		"Simmer until a thermometer inside reads 70 C.":             {158},
		"Bake at 350 F for 20 minutes.":                             nil,
		"Keep warm in a 200 °F oven.":                               nil,
		"Chill until it is 40 °F.":                                  nil,
		"Add 165 grams of flour and stir until smooth.":             nil,
		"Roast to 135 °F inside, then rest until it reaches 145 F.": {135, 145},
	} {
		assert.Equal(t, want, insideTemperatures(step), step)
	}
}

func FuzzInsideTemperatures(f *testing.F) {
	f.Add("until a thermometer reads 165 °F")
	f.Add("internal 99999999999999999999 C")
	f.Fuzz(func(t *testing.T, step string) {
		for _, x := range insideTemperatures(step) {
			if x < leastInside || x > mostInside {
				t.Fatal("out of range", x)
			}
		}
	})
}
