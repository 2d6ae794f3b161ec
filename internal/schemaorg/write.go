package schemaorg

import (
	"encoding/json"
	"fmt"
	"io"
	"strconv"
	"strings"

	"potwright/internal/composition"
	"potwright/internal/kitchen"
	"potwright/internal/label"
	"potwright/internal/recipe"
)

// document is a Recipe as Write writes it: the types and units that schema.org
// names for each property, and nothing else.
type document struct {
	Context      string            `json:"@context"`
	Type         string            `json:"@type"`
	Name         string            `json:"name"`
	Yield        string            `json:"recipeYield"`
	PrepTime     string            `json:"prepTime,omitempty"`
	CookTime     string            `json:"cookTime,omitempty"`
	TotalTime    string            `json:"totalTime,omitempty"`
	Ingredients  []string          `json:"recipeIngredient"`
	Instructions []any             `json:"recipeInstructions,omitempty"`
	Nutrition    map[string]string `json:"nutrition,omitempty"`
	// Text is the whole recipe in plain words (CreativeWork.text), from which it is
	// read back without loss.
	Text string `json:"text"`
}

type howToStep struct {
	Type string `json:"@type"`
	Text string `json:"text"`
}

type howToSection struct {
	Type  string      `json:"@type"`
	Name  string      `json:"name"`
	Items []howToStep `json:"itemListElement"`
}

// Write writes an analysed recipe as JSON-LD and lists, in words, what schema.org
// has no place for. Nutrition is a serving's, rounded as US labels are (21 CFR
// 101.9(c)); what is not fully known is left out, never written as less.
func Write(w io.Writer, a kitchen.Analysis) (lost []string, err error) {
	r := a.Recipe
	d := document{Context: "https://schema.org", Type: "Recipe", Name: r.Title, Yield: yieldOf(r), Text: r.Text}
	if d.Text == "" {
		d.Text = recipe.Text(r)
	}
	sections := false
	for _, l := range r.Lines {
		d.Ingredients = append(d.Ingredients, l.Reading.Text)
		sections = sections || l.Section != ""
	}
	if sections {
		lost = append(lost, "the headings over groups of ingredients stand in the property text alone")
	}
	d.Instructions = instructions(r.Steps)
	notes := d.times(r.Notes)
	if notes > 0 {
		lost = append(lost, "notes stand in the property text alone")
	}
	if r.ServingsAssumed {
		lost = append(lost, "the recipe does not say how many it serves: the number is assumed")
	}
	var unknown []string
	d.Nutrition, unknown = nutrition(a)
	if len(unknown) > 0 {
		lost = append(lost, "not fully known, so left out: "+strings.Join(unknown, ", "))
	}
	lost = append(lost, "figures are best estimates without their ranges, and of the nutrients only those that schema.org names")
	enc := json.NewEncoder(w)
	enc.SetIndent("", "  ") // and with < and > escaped, so that it may stand in a page
	if err := enc.Encode(d); err != nil {
		return nil, fmt.Errorf("write %q as JSON-LD: %w", r.Title, err)
	}
	return lost, nil
}

func yieldOf(r recipe.Recipe) string {
	if r.YieldText != "" {
		return r.YieldText
	}
	return plural1(r.Servings, "serving")
}

func plural1(n float64, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return label.Figure(n) + " " + what + "s"
}

// times takes the recipe's times out of its notes and counts the other notes that
// are the recipe's own.
func (d *document) times(notes []string) (others int) {
	for _, n := range notes {
		name, rest, _ := strings.Cut(n, ":")
		iso, ok := isoDuration(rest)
		var to *string
		switch strings.ToLower(strings.TrimSpace(name)) {
		case "prep time", "preparation time", "prep", "preparation":
			to = &d.PrepTime
		case "cook time", "cooking time", "cook", "bake time", "baking time":
			to = &d.CookTime
		case "total time", "total", "ready in":
			to = &d.TotalTime
		}
		if to == nil || !ok || *to != "" {
			others++
			continue
		}
		*to = iso
	}
	return others
}

// instructions are HowToSteps, those of a section inside a HowToSection.
func instructions(steps []recipe.Step) (out []any) {
	var open *howToSection
	for _, s := range steps {
		step := howToStep{"HowToStep", s.Text}
		switch {
		case s.Section == "":
			open = nil
			out = append(out, step)
		case open == nil || open.Name != s.Section:
			open = &howToSection{"HowToSection", s.Section, []howToStep{step}}
			out = append(out, open)
		default:
			open.Items = append(open.Items, step)
		}
	}
	return out
}

// property of NutritionInformation for a nutrient; calories is an Energy, the others
// are a Mass (schema.org/NutritionInformation).
func nutritionProperties() []struct {
	nutrient composition.Nutrient
	property string
} {
	return []struct {
		nutrient composition.Nutrient
		property string
	}{
		{composition.Energy, "calories"}, {composition.Carbohydrate, "carbohydrateContent"}, {composition.Cholesterol, "cholesterolContent"},
		{composition.Fat, "fatContent"}, {composition.Fibre, "fiberContent"}, {composition.Protein, "proteinContent"},
		{composition.SaturatedFat, "saturatedFatContent"}, {composition.Sodium, "sodiumContent"}, {composition.Sugars, "sugarContent"},
		{composition.TransFat, "transFatContent"},
	}
}

func nutrition(a kitchen.Analysis) (out map[string]string, unknown []string) {
	out = map[string]string{"@type": "NutritionInformation", "servingSize": "1 serving"}
	for _, p := range nutritionProperties() {
		amount := a.Pot.Serving[p.nutrient]
		if amount.Unknown > 0 {
			unknown = append(unknown, p.nutrient.Name())
			continue
		}
		unit := p.nutrient.Unit()
		if p.nutrient == composition.Energy {
			unit = "calories"
		}
		out[p.property] = strconv.FormatFloat(label.Round(p.nutrient, amount.Mid), 'f', -1, 64) + " " + unit
	}
	if len(out) == 2 {
		return nil, unknown
	}
	return out, unknown
}
