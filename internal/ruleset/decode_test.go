package ruleset

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestValuesReportEveryFaultWithItsPlace(t *testing.T) {
	src, top := open("f.yaml", []byte("name: 3\ncolor: red\nshare: 1.5\nkinds: [fish, fsh]\nname: again\n"))
	m := top.mapping("name", "share", "kinds", "colour")
	assert.Equal(t, "3", m.need("name").text())
	assert.Zero(t, m.get("share").number(0, 1))
	assert.Equal(t, []string{"fish"}, m.get("kinds").words("kind", []string{"fish", "meat"}))
	m.need("colour")
	assert.EqualError(t, src.faults.Err(), `f.yaml:1:1: missing "colour"; expected a value for it
f.yaml:2:1: unknown key "color"; expected "colour"
f.yaml:3:8: share: "1.5" is out of range; expected a number from 0 to 1
f.yaml:4:15: kinds[1]: unknown kind "fsh"; expected "fish"
f.yaml:5:1: key "name" is written twice; expected one of each`)
}

func TestAnAbsentValueReadsAsNothingWithoutAFault(t *testing.T) {
	src, top := open("f.yaml", []byte("a: ~\n"))
	m := top.mapping("a", "b")
	assert.Empty(t, m.get("a").text())
	assert.Zero(t, m.get("b").number(1, 2))
	assert.Empty(t, m.get("b").list())
	assert.Empty(t, m.get("b").mapping("x").order())
	assert.Empty(t, src.faults)
}

func TestBrokenFilesAreFaultsNotPanics(t *testing.T) {
	for _, text := range []string{"", "# only words", "a: [1\nb", "a: &x [*x]", "\x00", "- a\n b", "a: 1\n---\nb: 1", "? [a]\n: b"} {
		src, top := open("f.yaml", []byte(text))
		m := top.mapping("a")
		for _, v := range m.need("a").list() {
			v.text()
		}
		assert.NotEmpty(t, src.faults, text)
	}
}
