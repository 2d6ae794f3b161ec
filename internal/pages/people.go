package pages

import (
	"errors"
	"fmt"
	"math"
	"net/http"
	"strings"

	"github.com/gin-gonic/gin"

	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/measure"
)

// peoplePage is who eats here, and the cook.
type peoplePage struct {
	frame
	People []memberLines
	Ways   waysForm
}

// memberLines is a member as the page tells them.
type memberLines struct {
	Link, Name string
	Lines      []string
}

// waysForm is the cook's hands and how the household counts.
type waysForm struct {
	Wrong messages
	// Seen is the mark of the settings that the form was made from.
	Seen      string
	Collision *collision
	Name      entry
	Spare     []tick
	Lift      entry
	MealShare entry
	Measures  pick
	Equipment equipmentForm
}

func (s *Site) showPeople(c *gin.Context) error {
	h, fr, err := s.household(c, "people", "People at the table")
	if err != nil {
		return err
	}
	share := h.PlateShare()
	f := newWaysForm(h.Cook.Spare, waysTyped{Name: h.Name, Lift: typedOrEmpty(h.Cook.LiftLimitKg), Measures: h.Measures.Key(),
		Share: plain(math.Round(share*1000) / 10)}, nil)
	f.Seen, f.Equipment = string(kitchen.MarkOf(kitchen.Settings(h))), newEquipmentForm(h)
	return s.show(c, http.StatusOK, "people", peoplePage{frame: fr, People: s.words.memberList(h, fr.Base), Ways: f})
}

// waysTyped is what was typed into the form of the household's ways.
type waysTyped struct{ Name, Lift, Share, Measures string }

func newWaysForm(spare []string, t waysTyped, m messages) waysForm {
	var systems []string
	for _, s := range measure.Systems() {
		systems = append(systems, s.Key(), s.Name())
	}
	return waysForm{Wrong: m,
		Measures: pick{Name: "measures", Label: "Cups and spoons in this kitchen", Options: options(t.Measures, systems...), Wrong: m.For("measures"),
			Hint: "A recipe’s cups and spoons are taken to be these. Its words stay as they are; the grams change."},
		Name:  entry{Name: "name", Label: "Name of the household", Value: t.Name, Wrong: m.For("name")},
		Spare: ticks("spare", loads(), spare),
		Lift: entry{Name: "lift", Label: "Heaviest thing to lift", Unit: "kg", Hint: "Leave empty if there is no limit.",
			Value: t.Lift, Wrong: m.For("lift"), Mode: "decimal"},
		MealShare: entry{Name: "share", Label: "Part of a day’s limit that one meal may use", Unit: "percent",
			Hint: "A third, unless you change it: our own choice, three meals alike.", Value: t.Share, Wrong: m.For("share"), Mode: "decimal"}}
}

func typedOrEmpty(x float64) string {
	if x == 0 {
		return ""
	}
	return typedAmount(x)
}

// saveKitchenWays saves the cook's hands, the meal share and the name.
func (s *Site) saveKitchenWays(c *gin.Context) error {
	h, fr, err := s.household(c, "people", "People at the table")
	if err != nil {
		return err
	}
	f, err := readForm(c)
	if err != nil {
		return err
	}
	wanted, m := readWays(h, f)
	var equipment equipmentForm
	wanted.Equipment, equipment = readEquipment(f, h.Equipment, &m)
	ways := newWaysForm(f.all("spare"), waysTyped{f.text("name"), f.text("lift"), f.text("share"), f.text("measures")}, m)
	ways.Seen, ways.Equipment = f.text("seen"), equipment
	status := http.StatusUnprocessableEntity
	if len(m) == 0 {
		saved, err := s.keepWays(c, wanted, kitchen.Mark(ways.Seen))
		switch {
		case err == nil:
			return seeOther(c, fr.Base+"/people?done=ways")
		case errors.Is(err, kitchen.ErrTaken):
			m.add("name", "There is already a household of that name; choose another.")
			ways.Wrong, ways.Name.Wrong = m, m.For("name")
		case errors.Is(err, kitchen.ErrChanged):
			status, ways.Seen = http.StatusConflict, string(kitchen.MarkOf(kitchen.Settings(saved)))
			ways.Collision = newCollision(fr.Base+"/people", waysWords(saved), waysWords(wanted))
		default:
			return fmt.Errorf("save household: %w", err)
		}
	}
	return s.show(c, status, "people", peoplePage{frame: fr, People: s.words.memberList(h, fr.Base), Ways: ways})
}

// keepWays saves the household's settings and leaves its members. Where the settings
// are no longer what seen marks, that is kitchen.ErrChanged and what is saved by now.
func (s *Site) keepWays(c *gin.Context, wanted household.Household, seen kitchen.Mark) (saved household.Household, err error) {
	err = s.kitchen.ChangeHousehold(c.Request.Context(), wanted.ID, func(h household.Household) (household.Household, error) {
		if saved = h; stale(seen, kitchen.Settings(h), kitchen.Settings(wanted)) {
			return h, kitchen.ErrChanged
		}
		next := wanted
		next.Members = h.Members
		return next, nil
	})
	return saved, err
}

func readWays(h household.Household, f form) (household.Household, messages) {
	var m messages
	name, wrong := cleanName(f.text("name"))
	if wrong != "" {
		m.add("name", "%s", wrong)
	}
	h.Name = name
	h.Cook.Spare = nil
	for _, o := range loads() {
		if f.ticked("spare", o.Value) {
			h.Cook.Spare = append(h.Cook.Spare, o.Value)
		}
	}
	h.Cook.LiftLimitKg, _ = numberIn(&m, "lift", f.text("lift"), bounds{Low: 0.1, High: household.MostLiftKg, Example: "3"})
	if f.has("measures") {
		system, ok := measure.ParseSystem(f.text("measures"))
		if !ok {
			m.add("measures", "Choose one of the list.")
		}
		h.Measures = system
	}
	h.MealShare = 0
	if share, ok := numberIn(&m, "share", f.text("share"), bounds{Low: 1, High: 100, Example: "33"}); ok {
		h.MealShare = share / 100
		if diff := h.MealShare - household.DefaultMealShare; diff > -0.004 && diff < 0.001 {
			h.MealShare = 0 // "33" and "33.3" mean the third it was
		}
	}
	return h, m
}

func (v vocabulary) memberList(h household.Household, base string) []memberLines {
	var out []memberLines
	for _, m := range h.Members {
		out = append(out, memberLines{Link: fmt.Sprintf("%s/people/%d", base, m.ID), Name: m.Name, Lines: v.memberWords(m)})
	}
	return out
}

// memberWords tells a member's needs in plain words, a line each.
func (v vocabulary) memberWords(m household.Member) []string {
	var out []string
	if m.Age > 0 {
		out = append(out, countWords(m.Age, "year", "years"))
	}
	out = append(out, portionLine(m))
	for _, l := range m.Limits {
		out = append(out, limitWords(l))
	}
	if m.Plan != nil {
		out = append(out, planWords(*m.Plan))
	}
	if len(m.Avoid) > 0 {
		out = append(out, "avoids "+strings.Join(v.words(m.Avoid), ", "))
	}
	if len(m.Dislikes) > 0 {
		out = append(out, "does not like "+strings.Join(v.words(m.Dislikes), ", "))
	}
	for _, c := range m.Cautions {
		out = append(out, "caution: "+v.cautionTitle(c))
	}
	return append(out, v.textureWords(m.Texture)...)
}

// words are avoidances or dislikes as people say them.
func (v vocabulary) words(keys []string) []string {
	var out []string
	for _, key := range keys {
		out = append(out, labelOf(key, v.avoid))
	}
	return out
}

func portionLine(m household.Member) string {
	p, low, high := m.Portions()
	line := "eats " + portionWords(p)
	if low != high {
		line += fmt.Sprintf(", anything from %s to %s", typedAmount(low), typedAmount(high))
	}
	return line
}

func (v vocabulary) textureWords(t *household.Texture) []string {
	if t == nil {
		return nil
	}
	line := labelOf(fmt.Sprint(t.Level), levels(""))
	if len(t.Avoid) > 0 {
		var words []string
		for _, f := range t.Avoid {
			words = append(words, labelOf(f, v.features))
		}
		line += "; nothing " + strings.Join(words, ", ")
	}
	return []string{"texture " + line}
}
