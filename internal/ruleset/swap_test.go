package ruleset

import (
	"errors"
	"testing"
	"testing/fstest"

	"potwright/internal/diagnostic"
	"potwright/internal/swap"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestAnIdTakenInAnotherFileIsAFault(t *testing.T) {
	rule := "theme: x\nrefuse:\n  - {id: a, title: [jam], why: w, source: s}\n"
	_, err := Swaps(fstest.MapFS{"swap/a.yaml": {Data: []byte(rule)}, "swap/b.yaml": {Data: []byte(rule)}}, nil)
	var faults diagnostic.Faults
	require.True(t, errors.As(err, &faults))
	assert.EqualError(t, faults, `swap/b.yaml:3:10: refuse[0].id: id "a" is taken by the rule at swap/a.yaml:3; expected an id of its own`)
}

func TestAFolderWithoutRulesIsAFault(t *testing.T) {
	_, err := Swaps(fstest.MapFS{"notes.txt": {Data: []byte("x")}}, nil)
	assert.ErrorContains(t, err, "no rules found")
}

func TestFilesAtTheTopOfAFolderAreToldByTheirKeys(t *testing.T) {
	book, err := Swaps(fstest.MapFS{
		"mine.yaml": {Data: []byte("theme: x\nrefuse:\n  - {id: a, title: [jam], why: w, source: s}\n")},
		"salt.yaml": {Data: []byte("function: salt\nunit: mg\nlow: 0\nwhy: w\nbrings: [{nutrient: sodium_mg, factor: 1, source: s}]\n")},
	}, pantry())
	require.NoError(t, err)
	assert.Len(t, book.Balances()[swap.Salt].Brings, 1)
}

func FuzzSwaps(f *testing.F) {
	f.Add("theme: t\nrules:\n  - {id: a, match: {kinds: [broth]}, do: replace, with: [{food: salt, ratio: 1, by: line}]}\n")
	f.Add("function: salt\nbrings: [{nutrient: sodium_mg, factor: 1}]\n")
	f.Add("rules: &r\n  - *r\n")
	f.Fuzz(func(t *testing.T, text string) {
		for _, name := range []string{"swap/a.yaml", "balance/a.yaml"} {
			book, err := Swaps(fstest.MapFS{name: {Data: []byte(text)}}, pantry())
			if err == nil {
				require.NotNil(t, book)
			}
		}
	})
}
