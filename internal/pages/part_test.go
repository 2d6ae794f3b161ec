package pages

import (
	"strings"
	"testing"

	"github.com/jba/templatecheck"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"potwright/web"
)

func TestEveryPartFitsItsField(t *testing.T) {
	vs, err := parseViews(web.Templates)
	require.NoError(t, err)
	for name, field := range map[string]any{"entry": entry{}, "tick": tick{}, "choice": tick{}, "pick": pick{}, "cover": frame{}, "foot": frame{}} {
		part := vs.all.Lookup(name)
		require.NotNil(t, part, name)
		assert.NoError(t, templatecheck.CheckHTML(part, field), name)
	}
}

func TestAPartIsWrittenAsItsTemplateWouldWhateverWasWrittenBefore(t *testing.T) {
	vs, err := parseViews(web.Templates)
	require.NoError(t, err)
	own := &parts{all: vs.all}
	text := rapid.SampledFrom([]string{"", "1", "1 1", `"<b>`, "a&b"})
	rapid.Check(t, func(t *rapid.T) {
		p := pick{Name: text.Draw(t, "name"), Label: text.Draw(t, "label"), Hint: text.Draw(t, "hint"), Wrong: text.Draw(t, "wrong")}
		for range rapid.IntRange(0, 2).Draw(t, "options") {
			p.Options = append(p.Options, option{text.Draw(t, "value"), text.Draw(t, "of"), rapid.Bool().Draw(t, "on")})
		}
		k := tick{Name: p.Name, Value: p.Label, Label: p.Hint, Hint: p.Wrong, On: rapid.Bool().Draw(t, "ticked")}
		e := entry{Name: p.Name, Label: p.Label, Hint: p.Hint, Wrong: p.Wrong, Value: text.Draw(t, "typed")}
		for name, written := range map[string]struct{ field any }{"pick": {p}, "tick": {k}, "choice": {k}, "entry": {e}} {
			var want strings.Builder
			require.NoError(t, vs.all.ExecuteTemplate(&want, name, written.field))
			got, err := own.write(name, written.field)
			require.NoError(t, err)
			assert.Equal(t, want.String(), string(got))
		}
	})
}
