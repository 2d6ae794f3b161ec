package adaptation

import (
	"slices"

	"potwright/internal/household"
	"potwright/internal/recipe"
)

// dishFoods are the foods of the pot, and with those at the table.
func dishFoods(d Dish, withTable bool) []household.LineFood {
	out := make([]household.LineFood, 0, len(d.Pot.Lines)+2)
	for i := range d.Pot.Lines {
		switch lp := &d.Pot.Lines[i]; {
		case lp.AtTable && !withTable:
		case len(d.Foods) > 0:
			for _, f := range d.Foods[i] {
				f.Line = i
				out = append(out, f)
			}
		default:
			out = append(out, lp.Matched.Foods(i)...)
		}
	}
	return heated(out, d.Heat)
}

// heated says of the foods of one line what the method does to it.
func heated(foods []household.LineFood, heat func(line int) household.Heat) []household.LineFood {
	for i := range foods {
		if heat != nil {
			foods[i].Heat = heat(foods[i].Line)
		}
	}
	return foods
}

func stepTexts(steps []recipe.Step) []string {
	out := make([]string, len(steps))
	for i, s := range steps {
		out[i] = s.Text
	}
	return out
}

// addNeeds judges the plate by what the member avoids and by texture. A texture
// that the member's own plate can be brought to is close, and the plate says
// how. What only a label can tell is unknown: the plate is right provided the
// label says so.
func (p *Plate) addNeeds(needs *household.Needs, m household.Member, foods []household.LineFood, steps []string) {
	for _, f := range needs.AvoidFindings(m, foods) {
		if f.Fit == household.Unknown && allRead(f, foods) {
			p.Provided = append(p.Provided, f.Text+" "+f.Remedy)
		}
		p.add(f, f.Fit == household.Unknown && allRead(f, foods))
	}
	texture, ok := needs.Texture(m)
	if !ok {
		return
	}
	found := texture.Judge(foods, steps)
	p.Verdict.Findings = slices.Grow(p.Verdict.Findings, len(found))
	for _, f := range found {
		if f.ByPlate && f.Fit == household.Over {
			f.Fit = household.Close
		}
		if f.ByPlate && f.Fit != household.Inside {
			p.AtTable = appendNew(p.AtTable, f.Remedy)
		}
		p.add(f, f.Fit != household.Over)
	}
}

// allRead reports whether every line a finding speaks of was read: then what is
// unknown is only what a label may say.
func allRead(f household.Finding, foods []household.LineFood) bool {
	for _, s := range f.Shares {
		for _, lf := range foods {
			if lf.Line == s.Line && lf.Unread {
				return false
			}
		}
	}
	return len(f.Shares) > 0
}

// HandNotes are the lines and steps of a dish that load what the cook spares;
// what the pot holds is held against the lift limit.
func HandNotes(needs *household.Needs, d Dish, cook household.Cook) []household.HandNote {
	return needs.Hands(cook).Judge(dishFoods(d, true), stepTexts(d.Recipe.Steps), d.Pot.YieldGrams.Mid/1000)
}
