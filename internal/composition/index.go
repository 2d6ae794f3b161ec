package composition

// index finds foods by words.
type index struct {
	foods []*Food
}

func newIndex(foods []*Food) *index { return &index{foods: foods} }
