package rules_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/household"
	"potwright/internal/testkit"
)

// exampleText is a recipe of one line for one serving, with a step for each
// sentence of the method.
func exampleText(line, method string) string {
	text := "Example\n\nServes 1\n\nIngredients\n" + line + "\n"
	if method == "" {
		return text
	}
	text += "\nMethod\n"
	for i, step := range strings.SplitAfter(method, ". ") {
		text += fmt.Sprintf("%d. %s\n", i+1, step)
	}
	return text
}

func TestEveryCautionDoesWhatItsExamplesSay(t *testing.T) {
	k := testkit.Kitchen(t)
	examples := 0
	for _, rule := range k.Needs.CautionRules() {
		h := household.Household{Name: "examples", Members: []household.Member{{Name: "one", Portion: 1, Cautions: []string{rule.ID}}}}
		for _, x := range rule.Examples {
			examples++
			a, err := k.Read(exampleText(x.Text, x.Method), nil, nil)
			require.NoError(t, err, x.Text)
			raised := slices.ContainsFunc(k.Check(a, h).Plates[0].Cautions, func(c household.Caution) bool { return c.ID == rule.ID })
			assert.Equal(t, x.Raises, raised, fmt.Sprintf("need/cautions.yaml:%d: %s: %q %q, read as %s", x.Line, rule.ID, x.Text, x.Method, nameOf(*a.Pot.Lines[0].Matched)))
		}
	}
	assert.Greater(t, examples, 100)
}

func TestEveryCautionRefersToThoseWhoDecide(t *testing.T) {
	k := testkit.Kitchen(t)
	for _, rule := range k.Needs.CautionRules() {
		say := strings.ToLower(rule.Say)
		assert.True(t, strings.Contains(say, "clinic") || strings.Contains(say, "pharmacist"), "%s: nobody is referred to", rule.ID)
		for _, word := range []string{"is safe to", "you may stop", "dose of", "safe for you"} {
			assert.NotContains(t, say, word, rule.ID)
		}
		assert.NotEmpty(t, rule.Source)
	}
}
