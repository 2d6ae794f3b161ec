package product

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"potwright/internal/access"
	"potwright/internal/composition"
	"potwright/internal/diagnostic"
	"potwright/internal/measure"
	"potwright/internal/spread"
)

// amounts are what the panel says of its portion, by nutrient, in the nutrient's
// unit; known tells which are printed.
type amounts struct {
	of    [composition.NutrientCount]spread.Range
	typed [composition.NutrientCount]float64 // the figure itself
	known [composition.NutrientCount]bool
}

func (a *amounts) set(n composition.Nutrient, r spread.Range, typed float64) {
	a.of[n], a.typed[n], a.known[n] = r, typed, true
}

// reader reads one label.
type reader struct {
	label    Label
	like     *composition.Food
	faults   diagnostic.Faults
	warnings []diagnostic.Fault
	basis    spread.Range // grams that the figures are for
	serving  portion
	net      portion
	servings float64
	found    amounts
}

func (r *reader) fault(field, problem, expected string) {
	r.faults = append(r.faults, diagnostic.Fault{Field: field, Problem: problem, Expected: expected})
}

func (r *reader) warn(field, problem, expected string) {
	r.warnings = append(r.warnings, diagnostic.Fault{Field: field, Problem: problem, Expected: expected})
}

// Read makes a food of a label; its id is left to the caller. like is the food that
// LikeID names, or nil. Every content of it is bounded by what the printed figure
// stands for. err is diagnostic.Faults, each with the field at fault; warnings are
// doubts that do not stand in the way.
func Read(l Label, like *composition.Food) (food *composition.Food, warnings []diagnostic.Fault, err error) {
	r := &reader{label: l, like: like}
	name := r.name()
	if l.LikeID != "" && like == nil {
		r.fault("like", fmt.Sprintf("%q is no food of the table", cut(l.LikeID)), "a food that was looked up")
	}
	if l.Borrow && l.LikeID == "" {
		r.fault("like", "no food is chosen to take the missing figures from", "a food it is like")
	}
	if l.Panel != US && l.Panel != EU && l.Panel != EULiquid {
		r.fault("panel", fmt.Sprintf("%q is no kind of panel", cut(string(l.Panel))), "us, eu or eu_ml")
	}
	if l.Container != "" && !slices.Contains(Containers(), l.Container) {
		r.fault("container", fmt.Sprintf("%q is no container", cut(l.Container)), "one of "+strings.Join(Containers(), ", "))
	}
	ingredients := r.ingredients()
	if r.lengths(); len(r.faults) > 0 {
		return nil, r.warnings, r.faults.Err()
	}
	r.portions()
	r.figures()
	if len(r.faults) == 0 {
		r.check()
	}
	if err := r.faults.Err(); err != nil {
		return nil, r.warnings, err
	}
	food = &composition.Food{Name: name, Ingredients: ingredients, Measures: r.measures()}
	r.kind(food)
	borrowed := r.contents(food)
	food.Source = r.source(borrowed)
	return food, r.warnings, nil
}

func (r *reader) name() string {
	name := strings.ToLower(strings.Join(strings.Fields(r.label.Name), " "))
	switch {
	case !strings.ContainsFunc(name, unicode.IsLetter):
		r.fault("name", "it has no name", `what a recipe would call it, such as "chicken broth, low sodium"`)
	case len([]rune(name)) > MostName:
		r.fault("name", "the name is too long", fmt.Sprintf("at most %d characters", MostName))
	case strings.ContainsFunc(name, unicode.IsControl):
		r.fault("name", "the name holds a character that cannot be shown", "plain words")
	}
	return name
}

func (r *reader) ingredients() string {
	text := strings.Join(strings.Fields(r.label.Ingredients), " ")
	if len([]rune(text)) > MostIngredients {
		r.fault("ingredients", "the list of ingredients is too long", fmt.Sprintf("at most %d characters", MostIngredients))
	}
	return text
}

// Most characters of what a label says. Design choices.
const (
	MostName        = access.MostName
	MostIngredients = 3000
	// MostFigure is that of a figure, a serving or a weight.
	MostFigure = 80
)

// lengths looks for figures that no label has.
func (r *reader) lengths() {
	check := func(field, text string) {
		if n := utf8.RuneCountInString(text); n > MostFigure {
			r.fault(field, fmt.Sprintf("there are %d characters", n), fmt.Sprintf("what is printed, at most %d", MostFigure))
		}
	}
	check("serving", r.label.Serving)
	check("servings", r.label.Servings)
	check("net", r.label.Net)
	for _, f := range Fields() {
		check(f.Key, r.label.Figures[f.Key])
	}
}

// portions reads the serving and the container, and what the figures are for.
func (r *reader) portions() {
	density, us := densityOf(r.like), r.label.Panel == US
	if text := strings.TrimSpace(r.label.Serving); text != "" {
		var problem, expected string
		if r.serving, problem, expected = readPortion(text, density, us); problem != "" {
			r.fault("serving", problem, expected)
		}
	} else if us {
		r.fault("serving", "the serving size is missing: the figures are for it", servingExample)
	}
	if own := r.ownDensity(); own.Low > 0 {
		density = own
	}
	if text := strings.TrimSpace(r.label.Net); text != "" {
		var problem, expected string
		if r.net, problem, expected = readPortion(text, density, us); problem != "" {
			r.fault("net", problem, expected)
		}
	}
	var problem string
	if r.servings, problem = readServings(r.label.Servings); problem != "" {
		r.fault("servings", problem, `a number such as 3.5 or "about 2"`)
	}
	switch r.label.Panel {
	case US:
		r.basis = r.serving.grams
	case EULiquid:
		if r.basis = density.Scale(100); r.basis.Low <= 0 {
			r.fault("panel", "what 100 ml of it weighs is not known", "a serving with millilitres and grams, or a food it is like that has a measure by volume")
		}
	default:
		r.basis = spread.Exact(100)
	}
	r.compareContainer()
}

// ownDensity is grams per millilitre where the serving gives both.
func (r *reader) ownDensity() spread.Range {
	if r.serving.millis <= 0 || r.serving.grams.Low <= 0 {
		return spread.Range{}
	}
	return r.serving.grams.Scale(1 / r.serving.millis)
}

// containerGap is how far the net weight and the servings may differ before it is
// worth a word: "about" and halves of servings account for a good part.
const containerGap = 0.25

func (r *reader) compareContainer() {
	if r.servings <= 0 || r.net.grams.Mid <= 0 || r.serving.grams.Mid <= 0 {
		return
	}
	held := r.servings * r.serving.grams.Mid
	if ratio := held / r.net.grams.Mid; ratio < 1-containerGap || ratio > 1+containerGap {
		r.warn("net", fmt.Sprintf("the servings come to %.0f g, the net weight to %.0f g", held, r.net.grams.Mid),
			"the same, unless the servings are of the drained food")
	}
}

// measures are the household measures: those printed, a serving, the container, and
// those of the like food where none by volume is printed.
func (r *reader) measures() []composition.Measure {
	out := slices.Clone(r.serving.measures)
	if g := r.serving.grams.Mid; g > 0 {
		out = append(out, composition.Measure{Amount: 1, Unit: "serving", Grams: g})
	}
	container := r.label.Container
	if container == "" {
		container = Containers()[0]
	}
	switch {
	case r.net.grams.Mid > 0:
		out = append(out, composition.Measure{Amount: 1, Unit: container, Grams: r.net.grams.Mid})
	case r.servings > 0 && r.serving.grams.Mid > 0:
		out = append(out, composition.Measure{Amount: 1, Unit: container, Grams: r.servings * r.serving.grams.Mid})
	}
	if r.like != nil {
		out = append(out, r.likeMeasures(out)...)
	}
	return out
}

// likeMeasures are the like food's, but none in a unit there is already, nor packs,
// nor volumes where the label gives one.
func (r *reader) likeMeasures(own []composition.Measure) []composition.Measure {
	has := func(test func(u measure.Unit) bool) bool {
		return slices.ContainsFunc(own, func(m composition.Measure) bool {
			u, ok := measure.FindUnit(m.Unit)
			return ok && test(u)
		})
	}
	volume := has(func(u measure.Unit) bool { return u.Kind == measure.Volume })
	var out []composition.Measure
	for _, m := range r.like.Measures {
		u, ok := measure.FindUnit(m.Unit)
		switch {
		case ok && u.Kind == measure.Pack, ok && u.Kind == measure.Volume && volume:
		case slices.ContainsFunc(own, func(o composition.Measure) bool { return o.Unit == m.Unit }):
		default:
			out = append(out, m)
		}
	}
	return out
}

// claimed are states that say what is in a food; they come from the product's own
// name and never from the food it is like.
var claimed = []string{
	"drained", "rinsed", "undrained", // a package is weighed as it is sold
	"salted", "unsalted", "no_salt_added", "low_sodium", "reduced_sodium", "sodium_free", "fat_free", "low_fat", "reduced_fat",
	"full_fat", "light", "lean", "sweetened", "unsweetened", "low_calorie", "part_skim", "homemade",
}

// kind gives the food the like food's kinds and form.
func (r *reader) kind(f *composition.Food) {
	f.States = composition.StatesOf(f.Name)
	if r.like == nil {
		return
	}
	f.Group, f.Kinds = r.like.Group, slices.Clone(r.like.Kinds)
	for _, s := range r.like.States {
		if !slices.Contains(claimed, s) && !strings.HasPrefix(s, "lean_") && !slices.Contains(f.States, s) {
			f.States = append(f.States, s)
		}
	}
}

// source says where the figures come from.
func (r *reader) source(borrowed []string) string {
	s := "your package label, per serving, with the rounding of " + r.label.Panel.rules().Source()
	if r.label.Panel != US {
		s = "your package label, with the rounding of " + r.label.Panel.rules().Source()
	}
	if r.label.Tolerance {
		s += " and what the law lets a label be off by"
	}
	if len(borrowed) > 0 {
		s += "; not on the label and taken from " + r.like.Name + ", from half to double: " + strings.Join(borrowed, ", ")
	}
	return s
}
