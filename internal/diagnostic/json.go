package diagnostic

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"reflect"
	"slices"
	"strings"
	"unicode"
)

// JSON is what encoding/json found wrong with a text, in words: where it stands and
// what would be right. err is not nil.
func JSON(text []byte, err error) Fault {
	var syntax *json.SyntaxError
	var kind *json.UnmarshalTypeError
	field, unknown := strings.CutPrefix(err.Error(), "json: unknown field ")
	switch {
	case len(bytes.TrimSpace(text)) == 0:
		return Fault{Problem: "it is empty", Expected: "a JSON value, such as {}"}
	case unknown:
		return Fault{Field: strings.Trim(field, `"`), Problem: "there is no such field", Expected: "only fields that are described"}
	case errors.As(err, &kind):
		f := placed(text, kind.Offset)
		f.Field, f.Problem, f.Expected = keysOf(kind.Field), "it is a JSON "+kind.Value, kindWords(kind.Type)
		return f
	case errors.Is(err, io.ErrUnexpectedEOF), strings.HasSuffix(err.Error(), "unexpected end of JSON input"):
		f := placed(text, int64(len(text)))
		f.Problem, f.Expected = "it ends in the middle of a JSON value", "the rest of it: a bracket or a quotation mark is not closed, or a comma is the last sign"
		return f
	case errors.As(err, &syntax):
		f := placed(text, syntax.Offset-1)
		f.Problem = fmt.Sprintf("%s can't stand here", quoteFrom(text[max(0, syntax.Offset-1):]))
		f.Expected = "JSON: names and words in \"double quotes\", commas between, no comma before a closing bracket"
		return f
	}
	return Fault{Problem: strings.TrimPrefix(err.Error(), "json: ")}
}

// placed is a fault at an offset of the text.
func placed(text []byte, offset int64) Fault {
	before := text[:min(max(0, int(offset)), len(text))]
	return Fault{Line: 1 + bytes.Count(before, []byte("\n")), Column: 1 + len([]rune(string(before[1+bytes.LastIndexByte(before, '\n'):])))}
}

// keysOf is a path without the names of embedded structs, which stand in no JSON.
func keysOf(path string) string {
	keys := slices.DeleteFunc(strings.Split(path, "."), func(key string) bool { return key != "" && unicode.IsUpper(rune(key[0])) })
	return strings.Join(keys, ".")
}

// quoteFrom is the beginning of a text in quotes.
func quoteFrom(text []byte) string {
	const most = 12
	signs := []rune(string(text))
	if len(signs) > most {
		signs = signs[:most]
	}
	return fmt.Sprintf("%q", string(signs))
}

// kindWords are what JSON value a Go type is read from.
func kindWords(t reflect.Type) string {
	switch t.Kind() {
	case reflect.Bool:
		return "true or false"
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64, reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		return "a whole number"
	case reflect.Float32, reflect.Float64:
		return "a number"
	case reflect.String:
		return `words in "double quotes"`
	case reflect.Slice, reflect.Array:
		return "a list in [square brackets]"
	}
	return "an object in {curly brackets}"
}
