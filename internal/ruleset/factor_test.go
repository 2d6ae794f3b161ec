package ruleset

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/composition"
	"potwright/internal/cooking"
)

func someFactors(text string) (*cooking.Book, error) {
	foods := []*composition.Food{{ID: "x:1", Name: "spinach", Kinds: []string{"leafy_green"}, States: []string{"raw"}}}
	table := cooking.Retentions{"3005": {Code: "3005"}, "3006": {Code: "3006"}}
	return Factors(fstest.MapFS{"factor/a.yaml": {Data: []byte(text)}}, foods, table)
}

const goodFactor = `theme: t
retention:
  - {id: a, kinds: [leafy_green], codes: {boiled and drained: "3005", stewed: [{minutes: 30, code: "3005"}, {code: "3006"}]}, why: w, source: s}
`

func TestFactorsAreRead(t *testing.T) {
	book, err := someFactors(goodFactor)
	require.NoError(t, err)
	require.Len(t, book.Factors(), 1)
	assert.Equal(t, map[cooking.Treatment][]cooking.Timed{
		cooking.Boiled: {{Code: "3005"}}, cooking.Stewed: {{Minutes: 30, Code: "3005"}, {Code: "3006"}},
	}, book.Factors()[0].Codes)
}

func TestEveryFaultOfAFactorIsNamed(t *testing.T) {
	for text, want := range map[string]string{
		`retention: [{id: a, kinds: [leafy_gren], codes: {stewed: "3005"}, why: w, source: s}]`:                                                                            `unknown kind "leafy_gren"; expected "leafy_green"`,
		`retention: [{id: a, kinds: [leafy_green], codes: {stewd: "3005"}, why: w, source: s}]`:                                                                            `unknown key "stewd"; expected "stewed"`,
		`retention: [{id: a, kinds: [leafy_green], codes: {stewed: "9999"}, why: w, source: s}]`:                                                                           `code "9999" is not in the retention table`,
		`retention: [{id: a, kinds: [leafy_green], codes: {stewed: "3005"}, why: w}]`:                                                                                      `missing "source"`,
		`retention: [{id: a, kinds: [leafy_green], codes: {stewed: [{code: "3005"}, {code: "3006"}]}, why: w, source: s}]`:                                                 "minutes do not rise",
		`retention: [{id: a, kinds: [leafy_green], codes: {stewed: [{minutes: 5, code: "3005"}]}, why: w, source: s}]`:                                                     "the last code has minutes",
		`yields: [{id: a, kinds: [leafy_green], treatments: [stewed], weight: {low: 2, mid: 1, high: 3}, why: w, source: s}]`:                                              "out of order",
		`yields: [{id: a, kinds: [leafy_green], treatments: [stewed], weight: {low: 0, mid: 1, high: 3}, why: w, source: s}]`:                                              `"0" is out of range`,
		`alcohol: {steps: [{minutes: 0, kept: 85}, {minutes: 15, kept: 90}], flamed: 75, overnight: 70, source: s}`:                                                        "steps are out of order",
		`evaporation: [{heat: simer, low: 1, mid: 2, high: 3, source: s}]`:                                                                                                 `unknown heat "simer"; expected "simmer"`,
		`poured: {cooking_water: {low: 80, mid: 95, high: 120, source: s}, cooking_water_salt: {low: 1, mid: 2, high: 3}, marinade: {low: 1, mid: 2, high: 3, source: s}}`: `"120" is out of range`,
	} {
		_, err := someFactors("theme: t\n" + text + "\n")
		assert.ErrorContains(t, err, want, text)
	}
	_, err := someFactors(goodFactor + "  - {id: a, kinds: [leafy_green], codes: {stewed: \"3005\"}, why: w, source: s}\n")
	assert.ErrorContains(t, err, `id "a" stands twice`)
	_, err = Factors(fstest.MapFS{}, nil, nil)
	assert.ErrorContains(t, err, "no factors found")
}

func FuzzFactors(f *testing.F) {
	f.Add(goodFactor)
	f.Add("theme: t\nyields: [{id: a, kinds: [leafy_green], treatments: [stewed], weight: {low: 1, mid: 1, high: 3}, why: w, source: s}]\n")
	f.Add("theme: t\nalcohol: {steps: [{minutes: 0, kept: 85}], flamed: 75, overnight: 70, source: s}\n")
	f.Fuzz(func(t *testing.T, text string) {
		if book, err := someFactors(text); err == nil {
			require.NotNil(t, book)
		}
	})
}
