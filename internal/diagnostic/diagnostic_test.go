package diagnostic_test

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"

	"potwright/internal/diagnostic"
)

func TestAFaultSaysWhereWhatAndWhatWasExpected(t *testing.T) {
	f := diagnostic.Fault{File: "salt.yaml", Line: 4, Column: 9, Field: "do", Problem: `unknown action "resuce"`, Expected: `"reduce"`, Rule: "salt-half"}
	assert.Equal(t, `salt.yaml:4:9: do: unknown action "resuce"; expected "reduce" [salt-half]`, f.Error())
	assert.Equal(t, "the text is empty", diagnostic.Fault{Problem: "the text is empty"}.Error())
}

func TestFaultsAreListedInOrderOfPlace(t *testing.T) {
	err := diagnostic.Faults{{File: "b", Line: 1}, {File: "a", Line: 9, Problem: "late"}, {File: "a", Line: 2, Column: 5}, {File: "a", Line: 2, Column: 1}}.Err()
	var fs diagnostic.Faults
	assert.True(t, errors.As(err, &fs))
	assert.Equal(t, diagnostic.Faults{{File: "a", Line: 2, Column: 1}, {File: "a", Line: 2, Column: 5}, {File: "a", Line: 9, Problem: "late"}, {File: "b", Line: 1}}, fs)
	assert.NoError(t, diagnostic.Faults{}.Err())
}

func TestTheNearestWordIsSuggestedWithinTwoEdits(t *testing.T) {
	allowed := []string{"sodium_mg", "sugars_g", "potassium_mg"}
	assert.Equal(t, "sodium_mg", diagnostic.Nearest("sodium_g", allowed))
	assert.Equal(t, "sugars_g", diagnostic.Nearest("Sugar_g", allowed))
	assert.Equal(t, "salt", diagnostic.Nearest("slat", []string{"fat", "salt"}), "letters that changed places are one slip")
	assert.Empty(t, diagnostic.Nearest("salt", allowed))
	assert.Equal(t, []string{"salt", "malt", "sault", "silt"}, diagnostic.Near("Salt", []string{"malt", "sugar", "sault", "salt", "silt", "scald"}, 4), "the closest first, then as given")
	assert.Len(t, diagnostic.Near("salt", []string{"malt", "salt", "silt"}, 2), 2)
}
