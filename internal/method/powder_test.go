package method

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"potwright/internal/swap"
)

func TestAPowderIsWarmedAndNotSoftened(t *testing.T) {
	for _, c := range []struct{ name, was, want string }{
		{"by itself", "Soften the onion in the oil for 5 minutes.", "Warm the onion powder in the oil for half a minute."},
		{"until it was soft", "Cook the onion until translucent, then add the broth.", "Warm the onion powder, then add the broth."},
		{"with others that need their time", "Cook the onion and celery 5 minutes.", "Cook the onion powder and celery 5 minutes."},
		{"simmered in the pot", "Add the onion and simmer 20 minutes.", "Add the onion powder and simmer 20 minutes."},
	} {
		t.Run(c.name, func(t *testing.T) {
			rec, lines := dish("1 onion, chopped", "2 tbsp oil", "2 stalks celery", "4 cups broth")
			rec.Steps = steps(c.was)
			got, notes := rewrite(rec, lines, []LineChange{{Line: 0, Option: option(swap.Replace, "1 tsp onion powder")}})
			assert.Equal(t, []string{c.want}, texts(got))
			assert.Empty(t, notes)
		})
	}
}

func TestWhatGoesOnFromACookingThatIsGoneIsGoneToo(t *testing.T) {
	rec, lines := dish("1 pound penne", "1 jar sauce")
	rec.Steps = steps("Boil the penne in plenty of water until just tender, then drain.", "Mix the penne with the sauce.")
	o := option(swap.Replace, "1 lb rice noodles")
	o.Rule.Method = []swap.MethodEdit{{Do: "add", Text: "Cook the rice noodles by themselves until just soft and rinse them cold.", At: "before"}}
	got, _ := rewrite(rec, lines, []LineChange{{Line: 0, Option: o}})
	assert.Equal(t, []string{"Cook the rice noodles by themselves until just soft and rinse them cold.", "Mix the rice noodles with the sauce."}, texts(got))
}
