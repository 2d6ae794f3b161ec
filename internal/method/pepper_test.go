package method

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestThePepperBesideSaltIsNeverABellPepper(t *testing.T) {
	rec, lines := dish("1/2 red bell pepper, minced", "1 cup rice")
	rec.Steps = steps("Toss the pepper with the rice. Season with salt and pepper to taste.")
	found := Mentions(rec.Steps, lines)
	var peppers int
	for _, m := range found[0] {
		if m.Line == 0 {
			peppers++
		}
	}
	assert.Equal(t, 1, peppers, "%+v", found[0])
}
