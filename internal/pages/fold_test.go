package pages

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestWhatIsTickedStandsBeforeWhatFoldsOut(t *testing.T) {
	a, b, c := tick{Value: "a"}, tick{Value: "b", On: true}, tick{Value: "c"}
	got := fold(tickGroup{Title: "one", Ticks: []tick{a, b}}, tickGroup{Title: "two", Ticks: []tick{c}})
	assert.Equal(t, folded{Chosen: []tick{b}, Rest: []tickGroup{{"one", []tick{a}}, {"two", []tick{c}}}, More: "1 ticked; 2 more to choose from"}, got)
	assert.Equal(t, "None ticked; 2 to choose from", fold(tickGroup{Ticks: []tick{a, c}}).More)
	assert.Equal(t, folded{Chosen: []tick{b}}, fold(tickGroup{Title: "all", Ticks: []tick{b}}), "nothing folds out where all is ticked")
	assert.Zero(t, fold())
}
