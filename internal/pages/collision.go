package pages

import (
	"fmt"
	"slices"
	"strings"

	"potwright/internal/adaptation"
	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/product"
)

// collision is what two people wrote in the same place: what is saved by now and what
// was typed here, each as far as it differs. Sending the form again saves what was
// typed.
type collision struct {
	// Link is the page as it is saved.
	Link         string
	Theirs, Mine []string
	// Gone says that the other took it away; "" where it is still there.
	Gone string
}

// stale reports whether what is saved is neither what seen marks nor what is wanted: a
// form sent twice is no collision. A form that marks nothing is never stale.
func stale(seen kitchen.Mark, saved, wanted any) bool {
	now := kitchen.MarkOf(saved)
	return seen != "" && seen != now && kitchen.MarkOf(wanted) != now
}

// newCollision leaves out the lines that both have.
func newCollision(link string, theirs, mine []string) *collision {
	without := func(lines, others []string) []string {
		return slices.DeleteFunc(slices.Clone(lines), func(l string) bool { return slices.Contains(others, l) })
	}
	return &collision{Link: link, Theirs: without(theirs, mine), Mine: without(mine, theirs)}
}

// allOfMember is everything of a member's form in plain words, a line each.
func (v vocabulary) allOfMember(m household.Member) []string {
	return append([]string{"called " + m.Name}, v.memberWords(m)...)
}

// waysWords are a household's settings in plain words, a line each.
func waysWords(h household.Household) []string {
	out := []string{"the household is called " + h.Name}
	for _, o := range loads() {
		if slices.Contains(h.Cook.Spare, o.Value) {
			out = append(out, "spare the cook: "+o.Label)
		}
	}
	if h.Cook.LiftLimitKg > 0 {
		out = append(out, "lift at most "+typedAmount(h.Cook.LiftLimitKg)+" kg")
	}
	out = append(out, equipmentWords(h)...)
	return append(out, fmt.Sprintf("a meal may use %s percent of a day", figure(h.PlateShare()*100)), "cups and spoons: "+h.Measures.Name())
}

// printedWords are a label as typed, a line each.
func (s *Site) printedWords(l product.Label) []string {
	like := l.LikeID
	if f, ok := s.foods.ByID(l.LikeID); ok {
		like = f.Name
	}
	var out []string
	say := func(what, text string) {
		if text != "" {
			out = append(out, what+": "+text)
		}
	}
	say("name", l.Name)
	say("like", like)
	say("figures", string(l.Panel))
	say("serving size", l.Serving)
	say("servings in it", l.Servings)
	say("comes in a", l.Container)
	say("net weight", l.Net)
	for _, f := range product.Fields() {
		say(f.Name, l.Figures[f.Key])
	}
	say("ingredients", l.Ingredients)
	if l.Borrow {
		out = append(out, "what is not printed is taken from the food it is like")
	}
	if l.Tolerance {
		out = append(out, "counts all that the law lets a label be off by")
	}
	return out
}

// wishWords are what is asked of a dish, a line each.
func (s *Site) wishWords(w adaptation.Wishes, o opened) []string {
	lines := o.analysis.Recipe.Lines
	lineOf := func(i int) string {
		if i < 0 || i >= len(lines) {
			return "the dish"
		}
		return strings.TrimSpace(lines[i].Reading.Text)
	}
	title := func(id string) string {
		if r, ok := s.rules.book.Swaps.Rule(id); ok {
			return r.Title
		}
		return readableKey(id)
	}
	var out []string
	for _, i := range w.Lock {
		out = append(out, "stays as it is: "+lineOf(i))
	}
	for _, p := range w.Refuse {
		out = append(out, fmt.Sprintf("not used on %s: %s", lineOf(p.Line), title(p.Rule)))
	}
	for _, p := range w.Insist {
		out = append(out, fmt.Sprintf("asked for on %s: %s", lineOf(p.Line), title(p.Rule)))
	}
	for _, a := range aimTicks(w.Aim) {
		if a.On {
			out = append(out, "what matters most: "+a.Label)
		}
	}
	if w.MaxChanges > 0 {
		out = append(out, fmt.Sprintf("change at most %s", countWords(w.MaxChanges, "line", "lines")))
	}
	return out
}
