package ruleset

import (
	"fmt"
	"path"
	"strings"

	"potwright/internal/diagnostic"
	"potwright/internal/foodmatch"
	"potwright/internal/swap"
)

// tried are the rules whose examples hold, with the faults of the others. book
// holds the rules. Without a way to read lines all are taken.
func (r *folderReader) tried(read swap.Reader, book *swap.Book) ([]swap.Rule, diagnostic.Faults) {
	if read == nil {
		return r.swaps.rules, nil
	}
	lines := map[string]foodmatch.Matched{}
	once := func(text string) foodmatch.Matched {
		m, ok := lines[text]
		if !ok {
			m = read(text)
			lines[text] = m
		}
		return m
	}
	var sound []swap.Rule
	var faults diagnostic.Faults
	for _, rule := range r.swaps.rules {
		at := r.swaps.examples[rule.ID]
		before := len(at.src.faults)
		at.src.rule = rule.ID
		tryRule(rule, at, book, once)
		if len(at.src.faults) == before {
			sound = append(sound, rule)
			continue
		}
		for _, f := range at.src.faults[before:] {
			f.File = path.Join(r.name, f.File)
			faults = append(faults, f)
		}
	}
	return sound, faults
}

// tryRule holds the examples of a rule against the rule, and records at their
// places what does not hold.
func tryRule(rule swap.Rule, at value, book *swap.Book, read swap.Reader) {
	if rule.Do == swap.Add {
		tryAddition(rule, at, book, read)
		return
	}
	m := at.mapping()
	var dish []foodmatch.Matched
	for _, text := range rule.Examples.Dish {
		dish = append(dish, read(text))
	}
	for _, v := range m.get("fires").list() {
		text := strings.TrimSpace(v.node.Value)
		line := read(text)
		offered, whys := book.Try(rule.ID, line, dish, read)
		switch {
		case len(whys) > 0 && len(offered) == 0 && line.State == foodmatch.Unread:
			v.fault(fmt.Sprintf("%q is not read as a food", text), "a line that the rule fits")
		case len(whys) == 1 && whys[0] == swap.DoesNotFit:
			v.fault(fmt.Sprintf("the rule does not fit %q, which is read as %q", text, foodOf(line)), "a line that the rule fits")
		case len(whys) > 0:
			for _, why := range whys {
				v.fault("on "+fmt.Sprintf("%q", text)+": "+why, "new lines that read as the foods they mean")
			}
		case len(offered) == 0:
			v.fault(fmt.Sprintf("nothing is offered for %q, which is read as %q", text, foodOf(line)), "a line that the rule changes")
		}
	}
	for _, v := range m.get("not").list() {
		text := strings.TrimSpace(v.node.Value)
		line := read(text)
		if offered, _ := book.Try(rule.ID, line, dish, read); len(offered) > 0 {
			v.fault(fmt.Sprintf("the rule fits %q, which is read as %q", text, foodOf(line)), "a line that the rule must leave alone")
		}
	}
}

// tryAddition holds the dishes that are the examples of an addition against it.
func tryAddition(rule swap.Rule, at value, book *swap.Book, read swap.Reader) {
	m := at.mapping()
	for _, v := range m.get("fires").list() {
		text := strings.TrimSpace(v.node.Value)
		_, whys := book.TryAddition(rule.ID, swap.ExampleDish(text, read), read)
		switch {
		case len(whys) == 1 && whys[0] == swap.DoesNotFit:
			v.fault(fmt.Sprintf("the rule does not fit the dish %q", text), "a dish that has what the rule restores and what its match asks")
		case len(whys) > 0:
			v.fault("on "+fmt.Sprintf("%q", text)+": "+whys[0], "new lines that read as the foods they mean")
		}
	}
	for _, v := range m.get("not").list() {
		text := strings.TrimSpace(v.node.Value)
		if offered, _ := book.TryAddition(rule.ID, swap.ExampleDish(text, read), read); len(offered) > 0 {
			v.fault(fmt.Sprintf("the rule fits the dish %q", text), "a dish that the rule must leave alone")
		}
	}
}

func foodOf(m foodmatch.Matched) string {
	if len(m.Items) == 0 || m.Items[0].Food == nil {
		return "no food"
	}
	return m.Items[0].Food.Name
}
