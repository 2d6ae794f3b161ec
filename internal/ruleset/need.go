package ruleset

import "potwright/internal/household"

// needReader fills a book from the files.
type needReader struct {
	*vocabulary
	book household.Book
	// base is the book that a folder of own needs adds to, nil where the files
	// must make a book by themselves.
	base *household.Book
}

// part is the value of a key that only a whole book must have.
func (r *needReader) part(m fields, key string) value {
	if r.base != nil {
		return m.get(key)
	}
	return m.need(key)
}

// id reads the id of an entry and marks the faults that follow with it; seen
// holds those before.
func (r *needReader) id(m fields, seen map[string]bool) string {
	m.src.rule = ""
	id := m.need("id").text()
	if id != "" {
		wellNamed(m.get("id"), id)
	}
	if seen[id] && id != "" {
		m.get("id").fault("id \""+id+"\" is taken", "an id of its own")
	}
	seen[id] = true
	m.src.rule = id
	return id
}

// signKeys are the keys that signs are written in.
func signKeys(more ...string) []string {
	return append([]string{"kinds", "foods", "words", "not_kinds", "not_foods", "not", "states", "not_states"}, more...)
}

func (r *needReader) signs(m fields) household.Signs {
	return household.Signs{
		Kinds: m.get("kinds").words("kind", r.kinds), Foods: r.foodNames(m.get("foods")), Words: m.get("words").texts(),
		NotKinds: m.get("not_kinds").words("kind", r.kinds), NotFoods: r.foodNames(m.get("not_foods")), NotWords: m.get("not").texts(),
		States: m.get("states").texts(), NotStates: m.get("not_states").texts(),
	}
}

// someSigns reads signs of which at least one must be there.
func (r *needReader) someSigns(m fields) household.Signs {
	s := r.signs(m)
	if !m.absent() && !m.has("kinds") && !m.has("foods") && !m.has("words") {
		m.fault("nothing to know it by", "kinds, foods or words")
	}
	return s
}
