package household

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestSingularAndPluralComeOutAlikeAndNothingElseDoes(t *testing.T) {
	for _, same := range [][2]string{{"cookies", "cookie"}, {"anchovies", "anchovy"}, {"radishes", "radish"}, {"tomatoes", "tomato"},
		{"quiches", "quiche"}, {"leaves", "leaf"}, {"olives", "olive"}, {"eggs", "egg"}, {"peaches", "peach"}, {"brownies", "brownie"}} {
		assert.Equal(t, singular(same[0]), singular(same[1]), same)
	}
	for _, apart := range [][2]string{{"creamed", "cream"}, {"buttered", "butter"}, {"corned", "corn"}, {"eggplant", "egg"}, {"nutmeg", "nut"},
		{"oat", "goat"}, {"peanuts", "nuts"}, {"rice", "ice"}, {"molasses", "mole"}} {
		assert.NotEqual(t, singular(apart[0]), singular(apart[1]), apart)
	}
}

func TestALookAlikeIsCutOutBeforeWordsAreLookedFor(t *testing.T) {
	s := newSigns(Signs{Words: []string{"butter"}, NotWords: []string{"peanut butter"}})
	for text, want := range map[string]bool{"1 cup peanut butter": false, "peanut butter and butter": true, "Butter, softened": true,
		"peanuts; butter": false, "without butter": false, "no-butter spread": false, "": false} {
		_, got := s.inText(tokens(text))
		assert.Equal(t, want, got, text)
	}
}

func TestTheFirstOfTwoTimesCounts(t *testing.T) {
	for text, want := range map[string]int{"Simmer 1 to 2 hours.": 60, "Bake for 20-30 minutes": 20, "Simmer 90 minutes": 90,
		"Cook an hour": 60, "Rest 10 minutes": 0, "Simmer": 0, "Roast 2 hr then simmer 15 min": 120, "cook 99999999 hours": 0} {
		assert.Equal(t, want, new(Needs).method([]string{text}).minutes, text)
	}
}

func FuzzLinesAreJudgedWithoutPanic(f *testing.F) {
	f.Add("1 cup crème fraîche (or butter), melted")
	f.Add("½ tsp\x00\xff")
	needs := NewNeeds(Book{
		Avoid:  []AvoidRule{{ID: "milk", Title: "milk", Signs: Signs{Words: []string{"butter", "crème fraîche"}, NotWords: []string{"butter bean"}}}},
		Levels: []Level{{Level: 4, Smooth: true, DoneBy: []string{"puree"}}}, Actions: []HandAction{{ID: "whisk", Step: []string{"whisk"}, Loads: map[string]int{"grip": 2}}},
		Features: []Feature{{ID: "hard", UpTo: 6, Carriers: []FeatureCarrier{{Signs: Signs{Words: []string{"nut"}}}}}},
	}, nil)
	f.Fuzz(func(t *testing.T, text string) {
		line := LineFood{Text: text}
		a, err := needs.Avoidance("milk")
		if err != nil {
			t.Fatal(err)
		}
		if got := a.Judge(line); got.Presence == FreeSoFar {
			t.Fatalf("%q was not read, yet free", text)
		}
		need, _ := needs.Texture(Member{Texture: &Texture{Level: 4}})
		need.Judge([]LineFood{line}, []string{text})
		needs.Hands(Cook{Spare: []string{"grip"}, LiftLimitKg: 1}).Judge([]LineFood{line}, []string{text}, 5)
		_, _ = needs.Avoidance(text)
	})
}
