package pages

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"potwright/internal/composition"
	"potwright/internal/foodmatch"
	"potwright/internal/kitchen"
	"potwright/internal/nutrient"
	"potwright/internal/recipe"
)

// dishView is a dish read and computed, ready for a page.
type dishView struct {
	Servings, Makes, Weight string
	Lines                   []lineView
	Steps                   []stepView
	Notes                   []string
	// Cooking is what was taken for granted of the cooking.
	Cooking []string
	Panel   []panelRow
	// Unread counts the lines whose part is not known.
	Unread string
	// Doubts are what makes the main ranges wide and what would narrow them.
	Doubts []doubtView
}

// doubtView is what makes the range of one nutrient wide, the most first.
type doubtView struct {
	Name    string
	Sources []string
}

// doubted are the nutrients whose doubts are told: those most households watch.
var doubted = []composition.Nutrient{composition.Sodium, composition.Energy, composition.Carbohydrate}

// mostSources is how many sources of doubt are worth reading.
const mostSources = 3

func doubtViews(sources map[composition.Nutrient][]nutrient.Source) []doubtView {
	var out []doubtView
	for _, n := range doubted {
		v := doubtView{Name: n.Name()}
		for i, src := range sources[n] {
			if i < mostSources {
				v.Sources = append(v.Sources, fmt.Sprintf("%.0f %%: %s", 100*src.Share, src.Text))
			}
		}
		if len(v.Sources) > 0 {
			out = append(out, v)
		}
	}
	return out
}

// lineView is an ingredient line with what the margin says about it.
type lineView struct {
	Number        int
	Section, Text string
	State         string
	Mark          foodmatch.State
	Foods         []string
	Notes         []string
	// Matters says how much of the dish hangs on the line; Cooking how the method
	// treats it. Either may be "".
	Matters, Cooking string
	Link             string
	Corrected        bool
	StartsNewSection bool
}

// stepView is a step of the method; Mark is "" or what became of it.
type stepView struct {
	Section, Text, Mark string
	// Words are the text with the words marked that the other side has not; nil where
	// the whole text is other or the same.
	Words []recipe.Word
	// For are the swaps that altered it; Look is what the cook should look at.
	For, Look []string
}

// panelRow is one nutrient of a serving and of the pot.
type panelRow struct {
	Name, Serving, Pot string
	// Daily is the serving's share of the daily value, or "".
	Daily string
	// Missing are the lines that leave it unknown.
	Missing string
	// Main are shown at once, the others on request.
	Main bool
}

func newDishView(a kitchen.Analysis) dishView {
	r := a.Recipe
	sources := map[composition.Nutrient][]nutrient.Source{}
	for _, n := range doubted {
		sources[n] = nutrient.Narrow(a.Pot, n)
	}
	d := dishView{Servings: servingsWords(r.Servings, r.ServingsAssumed), Makes: makesWords(r.YieldText), Notes: r.Notes, Cooking: a.Plan.Notes, Panel: panelRows(a), Doubts: doubtViews(sources)}
	if a.Pot.YieldGrams.Mid > 0 {
		d.Weight = rangeWords(a.Pot.YieldGrams, "g") + " in the pot"
	}
	d.Unread = unreadWords(a)
	section := ""
	matters := matterWords(a.Pot, sources)
	for i, l := range r.Lines {
		v := lineView{Number: i + 1, Section: l.Section, Text: l.Reading.Text, Corrected: l.Fix != nil,
			StartsNewSection: l.Section != section && l.Section != ""}
		section = l.Section
		if i < len(a.Pot.Lines) {
			m := *a.Pot.Lines[i].Matched
			v.State, v.Mark, v.Notes, v.Foods = stateWords(m.State), m.State, append(slices.Clone(m.Notes), ownWords(m)...), itemWords(m)
			v.Matters, v.Cooking = matters[i], kitchen.CookingText(a.Plan.Of(i))
		}
		d.Lines = append(d.Lines, v)
	}
	for _, st := range r.Steps {
		d.Steps = append(d.Steps, stepView{Section: st.Section, Text: st.Text})
	}
	return d
}

// unreadWords counts the lines whose part is not known; "" where all are read.
func unreadWords(a kitchen.Analysis) string {
	unread := 0
	for _, l := range a.Pot.Lines {
		if l.Matched.State == foodmatch.Unread {
			unread++
		}
	}
	switch unread {
	case 0:
		return ""
	case 1:
		return "1 line is not read. What it brings is missing from every figure, so each is a lower bound."
	default:
		return fmt.Sprintf("%d lines are not read. What they bring is missing from every figure, so each is a lower bound.", unread)
	}
}

func servingsWords(n float64, assumed bool) string {
	s := countLoose(n)
	if assumed {
		s += " (the recipe does not say; this is a guess)"
	}
	return s
}

// makesWords is what the recipe says it makes, to stand behind "makes"; "" where
// that is the servings again.
func makesWords(yield string) string {
	low := strings.ToLower(yield)
	if strings.Contains(low, "serv") {
		return ""
	}
	if strings.HasPrefix(low, "makes ") {
		return strings.TrimSpace(yield[len("makes "):])
	}
	return yield
}

func countLoose(n float64) string {
	if n == 1 {
		return "1 serving"
	}
	return plain(n) + " servings"
}

// itemWords says which food and how much of it a line was read as.
func itemWords(m foodmatch.Matched) []string {
	var out []string
	for _, it := range m.Items {
		if it.Food == nil {
			continue
		}
		s := it.Food.Name + ", " + rangeWords(it.Grams, "g")
		if it.GramsFrom != "" {
			s += ", by " + it.GramsFrom
		}
		out = append(out, s)
	}
	return out
}

// mainNutrients are those shown at once: what people most often watch.
func mainNutrients() []composition.Nutrient {
	return []composition.Nutrient{composition.Energy, composition.Protein, composition.Fat, composition.SaturatedFat,
		composition.Sodium, composition.Carbohydrate, composition.Fibre, composition.Sugars, composition.Potassium, composition.Phosphorus}
}

func isMain(n composition.Nutrient) bool {
	for _, m := range mainNutrients() {
		if m == n {
			return true
		}
	}
	return false
}

func panelRows(a kitchen.Analysis) []panelRow {
	var rows []panelRow
	for _, n := range composition.Nutrients() {
		rows = append(rows, panelRow{Name: n.Name(), Serving: amountWords(a.Pot.Serving[n], n.Unit()),
			Pot: amountWords(a.Pot.Total[n], n.Unit()), Missing: missingWords(a, n), Daily: dailyWords(n, a.Pot.Serving[n]), Main: isMain(n)})
	}
	return rows
}

// missingShown is how many lines are named as unknown before the rest is
// counted.
const missingShown = 3

// knownFoods leaves out the lines that were not read at all: a note above the
// table tells of them once.
func knownFoods(a kitchen.Analysis, lines []int) []int {
	var out []int
	for _, i := range lines {
		if i >= 0 && i < len(a.Pot.Lines) && a.Pot.Lines[i].Matched.State != foodmatch.Unread {
			out = append(out, i)
		}
	}
	return out
}

func missingWords(a kitchen.Analysis, n composition.Nutrient) string {
	var names []string
	lines := knownFoods(a, a.Pot.Unknown[n])
	for _, i := range lines {
		if len(names) == missingShown {
			names = append(names, countWords(len(lines)-missingShown, "further line", "further lines"))
			break
		}
		names = append(names, a.Pot.Lines[i].Matched.Reading.Text)
	}
	if len(names) == 0 {
		return ""
	}
	return "not known either in: " + strings.Join(names, "; ")
}

// twoPanels are the rows of a comparison.
type twoPanels struct {
	Name, Before, After, Difference string
	Main                            bool
}

func comparePanels(before, after nutrient.Panel) []twoPanels {
	var rows []twoPanels
	for _, n := range composition.Nutrients() {
		b, a := before[n], after[n]
		rows = append(rows, twoPanels{Name: n.Name(), Before: amountWords(b, n.Unit()), After: amountWords(a, n.Unit()),
			Difference: differenceWords(b, a, n.Unit()), Main: isMain(n)})
	}
	return rows
}

// aboutSame is the share of an amount under which a difference is not told: far
// inside the range of any estimate here.
const aboutSame = 0.02

func differenceWords(b, a nutrient.Amount, unit string) string {
	if b.Unknown > 0 || a.Unknown > 0 {
		return "not known"
	}
	d := a.Mid - b.Mid
	switch {
	case figure(a.Mid) == figure(b.Mid):
		return "the same"
	case math.Abs(d) < aboutSame*math.Max(a.Mid, b.Mid):
		return "about the same"
	case d < 0:
		return fmt.Sprintf("%s %s less", figure(-d), unit)
	default:
		return fmt.Sprintf("%s %s more", figure(d), unit)
	}
}
