package pages

import (
	"encoding/json"
	"fmt"
	"net/http"
	"strconv"
	"strings"

	"github.com/gin-gonic/gin"

	"potwright/internal/adaptation"
	"potwright/internal/composition"
	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/measure"
	"potwright/internal/portion"
	"potwright/internal/recipe"
)

// versionsPage is a recipe's history.
type versionsPage struct {
	frame
	RecipeBase, Dish string
	Versions         []versionRow
	Earlier, Later   pick
	CanCompare       bool
}

// versionRow is one version of the history, newest first.
type versionRow struct {
	Number                    int
	Link, Saved, Parent, Note string
	Newest                    bool
	Changes                   []changeView
}

// changeView is one saved change.
type changeView struct {
	From, To, Why, For string
}

func savedChanges(cs []recipe.Change) []changeView {
	var out []changeView
	for _, ch := range cs {
		v := changeView{From: ch.From, To: strings.Join(ch.To, "; "), Why: strings.Join(ch.Why, " "), For: strings.Join(ch.For, ", ")}
		if v.To == "" {
			v.To = "left out"
		}
		out = append(out, v)
	}
	return out
}

// savedPlates reads what each member got, as saved with the version; what
// cannot be read is not shown.
func savedPlates(v recipe.Version, system measure.System) []plateView {
	var docs []kitchen.MemberDocument
	if v.PlatesJSON == "" || json.Unmarshal([]byte(v.PlatesJSON), &docs) != nil {
		return nil
	}
	var out []plateView
	for _, d := range docs {
		p := plateView{Name: d.Name, Portion: portionWords(d.Portion), Mark: savedFit(d.Fits), AtTable: d.AtTable, Provided: d.Provided, Costs: costsSentence(d.Costs)}
		if d.Grams != nil && d.Millilitres != nil {
			p.Weight = portion.Amount{Grams: *d.Grams, Millilitres: *d.Millilitres}.Text(system)
		}
		p.Verdict = savedWords(p.Mark, d.Provided)
		for _, f := range d.Findings {
			p.Findings = append(p.Findings, savedFinding(f))
		}
		out = append(out, p)
	}
	return out
}

// savedWords is the verdict of a plate that was saved because it suited.
func savedWords(f household.Fit, provided []string) string {
	plate := adaptation.Plate{Fits: true, Provided: provided}
	plate.Verdict.Fit = f
	return plateWords(plate)
}

func savedFinding(f kitchen.FindingDocument) findingView {
	v := findingView{What: f.Kind, Text: f.Text, Mark: savedFit(f.Verdict)}
	switch {
	case f.Limit != nil:
		if n, ok := composition.ParseNutrient(f.Limit.Nutrient); ok {
			v.What = n.Name()
		}
	case f.Kind == "plan":
		v.What = "allowance"
	case f.Kind == "avoid":
		v.What = "to avoid"
	}
	v.Verdict = findingWords(household.Finding{Kind: f.Kind, Fit: v.Mark})
	return v
}

func (s *Site) listVersions(c *gin.Context) error {
	o, err := s.findRecipe(c, "")
	if err != nil {
		return err
	}
	vs, err := s.store.ListVersions(c.Request.Context(), o.household.ID, o.recipeID)
	if err != nil {
		return fmt.Errorf("list versions of recipe %d: %w", o.recipeID, err)
	}
	p := versionsPage{frame: o.frame, RecipeBase: o.base, Dish: o.frame.Title, CanCompare: len(vs) > 1}
	p.Title = "How it came to be"
	numbers := map[int64]int{}
	for _, v := range vs {
		numbers[v.ID] = v.Number
	}
	for i := len(vs) - 1; i >= 0; i-- {
		p.Versions = append(p.Versions, newVersionRow(o, vs[i], numbers))
	}
	if p.CanCompare {
		p.Earlier, p.Later = versionPicks(vs, vs[len(vs)-2].ID, vs[len(vs)-1].ID)
	}
	return s.show(c, http.StatusOK, "versions", p)
}

func newVersionRow(o opened, v recipe.Version, numbers map[int64]int) versionRow {
	row := versionRow{Number: v.Number, Link: fmt.Sprintf("%s/versions/%d", o.base, v.ID), Saved: v.SavedAt.Format("2 January 2006, 15:04"),
		Note: v.Note, Newest: v.ID == o.latest, Changes: savedChanges(v.Changes), Parent: "as first written"}
	if n, ok := numbers[v.ParentID]; ok {
		row.Parent = fmt.Sprintf("from version %d", n)
	}
	return row
}

// versionPicks are the two lists of the comparison.
func versionPicks(vs []recipe.Version, earlier, later int64) (a, b pick) {
	a = pick{Name: "a", Label: "This version"}
	b = pick{Name: "b", Label: "beside this one"}
	for _, v := range vs {
		id, label := strconv.FormatInt(v.ID, 10), fmt.Sprintf("version %d", v.Number)
		a.Options = append(a.Options, option{id, label, v.ID == earlier})
		b.Options = append(b.Options, option{id, label, v.ID == later})
	}
	return a, b
}

// comparePage is two versions side by side.
type comparePage struct {
	frame
	RecipeBase, Dish   string
	Earlier, Later     pick
	FromName, ToName   string
	FromLines, ToLines []stepView
	FromSteps, ToSteps []stepView
	Panel              []twoPanels
}

func (s *Site) compareVersions(c *gin.Context) error {
	o, err := s.findRecipe(c, "")
	if err != nil {
		return err
	}
	vs, err := s.store.ListVersions(c.Request.Context(), o.household.ID, o.recipeID)
	if err != nil {
		return fmt.Errorf("list versions of recipe %d: %w", o.recipeID, err)
	}
	a, err := s.openAsked(c, o, "a")
	if err != nil {
		return err
	}
	b, err := s.openAsked(c, o, "b")
	if err != nil {
		return err
	}
	p := comparePage{frame: o.frame, RecipeBase: o.base, Dish: o.frame.Title,
		FromName: fmt.Sprintf("Version %d", a.version.Number), ToName: fmt.Sprintf("Version %d", b.version.Number),
		Panel: comparePanels(a.analysis.Pot.Serving, b.analysis.Pot.Serving)}
	p.Title, p.Caution = "Two versions side by side", true
	p.Earlier, p.Later = versionPicks(vs, a.version.ID, b.version.ID)
	p.FromLines, p.ToLines = compareSteps(lineSteps(a.analysis.Recipe), lineSteps(b.analysis.Recipe))
	p.FromSteps, p.ToSteps = compareSteps(a.analysis.Recipe.Steps, b.analysis.Recipe.Steps)
	return s.show(c, http.StatusOK, "compare", p)
}

// openAsked opens the version named in the address.
func (s *Site) openAsked(c *gin.Context, o opened, name string) (opened, error) {
	id, err := strconv.ParseInt(c.Query(name), 10, 64)
	if err != nil {
		return opened{}, kitchen.ErrNotFound
	}
	return s.openVersion(c, o, id)
}

func lineSteps(r recipe.Recipe) []recipe.Step {
	var out []recipe.Step
	for _, l := range r.Lines {
		out = append(out, recipe.Step{Section: l.Section, Text: l.Reading.Text})
	}
	return out
}
