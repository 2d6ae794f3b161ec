package foodmatch

import (
	"potwright/internal/composition"
	"potwright/internal/household"
)

// Foods are the foods of a line as people's needs and advice look at them; line is
// its index. A line that is left out has none, one that was not read is one food
// that says so.
func (m *Matched) Foods(line int) []household.LineFood {
	if m.State == Skipped {
		return nil
	}
	base := household.LineFood{Line: line, Text: m.Reading.Text, Words: m.Reading.Preparation}
	if m.State == Unread || len(m.Items) == 0 {
		base.Unread = true
		return []household.LineFood{base}
	}
	out := make([]household.LineFood, 0, len(m.Items))
	for i := range m.Items {
		lf, item := base, &m.Items[i]
		lf.Food, lf.Grams = item.Food, item.Grams.Mid
		if lf.Grams == 0 { // optional: all of it may go in
			lf.Grams = item.Grams.High
		}
		lf.Candidates = item.others()
		out = append(out, lf)
	}
	return out
}

// others are the candidates besides the food taken.
func (item *Item) others() []*composition.Food {
	if len(item.Candidates) < 2 {
		return nil
	}
	out := make([]*composition.Food, 0, len(item.Candidates)-1)
	for _, c := range item.Candidates {
		if c.Food != nil && c.Food != item.Food {
			out = append(out, c.Food)
		}
	}
	return out
}
