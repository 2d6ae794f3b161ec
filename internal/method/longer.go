package method

import (
	"fmt"
	"math"
	"slices"

	"potwright/internal/swap"
)

// leastMinutes is the shortest time that a step is left with where a new food
// takes less than the old, and the least that a cook is told of. A design choice.
const leastMinutes = 3

// takes fits the times of the method to a food that cooks longer or shorter than
// the one it replaces. Where a sentence gives its time to that food alone the time
// is changed; where other foods share the pot they keep theirs, and a sentence
// beside it says how much more or less the new one needs.
func (w *writer) takes(c *change) {
	rule := c.option.Rule
	if rule == nil || rule.Minutes == 0 || rule.Do != swap.Replace || len(c.names) == 0 || c.replaces || c.use.step < 0 || !w.old.mentions(c.use.step, c) {
		return
	}
	t := w.old.timeOf(c)
	more := float64(rule.Minutes)
	if more > 0 && w.book.isReady(c) {
		more = max(0, more-t.after) // what was ready needed none of it
	}
	s := t.sentence(w.old)
	switch {
	case math.Abs(more) < leastMinutes, t.after >= longEnough*more && more > 0:
	case s == nil && (more < 0 || t.drained || c.cooksItself()):
	case s == nil:
		w.cookFirst(c, more)
	case t.alone && w.longer[t.at] == (longer{}) && s.mayTake(more):
		w.longer[t.at] = longer{c, more}
		w.timed = append(w.timed, Edit{Was: t.at.step, Change: c.index})
	case c.cooking != "": // the rule says how to know that it is done
	case more > 0:
		w.added.put(fmt.Sprintf("Allow about %.0f minutes more for the %s.", more, join(c.names)), "with", t.at, c.index)
	case t.low+more >= leastMinutes && -more*third >= t.low:
		w.added.put(fmt.Sprintf("Allow about %.0f minutes less for the %s.", -more, join(c.names)), "with", t.at, c.index)
	}
}

// A food that shares the pot is worth a word where it is done sooner by a third of
// its time or more, or where it needs more than a fourth of the time that the dish
// has. Design choices.
const (
	third      = 3
	longEnough = 4
)

// longer is by how many minutes a sentence's time moves, and for which change.
type longer struct {
	of      *change
	minutes float64
}

// cookFirst says how a food is cooked that goes in where no time on the heat is
// told: in the pot where the stove is on, else before.
func (w *writer) cookFirst(c *change, minutes float64) {
	served := slices.ContainsFunc(w.old.steps[c.use.step][c.use.sentence].tokens, func(t token) bool { return servings[t.norm] })
	hot := w.old.each(func(u use, s *sentence) bool {
		stove, _ := heatOf(s)
		return stove && !c.use.before(u)
	})
	if hot.step >= 0 && !served {
		w.added.put(fmt.Sprintf("Cook about %.0f minutes more for the %s, until tender.", minutes, join(c.names)), "with", c.use, c.index)
		return
	}
	w.added.put(fmt.Sprintf("First cook the %s until tender, about %.0f minutes.", join(c.names), minutes), "before", c.use, c.index)
}

// cooksItself reports whether a step of the rule cooks the new food.
func (c *change) cooksItself() bool {
	return slices.ContainsFunc(c.edits(), func(e swap.MethodEdit) bool { return e.Do == "add" && startsCooking(e.Text) })
}

// isReady reports whether the food that is replaced could be eaten as it came.
func (b *book) isReady(c *change) bool {
	items := b.lines[c.line].Line.Items
	if c.part >= len(items) || items[c.part].Food == nil {
		return false
	}
	f := items[c.part].Food
	return f.HasState("canned") || f.HasState("cooked")
}

// cookingTime is where and how long the method cooks a food.
type cookingTime struct {
	at    use     // the sentence with the longest time; step -1 where there is none
	low   float64 // that time, minutes
	after float64 // all times on the heat from its use on
	// drained is set where it is drained at its use: it cooks no more with the rest.
	drained bool
	alone   bool // that sentence speaks of this food and of no other
}

func (t cookingTime) sentence(r reader) *sentence {
	if t.at.step < 0 {
		return nil
	}
	return &r.steps[t.at.step][t.at.sentence]
}

// timeOf reads the times on the heat of a changed food from its use on.
func (r reader) timeOf(c *change) cookingTime {
	out := cookingTime{at: use{-1, 0}}
	clock := clock{heat: Cook}
	r.each(func(u use, s *sentence) bool {
		from := len(clock.out.Periods)
		for _, cl := range clauses(s.tokens) {
			clock.clause(u.step, s.tokens[cl.from:cl.to])
		}
		if u.before(c.use) {
			return false
		}
		for _, p := range clock.out.Periods[from:] {
			if p.Heat == Rest {
				continue
			}
			out.after += p.Low
			if p.Low > out.low {
				out.at, out.low = u, p.Low
			}
		}
		out.drained = out.drained || u == c.use && slices.ContainsFunc(s.tokens, func(t token) bool { return t.norm == "drain" })
		return out.drained
	})
	if s := out.sentence(r); s != nil {
		out.alone = s.isOf(c)
	}
	return out
}

// isOf reports whether a sentence names the changed food, and beside it only
// what it may be cooked in.
func (s *sentence) isOf(c *change) bool {
	names := false
	for _, t := range s.tokens {
		switch {
		case t.mention == nil:
		case c.is(t.mention):
			names = true
		case !wet[t.norm] && t.norm != "salt":
			return false
		}
	}
	return names
}

// mayTake reports whether a sentence states one time, not for each side, which
// can be so many minutes longer or shorter.
func (s *sentence) mayTake(minutes float64) bool {
	found := 0
	for i := 0; i < len(s.tokens); i++ {
		low, _, n := duration(s.tokens, i)
		if n == 0 {
			continue
		}
		if i += n - 1; low+minutes < leastMinutes || slices.ContainsFunc(s.tokens[i:], func(t token) bool { return t.norm == "side" }) {
			return false
		}
		found++
	}
	return found == 1
}

// retime writes the one time of a sentence so many minutes longer or shorter.
func (s *sentence) retime(minutes float64) {
	for i := range s.tokens {
		low, high, n := duration(s.tokens, i)
		if n == 0 {
			continue
		}
		t := token{space: s.tokens[i].space, text: timeText(low+minutes, high+minutes), num: true, fixed: true}
		s.tokens = append(s.tokens[:i:i], append([]token{t}, s.tokens[i+n:]...)...)
		s.changed = true
		return
	}
}

// longTime is where times are written in hours, in minutes.
const longTime = 120

// timeText such as "40 to 45 minutes", "2 hours 15 minutes".
func timeText(low, high float64) string {
	l, h := int(low+0.5), int(high+0.5)
	switch {
	case h <= l:
		return minutesText(l)
	case h < longTime:
		return fmt.Sprintf("%d to %d minutes", l, h)
	}
	return minutesText(l) + " to " + minutesText(h)
}

func minutesText(m int) string {
	switch {
	case m < longTime:
		return fmt.Sprintf("%d minutes", m)
	case m%60 == 0:
		return fmt.Sprintf("%d hours", m/60)
	}
	return fmt.Sprintf("%d hours %d minutes", m/60, m%60)
}
