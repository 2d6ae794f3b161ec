package pages

import (
	"fmt"
	"math"
	"net/http"
	"strconv"

	"github.com/gin-gonic/gin"

	"potwright/internal/composition"
	"potwright/internal/household"
	"potwright/internal/keeping"
	"potwright/internal/kitchen"
	"potwright/internal/nutrient"
	"potwright/internal/portion"
	"potwright/internal/spread"
)

// portionsPage divides the finished dish into containers, with a label for each.
type portionsPage struct {
	frame
	Wrong            messages
	RecipeBase, Dish string
	VersionID        int64
	Size             entry
	By               pick
	Made             entry
	Yield            string // what the pot makes; "" where it is not known
	Count            string
	Rest             string
	TooMany          string
	Labels           []containerLabel
	// Alike says that one label is shown of several that are printed; "" for one.
	Alike string
	// Pots are which of the kitchen's pots the batch goes into.
	Pots []string
	// In writes them down as in the freezer.
	In putInForm
}

// putInForm asks how many containers go into the freezer; Size, By and Made repeat what
// was asked of the page.
type putInForm struct {
	Count          entry
	Size, By, Made string
}

// containerLabel is what stands on one container.
type containerLabel struct {
	Number, Of  int
	Dish, Holds string
	Made        string
	Figures     []figureRow
	For         []string
	Keeps       []string
	// Chilled and Frozen are the last days by the advice, "" where none is known:
	// then the cook writes one.
	Chilled, Frozen string
	NoFreezing      bool
}

// figureRow is one nutrient and how much of it.
type figureRow struct{ Name, Amount string }

// mostContainers is how many labels one page prints.
const mostContainers = 60

// labelNutrients are those a container's label has room for.
var labelNutrients = []composition.Nutrient{composition.Energy, composition.Protein, composition.SaturatedFat, composition.Sodium,
	composition.Carbohydrate, composition.Fibre}

func (s *Site) showPortions(c *gin.Context) error {
	o, err := s.openChosen(c)
	if err != nil {
		return err
	}
	return s.showPortionsForm(c, o, queryForm(c), nil)
}

func (s *Site) showPortionsForm(c *gin.Context, o opened, f form, wrong messages) error {
	by := f.text("by")
	if by != "grams" && by != "cups" {
		by = "servings"
	}
	typed := f.text("size")
	if typed == "" {
		typed = map[string]string{"servings": "1", "grams": "300", "cups": "1"}[by]
	}
	made := f.text("made")
	if made == "" {
		made = s.now().Format(dateForms[0])
	}
	p := portionsPage{frame: o.frame, RecipeBase: o.base, Dish: dishTitle(o), VersionID: o.version.ID,
		Yield: measuringFor(o).dished(portion.Dished(o.analysis.Pot, o.analysis.Pot.Servings))}
	p.Title, p.frame.Caution = "Into containers", true
	p.Pots = inPotWords(o.household, o.analysis)
	p.Made = entry{Name: "made", Label: "Made on", Value: made}
	p.By = pick{Name: "by", Label: "Counted in", Options: options(by, "servings", "servings", "grams", "grams", "cups", "cups")}
	size, ok := numberIn(&wrong, "size", typed, bounds{Low: 0.05, High: 100000, Example: "1"})
	share, known := spread.Range{}, ok
	if ok {
		if share, known = o.analysis.ShareOf(kitchen.Dividing(by), size); !known {
			wrong.add("size", "What the finished dish weighs or fills is not known, so only servings can be counted.")
		}
	}
	p.Size = entry{Name: "size", Label: "Each container holds", Value: typed, Wrong: wrong.For("size"), Mode: "decimal"}
	status := http.StatusOK
	if known {
		s.containers(&p, o, share, made)
	}
	if len(wrong) > 0 {
		status = http.StatusUnprocessableEntity
	}
	count := f.text("count")
	if count == "" {
		count = strconv.Itoa(len(p.Labels))
	}
	p.Wrong = wrong
	p.In = putInForm{Count: entry{Name: "count", Label: "How many containers", Value: count, Wrong: wrong.For("count"), Mode: "numeric"}, Size: typed, By: by, Made: made}
	return s.show(c, status, "freezer", p)
}

func (s *Site) containers(p *portionsPage, o opened, share spread.Range, made string) {
	pot := o.analysis.Pot
	whole := pot.Servings / share.Mid
	n := int(math.Min(math.Floor(whole+1e-9), 1e6))
	p.Count = countWords(n, "full container", "full containers")
	if rest := whole - float64(n); rest > 0.02 {
		p.Rest = fmt.Sprintf("About %s of a container is left over.", figure(rest))
	}
	if n > mostContainers {
		p.TooMany = fmt.Sprintf("Labels are written for the first %d.", mostContainers)
		n = mostContainers
	}
	one := containerLabel{Dish: p.Dish, Holds: containerWords(o, share), Made: made, Figures: figureRows(timesShare(pot.Serving, share), labelNutrients),
		For: s.wholeContainer(o, share), Keeps: keeps(o)}
	one.lastDays(o.analysis, made)
	for i := 1; i <= n; i++ {
		one.Number, one.Of = i, n
		p.Labels = append(p.Labels, one)
	}
	if n > 1 {
		p.Alike = fmt.Sprintf("The first of %d, alike but for their number; all are printed.", n)
	}
}

func containerWords(o opened, share spread.Range) string {
	text := portionWords(share.Mid)
	if weight := measuringFor(o).dished(portion.Dished(o.analysis.Pot, share.Mid)); weight != "" {
		text += ", " + weight
	}
	return text
}

// timesShare is a serving's panel times a share that has a range of its own.
func timesShare(serving nutrient.Panel, share spread.Range) nutrient.Panel {
	var out nutrient.Panel
	for n, a := range serving {
		out[n] = nutrient.Amount{Range: a.Range.Times(share), Unknown: a.Unknown}
	}
	return out
}

func figureRows(p nutrient.Panel, ns []composition.Nutrient) []figureRow {
	var out []figureRow
	for _, n := range ns {
		out = append(out, figureRow{n.Name(), amountWords(p[n], n.Unit())})
	}
	return out
}

// wholeContainer says for each member what eating a whole container means.
func (s *Site) wholeContainer(o opened, share spread.Range) []string {
	h := o.household
	h.Members = nil
	for _, m := range o.household.Members {
		if share.High > household.MaxPortion {
			return []string{"more than one person eats"}
		}
		h.Members = append(h.Members, m.WithPortion(share.High))
	}
	var out []string
	for _, plate := range s.kitchen.Check(o.analysis, h).Plates {
		out = append(out, plate.Member.Name+": "+plateWords(plate))
	}
	return out
}

// keeps is how long the dish keeps, where something is known of it.
func keeps(o opened) []string {
	var out []string
	for _, a := range o.analysis.Keeping() {
		if a.Topic == keeping.Storing {
			out = append(out, a.Text)
		}
	}
	return out
}

// dateForms are the ways a date may be typed; the first is how it is written.
var dateForms = []string{"2 January 2006", "2 Jan 2006", "January 2, 2006", "2006-01-02"}

// lastDays writes the last days by the advice, counted from the day it was made where
// that is one.
func (l *containerLabel) lastDays(a kitchen.Analysis, made string) {
	day, ok := readDay(made)
	keeps := a.KeepsFrom(day)
	l.NoFreezing = keeps.Unfrozen
	if !ok {
		return
	}
	if keeps.Chilled != "" {
		l.Chilled = keeps.Chilled.Time().Format(dateForms[0])
	}
	if keeps.Frozen != "" {
		l.Frozen = keeps.Frozen.Time().Format(dateForms[0])
	}
}
