package swap

import (
	"strings"

	"potwright/internal/ingredient"
	"potwright/internal/measure"
)

// scaledAmount is the line's own amount times a ratio, in its own unit where a
// kitchen can measure that, with its container.
func scaledAmount(r ingredient.Reading, ratio float64) string {
	q, u := scaled(r.Amount, ratio)
	text := measure.Format(q, u)
	if r.HasContainer {
		number := measure.Format(q, measure.Each())
		text = number + " " + containerText(r) + " " + u.Written(q)
	}
	switch {
	case r.Size == "":
	case u.Kind == measure.Count && u.Name != measure.Each().Name:
		text = measure.Format(q, measure.Each()) + " " + r.Size + " " + u.Written(q) // "1 small handful"
	default:
		text += " " + r.Size
	}
	return text
}

// containerText is the size of each can as it was written.
func containerText(r ingredient.Reading) string {
	runes := []rune(r.Text)
	for _, part := range r.Parts {
		if part.Name == "container" && part.From >= 0 && part.From < part.To && part.To <= len(runes) {
			text := string(runes[part.From:part.To])
			if text[0] == '(' && strings.HasSuffix(text, ")") {
				return text
			}
		}
	}
	return "(" + measure.Format(r.Container.Quantity, r.Container.Unit) + ")"
}

func scaled(a ingredient.Amount, ratio float64) (measure.Quantity, measure.Unit) {
	if ratio == 1 {
		return a.Quantity, a.Unit
	}
	size := a.Quantity.Mid() * ratio
	if a.Unit.Size > 0 {
		size *= a.Unit.Size
	}
	return measure.Sized(size, a.Unit)
}
