package ruleset

import (
	"potwright/internal/kitchen"
	"potwright/internal/taste"
)

// saltFall is the id that how far salt may fall goes by.
const saltFall = "fall"

// tasteReader reads how far salt may fall.
type tasteReader struct{ book taste.Book }

func (r *tasteReader) file(top value) {
	m := top.mapping("theme", "fall")
	top.src.theme = m.need("theme").text()
	v := m.need("fall")
	before := len(v.src.faults)
	if f := fall(v); v.src.sound(before, kitchen.SaltFall, saltFall, v.line()) {
		r.book.Fall = f
	}
}

func fall(v value) taste.Fall {
	m := v.mapping("unnoticed", "helped", "counts", "why", "source")
	f := taste.Fall{
		Unnoticed: m.need("unnoticed").number(0, 100) / 100, Helped: m.need("helped").number(0, 100) / 100,
		Counts: m.need("counts").whole(0, 10),
		Why:    m.need("why").text(), Source: m.need("source").text(),
	}
	if f.Helped < f.Unnoticed && m.has("helped") {
		m.get("helped").fault("below unnoticed", "a larger share")
	}
	return f
}
