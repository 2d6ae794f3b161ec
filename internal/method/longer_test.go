package method

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"potwright/internal/composition"
	"potwright/internal/foodmatch"
	"potwright/internal/swap"
)

// Brown rice cooks some 45 minutes where white takes 20; canned vegetables need
// none, raw ones do; tofu is done sooner than chicken: times on packages and in
// cooks' tables, common practice.
func TestMinutesFollowTheSwap(t *testing.T) {
	for _, c := range []struct {
		name        string
		lines       []string
		to          string
		minutes     int
		ready       bool
		steps, want []string
	}{
		{"a time of this food alone is changed", []string{"1 cup white rice", "2 cups water"}, "1 cup brown rice", 25, false,
			[]string{"Simmer the rice in the water for 20 minutes."}, []string{"Simmer the brown rice in the water for 45 minutes."}},
		{"both ends of it", []string{"1 cup white rice"}, "1 cup brown rice", 25, false,
			[]string{"Simmer the rice 15 to 20 minutes."}, []string{"Simmer the brown rice 40 to 45 minutes."}},
		{"a long one is told in hours", []string{"1 lb navy beans"}, "1 lb chickpeas", 30, false,
			[]string{"Simmer the navy beans for 1 1/2 hours."}, []string{"Simmer the chickpeas for 2 hours."}},
		{"with others in the pot it is said beside", []string{"1 cup white rice", "1 lb chicken"}, "1 cup brown rice", 25, false,
			[]string{"Add the rice and chicken.", "Cover and simmer 20 minutes."},
			[]string{"Add the brown rice and chicken.", "Cover and simmer 20 minutes. Allow about 25 minutes more for the brown rice."}},
		{"not where the dish cooks so long", []string{"1 cup white rice", "1 lb beef"}, "1 cup brown rice", 25, false,
			[]string{"Add the rice and beef.", "Simmer 2 hours."}, []string{"Add the brown rice and beef.", "Simmer 2 hours."}},
		{"what is drained cooks no more with the rest", []string{"1 cup macaroni", "1 lb beef"}, "1 cup penne", 5, false,
			[]string{"Boil and drain the macaroni.", "Mix with the beef and bake 30 minutes."}, []string{"Boil and drain the penne.", "Mix with the beef and bake 30 minutes."}},
		{"raw for ready in a pot that cooks long enough", []string{"1 can green beans", "1 lb beef"}, "2 cups fresh green beans", 8, true,
			[]string{"Add the green beans and beef and simmer 15 minutes."}, []string{"Add the green beans and beef and simmer 15 minutes."}},
		{"raw for ready that was only warmed", []string{"1 can green beans", "1 lb beef"}, "2 cups fresh green beans", 8, true,
			[]string{"Add the green beans and beef and simmer 2 minutes."},
			[]string{"Add the green beans and beef and simmer 2 minutes. Allow about 6 minutes more for the green beans."}},
		{"raw for ready where nothing is hot", []string{"1 can green beans", "1 tomato"}, "2 cups fresh green beans", 8, true,
			[]string{"Toss the green beans and tomato."}, []string{"First cook the green beans until tender, about 8 minutes.", "Toss the green beans and tomato."}},
		{"done sooner", []string{"1 lb chicken breast"}, "1 lb firm tofu", -8, false,
			[]string{"Bake the chicken breast 20 minutes."}, []string{"Bake the tofu 12 minutes."}},
		{"never to nothing", []string{"1 lb chicken breast"}, "1 lb firm tofu", -8, false,
			[]string{"Fry the chicken breast 10 minutes."}, []string{"Fry the tofu 10 minutes."}},
		{"a time for each side stays", []string{"1 lb cod"}, "1 lb chicken breast", 8, false,
			[]string{"Fry the cod 4 minutes a side."}, []string{"Fry the chicken breast 4 minutes a side. Allow about 8 minutes more for the chicken breast."}},
	} {
		t.Run(c.name, func(t *testing.T) {
			rec, lines := dish(c.lines...)
			rec.Steps = steps(c.steps...)
			food := &composition.Food{ID: "x", Name: "x"}
			if c.ready {
				food.States = []string{"canned"}
			}
			lines[0].Items = []foodmatch.Item{{Food: food}}
			o := option(swap.Replace, c.to)
			o.Rule.Minutes = c.minutes
			r := Rewrite(rec, lines, []LineChange{{Line: 0, Option: o}})
			assert.Equal(t, c.want, texts(r.Steps))
			assert.Empty(t, r.Notes())
		})
	}
}

func TestATimeThatIsSpokenOfIsNotCountedAgain(t *testing.T) {
	got := Times(steps("Simmer the soup 20 minutes. Allow about 8 minutes less for the tofu.", "Add the rest of the oil and fry 5 minutes."))
	assert.Equal(t, []Period{{0, Simmer, LidUnknown, 20, 20}, {1, Fry, LidUnknown, 5, 5}}, got.Periods)
}
