package composition

// Phrase is what an ingredient line says about its food.
type Phrase struct {
	// Words is the food phrase, lower case, without quantity, unit and
	// preparation: "chicken broth", "cheddar cheese".
	Words string
	// States are the state words found on the line in normal form: canned,
	// drained, rinsed, frozen, dried, fresh, cooked, raw, unsalted, low_sodium,
	// reduced_sodium, fat_free, low_fat, reduced_fat, whole, skinless, boneless,
	// lean_90, ...
	States []string
	// Unit is the measure's unit in normal form ("cup", "can", "stick", "each"),
	// which tells a canned or whole food from a dry or ground one.
	Unit string
}

// Candidate is a food a phrase may mean.
type Candidate struct {
	Food *Food
	// Weight is how likely, 0..1; the weights of a phrase's candidates sum to at
	// most 1.
	Weight float64
	// Why says in a few words what the choice rests on, or "" where the phrase
	// names the food outright.
	Why string
}

// Table is the food table, ready for look-up. It is safe for concurrent use.
type Table struct {
	foods  []*Food
	byID   map[string]*Food
	byName map[string]*Food
	index  *index
}
