package pages

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"potwright/internal/product"
)

// figurePrefix begins the names of the panel's fields in the form.
const figurePrefix = "f_"

// productTyped is a label as typed, and what was searched for beside it.
type productTyped struct {
	Label product.Label
	Look  string
}

// productForm is a label's form.
type productForm struct {
	Wrong                                           messages
	Name, Look, Serving, Servings, Net, Ingredients entry
	Panel, Container                                pick
	Likes                                           []foodChoice
	LikeWrong, FiguresWrong                         string
	Looked                                          string
	Borrow, Tolerance                               tick
	Main, More                                      []entry
	MoreOpen                                        bool
}

// readProductForm reads a posted form; nothing typed is lost.
func readProductForm(f form) productTyped {
	line := func(name string) string { return strings.Join(strings.Fields(printable(f.text(name))), " ") }
	t := productTyped{Look: line("look_for"), Label: product.Label{
		Name: line("name"), LikeID: line("like"), Borrow: f.ticked("borrow", "yes"), Tolerance: f.ticked("tolerance", "yes"),
		Panel: product.Panel(line("panel")), Serving: line("serving"), Servings: line("servings"),
		Container: line("container"), Net: line("net"), Ingredients: line("ingredients"), Figures: map[string]string{}}}
	for _, field := range product.Fields() {
		if text := line(figurePrefix + field.Key); text != "" {
			t.Label.Figures[field.Key] = text
		}
	}
	return t
}

func (s *Site) productPage(fr frame, id int64, t productTyped, wrong messages) productPage {
	p := productPage{frame: fr, Self: fr.Base + "/pantry/new", Form: s.productForm(t, wrong)}
	if id != 0 {
		p.Self = fmt.Sprintf("%s/pantry/%d", fr.Base, id)
		p.RemoveLink = p.Self + "/remove"
	}
	return p
}

func (s *Site) productForm(t productTyped, wrong messages) productForm {
	l := t.Label
	f := productForm{Wrong: wrong, LikeWrong: wrong.For("like"), FiguresWrong: wrong.For("figures"), Looked: t.Look,
		Name:     entry{Name: "name", Label: "What you call it", Hint: "As a recipe would: tomatoes, canned, no salt added.", Value: l.Name, Wrong: wrong.For("name")},
		Look:     entry{Name: "look_for", Label: "A food it is like", Hint: "A few words: tomatoes canned. It tells the kind of food, and what a cup of it weighs.", Value: t.Look, Mode: "search"},
		Serving:  entry{Name: "serving", Label: "Serving size", Hint: "As printed: 1/2 cup (120 g), or 30 g, or 240 mL.", Value: l.Serving, Wrong: wrong.For("serving")},
		Servings: entry{Name: "servings", Label: "Servings in it", Hint: "May stay empty: about 3.5.", Value: l.Servings, Wrong: wrong.For("servings")},
		Ingredients: entry{Name: "ingredients", Label: "Ingredients", Hint: "As printed, for what people here avoid. May stay empty: then the food it is like has to tell.",
			Value: l.Ingredients, Wrong: wrong.For("ingredients")},
		Net: entry{Name: "net", Label: "Net weight", Hint: "May stay empty: 15 oz (425 g).", Value: l.Net, Wrong: wrong.For("net")},
		Panel: pick{Name: "panel", Label: "The figures on the label are", Wrong: wrong.For("panel"), Options: options(string(l.Panel),
			string(product.US), "for a serving (United States)", string(product.EU), "for 100 g (Europe)", string(product.EULiquid), "for 100 ml (Europe)")},
		Container: pick{Name: "container", Label: "It comes in a", Wrong: wrong.For("container"), Options: containerOptions(l.Container)},
		Borrow: tick{Name: "borrow", Value: "yes", Label: "Take what the label does not say from that food", On: l.Borrow,
			Hint: "From half to double of it. Without this, what is not printed stays unknown."},
		Tolerance: tick{Name: "tolerance", Value: "yes", Label: "Count all that the law lets a label be off by", On: l.Tolerance,
			Hint: "About a fifth either way (21 CFR 101.9(g); EU guidance of 2012). Without this, the rounding alone."},
	}
	f.Likes = s.likeChoices(t)
	for _, field := range product.Fields() {
		e := figureEntry(field, l, wrong)
		if field.Main {
			f.Main = append(f.Main, e)
			continue
		}
		f.More = append(f.More, e)
		f.MoreOpen = f.MoreOpen || e.Value != "" || e.Wrong != ""
	}
	return f
}

func containerOptions(chosen string) []option {
	var pairs []string
	for _, c := range product.Containers() {
		pairs = append(pairs, c, c)
	}
	return options(chosen, pairs...)
}

func figureEntry(field product.Field, l product.Label, wrong messages) entry {
	name := figurePrefix + field.Key
	e := entry{Name: name, Label: sentenceStart(field.Name), Unit: field.Unit, Value: l.Figures[field.Key], Wrong: wrong.For(name)}
	switch {
	case !field.OnUS:
		e.Hint = "European labels only."
	case !field.OnEU:
		e.Hint = "US labels only."
	}
	return e
}

// likeFound is how many foods the search for a like food shows.
const likeFound = 8

// likeChoices are the foods it may be like: none, the one chosen, those found.
func (s *Site) likeChoices(t productTyped) []foodChoice {
	chosen := t.Label.LikeID
	out := []foodChoice{{Value: "", Label: "No food of the table", On: chosen == ""}}
	if food, ok := s.foods.ByID(chosen); ok && chosen != "" {
		out = append(out, foodChoice{Value: food.ID, Label: food.Name, Why: "chosen", On: true})
	}
	if t.Look != "" {
		for _, food := range s.foods.Search(t.Look, likeFound) {
			if food.ID != chosen {
				out = append(out, foodChoice{Value: food.ID, Label: food.Name})
			}
		}
	}
	return out
}

// sentenceStart writes the first letter large.
func sentenceStart(s string) string {
	r, size := utf8.DecodeRuneInString(s)
	if size == 0 {
		return s
	}
	return string(unicode.ToUpper(r)) + s[size:]
}
