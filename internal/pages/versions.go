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
	"potwright/internal/portion"
	"potwright/internal/recipe"
)

// versionsPage is a recipe's history.
type versionsPage struct {
	frame
	RecipeBase, Dish string
	// Versions is the line of descent of the newest version, newest first.
	Versions       []versionRow
	Earlier, Later pick
	CanCompare     bool
	// Made are the times it was made.
	Made []madeView
}

// versionRow is one version of the history.
type versionRow struct {
	id                        int64
	Number                    int
	Link, Saved, Parent, Note string
	// Compare is the address beside its parent, "" for the first.
	Compare string
	Newest  bool
	Changes []changeView
	// Branches are further lines of descent that start at this version.
	Branches [][]versionRow
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
func savedPlates(v recipe.Version, by measuring) []plateView {
	var docs []kitchen.MemberDocument
	if v.PlatesJSON == "" || json.Unmarshal([]byte(v.PlatesJSON), &docs) != nil {
		return nil
	}
	var out []plateView
	for _, d := range docs {
		p := plateView{Name: d.Name, Portion: portionWords(d.Portion), Mark: savedFit(d.Fits), AtTable: d.AtTable, Provided: d.Provided, Costs: costsSentence(d.Costs)}
		if d.Grams != nil && d.Millilitres != nil {
			p.Weight = by.dished(portion.Amount{Grams: *d.Grams, Millilitres: *d.Millilitres})
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
	p.Versions = newHistory(o, vs)
	if p.CanCompare {
		p.Earlier, p.Later = versionPicks(vs, vs[len(vs)-2].ID, vs[len(vs)-1].ID)
	}
	if p.Made, err = s.madeOf(c, o, vs); err != nil {
		return err
	}
	return s.show(c, http.StatusOK, "versions", p)
}

// newHistory lays versions, oldest first, out as a tree: each version goes on to
// the child that leads to the newest one, its other children are branches.
func newHistory(o opened, vs []recipe.Version) []versionRow {
	byID := map[int64]recipe.Version{}
	for _, v := range vs {
		byID[v.ID] = v
	}
	// The line of a version ends at the newest version below it, which is met first
	// where the newest come first.
	var history []versionRow
	branches := map[int64][][]versionRow{}
	placed := map[int64]bool{}
	for i := len(vs) - 1; i >= 0; i-- {
		var line []versionRow
		v := vs[i]
		for v.ID != 0 && !placed[v.ID] {
			placed[v.ID] = true
			line = append(line, newVersionRow(o, v, byID[v.ParentID]))
			v = byID[v.ParentID]
		}
		switch {
		case len(line) == 0:
		case v.ID == 0:
			history = line
		default:
			branches[v.ID] = append(branches[v.ID], line)
		}
	}
	return withBranches(history, branches)
}

func withBranches(line []versionRow, branches map[int64][][]versionRow) []versionRow {
	for i := range line {
		for _, b := range branches[line[i].id] {
			line[i].Branches = append(line[i].Branches, withBranches(b, branches))
		}
	}
	return line
}

func newVersionRow(o opened, v, parent recipe.Version) versionRow {
	row := versionRow{id: v.ID, Number: v.Number, Link: fmt.Sprintf("%s/versions/%d", o.base, v.ID), Saved: v.SavedAt.Format("2 January 2006, 15:04"),
		Note: v.Note, Newest: v.ID == o.latest, Changes: savedChanges(v.Changes), Parent: "as first written"}
	if parent.ID != 0 {
		row.Parent = fmt.Sprintf("from version %d", parent.Number)
		row.Compare = fmt.Sprintf("%s/compare?a=%d&b=%d", o.base, parent.ID, v.ID)
	}
	return row
}

// takeUpAgain saves the version of the address as the newest.
func (s *Site) takeUpAgain(c *gin.Context) error {
	o, err := s.openNamed(c)
	if err != nil {
		return err
	}
	f, err := readForm(c)
	if err != nil {
		return err
	}
	note := f.text("note")
	if again := noteEntry(note); again.Wrong != "" {
		p, err := s.recipePage(c, o)
		if err != nil {
			return err
		}
		p.Again = again
		return s.show(c, http.StatusUnprocessableEntity, "recipe", p)
	}
	if note == "" {
		note = fmt.Sprintf("Back to version %d", o.version.Number)
	}
	if _, err := s.kitchen.SaveAgain(c.Request.Context(), o.household.ID, o.version, note); err != nil {
		return fmt.Errorf("take version %d up again: %w", o.version.ID, err)
	}
	return seeOther(c, o.base+"?done=again")
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
