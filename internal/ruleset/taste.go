package ruleset

import (
	"io/fs"
	"sort"

	"potwright/internal/composition"
	"potwright/internal/diagnostic"
	"potwright/internal/taste"
)

// Taste reads how far salt may fall and what makes up for it (taste/*.yaml)
// under fsys. Foods and kinds are checked against the rows given. Every fault of
// every file is in the error, which is then a diagnostic.Faults.
func Taste(fsys fs.FS, foods []*composition.Food) (*taste.Book, error) {
	r := &tasteReader{vocabulary: newVocabulary(foods), seen: map[string]bool{}}
	for _, f := range foods {
		r.names = append(r.names, f.Name)
	}
	sort.Strings(r.names)
	faults := eachFile(fsys, "taste", r.file)
	if len(faults) == 0 && len(r.book.Helpers) == 0 {
		faults = diagnostic.Faults{{Problem: "no taste helpers found", Expected: "*.yaml files in the folder taste"}}
	}
	if err := faults.Err(); err != nil {
		return nil, err
	}
	return &r.book, nil
}

type tasteReader struct {
	*vocabulary
	names []string // of foods, sorted
	book  taste.Book
	seen  map[string]bool // ids
}

func (r *tasteReader) file(top value) {
	m := top.mapping("theme", "fall", "helpers")
	m.need("theme").text()
	if m.has("fall") {
		f := m.get("fall").mapping("unnoticed", "helped", "why", "source")
		r.book.Fall = taste.Fall{
			Unnoticed: f.need("unnoticed").number(0, 100) / 100, Helped: f.need("helped").number(0, 100) / 100,
			Why: f.need("why").text(), Source: f.need("source").text(),
		}
		if r.book.Fall.Helped < r.book.Fall.Unnoticed {
			f.get("helped").fault("below unnoticed", "a larger share")
		}
	}
	for _, v := range m.get("helpers").list() {
		r.book.Helpers = append(r.book.Helpers, r.helper(v))
	}
}

func (r *tasteReader) helper(v value) taste.Helper {
	m := v.mapping("id", "title", "food", "say", "with", "without", "why", "source")
	id := m.need("id")
	h := taste.Helper{
		ID: id.text(), Title: m.need("title").text(), Food: m.need("food").word("food", r.names), Say: m.need("say").text(),
		With: m.get("with").words("kind", r.kinds), Without: m.get("without").words("kind", r.kinds),
		Why: m.need("why").text(), Source: m.need("source").text(),
	}
	if h.ID != "" && r.seen[h.ID] {
		id.fault("id "+id.quoted()+" stands twice", "a name of its own")
	}
	r.seen[h.ID] = true
	return h
}
