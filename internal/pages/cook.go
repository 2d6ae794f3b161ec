package pages

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/gin-gonic/gin"

	"potwright/internal/kitchen"
	"potwright/internal/method"
)

// cookPage is one screen of a dish while it is cooked: what to set out, then a
// step at a time, then what goes onto each plate.
type cookPage struct {
	frame
	RecipeBase, Dish string
	// Place says where one is: "Step 2 of 5".
	Place string
	// Photo is the one that stands for the dish, nil where there is none.
	Photo            *photoView
	Previous, Next   string // addresses; "" at either end
	NextWords        string
	SetOut, Finish   bool
	Lines            []setOutLine
	Step             []stepPart
	Section          string
	Uses             []stepUse
	Times            []stepTime
	Hands            []handView
	Plates           []plateView
	Offered          []string // what is put on the table
	Keeping          keepingView
	Unread, Servings string
	// Batch asks for how many to cook; VersionID is repeated in its form. Scaled
	// says what another batch does not change.
	Batch     entry
	VersionID int64
	Scaled    []string
	// Oven says that the dish needs one where the kitchen has none; Pots which pots the
	// batch goes into.
	Oven string
	Pots []string
	// First is the address of what to set out, "" on that screen.
	First string
}

// setOutLine is an ingredient to set out, with what is hard about it.
type setOutLine struct {
	Section, Text    string
	StartsNewSection bool
	Hands            []handView
	AtTable          bool
	// Spoons is a weight in cups and spoons where there are no scales.
	Spoons string
}

// stepTime is a time that a step states.
type stepTime struct {
	Words string
	// Seconds of the shorter and the longer end, for the timer.
	Seconds, Most int
	Name          string
}

// handView is what is hard on the cook's hands, the easier way, and what that does to
// nutrients, yield and cost.
type handView struct{ Text, Easier, Effect string }

func (s *Site) registerCooking(h, r *gin.RouterGroup) {
	h.GET("/shopping", s.do(s.showShopping))
	r.GET("/cook", s.do(s.showCook))
	r.GET("/card", s.do(s.showCard))
	r.GET("/portions", s.do(s.showPortions))
}

// openChosen opens the version that the address asks for, the newest where it
// asks for none.
func (s *Site) openChosen(c *gin.Context) (opened, error) {
	o, err := s.findRecipe(c, "")
	if err != nil {
		return opened{}, err
	}
	if c.Query("version") == "" {
		return s.openVersion(c, o, o.latest)
	}
	return s.openAsked(c, o, "version")
}

// showCook shows screen ?step=k: 0 to set out, 1 to n the steps, n+1 the plates; for
// ?servings=n the batch is that large.
func (s *Site) showCook(c *gin.Context) error {
	o, err := s.openChosen(c)
	if err != nil {
		return err
	}
	b, wrong, err := s.batch(c, &o)
	if err != nil {
		return err
	}
	at, last := 0, len(o.analysis.Recipe.Steps)+1
	if typed := c.Query("step"); typed != "" {
		if at, err = strconv.Atoi(typed); err != nil || at < 0 || at > last {
			return kitchen.ErrNotFound
		}
	}
	if len(wrong) > 0 {
		at = 0
	}
	p := s.newCookPage(o, b, at)
	p.Batch = batchEntry(b.typed, wrong.For("servings"))
	if p.SetOut {
		photos, err := s.photosOf(c, o)
		if err != nil {
			return err
		}
		if len(photos) > 0 {
			view := newPhotoView(photosBelow(o), p.Dish, photos[0])
			p.Photo = &view
		}
	}
	return s.show(c, statusWith(wrong), "cook", p)
}

func (s *Site) newCookPage(o opened, b batch, at int) cookPage {
	a := o.analysis
	n := len(a.Recipe.Steps)
	p := cookPage{frame: o.frame, RecipeBase: o.base, Dish: dishTitle(o), Servings: servingsWords(a.Recipe.Servings, a.Recipe.ServingsAssumed),
		VersionID: o.version.ID, Scaled: b.notes}
	address := func(k int) string {
		return fmt.Sprintf("%s/cook?step=%d&version=%d%s", o.base, k, o.version.ID, b.query)
	}
	if at > 0 {
		p.Previous, p.First = address(at-1), address(0)
	}
	if at <= n {
		p.Next, p.NextWords = address(at+1), fmt.Sprintf("Step %d", at+1)
	}
	if at == n {
		p.NextWords = "To the table"
	}
	report := s.kitchen.Check(a, o.household)
	switch {
	case at == 0:
		p.Title, p.SetOut, p.Place = "Set out first", true, countWords(n, "step follows", "steps follow")
		p.Unread = unreadWords(a)
		p.Oven, p.Pots = ovenWords(o.household, a), inPotWords(o.household, a)
		p.setOut(a, report, measuringFor(o))
	case at <= n:
		p.Title, p.Place = fmt.Sprintf("Step %d of %d", at, n), p.Dish
		p.step(o, report, at-1)
	default:
		p.Title, p.Finish, p.Place, p.Caution = "To the table", true, p.Dish, true
		p.Plates, p.Keeping, p.Offered = s.finishedPlates(o, report), newKeepingView(a), offered(a)
	}
	return p
}

func dishTitle(o opened) string {
	if o.analysis.Recipe.Title != "" {
		return o.analysis.Recipe.Title
	}
	return o.frame.Title
}

func (p *cookPage) setOut(a kitchen.Analysis, report kitchen.Report, by measuring) {
	section := ""
	for i, l := range a.Recipe.Lines {
		v := setOutLine{Section: l.Section, Text: l.Reading.Text, StartsNewSection: l.Section != "" && l.Section != section, AtTable: l.AtTable()}
		section, v.Spoons = l.Section, by.spoons(*a.Pot.Lines[i].Matched, 0)
		v.Hands = handViews(report, l.Reading.Text, i, -1)
		p.Lines = append(p.Lines, v)
	}
}

// handViews are the notes of a line or of a step, which where names; the other
// index is -1.
func handViews(report kitchen.Report, where string, line, step int) []handView {
	var out []handView
	for _, n := range report.Hands {
		if n.Line == line && n.Step == step {
			// What it is about stands above already.
			text := n.Text
			if _, rest, ok := strings.Cut(text, where+": "); ok {
				text = rest
			}
			out = append(out, handView{text, n.Easier, n.Effect.String()})
		}
	}
	return out
}

func (p *cookPage) step(o opened, report kitchen.Report, at int) {
	a := o.analysis
	st, m := a.Recipe.Steps[at], mentionsOf(a, measuringFor(o))
	p.Step, p.Section = m.inStep(st.Text, at), st.Section
	p.Uses = m.uses(at)
	p.Hands = handViews(report, fmt.Sprintf("Step %d", at+1), -1, at)
	for _, t := range method.Times(a.Recipe.Steps).Periods {
		if t.Step != at {
			continue
		}
		p.Times = append(p.Times, stepTime{Words: minutesWords(t.Low, t.High) + heatWords(t), Name: fmt.Sprintf("Step %d, %s", at+1, minutesWords(t.Low, t.High)),
			Seconds: int(t.Low*60 + 0.5), Most: int(t.High*60 + 0.5)})
	}
}

// minutesWords writes a time: "20 to 25 minutes", "1 hour 30 minutes".
func minutesWords(low, high float64) string {
	if low == high {
		return oneTime(low)
	}
	if high < 60 && low >= 1 {
		return plain(low) + " to " + oneTime(high)
	}
	return oneTime(low) + " to " + oneTime(high)
}

func oneTime(minutes float64) string {
	seconds := int(minutes*60 + 0.5)
	h, m, s := seconds/3600, seconds/60%60, seconds%60
	text := ""
	for _, part := range []struct {
		n         int
		one, many string
	}{{h, "hour", "hours"}, {m, "minute", "minutes"}, {s, "second", "seconds"}} {
		if part.n == 0 {
			continue
		}
		if text != "" {
			text += " "
		}
		text += countWords(part.n, part.one, part.many)
	}
	return text
}

func heatWords(t method.Period) string {
	text := ""
	if t.Heat != method.Cook {
		text = ", " + string(t.Heat)
	}
	if t.Lid != method.LidUnknown {
		text += ", " + string(t.Lid)
	}
	return text
}

// finishedPlates are the plates as saved with the version; where none were, as
// they are for everyone's usual portion.
func (s *Site) finishedPlates(o opened, report kitchen.Report) []plateView {
	if saved := savedPlates(o.version, measuringFor(o)); len(saved) > 0 {
		return saved
	}
	return s.words.plateViews("plate", measuringFor(o), report.Plates)
}

func offered(a kitchen.Analysis) []string {
	var out []string
	for _, l := range a.Recipe.Lines {
		if l.AtTable() {
			out = append(out, l.Reading.Text)
		}
	}
	return out
}
