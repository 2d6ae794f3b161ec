package usda

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestMeasuresComeInNormalForm(t *testing.T) {
	for _, c := range []struct{ text, food, unit, qualifier string }{
		{"cup, chopped or diced", "celery, raw", "cup", "chopped or diced"},
		{"cup slices", "cucumber, raw", "cup", "sliced"},
		{"Tbsp", "butter, salted", "tbsp", ""},
		{"tablespoon", "butter, salted", "tbsp", ""},
		{`medium (2-1/2" dia)`, "onion, raw", "medium", ""},
		{"potato medium (2-1/4\" to 3-1/4\" dia)", "potato, with skin, raw", "medium", ""},
		{"pepper, large (2-1/4 per lb)", "green bell pepper, raw", "large", ""},
		{`stalk, large (11"-12" long)`, "celery, raw", "stalk", "large"},
		{"can (15.5 oz)", "beans", "can", "15.5 oz"},
		{"fl oz", "milk, whole", "fl oz", ""},
		{"cucumber (8-1/4\")", "cucumber, raw", "each", ""},
		{"cloves", "garlic, raw", "clove", ""},
	} {
		m, ok := NormalMeasure(c.text, c.food)
		require.True(t, ok, c.text)
		assert.Equal(t, c.unit, m.Unit, c.text)
		assert.Equal(t, c.qualifier, m.Qualifier, c.text)
	}
	for _, text := range []string{"cup (1 NLEA serving)", "cubic inch", "", "breast, bone removed", "whatsit"} {
		_, ok := NormalMeasure(text, "chicken")
		assert.False(t, ok, text)
	}
}

func TestLatin1AndEmptyFieldsAreRead(t *testing.T) {
	var got []string
	err := EachRecord(strings.NewReader("~01001~^~cr\xe8me~^^5.5\r\n"), "x", Stop, func(f []string) error { got = f; return nil })
	require.NoError(t, err)
	assert.Equal(t, []string{"01001", "crème", "", "5.5"}, got)
}
