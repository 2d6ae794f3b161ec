package kitchen

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestWhatOthersFiledMeanwhileStays(t *testing.T) {
	for name, c := range map[string]struct{ now, seen, wanted, want []string }{
		"each adds one":                 {[]string{"soup", "theirs"}, []string{"soup"}, []string{"soup", "mine"}, []string{"soup", "theirs", "mine"}},
		"each takes one off":            {[]string{"b"}, []string{"a", "b"}, []string{"a"}, []string{}},
		"both add the same":             {[]string{"soup"}, nil, []string{"soup"}, []string{"soup"}},
		"one renames, one leaves as is": {[]string{"stew"}, []string{"soup"}, []string{"soup"}, []string{"stew"}},
		"nobody else came":              {[]string{"a", "b"}, []string{"a", "b"}, []string{"b", "c"}, []string{"b", "c"}},
	} {
		assert.Equal(t, c.want, mergedSet(c.now, c.seen, c.wanted), name)
	}
}

func TestTagsThatCannotBeKeptAreTold(t *testing.T) {
	tags, err := CleanTags([]string{" for \t guests "})
	require.NoError(t, err)
	assert.Equal(t, []string{"for guests"}, tags)
	for says, typed := range map[string][]string{
		"at most 20": make([]string, MostTags+1), `tags[1]: the tag " " can't be kept; expected 1 to 40 characters`: {"a", " "},
		"without a comma": {"a,b"}, "1 to 40 characters": {strings.Repeat("é", TagLimit+1)},
	} {
		_, err := CleanTags(typed)
		assert.ErrorContains(t, err, says)
	}
}
