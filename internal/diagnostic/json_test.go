package diagnostic_test

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/diagnostic"
)

func TestWhatIsWrongWithJSONIsToldInWords(t *testing.T) {
	type limit struct {
		AtMost float64 `json:"at_most"`
	}
	type person struct {
		Name   string  `json:"name"`
		Age    int     `json:"age"`
		Eats   bool    `json:"eats"`
		Limits []limit `json:"limits"`
	}
	for text, want := range map[string]string{
		"":                                 "it is empty; expected a JSON value, such as {}",
		" \n":                              "it is empty",
		"{":                                "1:2: it ends in the middle of a JSON value",
		`{"name": "An`:                     "it ends in the middle of a JSON value",
		`{"name": "Ana",}`:                 `1:16: "}" can't stand here`,
		"{\n  name: \"Ana\"}":              `2:3: "name: \"Ana\"}" can't stand here`,
		`{"name": 5}`:                      `name: it is a JSON number; expected words in "double quotes"`,
		`{"age": "nine"}`:                  "age: it is a JSON string; expected a whole number",
		`{"age": 1.5}`:                     "age: it is a JSON number 1.5; expected a whole number",
		`{"eats": "yes"}`:                  "expected true or false",
		`{"limits": 5}`:                    "expected a list in [square brackets]",
		`{"limits": [{"at_most": "few"}]}`: "limits.at_most: it is a JSON string; expected a number",
		`[]`:                               "it is a JSON array; expected an object in {curly brackets}",
		`{"nmae": "Ana"}`:                  "nmae: there is no such field",
	} {
		dec := json.NewDecoder(strings.NewReader(text))
		dec.DisallowUnknownFields()
		err := dec.Decode(&person{})
		require.Error(t, err, text)
		got := diagnostic.JSON([]byte(text), err).Error()
		assert.Contains(t, got, want, text)
		assert.NotContains(t, got, "Go ")
	}
}
