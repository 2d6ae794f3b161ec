package household

import (
	"fmt"
	"slices"

	"potwright/internal/label"
)

// HandScale says what the loads are: pages show it beside every note.
const HandScale = "Loads run from 0 (none) to 3 (heavy). They are a design choice of this project, coded from published joint-care advice; they are no medical scale."

// HandAction is something a cook does with the hands, as written in rules/need.
type HandAction struct {
	ID    string
	Title string
	// Line are signs on an ingredient line (its words and food), Step words of a
	// step.
	Line  Signs
	Step  []string
	NotIn []string // words that look like it and are not
	// Loads by name, 0..3.
	Loads map[string]int
	// Lifts is true where the full pot is lifted, Drains where that is to pour off
	// the water that something was boiled in.
	Lifts, Drains bool
	Easier        string
	Effect        Effect // of the easier way
	Source        string
}

type handAction struct {
	HandAction
	line      signs
	step, not phrases
}

func newHandAction(a HandAction) handAction {
	a.Line.NotWords = append(slices.Clone(a.Line.NotWords), a.NotIn...)
	return handAction{HandAction: a, line: newSigns(a.Line), step: newPhrases(a.Step), not: newPhrases(a.NotIn)}
}

// flagFrom is the load from which an action is told to a cook who spares it. A
// design choice.
const flagFrom = 2

// HandNote is a line or a step that loads what the cook should spare.
type HandNote struct {
	Line int // index of the ingredient line, -1 for a step
	Step int // index of the step, -1 for a line
	// Action is the id of what is done, Load the spared load that it puts on the
	// hands most, Score how heavily, 0..3.
	Action string
	Load   string
	Score  int
	Text   string
	Easier string
	Effect Effect // of the easier way
}

// Hands is a cook's need, ready to judge recipes.
type Hands struct {
	Cook  Cook
	needs *Needs
}

// Hands makes the cook's need ready.
func (n *Needs) Hands(c Cook) Hands { return Hands{Cook: c, needs: n} }

// Judge tells which lines and steps load what the cook spares, lines first, in
// order. contentsKg is the weight of the dish, kg, 0 where unknown; with the pot
// it is held against the lift limit wherever the pot is lifted.
func (h Hands) Judge(lines []LineFood, steps []string, contentsKg float64) []HandNote {
	var out []HandNote
	for i, l := range lines {
		if i > 0 && lines[i-1].Line == l.Line && lines[i-1].Text == l.Text {
			continue // a second food of the same line
		}
		words := l.words()
		for _, a := range h.needs.actions {
			if a.onLine(l, words) {
				out = append(out, h.notes(a, HandNote{Line: l.Line, Step: -1, Text: l.name()}, load{})...)
			}
		}
	}
	told := make([][]string, len(steps))
	for i, s := range steps {
		told[i] = tokens(s)
	}
	for i, words := range told {
		for _, a := range h.needs.actions {
			if _, ok := a.step.find(a.not.cut(words)); ok {
				out = append(out, h.notes(a, HandNote{Line: -1, Step: i, Text: fmt.Sprintf("Step %d", i+1)}, h.needs.lifted(a, lines, told, i, contentsKg))...)
			}
		}
	}
	return out
}

func (a handAction) onLine(l LineFood, words []string) bool {
	if _, ok := a.line.inText(words); ok {
		return true
	}
	if l.Food == nil || len(a.Line.Kinds)+len(a.Line.Foods) == 0 {
		return false
	}
	_, ok := a.line.inFood(l.Food, nil, words)
	return ok
}

// notes fills in a note for the heaviest spared load of the action and one for
// a pot over the lift limit.
func (h Hands) notes(a handAction, n HandNote, full load) []HandNote {
	n.Action, n.Easier, n.Effect = a.ID, a.Easier, a.Effect
	where := n.Text
	for _, load := range Loads() {
		if score := a.Loads[load]; score > n.Score && slices.Contains(h.Cook.Spare, load) {
			n.Load, n.Score = load, score
		}
	}
	if a.Lifts && h.Cook.LiftLimitKg > 0 && full.total() > h.Cook.LiftLimitKg {
		n.Load, n.Score = "lift", 3
		n.Text = fmt.Sprintf("%s: %s. It weighs %s, over the %s kg to lift.", where, a.Title, full, label.Figure(h.Cook.LiftLimitKg))
		return []HandNote{n}
	}
	if n.Score < flagFrom {
		return nil
	}
	n.Text = fmt.Sprintf("%s: %s (%s %d of 3).", where, a.Title, loadText(n.Load), n.Score)
	if a.Lifts && n.Load == "lift" && full.total() > 0 {
		n.Text += fmt.Sprintf(" It weighs %s.", full)
	}
	return []HandNote{n}
}

func loadText(load string) string {
	switch load {
	case "tight_twist":
		return "twisting"
	case "fine_knife_work":
		return "fine knife work"
	case "long_stirring":
		return "long stirring"
	case "pour_hot_liquid":
		return "pouring hot liquid"
	case "lift":
		return "lifting"
	default:
		return load
	}
}
