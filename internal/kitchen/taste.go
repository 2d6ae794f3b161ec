package kitchen

import (
	"fmt"
	"math"

	"potwright/internal/adaptation"
	"potwright/internal/composition"
	"potwright/internal/taste"
)

// season tells the cook where an answer takes so much salt that people notice.
// What makes up for it is chosen with the swaps and stands among the changes.
func (k *Kitchen) season(a Analysis, ans *adaptation.Answer) {
	before, after := a.Pot.Serving[composition.Sodium], ans.Pot.Serving[composition.Sodium]
	if before.Unknown > 0 || after.Unknown > 0 {
		return
	}
	if advice, ok := k.Taste.Advise(before.Mid, after.Mid); ok {
		ans.Cautions = append(ans.Cautions, tasteWords(advice))
	}
}

func tasteWords(a taste.Advice) string {
	text := fmt.Sprintf("There is %.0f %% less sodium in a serving. ", math.Round(100*a.Fall))
	if a.Far {
		return text + "Most people will notice at first; taste follows within some meals."
	}
	return text + "People may notice at first."
}
