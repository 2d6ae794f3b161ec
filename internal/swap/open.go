package swap

import (
	"fmt"
	"math"
	"strings"

	"potwright/internal/composition"
	"potwright/internal/foodmatch"
)

// opened is an option, or why it can't be offered.
type opened struct {
	Option
	fault string
}

// open builds the options of a rule on a part of a line that it fits.
func (r *Rule) open(line foodmatch.Matched, p part, read Reader) []opened {
	switch r.Do {
	case Omit:
		return []opened{r.finish(line, p, nil, read, anyFood)}
	case ToTable:
		return []opened{r.toTable(line, p, read)}
	case Reduce:
		var out []opened
		for _, keep := range r.Keep {
			out = append(out, r.reduced(line, p, keep, read))
		}
		return out
	case Rinse, Drain:
		return []opened{r.poured(line, p, read)}
	case Replace:
		return []opened{r.replaced(line, p, read)}
	case First, Second:
		return []opened{r.chosen(line, p, read)}
	}
	return nil
}

// chosen takes one of the foods that a line names with "or", in its amount.
func (r *Rule) chosen(line foodmatch.Matched, p part, read Reader) opened {
	one, check := p.reading, foodNamed(p.item.Food.Name)
	switch {
	case len(one.Alternatives) == 0 || len(one.Other) > 0:
		return opened{fault: fmt.Sprintf("%q names no other food in an amount of its own", line.Reading.Text)}
	case r.Do == Second:
		one, check = one.Alternatives[0], anyFood
	}
	return r.finish(line, p, []string{written(one)}, read, check)
}

func (r *Rule) replaced(line foodmatch.Matched, p part, read Reader) opened {
	texts := make([]string, 0, len(r.With))
	for _, ing := range r.With {
		text, ok := ing.write(p)
		if !ok {
			return opened{fault: fmt.Sprintf("no amount of %q can be told for %q", ing.foodOf(p).Name, line.Reading.Text)}
		}
		texts = append(texts, text)
	}
	return r.finish(line, p, texts, read, func(i int, f *composition.Food) string {
		return foodNamed(r.With[i].foodOf(p).Name)(i, f)
	})
}

func (r *Rule) reduced(line foodmatch.Matched, p part, keep float64, read Reader) opened {
	text, ok := lessOf(p, keep)
	if !ok {
		return opened{fault: fmt.Sprintf("%v of %q can't be written", keep, line.Reading.Text)}
	}
	o := r.finish(line, p, []string{text}, read, foodNamed(p.item.Food.Name))
	if o.fault == "" && o.Lines[0].Items[0].Grams.Mid >= p.item.Grams.Mid*0.99 {
		o.fault = fmt.Sprintf("%q is no less than %q", text, line.Reading.Text)
	}
	o.Change = r.changeAt(keep)
	if len(r.Keep) > 1 {
		o.Share = keep
	}
	return o
}

// changeAt shares out the rule's change over the shares kept: the smallest has
// all of it, the whole line none.
func (r *Rule) changeAt(keep float64) int {
	least := keep
	for _, k := range r.Keep {
		least = math.Min(least, k)
	}
	if least >= 1 || keep == least || r.Change == 0 {
		return r.Change
	}
	return max(1, int(math.Ceil(float64(r.Change)*(1-keep)/(1-least))))
}

func (r *Rule) poured(line foodmatch.Matched, p part, read Reader) opened {
	state, words := "drained", "drained"
	if r.Do == Rinse {
		state, words = "rinsed", "drained and rinsed"
	}
	return r.finish(line, p, []string{withState(p.reading.Text, words)}, read, func(_ int, f *composition.Food) string {
		if !f.HasState(state) {
			return fmt.Sprintf("reads as %q, which is not %s", f.Name, state)
		}
		return ""
	})
}

func (r *Rule) toTable(line foodmatch.Matched, p part, read Reader) opened {
	share := 1.0
	if len(r.Keep) > 0 {
		share = r.Keep[0]
	}
	if r.wholeToTable() {
		return opened{Option: Option{Rule: r.spoken(p), Change: r.Change, Effort: r.Effort,
			AtTable: []string{line.Reading.Text}, Table: []foodmatch.Matched{line}}}
	}
	o := r.finish(line, p, nil, read, anyFood)
	text, ok := lessOf(p, share)
	if !ok {
		o.fault = fmt.Sprintf("%v of %q can't be written", share, line.Reading.Text)
		return o
	}
	o.AtTable = []string{text}
	o.Table = []foodmatch.Matched{read(text)}
	if why := readsBack(text, o.Table[0], anyFood, 0); why != "" {
		o.fault = why
	}
	return o
}

// wholeToTable reports whether the rule has a line at the table as it is, with all that
// stands on it.
func (r *Rule) wholeToTable() bool { return r.Do == ToTable && r.Match.ofWords() && len(r.Keep) == 0 }

// foodCheck says why the food read from new line i is not the one meant, or "".
type foodCheck func(i int, f *composition.Food) string

func anyFood(int, *composition.Food) string { return "" }

// foodNamed wants the row of a name.
func foodNamed(want string) foodCheck {
	return func(_ int, f *composition.Food) string {
		if f.Name != want {
			return fmt.Sprintf("reads as %q, not as %q", f.Name, want)
		}
		return ""
	}
}

// finish adds the foods of the line that stay, reads every new text afresh and
// checks that it is what it should be.
func (r *Rule) finish(line foodmatch.Matched, p part, texts []string, read Reader, check foodCheck) opened {
	o := opened{Option: Option{Rule: r.spoken(p), Change: r.Change, Effort: r.Effort}}
	fresh := len(texts)
	if len(line.Items) > 1 {
		for _, other := range parts(line) {
			if other.index != p.index {
				texts = append(texts, alone(other))
			}
		}
	}
	for i, text := range texts {
		m := read(text)
		o.Text, o.Lines = append(o.Text, text), append(o.Lines, m)
		c := anyFood
		if i < fresh {
			c = check
		}
		if why := readsBack(text, m, c, i); why != "" && o.fault == "" {
			o.fault = why
		}
	}
	if o.fault == "" && len(texts) == 1 && strings.EqualFold(texts[0], line.Reading.Text) {
		o.fault = fmt.Sprintf("leaves %q as it is", line.Reading.Text)
	}
	return o
}

func readsBack(text string, m foodmatch.Matched, check foodCheck, i int) string {
	if len(m.Items) == 0 || m.Items[0].Food == nil || m.State == foodmatch.Unread || m.Items[0].Grams.Mid <= 0 {
		return fmt.Sprintf("%q does not read as a food with a weight", text)
	}
	if why := check(i, m.Items[0].Food); why != "" {
		return fmt.Sprintf("%q %s", text, why)
	}
	return ""
}

// foodPlace stands for the words of the line's food in the text of an edit.
const foodPlace = "{food}"

// spoken is the rule with the food's own words in its method, itself where it
// has no place for them.
func (r *Rule) spoken(p part) *Rule {
	for i := range r.Method {
		if !strings.Contains(r.Method[i].Text, foodPlace) {
			continue
		}
		own := *r
		own.Method = append([]MethodEdit(nil), r.Method...)
		for j := range own.Method {
			own.Method[j].Text = strings.ReplaceAll(own.Method[j].Text, foodPlace, p.reading.Food)
		}
		return &own
	}
	return r
}
