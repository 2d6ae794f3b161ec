package recipe_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"potwright/internal/recipe"
)

func TestBeside(t *testing.T) {
	// 1 → 2 → 4, and 3 and 5 were made from 1.
	all := []recipe.Version{{ID: 11, Number: 1}, {ID: 12, Number: 2, ParentID: 11}, {ID: 13, Number: 3, ParentID: 11},
		{ID: 14, Number: 4, ParentID: 12}, {ID: 15, Number: 5, ParentID: 11}}
	for number, want := range map[int][]int{1: nil, 2: nil, 3: {2}, 4: {3}, 5: {2, 3, 4}} {
		var got []int
		for _, v := range recipe.Beside(all, all[number-1]) {
			got = append(got, v.Number)
		}
		assert.Equal(t, want, got, "beside version %d", number)
	}
	assert.Empty(t, recipe.Beside(nil, all[2]), "versions that are not known")
}
