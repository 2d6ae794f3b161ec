package composition

type index struct{}
