package pages

import (
	"fmt"
	"math"
	"slices"

	"potwright/internal/adaptation"
	"potwright/internal/household"
)

func headline(ans adaptation.Answer) string {
	switch {
	case ans.Proof == adaptation.Infeasible:
		return "Nothing that may be changed suits everyone at this table."
	case ans.Fits && onLabels(ans):
		return "With " + countWords(len(ans.Changes), "change", "changes") + " the dish suits everyone, but only if the labels named below say so."
	case len(ans.Changes) == 0 && ans.Fits:
		return "The dish suits everyone as it is."
	case ans.Fits:
		return "With " + countWords(len(ans.Changes), "change", "changes") + " the dish suits everyone."
	default:
		return "The best that was found does not suit everyone."
	}
}

// onLabels reports whether some plate is right only if a label says so.
func onLabels(ans adaptation.Answer) bool {
	return slices.ContainsFunc(ans.Plates, func(p adaptation.Plate) bool { return len(p.Provided) > 0 })
}

func reachWords(rs []adaptation.Reach) []string {
	var out []string
	for _, r := range rs {
		unit, word := r.Limit.Nutrient.Unit(), "the least that can be reached is"
		if r.Limit.AtLeast != nil && r.Limit.AtMost == nil {
			word = "the most that can be reached is"
		}
		out = append(out, fmt.Sprintf("%s, %s: %s %s %s", r.Member, limitWords(r.Limit), word, figure(r.Amount), unit))
	}
	return out
}

func labelWords(ls []adaptation.LabelCeiling) []string {
	var out []string
	for _, l := range ls {
		out = append(out, l.Text)
	}
	return out
}

// otherWays tells the next best answers by what sets them apart from the one
// shown.
func otherWays(ans adaptation.Answer, link func(adaptation.Alternative) string) []otherWay {
	var out []otherWay
	for i, alt := range ans.Alternatives {
		w := otherWay{Heading: fmt.Sprintf("Another way, %d", i+1), Link: link(alt), Changes: differing(ans.Changes, alt.Changes)}
		if extra := alt.Cost[0] - ans.Cost[0]; extra == 0 {
			w.Heading += ": changes the dish no more"
		} else {
			w.Heading += fmt.Sprintf(": changes the dish by %d instead of %d", alt.Cost[0], ans.Cost[0])
		}
		out = append(out, w)
	}
	return out
}

// differing says what the changes of one dish have that another's have not.
func differing(from, to []adaptation.Change) []string {
	known, changed, also := map[string]bool{}, map[int]bool{}, map[string]bool{}
	for _, c := range from {
		known[c.Text()] = true
	}
	var out []string
	for _, c := range to {
		changed[c.Line], also[c.Option.Rule.ID] = true, true
		if text := c.Text(); !known[text] {
			out = append(out, text)
		}
	}
	for _, c := range from {
		switch {
		case c.Line == adaptation.WholeDish && !also[c.Option.Rule.ID]:
			out = append(out, "not added: "+c.To())
		case c.Line != adaptation.WholeDish && !changed[c.Line]:
			out = append(out, c.From+": as it is")
		}
	}
	return out
}

// balanceWords says how the dish keeps its functions.
func balanceWords(bs []adaptation.Balance) []string {
	var out []string
	for _, b := range bs {
		switch {
		case b.Before <= 0 && b.After <= 0:
			continue
		case b.Before <= 0:
			out = append(out, b.Function+": new in the dish")
		case math.Abs(b.After/b.Before-1) < 0.005:
			out = append(out, b.Function+": kept")
		default:
			out = append(out, fmt.Sprintf("%s: %.0f %% of before", b.Function, 100*b.After/b.Before))
		}
	}
	return out
}

// savedFit is the fit of a saved plate; a word that is not one of ours is
// unknown.
func savedFit(word string) household.Fit {
	switch f := household.Fit(word); f {
	case household.Inside, household.Close, household.Over:
		return f
	}
	return household.Unknown
}
