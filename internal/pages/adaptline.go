package pages

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"potwright/internal/adaptation"
	"potwright/internal/kitchen"
	"potwright/internal/swap"
)

// changedLine is one ingredient line before and after, with what may be asked of
// it.
type changedLine struct {
	Number           int
	Section, Before  string
	After, AtTable   []string
	Why, For         []string
	Title            string
	Changed, Gone    bool
	StartsNewSection bool
	// Taste and Work say what the swap costs; Steps which steps it alters.
	Taste, Work, Steps string
	// Refuse is the field that asks for another way, "" for a line that stays.
	Refuse, Rule string
	// Lock keeps the line as it is; Swaps are all that may be done with it.
	Lock  tick
	Swaps []pick
	// Said counts the wishes in force on the line, "" for none.
	Said string
}

// changedLines puts each line beside what becomes of it.
func changedLines(a kitchen.Analysis, ans adaptation.Answer, w adaptation.Wishes) []changedLine {
	byLine := map[int]int{}
	for k, ch := range ans.Changes {
		byLine[ch.Line] = k
	}
	var out []changedLine
	section := ""
	for i, l := range a.Recipe.Lines {
		v := changedLine{Number: i + 1, Section: l.Section, Before: l.Reading.Text, After: []string{l.Reading.Text},
			StartsNewSection: l.Section != section && l.Section != ""}
		section = l.Section
		v.ask(ans.Options[i], w, i)
		if k, ok := byLine[i]; ok {
			v.dress(ans.Changes[k])
			v.Steps = stepsWords(ans, k)
		}
		out = append(out, v)
	}
	return append(out, addedLines(ans, w)...)
}

// addedLines are what is put in besides the lines, and where nothing is, what was
// asked about it. The last one holds what may be asked.
func addedLines(ans adaptation.Answer, w adaptation.Wishes) []changedLine {
	var out []changedLine
	for k, ch := range ans.Changes {
		if ch.Line == adaptation.WholeDish {
			v := changedLine{Steps: stepsWords(ans, k)}
			v.dress(ch)
			out = append(out, v)
		}
	}
	var asked changedLine
	asked.ask(ans.Options[adaptation.WholeDish], w, adaptation.WholeDish)
	if len(out) == 0 && asked.Said == "" {
		return nil
	}
	if len(out) == 0 {
		out = []changedLine{{Before: "Nothing besides the lines"}}
	}
	last := &out[len(out)-1]
	last.Swaps, last.Said = asked.Swaps, asked.Said
	return out
}

func (v *changedLine) dress(ch adaptation.Change) {
	v.Changed, v.After, v.AtTable = true, ch.Option.Text, ch.Option.AtTable
	v.Gone = len(v.After) == 0 && len(v.AtTable) == 0
	v.Why, v.For = ch.Why, ch.For
	v.Taste, v.Work = farWords(ch.Option.Change), effortWords(ch.Option.Effort)
	if ch.Option.Titled > 0 {
		v.Taste += fmt.Sprintf(", %d of them because the dish is named for it", ch.Option.Titled)
	}
	if ch.Option.Main > 0 {
		v.Taste += ", for the dish is mostly made of it"
	}
	if ch.Option.Rule != nil {
		v.Title, v.Rule = ch.Option.Rule.Title, ch.Option.Rule.ID
		v.Refuse = wishName(ch.Line, v.Rule)
	}
}

// ask fills in what may be asked of the line.
func (v *changedLine) ask(os []swap.Option, w adaptation.Wishes, line int) {
	v.Lock = tick{Name: "lock", Value: strconv.Itoa(line), Label: "Lock it", On: slices.Contains(w.Lock, line)}
	said := 0
	for _, r := range swapRules(os, w, line) {
		wish := wishOn(w, line, r.id)
		if wish != mayUse {
			said++
		}
		v.Swaps = append(v.Swaps, pick{Name: wishName(line, r.id), Label: r.title,
			Options: options(wish, mayUse, r.unasked, dontUse, "not this one", mustUse, "yes, this one")})
	}
	if v.Lock.On {
		said++
	}
	if said > 0 {
		v.Said = countWords(said, "wish", "wishes") + " kept"
	}
}

// stepsWords names the steps that a change alters.
func stepsWords(ans adaptation.Answer, change int) string {
	var at []string
	gone := 0
	for _, e := range ans.Edits {
		switch n := strconv.Itoa(e.Step + 1); {
		case e.Change != change:
		case e.Step < 0:
			gone++
		case !slices.Contains(at, n):
			at = append(at, n)
		}
	}
	var parts []string
	if len(at) > 0 {
		parts = append(parts, fmt.Sprintf("changes step %s", strings.Join(at, ", ")))
	}
	if gone > 0 {
		parts = append(parts, "takes out "+countWords(gone, "step", "steps"))
	}
	return strings.Join(parts, " and ")
}

// tieSteps says at each step of the method which swap altered it, and where the
// cook should look.
func tieSteps(before, after []stepView, ans adaptation.Answer) {
	title := func(k int) string {
		if k < 0 || k >= len(ans.Changes) {
			return ""
		}
		return ans.Changes[k].Text()
	}
	for _, e := range ans.Edits {
		switch {
		case e.Step >= 0 && e.Step < len(after):
			after[e.Step].For = appendOnce(after[e.Step].For, title(e.Change))
		case e.Step < 0 && e.Was >= 0 && e.Was < len(before):
			before[e.Was].For = appendOnce(before[e.Was].For, title(e.Change))
		}
	}
	for _, m := range ans.Marks {
		if m.Step >= 0 && m.Step < len(after) {
			after[m.Step].Look = appendOnce(after[m.Step].Look, capitalised(m.Reason))
		}
	}
}

// dishCautions are an answer's cautions without those that stand at their step.
func dishCautions(ans adaptation.Answer) []string {
	var out []string
	for _, text := range ans.Cautions {
		atStep := slices.ContainsFunc(ans.Marks, func(m adaptation.StepMark) bool { return m.Step >= 0 && m.Text == text })
		if !atStep {
			out = append(out, text)
		}
	}
	return out
}

func appendOnce(list []string, s string) []string {
	if s == "" || slices.Contains(list, s) {
		return list
	}
	return append(list, s)
}

func capitalised(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
