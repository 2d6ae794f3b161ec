package nutrient_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"potwright/internal/foodmatch"
	"potwright/internal/ingredient"
	"potwright/internal/nutrient"
)

func TestASheetThatIsUsedAgainReckonsAsALineByItself(t *testing.T) {
	tb := table(t)
	var s nutrient.Sheet
	for _, dish := range [][]string{
		{"1 cup milk"},
		{"salt and pepper to taste", "blorfuzz", "1 lb ground beef", "1 onion", "2 cups rice"},
		{"2 eggs", "foil"},
		{"1 (15 oz) can kidney beans, drained", "salt and pepper to taste", "1/2 cup soy sauce"},
	} {
		s.Clear(len(dish))
		var alone []nutrient.LinePanel
		for _, text := range dish {
			m := foodmatch.Weigh(ingredient.Read(text), tb, nil, nil)
			s.Line(text, &m, 4)
			alone = append(alone, nutrient.Line(text, &m, 4))
		}
		assert.Equal(t, alone, s.Lines)
		assert.Equal(t, nutrient.Sum(alone, 4), nutrient.Sum(s.Lines, 4))
	}
}
