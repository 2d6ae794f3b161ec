package recipe

import (
	"math"
	"strconv"
	"strings"

	"potwright/internal/ingredient"
	"potwright/internal/measure"
)

// Scaling says what scaling a recipe did and did not do.
type Scaling struct {
	Factor float64
	// Left are the ingredient lines, counted from 0, whose amount could not be
	// scaled; they are as they were.
	Left []int
	// Amounts are the steps, counted from 0, that name an amount; steps are never
	// scaled, nor are times.
	Amounts []int
}

// Scaled is the recipe for another number of servings (> 0): amounts of lines and
// weights a person gave times the factor, as a kitchen can measure them; every
// other word stays.
func Scaled(r Recipe, servings float64) (Recipe, Scaling) {
	s := Scaling{Factor: servings / r.Servings}
	out := r
	out.Lines, out.Text = nil, ""
	for i, l := range r.Lines {
		text, ok := ingredient.Scaled(l.Reading, s.Factor)
		if !ok {
			s.Left = append(s.Left, i)
		}
		next := Line{Section: l.Section, Reading: ingredient.Read(text), Fix: l.Fix}
		if l.Fix != nil && l.Fix.Grams != nil && ok {
			fix := *l.Fix
			grams := fix.Grams.Scale(s.Factor)
			fix.Grams, next.Fix = &grams, &fix
		}
		out.Lines = append(out.Lines, next)
	}
	for i, step := range r.Steps {
		if namesAmount(step.Text) {
			s.Amounts = append(s.Amounts, i)
		}
	}
	out.Servings, out.ServingsAssumed = servings, false
	out.YieldText = scaledYield(r.YieldText, s.Factor, servings)
	return out, s
}

// scaledYield is the line that says what the recipe makes with every number in it
// scaled; "" where that would no longer tell the servings.
func scaledYield(text string, k, servings float64) string {
	if text == "" {
		return ""
	}
	var b strings.Builder
	for i := 0; i < len(text); {
		q, n, ok := measure.ScanQuantity(text[i:])
		if !ok || n == 0 || text[i] < '0' || text[i] > '9' {
			b.WriteByte(text[i])
			i++
			continue
		}
		b.WriteString(strconv.FormatFloat(math.Round(q.Mid()*k*100)/100, 'f', -1, 64))
		if rest := text[i+n:]; rest != "" && rest[0] != ' ' && text[i+n-1] == ' ' {
			b.WriteByte(' ')
		}
		i += n
	}
	p := parser{}
	if !p.yield(b.String()) || math.Abs(p.r.Servings-servings) > 0.01*servings {
		return ""
	}
	return b.String()
}

// namesAmount reports whether a step names an amount with a unit: "2 cups of the
// broth". Times and temperatures are none.
func namesAmount(text string) bool {
	for i := range text {
		if text[i] < '0' || text[i] > '9' || i > 0 && text[i-1] != ' ' && text[i-1] != '(' {
			continue
		}
		_, n, ok := measure.ScanQuantity(text[i:])
		if !ok {
			continue
		}
		words := strings.Fields(text[i+n:])
		if len(words) == 0 {
			continue
		}
		u, known := measure.FindUnit(strings.Trim(words[0], ".,;()"))
		if known && u.Name != "inch" && u.Name != "each" {
			return true
		}
	}
	return false
}
