package pages

import (
	"fmt"
	"net/http"
	"slices"
	"strings"

	"github.com/gin-gonic/gin"

	"potwright/internal/adaptation"
	"potwright/internal/household"
)

// curvePage shows how far one figure of one plate can be brought, and what that
// changes.
type curvePage struct {
	frame
	RecipeBase, Dish string
	Of               pick
	Hidden           []option
	Curve            curve
	// Wrong says why there is nothing to draw.
	Wrong string
}

// weighed is a figure that may be drawn.
type weighed struct {
	key, words, unit string
	figure           adaptation.Figure
	bound            *float64 // on the plate, nil where none is drawn
}

// weighedOf are the figures that matter at a table: each limit, each plan.
func weighedOf(h household.Household) []weighed {
	var out []weighed
	for i, m := range h.Members {
		for _, b := range m.Bounds(h.PlateShare()) {
			n, value := b.Nutrient(), b.Value
			w := weighed{key: fmt.Sprintf("%d-%s", m.ID, n.Key()), words: fmt.Sprintf("%s’s %s", m.Name, n.Name()), unit: n.Unit(),
				figure: adaptation.Figure{Member: i, Nutrient: n, More: b.Side == household.AtLeast}, bound: &value}
			if !slices.ContainsFunc(out, func(o weighed) bool { return o.key == w.key }) {
				out = append(out, w)
			}
		}
		if m.Plan != nil {
			budget := m.Plan.Budget(h.PlateShare())
			out = append(out, weighed{key: fmt.Sprintf("%d-plan", m.ID), words: fmt.Sprintf("what %s’s plate costs in the plan", m.Name), unit: m.Plan.Unit,
				figure: adaptation.Figure{Member: i, Plan: true}, bound: &budget})
		}
	}
	return out
}

func (s *Site) showCurve(c *gin.Context) error {
	o, err := s.openRecipe(c, "")
	if err != nil {
		return err
	}
	q, err := s.keptWishes(c, o, queryForm(c))
	if err != nil {
		return err
	}
	e, err := s.readTonight(c, o.household, q.form)
	if err != nil {
		return err
	}
	p := curvePage{frame: o.frame, RecipeBase: o.base, Dish: dishTitle(o), Hidden: hiddenFields(e)}
	p.Title, p.Caution = "How far it could go", true
	figures := weighedOf(e.table)
	if len(e.wrong) > 0 {
		p.Wrong = "A portion could not be read, so whoever it is for is left out. " + e.wrong[0].Text
		return s.show(c, http.StatusUnprocessableEntity, "curve", p)
	}
	if len(figures) == 0 {
		p.Wrong = "Nobody at this table has a limit or a plan to draw."
		return s.show(c, http.StatusOK, "curve", p)
	}
	chosen := max(0, slices.IndexFunc(figures, func(w weighed) bool { return w.key == q.form.text("of") }))
	p.Of = pick{Name: "of", Label: "Weigh the change against"}
	for i, w := range figures {
		p.Of.Options = append(p.Of.Options, option{w.key, w.words, i == chosen})
	}
	w := figures[chosen]
	points, all, err := s.kitchen.Tradeoff(c.Request.Context(), o.analysis, e.table, q.wishes, w.figure)
	switch {
	case err != nil:
		p.Wrong = capitalised(err.Error()) + "."
	case len(points) == 0 && all:
		p.Wrong = "Nothing that may be changed suits everyone at this table, so there is nothing to weigh."
	case len(points) == 0:
		p.Wrong = "The search was stopped before it found the first dish."
	}
	p.Curve = newCurve(points, w.unit, w.bound)
	p.Curve.Title, p.Curve.Figure, p.Curve.Part = fmt.Sprintf("Change to the dish against %s", w.words), w.words, !all
	for i := range p.Curve.Points {
		p.Curve.Points[i].Link = o.base + "/adapt?" + wayQuery(e, points[i].Asked(len(o.analysis.Recipe.Lines)), points[i].Portions)
		p.Curve.Points[i].Portions = movedPortions(e, points[i].Portions)
	}
	return s.show(c, http.StatusOK, "curve", p)
}

// movedPortions names the members whose portion is another than usual.
func movedPortions(e evening, portions []float64) []string {
	var out []string
	for i, m := range e.table.Members {
		if usual, _, _ := m.Portions(); i < len(portions) && portions[i] != usual {
			out = append(out, m.Name+": "+portionWords(portions[i]))
		}
	}
	return out
}

// PortionText is the moved portions in one text.
func (p curvePoint) PortionText() string { return strings.Join(p.Portions, "; ") }
