package testkit

import (
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
)

// inside are words of the program's inside and of its libraries, which tell nobody what
// to do.
var inside = regexp.MustCompile(`goroutine |panic|runtime error|\.go:|%!|strconv\.|json: |invalid syntax|cannot unmarshal|unmarshal|unexpected EOF|parse error|value out of range|sql: |constraint failed|<nil>|reflect\.|internal/|\*[a-z]+\.[A-Z]|map\[|asn1|x509|tls: |yaml: |zip: |csv: |archive/|(^|: )EOF`)

// InWords fails where a message shows the program's inside.
func InWords(t testing.TB, said string) {
	t.Helper()
	assert.NotRegexp(t, inside, said)
}
