package foodmatch

import (
	"fmt"
	"slices"
	"strings"

	"potwright/internal/composition"
	"potwright/internal/ingredient"
	"potwright/internal/measure"
)

// byVolume weighs cups and spoons: by the food's own measure, that of a like
// food, or the density of its kind.
func (w *weigher) byVolume(a ingredient.Amount) bool {
	if a.Unit.Kind != measure.Volume || a.Unit.Size <= 0 {
		return false
	}
	size := a.Unit.In(w.measures).Size
	if perML, sd, ok := w.perMillilitre(w.food, a.Unit); ok {
		if byEye[a.Unit.Name] {
			sd = max(sd, byEyeSD)
		}
		w.set(times(a.Quantity, perML*size, sd), "measure of this food")
		return true
	}
	for _, c := range w.like {
		if perML, sd, ok := w.perMillilitre(c.Food, a.Unit); ok && shareKind(c.Food, w.food) {
			w.set(times(a.Quantity, perML*size, max(sd, likeFood)), "measure of a like food")
			w.doubt(0.9)
			w.notes = append(w.notes, "weighed like "+c.Food.Name)
			return true
		}
	}
	d, name := densityOf(w.food)
	w.set(times(a.Quantity, d*size, kindSD), "density of its kind")
	if name != "" {
		w.notes = append(w.notes, fmt.Sprintf("weighed by the usual density of its kind (%s)", strings.ReplaceAll(name, "_", " ")))
	} else {
		w.set(times(a.Quantity, d*size, 0.3), "usual density")
		cup, _ := measure.FindUnitIn("cup", w.measures)
		w.assume(0.7, "no measure of %s is known; a cup is taken to weigh %.0f g", w.food.Name, d*cup.Size)
		return true
	}
	w.doubt(0.9)
	return true
}

// byEye are units that nobody measures.
var byEye = map[string]bool{"pinch": true, "dash": true, "smidgen": true, "drop": true, "splash": true, "drizzle": true}

// byEyeSD is how far such amounts differ (common practice, no source).
const byEyeSD = 0.35

func shareKind(a, b *composition.Food) bool {
	for _, k := range a.Kinds {
		if b.HasKind(k) {
			return true
		}
	}
	return len(a.Kinds) == 0 && a.Group == b.Group
}

// density is grams per millilitre of the food.
func (w *weigher) density() float64 {
	cup, _ := measure.FindUnit("cup")
	if perML, _, ok := w.perMillilitre(w.food, cup); ok {
		return perML
	}
	d, _ := densityOf(w.food)
	return d
}

// perMillilitre is grams per millilitre by the measure of the food that fits the
// unit and the preparation best, with its relative standard deviation. The table's cup is
// its own grams: tablespoons and quarts follow from it by the exact ladder of US
// measures.
func (w *weigher) perMillilitre(f *composition.Food, unit measure.Unit) (perML, sd float64, ok bool) {
	want := w.formsFor(f)
	best, bestScore := -1, 0
	var plain []float64 // grams per millilitre in forms that a line may mean without saying so
	for i, m := range f.Measures {
		u, found := measure.FindUnit(m.Unit)
		if !found || u.Kind != measure.Volume || m.Grams <= 0 || m.Amount <= 0 || byEye[u.Name] && u.Name != unit.Name {
			continue
		}
		score := 100 + formScore(m.Qualifier, want)
		if u.Name == unit.Name {
			score += 2
		} else if small(u) == small(unit) {
			score++
		}
		g := m.Grams / (m.Amount * u.Size)
		if small(u) == small(unit) && !isOdd(m.Qualifier) {
			plain = append(plain, g)
		}
		if score > bestScore {
			best, bestScore, perML = i, score, g
		}
	}
	if best < 0 {
		return 0, 0, false
	}
	m := f.Measures[best]
	sd = volumeSD
	if m.SD > 0 && m.N > 2 {
		sd = min(max(m.SD/m.Grams, 0.02), widestSD)
	}
	if m.Qualifier != "" && formScore(m.Qualifier, want) <= 0 {
		sd = max(sd, otherForm)
		if len(plain) > 2 { // none of many forms is named: the one in the middle
			slices.Sort(plain)
			perML = plain[(len(plain)-1)/2]
		}
	}
	return perML, sd, true
}

// formsFor are the words that tell the form, without those that only repeat the
// name of the food: "tomatoes" is no form of a tomato.
func (w *weigher) formsFor(f *composition.Food) []string {
	named := formWords(f.Name)
	return slices.DeleteFunc(w.forms(), func(form string) bool {
		return slices.ContainsFunc(named, func(n string) bool {
			return n == form || singular(n) == singular(form)
		})
	})
}

func singular(word string) string { return strings.TrimSuffix(strings.TrimSuffix(word, "s"), "e") }

func isOdd(qualifier string) bool {
	return slices.ContainsFunc(formWords(qualifier), func(q string) bool { return odd[q] && q != "whole" })
}

// small reports whether a unit is a spoon rather than a cup.
func small(u measure.Unit) bool { return u.Size < 20 }

// forms are the words of the line that tell in which form it is measured.
func (w *weigher) forms() []string {
	var forms []string
	for _, p := range w.reading.Preparation {
		forms = append(forms, formWords(p)...)
	}
	forms = append(forms, w.reading.States...)
	forms = append(forms, formWords(w.reading.Food)...)
	if w.reading.Size != "" {
		forms = append(forms, w.reading.Size)
	}
	return forms
}

// sameForm maps a word to the one that measures use (common practice).
var sameForm = map[string]string{
	"diced": "chopped", "cubed": "chopped", "minced": "chopped", "cubes": "chopped", "chunks": "chopped", "pieces": "chopped",
	"dice": "chopped", "florets": "chopped", "flowerets": "chopped", "slices": "sliced", "julienned": "sliced", "strips": "sliced",
	"rings": "sliced", "grated": "shredded", "flaked": "shredded", "halved": "halves", "pureed": "mashed", "puréed": "mashed",
	"crumbs": "crumbled", "crumbles": "crumbled", "thinly": "sliced", "quartered": "chopped", "torn": "shredded", "sections": "sections",
	"elbows": "elbow", "crushed": "crushed", "kernels": "kernels", "packed": "packed", "unpacked": "unpacked", "wedges": "chopped",
}

func formWords(text string) []string {
	words := strings.FieldsFunc(strings.ToLower(text), func(c rune) bool {
		return c == ' ' || c == ',' || c == '(' || c == ')' || c == '/'
	})
	for i, w := range words {
		if form, ok := sameForm[w]; ok {
			words[i] = form
		}
	}
	return words
}

// odd qualifiers are not meant unless the line says so.
var odd = map[string]bool{
	"whipped": true, "melted": true, "mashed": true, "with": true, "refuse": true, "yields": true, "unpacked": true,
	"not": true, "thawed": true, "powder": true, "dry": true, "whole": true, "sifted": true, "shelled": true, "crumbs": true, "prepared": true,
}

// formScore tells how well a measure's qualifier fits the words of a line: each
// word in common counts for it, each odd word against it.
func formScore(qualifier string, want []string) int {
	score := 0
	words := formWords(qualifier)
	for _, q := range words {
		hit := false
		for _, f := range want {
			if q == f || strings.TrimSuffix(q, "s") == strings.TrimSuffix(f, "s") {
				hit = true
			}
		}
		switch {
		case hit:
			score += 12
		case odd[q]:
			score -= 8
		case q == "chopped" || q == "sliced" || q == "shredded":
			score -= 3
		default:
			score -= 4
		}
	}
	return score
}
