package pages

import (
	"fmt"
	"net/http"
	"strconv"
	"strings"

	"github.com/gin-gonic/gin"

	"potwright/internal/kitchen"
	"potwright/internal/recipe"
)

// comparePage is two versions side by side.
type comparePage struct {
	frame
	RecipeBase, Dish   string
	Earlier, Later     pick
	FromName, ToName   string
	FromLines, ToLines []stepView
	FromSteps, ToSteps []stepView
	Panel              []twoPanels
	// Lines and Steps count what is other, in words.
	Lines, Steps string
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
	lines, steps := recipe.Diff(a.analysis.Recipe, b.analysis.Recipe)
	p.Lines, p.Steps = countDifferences(lines, "line"), countDifferences(steps, "step")
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

// lineSteps are the ingredient lines as texts to compare.
func lineSteps(r recipe.Recipe) []recipe.Step {
	var out []recipe.Step
	for _, l := range r.Lines {
		out = append(out, recipe.Step{Section: l.Section, Text: l.Reading.Text})
	}
	return out
}

// compareSteps marks the steps that differ, and in those that have a counterpart
// the words that do.
func compareSteps(before, after []recipe.Step) (b, a []stepView) {
	for _, st := range before {
		b = append(b, stepView{Section: st.Section, Text: st.Text})
	}
	for _, st := range after {
		a = append(a, stepView{Section: st.Section, Text: st.Text})
	}
	_, steps := recipe.Diff(recipe.Recipe{Steps: before}, recipe.Recipe{Steps: after})
	for _, d := range steps {
		if d.Kind == recipe.Same {
			continue
		}
		if d.FromIndex >= 0 {
			b[d.FromIndex].Mark = "was"
		}
		if d.ToIndex >= 0 {
			a[d.ToIndex].Mark = "now"
		}
		if d.Kind == recipe.Changed {
			b[d.FromIndex].Words, a[d.ToIndex].Words = sharedWords(d.From, d.To)
		}
	}
	return b, a
}

// leastShared is the share of its words that a text must have in common with its
// counterpart for the words to be told apart: below it, marks are all one sees. A
// design choice.
const leastShared = 0.3

func sharedWords(from, to string) (was, now []recipe.Word) {
	was, now = recipe.Words(from, to)
	same, all := 0, 0
	for _, w := range was {
		n := len(strings.Fields(w.Text))
		if all += n; !w.Changed {
			same += n
		}
	}
	if float64(same) < leastShared*float64(all) {
		return nil, nil
	}
	return was, now
}

// countDifferences tells what is other: "2 lines changed, 1 line added".
func countDifferences(ds []recipe.Difference, noun string) string {
	count := map[recipe.DiffKind]int{}
	for _, d := range ds {
		count[d.Kind]++
	}
	var parts []string
	for _, k := range []struct {
		kind recipe.DiffKind
		word string
	}{{recipe.Changed, "changed"}, {recipe.Added, "added"}, {recipe.Removed, "taken out"}} {
		if n := count[k.kind]; n > 0 {
			parts = append(parts, countWords(n, noun, noun+"s")+" "+k.word)
		}
	}
	if len(parts) == 0 {
		return "Every " + noun + " is the same."
	}
	return capitalised(strings.Join(parts, ", ")) + "."
}
