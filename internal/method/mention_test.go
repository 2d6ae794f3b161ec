package method

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"potwright/internal/foodmatch"
)

// told writes mentions as "words=line", ambiguous ones with every line.
func told(text string, lines []foodmatch.Matched) string {
	var out []string
	for _, m := range Mentions(steps(text), lines)[0] {
		s := m.Words + "=" + string(rune('0'+m.Line))
		for _, o := range m.Others {
			s += "|" + string(rune('0'+o))
		}
		if m.Doing {
			s += "!"
		}
		out = append(out, s)
	}
	return strings.Join(out, ", ")
}

func TestMentions(t *testing.T) {
	for name, c := range map[string]struct {
		lines      []string
		text, want string
	}{
		"the whole phrase":                       {[]string{"4 cups chicken broth"}, "Pour in the chicken broth.", "chicken broth=0"},
		"the head noun":                          {[]string{"4 cups chicken broth"}, "Pour in the broth.", "broth=0"},
		"stock for broth":                        {[]string{"4 cups chicken broth"}, "Pour in the stock.", "stock=0"},
		"broth is not chicken":                   {[]string{"1 pound chicken breast", "4 cups chicken broth"}, "Add the chicken to the chicken broth.", "chicken=0, chicken broth=1"},
		"seeds go by their plant":                {[]string{"1 tsp cumin seeds", "1 tsp mustard seeds", "2 stalks celery", "1 tsp celery seed"}, "Add cumin and mustard seeds; fry the celery.", "cumin=0, mustard seeds=1, celery=2"},
		"what is left out":                       {[]string{"1 cup walnuts", "1 cup chips", "2 eggs"}, "Blend the eggs with everything else (besides walnuts and chips).", "eggs=2"},
		"mince goes by its animal":               {[]string{"500 g lamb mince", "1 onion"}, "Crumble in the lamb. Put the mince over it.", "lamb=0, mince=0"},
		"another food's compound":                {[]string{"1 pound chicken breast"}, "Add chicken broth and the chicken.", "chicken=0"},
		"butter is not peanut butter":            {[]string{"2 tablespoons butter", "1/2 cup peanut butter"}, "Melt the butter with the peanut butter.", "butter=0, peanut butter=1"},
		"peanut butter alone is not butter":      {[]string{"2 tablespoons butter"}, "Stir in peanut butter.", ""},
		"two kinds of bean":                      {[]string{"1 cup black beans", "1 cup kidney beans"}, "Add the beans, black beans first.", "beans=0|1, black beans=0"},
		"a word before tells them apart":         {[]string{"1/4 teaspoon black pepper", "1 red bell pepper, sliced"}, "Add the red pepper.", "pepper=1"},
		"salt and pepper is black pepper":        {[]string{"1 red bell pepper", "1/4 teaspoon black pepper", "1 teaspoon salt"}, "Season with salt and pepper.", "salt=2, pepper=1"},
		"an amount tells them apart":             {[]string{"3/4 cup flour", "1 tablespoon flour"}, "Mix 3/4 cup flour, then 1 tablespoon of the flour.", "flour=0, flour=1"},
		"what it is for tells them apart":        {[]string{"1 tablespoon salt, for the pasta water", "1/2 teaspoon salt"}, "Stir oregano and salt into the sauce.", "salt=1"},
		"plural and singular":                    {[]string{"2 tomatoes", "1 potato", "2 bay leaves"}, "A tomato, potatoes, one bay leaf.", "tomato=0, potatoes=1, bay leaf=2"},
		"without salt is none":                   {[]string{"1 teaspoon salt"}, "Cook without salt, or without adding any salt. Salt-free is fine.", ""},
		"salted is none":                         {[]string{"1 teaspoon salt"}, "Boil in salted water.", ""},
		"something done with it":                 {[]string{"1 teaspoon salt", "1 tablespoon butter"}, "Salt the water and butter a dish.", "Salt=0!, butter=1!"},
		"a sauce of several is none":             {[]string{"1 cup tomato sauce", "1 onion"}, "Stir the sauce. Add the tomato sauce.", "tomato sauce=0"},
		"a bare sauce is the line's":             {[]string{"2 cups enchilada sauce", "1 cup rice"}, "Mix sauce and rice; spread the sauce. Add rice, sauce.", "sauce=0, rice=1, rice=1, sauce=0"},
		"cheese by its variety":                  {[]string{"1 cup shredded cheddar cheese"}, "Scatter the cheddar; add more cheese.", "cheddar=0, cheese=0"},
		"cream cheese is not cream":              {[]string{"1 cup heavy cream", "4 ounces cream cheese"}, "Beat the cream cheese with the cream.", "cream cheese=1, cream=0"},
		"fish by class":                          {[]string{"1 pound cod fillets"}, "Cook until the fish flakes.", "fish=0"},
		"accents and letter case":                {[]string{"1 tablespoon crème fraîche"}, "ADD THE CREME FRAICHE.", "CREME FRAICHE=0"},
		"both foods of a line":                   {[]string{"salt and pepper to taste"}, "Add salt and pepper.", "salt=0, pepper=0"},
		"an alternative":                         {[]string{"3 tablespoons margarine or butter"}, "Melt the butter.", "butter=0"},
		"hyphens":                                {[]string{"1 cup all-purpose flour"}, "Add the all purpose flour.", "all purpose flour=0"},
		"juices of a can are not the line juice": {[]string{"1 tablespoon lemon juice", "1 can tomatoes"}, "Add tomatoes with their juices and lemon juice.", "tomatoes=1, lemon juice=0"},
	} {
		t.Run(name, func(t *testing.T) {
			_, lines := dish(c.lines...)
			assert.Equal(t, c.want, told(c.text, lines))
		})
	}
}

func TestMentionColumnsAreRunes(t *testing.T) {
	_, lines := dish("1 cup crème fraîche", "1 onion")
	text := "Ünd: crème fraîche, onion"
	ms := Mentions(steps(text), lines)[0]
	if assert.Len(t, ms, 2) {
		for _, m := range ms {
			assert.Equal(t, m.Words, string([]rune(text)[m.From:m.To]))
		}
	}
}
