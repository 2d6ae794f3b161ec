package pages

import (
	"fmt"
	"net/http"
	"slices"

	"github.com/gin-gonic/gin"

	"potwright/internal/kitchen"
	"potwright/internal/recipe"
	"potwright/internal/spread"
)

// linePage corrects how one ingredient line is read.
type linePage struct {
	frame
	Self, Back string
	From       int64 // id of the version the correction starts from
	// Seen marks what was remembered of the line's words when the form was made.
	Seen      string
	Collision *collision
	Line      lineView
	Wrong     messages
	Search    entry
	Searched  bool
	// Foods to choose from: the reading's own and those searched for.
	Foods    []foodChoice
	Grams    entry
	Skip     tick
	Remember tick
}

// foodChoice is one food to choose.
type foodChoice struct {
	Value, Label, Why string
	On                bool
}

// foundFoods is how many foods a search shows.
const foundFoods = 15

// lineOf opens the version that the form was made from and the line of the address,
// counted from 1.
func (s *Site) lineOf(c *gin.Context, f form) (opened, int, error) {
	o, err := s.openFrom(c, f)
	if err != nil {
		return opened{}, 0, err
	}
	n, err := number(c, "line")
	if err != nil || n < 1 || n > int64(len(o.analysis.Recipe.Lines)) {
		return opened{}, 0, kitchen.ErrNotFound
	}
	return o, int(n) - 1, nil
}

// showLine shows the line. The search button sends the whole form here, so what
// was typed elsewhere in it is kept.
func (s *Site) showLine(c *gin.Context) error {
	f := queryForm(c)
	o, i, err := s.lineOf(c, f)
	if err != nil {
		return err
	}
	if !f.has("q") {
		f = savedLineForm(o.analysis.Recipe.Lines[i])
		f.values.Set("seen", string(kitchen.MarkOf(o.remembered(i))))
	}
	return s.show(c, http.StatusOK, "line", s.linePage(o, i, f, nil))
}

// savedLineForm is the form of a line's correction as saved.
func savedLineForm(l recipe.Line) form {
	f := form{values: map[string][]string{}}
	if l.Fix == nil {
		return f
	}
	f.values.Set("food", l.Fix.FoodID)
	if l.Fix.Grams != nil {
		f.values.Set("grams", typedAmount(l.Fix.Grams.Mid))
	}
	if l.Fix.Skip {
		f.values.Set("skip", "yes")
	}
	return f
}

func (s *Site) linePage(o opened, i int, f form, wrong messages) linePage {
	p := linePage{frame: o.frame, Self: fmt.Sprintf("%s/lines/%d", o.base, i+1), Back: o.base, From: o.version.ID,
		Line: newDishView(o.analysis).Lines[i], Wrong: wrong, Searched: f.text("q") != "", Seen: f.text("seen")}
	p.Title = "How this line is read"
	p.Search = entry{Name: "q", Label: "Look for another food", Hint: "A few words: beans kidney canned.", Value: f.text("q"), Mode: "search"}
	p.Foods = foodChoices(o, i, f)
	p.Grams = entry{Name: "grams", Label: "Weight of what goes into the pot", Unit: "g", Hint: "Empty: leave it to the words of the line.",
		Value: f.text("grams"), Wrong: wrong.For("grams"), Mode: "decimal"}
	p.Skip = tick{Name: "skip", Value: "yes", Label: "Leave this line out of the sums", Hint: "It is not eaten, or not used.", On: f.ticked("skip", "yes")}
	p.Remember = tick{Name: "remember", Value: "yes", Label: "Remember this food for our next recipes",
		Hint: "Wherever a line says “" + o.analysis.Recipe.Lines[i].Reading.Food + "”.", On: f.ticked("remember", "yes")}
	return p
}

// foodChoices lists what the line may mean: left to its words, the reading's
// own candidates, what was chosen, and what was searched for.
func foodChoices(o opened, i int, f form) []foodChoice {
	chosen := f.text("food")
	out := []foodChoice{{Value: "", Label: "Leave it to the words of the line", On: chosen == ""}}
	seen := map[string]bool{}
	add := func(id, name, why string) {
		if !seen[id] {
			seen[id] = true
			out = append(out, foodChoice{Value: id, Label: name, Why: why, On: id == chosen})
		}
	}
	if food, ok := o.analysis.Table.ByID(chosen); ok && chosen != "" {
		add(food.ID, food.Name, "chosen")
	}
	for _, food := range o.analysis.Table.Search(o.analysis.Recipe.Lines[i].Reading.Food, foundFoods) {
		if food.IsOwn() {
			add(food.ID, food.Name, "from your pantry")
		}
	}
	if f.text("q") != "" {
		for _, food := range o.analysis.Table.Search(f.text("q"), foundFoods) {
			why := ""
			if food.IsOwn() {
				why = "from your pantry"
			}
			add(food.ID, food.Name, why)
		}
	}
	if i < len(o.analysis.Pot.Lines) {
		for _, it := range o.analysis.Pot.Lines[i].Matched.Items {
			for k, cand := range it.Candidates {
				if cand.Food != nil && k < shownCandidates {
					add(cand.Food.ID, cand.Food.Name, cand.Why)
				}
			}
		}
	}
	return out
}

// shownCandidates is how many of a reading's own candidates are offered.
const shownCandidates = 6

// saveLine saves the correction as a new version.
func (s *Site) saveLine(c *gin.Context) error {
	f, err := readForm(c)
	if err != nil {
		return err
	}
	o, i, err := s.lineOf(c, f)
	if err != nil {
		return err
	}
	fix, wrong := readFix(o, f)
	if len(wrong) > 0 {
		return s.show(c, http.StatusUnprocessableEntity, "line", s.linePage(o, i, f, wrong))
	}
	done := "line"
	if f.ticked("remember", "yes") && fix.FoodID != "" && o.analysis.Recipe.Lines[i].Reading.Food != "" {
		collided, err := s.remember(c, o, i, fix.FoodID, kitchen.Mark(f.text("seen")))
		if err != nil {
			return err
		}
		if collided != nil {
			f.values.Set("seen", string(collided.now))
			p := s.linePage(o, i, f, nil)
			p.Collision = &collided.collision
			return s.show(c, http.StatusConflict, "line", p)
		}
		done = "remembered"
	}
	if err := s.keepFix(c, o, i, fix); err != nil {
		return err
	}
	return seeOther(c, fmt.Sprintf("%s?done=%s#line-%d", o.base, done, i+1))
}

// keepFix saves the new version.
func (s *Site) keepFix(c *gin.Context, o opened, i int, fix recipe.Correction) error {
	ctx, line := c.Request.Context(), o.analysis.Recipe.Lines[i]
	rec := o.analysis.Recipe
	rec.Lines = slices.Clone(rec.Lines)
	if rec.Lines[i].Fix = &fix; fix == (recipe.Correction{}) {
		rec.Lines[i].Fix = nil
	}
	a, err := s.kitchen.Reread(ctx, o.household.ID, o.version.Text, rec.Corrections())
	if err != nil {
		return fmt.Errorf("read corrected recipe: %w", err)
	}
	if _, err := s.kitchen.SaveEdit(ctx, o.household.ID, o.version, a, "Corrected the line “"+short(line.Reading.Text, recipe.MostNote/2)+"”"); err != nil {
		return fmt.Errorf("save correction: %w", err)
	}
	return nil
}

func readFix(o opened, f form) (recipe.Correction, messages) {
	var wrong messages
	fix := recipe.Correction{FoodID: f.text("food"), Skip: f.ticked("skip", "yes")}
	if fix.FoodID != "" {
		if _, ok := o.analysis.Table.ByID(fix.FoodID); !ok {
			wrong.add("food", "That food is not in the table; choose one of these.")
		}
	}
	if g, ok := numberIn(&wrong, "grams", f.text("grams"), bounds{Low: 0.01, High: recipe.MostGrams, Example: "250"}); ok {
		weight := spread.Exact(g)
		fix.Grams = &weight
	}
	return fix, wrong
}
