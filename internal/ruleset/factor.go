package ruleset

import (
	"io/fs"

	"potwright/internal/composition"
	"potwright/internal/cooking"
	"potwright/internal/diagnostic"
	"potwright/internal/kitchen"
	"potwright/internal/spread"
)

// Factors reads what cooking does (factor/*.yaml) under fsys. Kinds and states
// are checked against the rows given, codes against the retention table. Every
// fault of every file is in the error, which is then a diagnostic.Faults.
func Factors(fsys fs.FS, foods []*composition.Food, table cooking.Retentions) (*cooking.Book, error) {
	r := &factorReader{vocabulary: newVocabulary(foods), seen: map[string]bool{}}
	r.out.Retentions = table
	faults := eachFile(fsys, "factor", r.file)
	if len(faults) == 0 && len(r.out.Factors) == 0 {
		faults = diagnostic.Faults{{Problem: "no factors found", Expected: "*.yaml files in the folder factor"}}
	}
	if err := faults.Err(); err != nil {
		return nil, err
	}
	return cooking.NewBook(r.out), nil
}

type factorReader struct {
	*vocabulary
	out  cooking.Contents
	seen map[string]bool // ids
}

func (r *factorReader) file(top value) {
	m := top.mapping("theme", "retention", "yields", "alcohol", "poured", "evaporation")
	top.src.theme = m.need("theme").text()
	for _, v := range m.get("retention").list() {
		before := len(v.src.faults)
		if f := r.factor(v); v.src.sound(before, kitchen.Retention, f.ID, v.line()) {
			r.out.Factors = append(r.out.Factors, f)
		}
	}
	for _, v := range m.get("yields").list() {
		before := len(v.src.faults)
		if y := r.yield(v); v.src.sound(before, kitchen.YieldFactor, y.ID, v.line()) {
			r.out.Yields = append(r.out.Yields, y)
		}
	}
	for _, v := range m.get("evaporation").list() {
		r.out.Rates = append(r.out.Rates, rate(v))
	}
	if m.has("alcohol") {
		r.out.Alcohol = alcohol(m.get("alcohol"))
	}
	if m.has("poured") {
		p := m.get("poured").mapping("cooking_water", "cooking_water_salt", "marinade")
		r.out.CookingWater = percentRange(p.need("cooking_water"))
		r.out.Seasoning = percentRange(p.need("cooking_water_salt"))
		r.out.Marinade = percentRange(p.need("marinade"))
	}
}

// id reads a name that no other entry has.
func (r *factorReader) id(m fields) string {
	v := m.need("id")
	id := v.text()
	if id != "" && r.seen[id] {
		v.fault("id "+v.quoted()+" stands twice", "a name of its own")
	}
	r.seen[id] = true
	v.src.rule = id
	return id
}

var whichKeys = []string{"id", "kinds", "not_kinds", "states", "not_states", "min_fat", "max_fat", "why", "source"}

func (r *factorReader) which(m fields) cooking.Which {
	w := cooking.Which{
		Kinds: m.need("kinds").words("kind", r.kinds), NotKinds: m.get("not_kinds").words("kind", r.kinds),
		States: m.get("states").words("state", r.states), NotStates: m.get("not_states").words("state", r.states),
		MinFat: m.get("min_fat").number(0, 100), MaxFat: m.get("max_fat").number(0, 100),
	}
	if w.MaxFat > 0 && w.MaxFat <= w.MinFat {
		m.get("max_fat").fault("not above min_fat", "a larger number")
	}
	return w
}

func (r *factorReader) factor(v value) cooking.Factor {
	m := v.mapping(append([]string{"codes"}, whichKeys...)...)
	f := cooking.Factor{ID: r.id(m), Which: r.which(m), Why: m.need("why").text(), Source: m.need("source").text(), Codes: map[cooking.Treatment][]cooking.Timed{}}
	codes := m.need("codes").mapping(treatmentWords()...)
	for _, key := range codes.order() {
		f.Codes[cooking.Treatment(key)] = r.timed(codes.get(key))
	}
	return f
}

func treatmentWords() []string {
	var out []string
	for _, t := range cooking.Treatments() {
		out = append(out, string(t))
	}
	return out
}

// timed reads one code, or codes by minutes of which the last has none.
func (r *factorReader) timed(v value) []cooking.Timed {
	if _, isText := scalarOf(v); isText {
		return []cooking.Timed{{Code: r.code(v)}}
	}
	var out []cooking.Timed
	entries := v.list()
	for i, e := range entries {
		m := e.mapping("minutes", "code")
		t := cooking.Timed{Minutes: m.get("minutes").number(0, 1e4), Code: r.code(m.need("code"))}
		switch last := i == len(entries)-1; {
		case last && t.Minutes != 0:
			e.fault("the last code has minutes", "a last code without, for any longer time")
		case !last && (t.Minutes == 0 || i > 0 && t.Minutes <= out[i-1].Minutes):
			e.fault("minutes do not rise", "minutes above those before")
		}
		out = append(out, t)
	}
	return out
}

func (r *factorReader) code(v value) string {
	code := v.text()
	if _, ok := r.out.Retentions[code]; code != "" && !ok {
		v.fault("code "+v.quoted()+" is not in the retention table", `a code such as "3005", in quotes`)
	}
	return code
}

func (r *factorReader) yield(v value) cooking.Yield {
	m := v.mapping(append([]string{"treatments", "weight", "fat", "water"}, whichKeys...)...)
	y := cooking.Yield{ID: r.id(m), Which: r.which(m), Weight: ordered(m.need("weight"), 0.05, 10),
		Fat: ordered(m.get("fat"), 0, 100), Water: m.get("water").yes(), Why: m.need("why").text(), Source: m.need("source").text()}
	for _, t := range m.need("treatments").words("treatment", treatmentWords()) {
		y.Treatments = append(y.Treatments, cooking.Treatment(t))
	}
	return y
}

// ordered reads low, mid and high that do not fall.
func ordered(v value, least, most float64) spread.Range {
	if v.absent() {
		return spread.Range{}
	}
	m := v.mapping("low", "mid", "high", "source")
	r := spread.Range{Low: m.need("low").number(least, most), Mid: m.need("mid").number(least, most), High: m.need("high").number(least, most)}
	if r.Low > r.Mid || r.Mid > r.High {
		v.fault("low, mid and high are out of order", "numbers that do not fall")
	}
	return r
}

func percentRange(v value) spread.Range {
	if v.absent() {
		return spread.Range{}
	}
	v.mapping("low", "mid", "high", "source").need("source").text()
	return ordered(v, 0, 100).Scale(0.01)
}
