package adaptation_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/adaptation"
)

// Cost levels as Answer.Cost documents them.
const (
	change, effort, room = 0, 1, 3
)

func TestEachAimIsBestAtWhatItAimsAt(t *testing.T) {
	answers := map[adaptation.Aim]adaptation.Answer{}
	for _, aim := range []adaptation.Aim{adaptation.LeastChange, adaptation.LeastEffort, adaptation.MostRoom} {
		_, ans := adaptSoup(t, salted(700), adaptation.Wishes{Aim: aim})
		require.True(t, ans.Fits, "%q: %v", aim, ans.Conflicts)
		require.Equal(t, adaptation.Optimal, ans.Proof, "%q", aim)
		answers[aim] = ans
	}
	for aim, level := range map[adaptation.Aim]int{adaptation.LeastChange: change, adaptation.LeastEffort: effort, adaptation.MostRoom: room} {
		for other, ans := range answers {
			assert.LessOrEqual(t, answers[aim].Cost[level], ans.Cost[level], "%q against %q", aim, other)
		}
	}
	assert.Less(t, answers[adaptation.MostRoom].Cost[room], answers[adaptation.LeastChange].Cost[room], "there is room to win in this soup")
}

func TestEveryEditNamesAStepAndAChange(t *testing.T) {
	_, ans := adaptSoup(t, salted(700), adaptation.Wishes{})
	require.NotEmpty(t, ans.Edits)
	for _, e := range ans.Edits {
		assert.Less(t, e.Step, len(ans.Recipe.Steps))
		assert.Less(t, e.Change, len(ans.Changes))
		assert.GreaterOrEqual(t, e.Change, 0)
	}
}
