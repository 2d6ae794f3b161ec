package swap

import (
	"potwright/internal/composition"
	"potwright/internal/foodmatch"
	"potwright/internal/ingredient"
	"potwright/internal/measure"
	"potwright/internal/spread"
)

// pantry is a small food table with weights as in USDA SR28.
func pantry() map[string]*composition.Food {
	foods := []*composition.Food{
		food("chicken broth", []string{"broth"}, nil, "cup", 249),
		food("chicken broth, low sodium", []string{"broth"}, []string{"low_sodium"}, "cup", 240),
		food("water", []string{"water"}, nil, "cup", 237),
		food("salt", []string{"salt"}, nil, "tsp", 6),
		food("black pepper", []string{"spice"}, nil, "tsp", 2.3),
		food("lemon juice", []string{"citrus_juice"}, nil, "tbsp", 15),
		food("garlic", []string{"garlic"}, nil, "clove", 3),
		food("garlic powder", []string{"allium_powder"}, nil, "tsp", 3.1),
		food("black beans", []string{"legume"}, []string{"canned"}, "cup", 240),
		food("black beans, drained, rinsed", []string{"legume"}, []string{"canned", "drained", "rinsed"}, "cup", 170),
		food("heavy cream", []string{"cream"}, nil, "cup", 238),
		food("whole milk", []string{"milk"}, nil, "cup", 244),
		food("butter", []string{"butter"}, []string{"salted"}, "tbsp", 14.2),
		food("butter, unsalted", []string{"butter"}, []string{"unsalted"}, "tbsp", 14.2),
		food("baking powder", []string{"leavening"}, nil, "tsp", 4.6),
		food("flour", []string{"flour"}, nil, "cup", 125),
		food("cornstarch", []string{"starch"}, nil, "tbsp", 8),
	}
	onion := food("onion", []string{"onion"}, nil, "medium", 110)
	onion.Measures = append(onion.Measures, composition.Measure{Amount: 1, Unit: "large", Grams: 150},
		composition.Measure{Amount: 1, Unit: "cup", Qualifier: "chopped", Grams: 160})
	egg := food("eggs", []string{"egg"}, nil, "large", 50)
	flakes := food("onion flakes", []string{"onion"}, []string{"dried"}, "tbsp", 5)
	frozen := &composition.Food{ID: "frozen", Name: "frozen onion", Kinds: []string{"onion"}, States: []string{"frozen"}}
	foods = append(foods, onion, egg, flakes, frozen, food("egg whites", []string{"egg"}, nil, "large", 33))
	out := map[string]*composition.Food{}
	for _, f := range foods {
		out[f.Name] = f
	}
	return out
}

func food(name string, kinds, states []string, unit string, grams float64) *composition.Food {
	return &composition.Food{ID: name, Name: name, Kinds: kinds, States: states,
		Measures: []composition.Measure{{Amount: 1, Unit: unit, Grams: grams}}}
}

// reader reads lines whose food phrase is the name of a row in the pantry.
func reader() Reader {
	foods := pantry()
	var one func(r ingredient.Reading) (foodmatch.Item, bool)
	one = func(r ingredient.Reading) (foodmatch.Item, bool) {
		name := r.Food
		switch {
		case name == "pepper":
			name = "black pepper"
		case name == "black beans" && has(r.States, "rinsed"):
			name = "black beans, drained, rinsed"
		case name == "onion" && has(r.States, "frozen"):
			name = "frozen onion"
		case has(r.States, "low_sodium"):
			name += ", low sodium"
		case has(r.States, "unsalted"):
			name += ", unsalted"
		}
		f, ok := foods[name]
		return foodmatch.Item{Food: f, Grams: spread.Exact(gramsOf(r, f))}, ok
	}
	return func(text string) foodmatch.Matched {
		r := ingredient.Read(text)
		m := foodmatch.Matched{Reading: r, State: foodmatch.Read}
		for _, part := range append([]ingredient.Reading{r}, r.Together...) {
			it, ok := one(part)
			if !ok {
				m.State = foodmatch.Unread
			}
			m.Items = append(m.Items, it)
		}
		return m
	}
}

func gramsOf(r ingredient.Reading, f *composition.Food) float64 {
	if f == nil {
		return 0
	}
	if !r.HasAmount {
		return 3
	}
	u, n := r.Amount.Unit, r.Amount.Quantity.Mid()
	switch {
	case u.Kind == measure.Mass:
		return n * u.Size
	case u.Kind == measure.Volume:
		density, ok := gramsPerMillilitre(f)
		if !ok {
			density = 0.6 // as a reader would take from a food like it
		}
		return n * u.Size * density
	case r.HasContainer:
		return n * r.Container.Quantity.Mid() * r.Container.Unit.Size
	}
	for _, m := range f.Measures {
		if m.Unit == r.Size {
			return n * m.Grams
		}
	}
	return n * f.Measures[0].Grams
}

func with(name string, ratio float64, by By, unit, say string) Ingredient {
	return Ingredient{Food: name, Row: pantry()[name], Ratio: ratio, By: by, Unit: unit, Say: say}
}

// texts are the new lines of every option a rule opens on a line.
func texts(r Rule, line string, dish ...string) [][]string {
	read := reader()
	var others []foodmatch.Matched
	for _, d := range dish {
		others = append(others, read(d))
	}
	var out [][]string
	for _, o := range NewBook([]Rule{r}, nil, nil).Options(read(line), others, read) {
		out = append(out, o.Text)
	}
	return out
}

// whyNot are the reasons why a rule can't open its options on a line.
func whyNot(b *Book, id string, line foodmatch.Matched, dish []foodmatch.Matched, read Reader) []string {
	_, why := b.Try(id, line, dish, read)
	return why
}
