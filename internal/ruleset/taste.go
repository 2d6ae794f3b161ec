package ruleset

import (
	"potwright/internal/kitchen"
	"potwright/internal/taste"
)

// saltFall is the id that how far salt may fall goes by.
const saltFall = "fall"

// tasteReader reads how far salt may fall and what makes up for it.
type tasteReader struct {
	*vocabulary
	book taste.Book
	seen map[string]bool // ids
}

func (r *tasteReader) file(top value) {
	m := top.mapping("theme", "fall", "helpers")
	top.src.theme = m.need("theme").text()
	if v := m.get("fall"); !v.absent() {
		before := len(v.src.faults)
		if f := fall(v); v.src.sound(before, kitchen.TasteHelper, saltFall, v.line()) {
			r.book.Fall = f
		}
	}
	for _, v := range m.get("helpers").list() {
		before := len(v.src.faults)
		v.src.rule = peekID(v)
		if h := r.helper(v); v.src.sound(before, kitchen.TasteHelper, h.ID, v.line()) {
			r.book.Helpers = append(r.book.Helpers, h)
		}
	}
}

func fall(v value) taste.Fall {
	m := v.mapping("unnoticed", "helped", "why", "source")
	f := taste.Fall{
		Unnoticed: m.need("unnoticed").number(0, 100) / 100, Helped: m.need("helped").number(0, 100) / 100,
		Why: m.need("why").text(), Source: m.need("source").text(),
	}
	if f.Helped < f.Unnoticed && m.has("helped") {
		m.get("helped").fault("below unnoticed", "a larger share")
	}
	return f
}

func (r *tasteReader) helper(v value) taste.Helper {
	m := v.mapping("id", "title", "food", "say", "with", "without", "why", "source")
	id := m.need("id")
	h := taste.Helper{
		ID: id.text(), Title: m.need("title").text(), Food: m.need("food").word("food", r.foods), Say: m.need("say").text(),
		With: m.get("with").words("kind", r.kinds), Without: m.get("without").words("kind", r.kinds),
		Why: m.need("why").text(), Source: m.need("source").text(),
	}
	if h.ID != "" && r.seen[h.ID] {
		id.fault("id "+id.quoted()+" is taken", "an id of its own")
	}
	if h.ID == saltFall {
		id.fault("id "+id.quoted()+" is that of how far salt may fall", "an id of its own")
	}
	if h.ID != "" {
		wellNamed(id, h.ID)
	}
	r.seen[h.ID] = true
	return h
}
