package pages

import (
	"errors"
	"fmt"
	"net/http"
	"strconv"
	"strings"

	"github.com/gin-gonic/gin"

	"potwright/internal/adaptation"
	"potwright/internal/kitchen"
	"potwright/internal/swap"
)

// Values of a swap's wish.
const (
	mayUse  = "may"
	dontUse = "not"
	mustUse = "must"
)

// wishName is the field of a rule's wish on a line, or on the dish as a whole.
func wishName(line int, rule string) string {
	if line == adaptation.WholeDish {
		return "swap-" + takenOfDish + "-" + rule
	}
	return fmt.Sprintf("swap-%d-%s", line, rule)
}

// readWishes reads the wishes of a form for a dish of n lines.
func readWishes(f form, n int) (adaptation.Wishes, messages) {
	var w adaptation.Wishes
	var wrong messages
	for _, v := range f.all("lock") {
		if i, err := strconv.Atoi(v); err == nil && i >= 0 && i < n {
			w.Lock = append(w.Lock, i)
		}
	}
	for _, name := range f.names("swap-") {
		line, rule, ok := strings.Cut(strings.TrimPrefix(name, "swap-"), "-")
		i, err := strconv.Atoi(line)
		if line == takenOfDish {
			i, err = adaptation.WholeDish, nil
		}
		if !ok || err != nil || line != takenOfDish && i < 0 || i >= n {
			continue
		}
		switch f.text(name) {
		case dontUse:
			w.Refuse = append(w.Refuse, adaptation.Pick{Line: i, Rule: rule})
		case mustUse:
			w.Insist = append(w.Insist, adaptation.Pick{Line: i, Rule: rule})
		}
	}
	if w.Aim = adaptation.Aim(f.text("aim")); !w.Aim.Known() {
		w.Aim = adaptation.LeastChange
	}
	limit, _ := numberIn(&wrong, "cap", f.text("cap"), bounds{Low: 0, High: 200, Whole: true, Example: "3"})
	w.MaxChanges = int(limit)
	return w, wrong
}

// swapRule is a rule as the form offers it; unasked is what happens where
// nothing is asked.
type swapRule struct{ id, title, unasked string }

// swapRules are the rules that open an option on a line, each once, then those
// of earlier wishes that open none just now, so that no wish is lost.
func swapRules(os []swap.Option, w adaptation.Wishes, line int) []swapRule {
	var out []swapRule
	seen := map[string]bool{}
	add := func(id, title, unasked string) {
		if !seen[id] {
			seen[id] = true
			out = append(out, swapRule{id, title, unasked})
		}
	}
	for _, o := range os {
		switch {
		case o.Rule == nil:
		case o.Rule.Manual:
			add(o.Rule.ID, o.Rule.Title, "only if you ask for it")
		default:
			add(o.Rule.ID, o.Rule.Title, "may be used")
		}
	}
	for _, p := range append(append([]adaptation.Pick(nil), w.Refuse...), w.Insist...) {
		if p.Line == line {
			add(p.Rule, readableKey(p.Rule), "may be used")
		}
	}
	return out
}

func wishOn(w adaptation.Wishes, line int, rule string) string {
	for _, p := range w.Refuse {
		if p.Rule == rule && p.Line == line {
			return dontUse
		}
	}
	for _, p := range w.Insist {
		if p.Rule == rule && p.Line == line {
			return mustUse
		}
	}
	return mayUse
}

// saveWishes keeps the wishes with the recipe and shows what they lead to.
func (s *Site) saveWishes(c *gin.Context) error {
	o, err := s.openRecipe(c, "")
	if err != nil {
		return err
	}
	f, err := readForm(c)
	if err != nil {
		return err
	}
	w, wrong := readWishes(f, len(o.analysis.Recipe.Lines))
	e := readEvening(o.household, f)
	if len(wrong)+len(e.wrong) > 0 {
		return s.showAnswer(c, http.StatusUnprocessableEntity, o, asked{wishes: w, cap: f.text("cap"), wrong: wrong, form: f, seen: f.text("seen")})
	}
	now, err := s.store.Wishes(c.Request.Context(), o.household.ID, o.recipeID)
	if err != nil {
		return fmt.Errorf("find wishes: %w", err)
	}
	seen, err := seenIn(f, now)
	if err != nil {
		return err
	}
	saved, err := kitchen.Wish(c.Request.Context(), s.store, o.household.ID, o.recipeID, seen, w)
	if errors.Is(err, kitchen.ErrChanged) {
		return s.showAnswer(c, http.StatusConflict, o, asked{wishes: w, cap: f.text("cap"), form: f, seen: seenOf(saved),
			collision: newCollision(o.base+"/adapt", s.wishWords(saved, o), s.wishWords(w, o))})
	}
	if err != nil {
		return fmt.Errorf("save wishes: %w", err)
	}
	to := o.base + "/adapt?done=wishes"
	if e.query != "" {
		to += "&" + e.query
	}
	return seeOther(c, to)
}

// saveRefusal keeps a swap from being suggested to the household for any dish, or
// allows it again.
func (s *Site) saveRefusal(c *gin.Context) error {
	o, err := s.findRecipe(c, "")
	if err != nil {
		return err
	}
	f, err := readForm(c)
	if err != nil {
		return err
	}
	rule, on, done := f.text("never"), true, "never"
	if rule == "" {
		rule, on, done = f.text("maybe"), false, "maybe"
	}
	if _, known := s.rules.book.Swaps.Rule(rule); !known && on {
		return kitchen.ErrNotFound
	}
	if err := s.store.Refuse(c.Request.Context(), o.household.ID, rule, on); err != nil {
		return err
	}
	return seeOther(c, o.base+"/adapt?done="+done)
}

// neverSuggested lists the swaps that the household never wants suggested.
func (s *Site) neverSuggested(w adaptation.Wishes) []option {
	var out []option
	for _, p := range w.Refuse {
		if p.Line >= 0 {
			continue
		}
		label := readableKey(p.Rule)
		if r, ok := s.rules.book.Swaps.Rule(p.Rule); ok {
			label = r.Title
		}
		out = append(out, option{Value: p.Rule, Label: label})
	}
	return out
}
