package pages

import (
	"bytes"
	"fmt"
	"html/template"
	"strconv"

	"potwright/internal/recall"
)

// parts are the fields of forms, and what stands above and below every page, as they
// were written before: the same ones stand on page after page, by the dozen, and
// writing one takes a template as long as ten lines of text.
type parts struct {
	all  *template.Template
	made recall.Memory[partKey, template.HTML]
}

// partKey is a part's name and all that it says: the struct itself, or the text of one
// that does not compare.
type partKey struct {
	name string
	says any
}

// partBytes is how much of parts is kept at hand: some 10,000. A design choice.
const partBytes = 4 << 20

func newParts() *parts {
	p := &parts{}
	p.made.Limit, p.made.Weigh = partBytes, func(part template.HTML) int { return len(part) }
	return p
}

// funcs are what templates write the parts with.
func (p *parts) funcs() template.FuncMap {
	return template.FuncMap{
		"entry":  func(e entry) (template.HTML, error) { return p.write("entry", e) },
		"tick":   func(t tick) (template.HTML, error) { return p.write("tick", t) },
		"choice": func(t tick) (template.HTML, error) { return p.write("choice", t) },
		"pick":   func(k pick) (template.HTML, error) { return p.write("pick", k) },
		"cover": func(f frame) (template.HTML, error) {
			return p.write("cover", frame{Base: f.Base, Household: f.Household, Here: f.Here, Account: f.Account, Bare: f.Bare})
		},
		"foot": func(f frame) (template.HTML, error) {
			return p.write("foot", frame{Caution: f.Caution, Bare: f.Bare})
		},
	}
}

// write is the part of a name for a field (an entry, a tick or a pick), or for as much
// of a frame as it shows.
func (p *parts) write(name string, field any) (template.HTML, error) {
	key := partKey{name, field}
	if list, ok := field.(pick); ok {
		key.says = list.says()
	}
	if part, ok := p.made.Find(key); ok {
		return part, nil
	}
	var b bytes.Buffer
	if err := p.all.ExecuteTemplate(&b, name, field); err != nil {
		return "", fmt.Errorf("write the part %s: %w", name, err)
	}
	part := template.HTML(b.String()) // what a template wrote is HTML
	p.made.Put(key, part)
	return part, nil
}

// says tells a list from any other.
func (p pick) says() string {
	b := make([]byte, 0, 512)
	write := func(s string) { b = append(append(strconv.AppendInt(b, int64(len(s)), 10), ' '), s...) }
	write(p.Name)
	write(p.Label)
	write(p.Hint)
	write(p.Wrong)
	for i := range p.Options {
		o := &p.Options[i]
		write(o.Value)
		write(o.Label)
		b = strconv.AppendBool(b, o.On)
	}
	return string(b)
}
