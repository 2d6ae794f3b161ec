package pages

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"net/http"
	"strconv"

	"github.com/gin-gonic/gin"

	"potwright/internal/adaptation"
)

// adaptPage is the dish before and after, and what may be asked of it.
type adaptPage struct {
	frame
	Wrong               messages
	RecipeBase, Dish    string
	Fits, Found, Nobody bool
	Headline, Proof     string
	// Unread says that lines were not read.
	Unread        string
	Lines         []changedLine
	Before, After []stepView
	// Cooking is what was taken for granted of the cooking.
	Cooking []string
	Panel   []twoPanels
	Plates  []plateView
	Balance []string
	Labels  []string
	Others  []otherWay
	// Further is the address of the curve.
	Further string
	// Brings is what each line brings of the nutrient chosen in Shown; ShownAsked is set
	// where the address asks for one.
	Brings     contributions
	Shown      pick
	ShownAsked bool
	// Cautions of this dish, beside the general ones.
	DishCautions []string
	Conflicts    []string
	Reachable    []string
	Nearest      []string
	Aims         []tick
	// Never are the swaps that the household never wants suggested.
	Never []option
	Cap   entry
	Seats []seat
	Note  entry
	// Mark tells this answer from another, so that what is saved is what was
	// seen.
	Mark string
	// Moved is set where the answer is no longer the one that was seen.
	Moved bool
	// Seen are the wishes that the form was made from.
	Seen      string
	Collision *collision
	// Hidden carries who eats, and a way taken from the curve, through the forms.
	Hidden []option
	// Today holds the dish against what the day leaves.
	Today tick
	// Last are remarks from the last times it was made.
	Last []string
	// Taken is set where the answer is one picked from the curve.
	Taken string
}

// otherWay is another way to suit everyone, in words.
type otherWay struct {
	Heading, Link string
	Changes       []string
}

// asked is what a request asks of an adaptation.
type asked struct {
	// wishes are those kept; took is the way picked in the address, nil for none.
	wishes adaptation.Wishes
	took   *adaptation.Wishes
	cap    string
	wrong  messages
	form   form
	note   string
	moved  bool
	// seen are the wishes that are kept, for the form; collision is set where others came between.
	seen      string
	collision *collision
}

func (s *Site) showAdapt(c *gin.Context) error {
	o, err := s.openRecipe(c, "")
	if err != nil {
		return err
	}
	q, err := s.keptWishes(c, o, queryForm(c))
	if err != nil {
		return err
	}
	return s.showAnswer(c, http.StatusOK, o, q)
}

func (s *Site) keptWishes(c *gin.Context, o opened, f form) (asked, error) {
	kept, err := s.store.Wishes(c.Request.Context(), o.household.ID, o.recipeID)
	if err != nil {
		return asked{}, fmt.Errorf("find wishes: %w", err)
	}
	w, err := s.kitchen.WithRefusals(c.Request.Context(), o.household.ID, kept)
	if err != nil {
		return asked{}, fmt.Errorf("find wishes: %w", err)
	}
	q := asked{wishes: w, seen: seenOf(kept), took: takenWay(f, len(o.analysis.Recipe.Lines)), form: f}
	if w.MaxChanges > 0 {
		q.cap = strconv.Itoa(w.MaxChanges)
	}
	return q, nil
}

// answer asks for the adaptation for those who eat.
func (s *Site) answer(c *gin.Context, o opened, q asked) (adaptation.Answer, evening, error) {
	e, err := s.readTonight(c, o.household, q.form)
	if err != nil {
		return adaptation.Answer{}, e, err
	}
	if len(e.table.Members) == 0 {
		return adaptation.Answer{}, e, nil
	}
	w := q.wishes
	if q.took != nil {
		w = *q.took
	}
	ans, err := s.kitchen.Adapt(c.Request.Context(), o.analysis, e.table, w)
	if err != nil {
		return ans, e, fmt.Errorf("adapt recipe %d: %w", o.recipeID, err)
	}
	return ans, e, nil
}

func (s *Site) showAnswer(c *gin.Context, status int, o opened, q asked) error {
	ans, e, err := s.answer(c, o, q)
	if err != nil {
		return err
	}
	p := s.newAdaptPage(o, q, ans, e)
	if p.Last, err = s.lastRemarks(c, o); err != nil {
		return err
	}
	return s.show(c, status, "adapt", p)
}

func (s *Site) newAdaptPage(o opened, q asked, ans adaptation.Answer, e evening) adaptPage {
	p := adaptPage{frame: o.frame, Wrong: append(q.wrong, e.wrong...), RecipeBase: o.base, Dish: o.analysis.Recipe.Title, Fits: ans.Fits,
		Found: ans.Fits || len(ans.Changes) > 0, Nobody: len(e.table.Members) == 0, Moved: q.moved, Seen: q.seen, Collision: q.collision,
		Headline: headline(ans), Proof: proofWords(ans, q.wishes.Aim), Unread: unreadWords(o.analysis), Conflicts: ans.Conflicts, Nearest: ans.Nearest,
		Reachable: reachWords(ans.Reachable), DishCautions: dishCautions(ans), Labels: labelWords(ans.Labels),
		Seats: e.seats, Note: noteEntry(q.note), Mark: answerMark(ans)}
	p.Title, p.frame.Caution = "A dish for everyone", true
	p.Today = todayTick(e)
	p.Aims, p.Never = aimTicks(q.wishes.Aim), s.neverSuggested(q.wishes)
	p.Cap = entry{Name: "cap", Label: "Change at most", Unit: "lines", Hint: "Empty: as many as it takes.", Value: q.cap,
		Wrong: q.wrong.For("cap"), Mode: "numeric"}
	p.Hidden = append(hiddenFields(e), takenFields(q.form)...)
	p.Lines = changedLines(o.analysis, ans, q.wishes)
	if q.took != nil {
		p.Taken = "This is a way you picked from the other ways."
		p.Proof = ""
	}
	if p.Nobody {
		p.Headline, p.Proof = "Nobody is at the table.", "Choose below who is eating."
	}
	if p.Found {
		p.compare(s, o, q, ans, e)
	}
	return p
}

// compare fills what there is to say of the dish before and after.
func (p *adaptPage) compare(s *Site, o opened, q asked, ans adaptation.Answer, e evening) {
	p.Before, p.After = compareSteps(o.analysis.Recipe.Steps, ans.Recipe.Steps)
	tieSteps(p.Before, p.After, ans)
	p.Cooking = o.analysis.Plan.Notes
	p.Panel = comparePanels(o.analysis.Pot.Serving, ans.Pot.Serving)
	p.Plates = s.words.plateViews("plate", measuringFor(o), ans.Plates)
	p.Balance = balanceWords(ans.Balance)
	p.Others = otherWays(ans, func(a adaptation.Alternative) string {
		asked := adaptation.Point{Changes: a.Changes}.Asked(len(o.analysis.Recipe.Lines))
		return o.base + "/adapt?" + wayQuery(e, asked, a.Portions)
	})
	p.Further = o.base + "/adapt/curve"
	if e.query != "" {
		p.Further += "?" + e.query
	}
	n := shownNutrient(q.form, e.table)
	p.Shown, p.ShownAsked = nutrientPick(n), q.form.has("show")
	p.Brings = beforeAndAfter(n, o.analysis, ans)
}

// hiddenFields repeat who eats in the forms of the page.
func hiddenFields(e evening) []option {
	if e.query == "" {
		return nil
	}
	out := []option{{Value: "1", Label: "seated"}}
	if e.today {
		out = append(out, option{Value: "1", Label: "today"})
	}
	for _, st := range e.seats {
		if st.Here.On {
			out = append(out, option{Label: "m", Value: st.Here.Value}, option{Label: st.Portion.Name, Value: st.Portion.Value})
		}
	}
	return out
}

// answerMark is a short fingerprint of what an answer says to cook and serve.
func answerMark(ans adaptation.Answer) string {
	h := sha256.New()
	for _, l := range ans.Recipe.Lines {
		fmt.Fprintln(h, l.Reading.Text)
	}
	for _, st := range ans.Recipe.Steps {
		fmt.Fprintln(h, st.Text)
	}
	for _, p := range ans.Plates {
		fmt.Fprintln(h, p.Member.ID, p.Portion, p.AtTable)
	}
	return hex.EncodeToString(h.Sum(nil))[:16]
}

// saveAdapted saves the answer that was seen. Where it is another by now, since
// someone changed a limit in between, the new one is shown instead.
func (s *Site) saveAdapted(c *gin.Context) error {
	o, err := s.openRecipe(c, "")
	if err != nil {
		return err
	}
	f, err := readForm(c)
	if err != nil {
		return err
	}
	q, err := s.keptWishes(c, o, f)
	if err != nil {
		return err
	}
	q.note = f.text("note")
	ans, e, err := s.answer(c, o, q)
	if err != nil {
		return err
	}
	if long := noteEntry(q.note).Wrong; long != "" {
		q.wrong.add("note", "%s", long)
	}
	if len(q.wrong)+len(e.wrong) > 0 {
		return s.show(c, http.StatusUnprocessableEntity, "adapt", s.newAdaptPage(o, q, ans, e))
	}
	if answerMark(ans) != f.text("mark") || !ans.Fits {
		q.moved = true
		return s.show(c, http.StatusConflict, "adapt", s.newAdaptPage(o, q, ans, e))
	}
	v, err := s.kitchen.SaveAdapted(c.Request.Context(), o.household.ID, o.version, ans, q.note)
	if err != nil {
		return fmt.Errorf("save adapted version: %w", err)
	}
	return seeOther(c, fmt.Sprintf("%s/versions/%d?done=adapted", o.base, v.ID))
}
