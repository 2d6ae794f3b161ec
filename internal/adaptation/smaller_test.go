package adaptation_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/adaptation"
)

// TestTheSmallerPortionThatIsNamedSuitsAndALargerOneDoesNot takes the portion at its
// word.
func TestTheSmallerPortionThatIsNamedSuitsAndALargerOneDoesNot(t *testing.T) {
	named := 0
	for mg := 15.0; mg <= 55; mg += 10 {
		h := salted(mg)
		_, ans := adaptSoup(t, h, adaptation.Wishes{})
		if ans.Fits {
			continue
		}
		require.NotEmpty(t, ans.Nearest, "%v mg", mg)
		if !strings.HasPrefix(ans.Nearest[0], "With ") {
			continue
		}
		named++
		var portion float64
		_, err := fmt.Sscanf(ans.Nearest[0], "With %g of a serving for Ines the dish can be adapted for everyone.", &portion)
		require.NoError(t, err, ans.Nearest[0])
		h.Members[0].Portion = portion
		_, ans = adaptSoup(t, h, adaptation.Wishes{})
		assert.True(t, ans.Fits, "%v of a serving at %v mg", portion, mg)
		h.Members[0].Portion = portion + 0.125
		_, ans = adaptSoup(t, h, adaptation.Wishes{})
		assert.False(t, ans.Fits, "%v of a serving at %v mg", portion+0.125, mg)
	}
	assert.Positive(t, named)
}
