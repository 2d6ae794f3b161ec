package method

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestTimes(t *testing.T) {
	for _, c := range []struct {
		text string
		want []Period
	}{
		{"Simmer 15 minutes.", []Period{{0, Simmer, LidUnknown, 15, 15}}},
		{"Cover and simmer 10-15 minutes.", []Period{{0, Simmer, Covered, 10, 15}}},
		{"Simmer, partly covered, about 2 hours.", []Period{{0, Simmer, PartlyCovered, 120, 120}}},
		{"Simmer uncovered for 5 to 7 minutes; cover and cook 1 hour 15 minutes more.",
			[]Period{{0, Simmer, Uncovered, 5, 7}, {0, Simmer, Covered, 75, 75}}},
		{"Bring to a boil, cover with the lid and cook on low for half an hour.", []Period{{0, Boil, Covered, 30, 30}}},
		{"Cover with water and boil 20 minutes.", []Period{{0, Boil, LidUnknown, 20, 20}}},
		{"Bake covered with foil 1 1/2 hours, then uncover and bake 10 minutes.",
			[]Period{{0, Bake, Covered, 90, 90}, {0, Bake, Uncovered, 10, 10}}},
		{"Brown the meat 5 minutes a side.", []Period{{0, Fry, LidUnknown, 10, 10}}},
		{"Chill at least 2 hours.", []Period{{0, Rest, LidUnknown, 120, 120}}},
		{"Microwave on high 90 seconds.", []Period{{0, Microwave, LidUnknown, 1.5, 1.5}}},
		{"Put it all in a slow cooker; cook on low 7-8 hours.", []Period{{0, SlowCooker, LidUnknown, 420, 480}}},
		{"A 10-minute simmer is enough.", []Period{{0, Cook, LidUnknown, 10, 10}}},
		{"Heat the oven to 350 F. Use a 9x13 pan and 2 cups water.", nil},
		{"", nil},
	} {
		t.Run(c.text, func(t *testing.T) {
			assert.Equal(t, c.want, Times(steps(c.text)).Periods)
		})
	}
}

func TestLidAndHeatGoOnInTheNextStep(t *testing.T) {
	c := Times(steps("Bring to a simmer and cover.", "20 minutes on low.", "Take the lid off: 5 minutes more."))
	assert.Equal(t, []Period{{1, Simmer, Covered, 20, 20}, {2, Simmer, Uncovered, 5, 5}}, c.Periods)
}

func TestTreatments(t *testing.T) {
	for text, want := range map[string][]Treatment{
		"Drain and rinse the beans.":                  {Drained, Rinsed},
		"Lift out the chicken; discard the marinade.": {MarinadeDiscarded},
		"Drain, saving 1 cup of the pasta water.":     {Drained, LiquidReserved},
		"Keep 3/4 cup of the cooking liquid.":         {LiquidReserved},
		"Keep warm. Add the broth.":                   {LiquidReserved}, // close enough to be taken for it
		"Serve.":                                      nil,
	} {
		var got []Treatment
		cooking := Times(steps(text))
		for _, d := range cooking.Deeds {
			got = append(got, d.Treatment)
		}
		assert.Equal(t, want, got, text)
	}
}
