package swap

import (
	"math"
	"regexp"
	"strings"

	"potwright/internal/composition"
	"potwright/internal/ingredient"
	"potwright/internal/measure"
)

// write is the new ingredient line for a part of an old one; ok is false where
// its amount can't be told.
func (ing *Ingredient) write(p part) (text string, ok bool) {
	name := ing.Say
	switch {
	case name == "" && ing.Same:
		name = foodWords(p.reading)
	case name == "":
		name = ing.Food
	}
	amount, ok := ing.amount(p)
	if !ok {
		return "", false
	}
	if ing.By == ByLine {
		name = counted(name, p.reading)
		amount = onceCounted(amount, name, p.reading.Amount.Unit)
	}
	text = strings.TrimSpace(amount + " " + name)
	for _, word := range ing.preparation(p.reading) {
		text += ", " + word
	}
	if amount == "" {
		text += ", " + useOf(p.reading)
	}
	return text, true
}

// counted is a name with the word that tells what is counted: of "2 stock cubes" the
// cubes.
func counted(name string, r ingredient.Reading) string {
	of := r.Food[strings.LastIndex(r.Food, " ")+1:]
	if r.Amount.Unit.Name == "each" && (of == "cube" || of == "cubes") && !strings.Contains(name, "cube") {
		return name + " " + of
	}
	return name
}

// onceCounted is an amount without its unit where the name says it too: of "1 bulb" and
// "small fennel bulb" the 1.
func onceCounted(amount, name string, u measure.Unit) string {
	one, two := " "+u.Name, " "+u.Written(measure.Exactly(measure.Whole(2)))
	if u.Kind != measure.Count || !strings.HasSuffix(name, one) && !strings.HasSuffix(name, two) {
		return amount
	}
	return strings.TrimSuffix(strings.TrimSuffix(amount, one), two)
}

// preparation is the rule's note and what stays of the line's own: "divided"
// always stays, for the method relies on it, and so does the water that a food is
// stirred into, which stands on no other line.
func (ing *Ingredient) preparation(r ingredient.Reading) []string {
	var out []string
	if ing.KeepPreparation || ing.Same {
		out = append(out, poured(r)...)
	}
	if ing.Note != "" {
		out = append(out, ing.Note)
	}
	for _, word := range r.Preparation {
		if ing.KeepPreparation || strings.EqualFold(word, "divided") || inLiquid.MatchString(word) {
			out = append(out, word)
		}
	}
	return out
}

// inLiquid are the words that bring a liquid of their own: "in 300 ml boiling water".
var inLiquid = regexp.MustCompile(`(?i)^(?:dissolved |mixed |stirred |crumbled )?(?:in|into|with) [\d¼½¾⅓⅔].*\bwater$`)

// foodOf is the row that a replacement means.
func (ing *Ingredient) foodOf(p part) *composition.Food {
	switch {
	case ing.Same:
		return p.item.Food
	case ing.Row != nil:
		return ing.Row
	}
	return &composition.Food{Name: ing.Food}
}

// foodWords are the words of a line that name its food, as they are written:
// what stands before the first comma without amount and preparation.
func foodWords(r ingredient.Reading) string {
	runes := []rune(r.Text)
	for _, part := range r.Parts {
		if part.Name == "food" || part.Name == "state" {
			continue
		}
		for i := max(part.From, 0); i < min(part.To, len(runes)); i++ {
			runes[i] = ' '
		}
	}
	for _, piece := range strings.Split(asides.ReplaceAllString(string(runes), " "), ",") {
		words := strings.Fields(piece)
		for len(words) > 0 && joints[words[len(words)-1]] { // "ground beef or" of "ground beef or turkey"
			words = words[:len(words)-1]
		}
		if len(words) > 1 && words[0] == "of" {
			words = words[1:]
		}
		if name := strings.Trim(strings.Join(words, " "), " .-()"); name != "" {
			return name
		}
	}
	return r.Food
}

// joints are words that only tie a name to what was taken away behind it.
var joints = map[string]bool{"or": true, "and": true, "and/or": true, "of": true, "with": true}

// asides are words in brackets, closed or not: without their amounts and
// preparation they name nothing.
var asides = regexp.MustCompile(`\([^)]*(\)|$)`)

// poured are the words for a line whose liquid was poured off; what is dry is only
// rinsed.
func poured(r ingredient.Reading) []string {
	switch {
	case has(r.States, "rinsed") && !strings.Contains(strings.ToLower(r.Text), "drained"):
		return []string{"rinsed"}
	case has(r.States, "rinsed"):
		return []string{"drained and rinsed"}
	case has(r.States, "drained"):
		return []string{"drained"}
	}
	return nil
}

func useOf(r ingredient.Reading) string {
	switch {
	case r.UseOf == "":
		return "to taste"
	case strings.HasSuffix(r.UseOf, "ing"):
		return "for " + r.UseOf
	}
	return r.UseOf
}

// lessOf writes a part with a share of its amount. Where the line has no
// amount, what is usual is measured out in spoons.
func lessOf(p part, keep float64) (string, bool) {
	r := p.reading
	if !r.HasAmount {
		ml, ok := millilitres(p)
		if !ok || r.Food == "" {
			return "", false
		}
		q, u := measure.Spoonfuls(ml*keep, p.measures)
		return measure.Format(q, u) + " " + r.Food, true
	}
	keep = wholeSlices(r, keep)
	if rest, ok := afterAmount(r); ok {
		return scaledAmount(r, keep) + " " + rest, true
	}
	if r.Food == "" {
		return "", false
	}
	return scaledAmount(r, keep) + " " + strings.Join(append([]string{r.Food}, r.Preparation...), ", "), true
}

// wholeSlices is the share that leaves whole slices, the even number of two that
// are as near: nobody makes a sandwich of 2 1/4.
func wholeSlices(r ingredient.Reading, keep float64) float64 {
	n := r.Amount.Quantity.Mid()
	if r.Amount.Unit.Name != "slice" || n*keep < 1 {
		return keep
	}
	return math.RoundToEven(n*keep) / n
}

// afterAmount is the text of a line after its amount, where nothing in it
// repeats the amount.
func afterAmount(r ingredient.Reading) (string, bool) {
	if len(r.Other) > 0 || len(r.Together) > 0 || r.PlusMore {
		return "", false
	}
	end := -1
	for _, part := range r.Parts {
		switch part.Name {
		case "quantity", "unit", "container", "size":
			end = max(end, part.To)
		}
	}
	runes := []rune(r.Text)
	if end <= 0 || end >= len(runes) {
		return "", false
	}
	rest := strings.TrimLeft(string(runes[end:]), " .)-")
	return rest, rest != ""
}

var pouredWords = regexp.MustCompile(`(?i)\b(undrained|not drained|drained and rinsed|rinsed and drained|drained|rinsed)\b`)

// withState is a line that says drained, or drained and rinsed.
func withState(text, words string) string {
	if at := pouredWords.FindStringIndex(text); at != nil {
		return text[:at[0]] + words + text[at[1]:]
	}
	return strings.TrimRight(text, " ,.") + ", " + words
}

// written is the line of a reading without the other foods it names.
func written(r ingredient.Reading) string {
	words := append([]string{r.Size}, r.States...)
	food := strings.TrimSpace(strings.Join(append(words, r.Food), " "))
	switch {
	case !r.HasAmount:
		return food + ", " + useOf(r)
	case r.HasContainer:
		return ingredient.WriteContained(r.Amount, r.Container, food, r.Preparation)
	}
	return ingredient.Write(r.Amount, food, r.Preparation)
}

// alone is the line of one food of several on a line.
func alone(p part) string {
	if text, ok := lessOf(p, 1); ok && p.reading.HasAmount {
		return text
	}
	return p.reading.Food + ", " + useOf(p.reading)
}
