package method

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"potwright/internal/foodmatch"
	"potwright/internal/ingredient"
)

func TestCourseIsTheMethodClauseByClause(t *testing.T) {
	lines := []foodmatch.Matched{{Reading: ingredient.Read("2 carrots")}, {Reading: ingredient.Read("1 lb spaghetti")}}
	got := Course(steps("Boil the spaghetti 10 to 12 minutes; drain.", "Saute the carrots 5 minutes, add the spaghetti, and chill 2 hours."), namesOf(lines))
	type said struct {
		step, sentence int
		heat           Heat
		lines          []int
		minutes        float64
	}
	var have []said
	for _, c := range got {
		s := said{step: c.Step, sentence: c.Sentence, heat: c.Heat}
		for _, m := range c.Mentions {
			s.lines = append(s.lines, m.Line)
		}
		for _, p := range c.Periods {
			s.minutes += p.High
		}
		have = append(have, s)
	}
	assert.Equal(t, []said{
		{0, 0, Boil, []int{1}, 12},
		{0, 1, "", nil, 0},
		{1, 0, Fry, []int{0}, 5},
		{1, 0, "", []int{1}, 0},
		{1, 0, "", nil, 120},
	}, have)
	assert.Equal(t, []string{"drain"}, got[1].Words)
}

func TestASlowCookerIsSlowWhateverTheWordsForItsHeat(t *testing.T) {
	got := Course(steps("Brown the meat 5 minutes.", "Put it in a slow cooker.", "Low 7 to 8 hours."), nil)
	assert.Equal(t, Fry, got[0].Heat)
	last := got[len(got)-1]
	assert.Equal(t, []Period{{2, SlowCooker, LidUnknown, 420, 480}}, last.Periods)
}

func TestAReaderThatIsUsedAgainReadsAsANewOne(t *testing.T) {
	carrots, pasta := foodmatch.Matched{Reading: ingredient.Read("2 carrots")}, foodmatch.Matched{Reading: ingredient.Read("1 lb spaghetti")}
	lines := []*Names{NamesOf(&carrots), NamesOf(&pasta)}
	var r Reader
	for _, s := range [][]string{
		{"Brown the carrots 5 minutes in a slow cooker; drain.", "Add the spaghetti and cook on low 7 to 8 hours, then serve."},
		{"Boil the spaghetti 10 to 12 minutes."},
		nil,
		{"Saute the carrots, reserve the water.", "Stir in the spaghetti. Chill 2 hours, or freeze.", "Serve the carrots."},
	} {
		got := append([]Clause{}, r.Course(steps(s...), lines)...)
		assert.Equal(t, append([]Clause{}, Course(steps(s...), lines)...), got)
	}
}
