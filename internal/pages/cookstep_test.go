package pages

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestAStepThatTellsAPartGetsNoAmount(t *testing.T) {
	for before, tells := range map[string]bool{
		"Melt the ":                               false,
		"Melt 2 tablespoons of the ":              true,
		"Toss with half of the ":                  true,
		"Cook 5 minutes. Add the ":                false,
		"Stir in the rest of the ":                true,
		"Heat the oven to 400 F, then whisk the ": false,
	} {
		assert.Equal(t, tells, tellsPart(before), before)
	}
}
