package ruleset

import (
	"os"
	"strings"
	"testing"

	"potwright/internal/composition"
	"potwright/internal/household"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestFoodsOfTheTableAnswerAsACookReadingLabelsWould(t *testing.T) {
	needs, foods := realNeeds(t)
	data, err := os.ReadFile("testdata/avoid.tsv")
	require.NoError(t, err)
	checks := 0
	for _, line := range strings.Split(strings.TrimSpace(string(data)), "\n") {
		if strings.HasPrefix(line, "#") {
			continue
		}
		cols := append(strings.Split(line, "\t"), "", "", "")
		food := foods.find(t, cols[0])
		for i, want := range []household.Presence{household.Contains, household.MayContain, household.FreeSoFar} {
			for _, key := range strings.Fields(cols[i+1]) {
				a, err := needs.Avoidance(key)
				require.NoError(t, err)
				got := a.JudgeFood(food)
				assert.Equal(t, want, got.Presence, "%s: %s (%s)", food.Name, key, got.Why)
				checks++
			}
		}
	}
	assert.Greater(t, checks, 400)
}

func TestLinesAreJudgedByTheirWordsToo(t *testing.T) {
	needs, foods := realNeeds(t)
	for _, c := range []struct {
		name, line, food, avoid string
		want                    household.Presence
	}{
		{"cream of tartar is no cream", "1 tsp cream of tartar", "", "milk", household.NotKnown},
		{"an unread line is never free", "1 cup of the usual mix", "", "milk", household.NotKnown},
		{"an unread line may still be told by its words", "2 tbsp homemade butter blend", "", "milk", household.Contains},
		{"butter beans hold no milk", "1 can butter beans", "beans, lima", "milk", household.FreeSoFar},
		{"bread and butter pickles hold no butter", "bread and butter pickles", "dill pickles", "milk", household.FreeSoFar},
		{"peanut butter is not butter", "1/2 cup peanut butter", "peanut butter, smooth, salted", "milk", household.FreeSoFar},
		{"a filling named in the preparation counts", "4 slices ham, topped with cheddar", "ham, boneless, roasted", "milk", household.Contains},
		{"a claim on the line is not trusted outright", "1 cup gluten-free flour", "flour, all-purpose, unbleached", "gluten", household.MayContain},
		{"a vegan claim is not trusted outright", "2 tbsp vegan butter", "butter, salted", "milk", household.MayContain},
		{"without nuts means no nuts", "1 cup rice, without nuts", "rice, white, long-grain, dry", "tree_nut", household.FreeSoFar},
		{"accents do not hide an allergen", "2 tbsp crème fraîche", "sour cream", "milk", household.Contains},
		{"plurals do not hide an allergen", "3 anchovies", "", "fish", household.Contains},
		{"buttercup squash is no butter", "1 buttercup squash", "butternut squash, raw", "milk", household.FreeSoFar},
		{"spaghetti squash is no wheat", "1 spaghetti squash", "butternut squash, raw", "wheat", household.FreeSoFar},
		{"beefsteak tomato is no beef", "1 beefsteak tomato", "tomato, raw", "beef", household.FreeSoFar},
		{"hamburger buns are no ham", "6 hamburger buns", "hamburger bun", "pork", household.FreeSoFar},
		{"root beer is no alcohol", "1 can root beer", "cola", "alcohol", household.FreeSoFar},
		{"oyster mushrooms are no mollusc", "8 oz oyster mushrooms", "mushrooms, white, raw", "mollusc", household.FreeSoFar},
	} {
		t.Run(c.name, func(t *testing.T) {
			a, err := needs.Avoidance(c.avoid)
			require.NoError(t, err)
			line := household.LineFood{Text: c.line, Unread: c.food == ""}
			if c.food != "" {
				line.Food = foods.like(t, c.food)
			}
			got := a.Judge(line)
			assert.Equal(t, c.want, got.Presence, got.Why)
		})
	}
}

// like finds a row by name, or any row whose name starts with the first word.
func (r rows) like(t *testing.T, name string) *composition.Food {
	t.Helper()
	for _, f := range r {
		if f.Name == name {
			return f
		}
	}
	first, _, _ := strings.Cut(name, ",")
	for _, f := range r {
		if strings.HasPrefix(f.Name, first) {
			return f
		}
	}
	return &composition.Food{Name: name}
}

func TestAnotherReadingOfTheLineThatContainsItIsToldOf(t *testing.T) {
	needs, foods := realNeeds(t)
	a, err := needs.Avoidance("dairy")
	require.NoError(t, err)
	line := household.LineFood{Text: "1 cup carton", Food: foods.find(t, "soy milk, unfortified"),
		Candidates: []*composition.Food{foods.find(t, "milk, whole")}}
	got := a.Judge(line)
	assert.Equal(t, household.MayContain, got.Presence)
	assert.Contains(t, got.Why, "may also mean")
}

func TestAvoidancesAreFoundByTheWordsPeopleUse(t *testing.T) {
	needs, _ := realNeeds(t)
	for key, title := range map[string]string{"milk": "milk", "dairy": "milk", "Eggs": "egg", "tree nuts": "tree nuts", "nuts": "tree nuts",
		"celiac": "gluten", "sulfites": "sulphites", "shellfish": "shellfish", "vegan": "all animal foods",
		"food:celery": "celery", "kind:cured_meat": "cured meat"} {
		a, err := needs.Avoidance(key)
		require.NoError(t, err, key)
		assert.Equal(t, title, a.Title)
		assert.Equal(t, key, a.Key)
	}
	for _, key := range []string{"mlik", "kind:cured_meet", "food:", "colour:red", ""} {
		_, err := needs.Avoidance(key)
		assert.Error(t, err, key)
	}
}

func TestEveryListedAllergenOfTheUSAndTheEUIsThere(t *testing.T) {
	needs, _ := realNeeds(t)
	us, eu := 0, 0
	for _, r := range needs.AvoidRules() {
		for _, l := range r.Lists {
			switch l {
			case "US nine":
				us++
			case "EU fourteen":
				eu++
			}
		}
	}
	assert.Equal(t, 9, us, "21 USC 321(qq)")
	assert.Equal(t, 14, eu, "Regulation (EU) 1169/2011, Annex II")
}
