package ingredient

import (
	"strings"

	"potwright/internal/measure"
)

// Write writes an ingredient line: amount, food words, preparation. Read gives
// the same amount, food and preparation back, where the words are ones that Read
// would have found on a line itself: a food without amounts or joints, and
// preparation phrases as a cook writes them.
func Write(a Amount, food string, preparation []string) string {
	return write(a, nil, food, preparation)
}

// WriteContained is Write with the size of each can or package: "2 cans (15 oz)
// black beans, rinsed".
func WriteContained(a, container Amount, food string, preparation []string) string {
	return write(a, &container, food, preparation)
}

func write(a Amount, container *Amount, food string, preparation []string) string {
	var parts []string
	if !a.Quantity.High.IsZero() {
		parts = append(parts, measure.Format(a.Quantity, a.Unit))
		if container != nil {
			parts = append(parts, "("+measure.Format(container.Quantity, container.Unit)+")")
		}
	}
	line := strings.Join(append(parts, food), " ")
	if len(preparation) > 0 {
		line += ", " + strings.Join(preparation, ", ")
	}
	return line
}

// WithAmount is the line's text with the amount in it exchanged for another,
// every other word as it was written. ok is false where the line has no amount.
func WithAmount(r Reading, a Amount) (text string, ok bool) {
	if !r.HasAmount {
		return "", false
	}
	runes := []rune(r.Text)
	from, to := -1, -1
	for _, p := range r.Parts {
		if (p.Name != "quantity" && p.Name != "unit") || p.To > len(runes) {
			continue
		}
		if from >= 0 && p.From > to+1 {
			continue // a unit that stands behind the food stays there
		}
		if from < 0 {
			from = p.From
		}
		to = max(to, p.To)
	}
	if from < 0 {
		return "", false
	}
	written := measure.Format(a.Quantity, a.Unit)
	return string(runes[:from]) + written + string(runes[to:]), true
}

// AmountText is how much of its food a line brings, without the food: "2 tbsp",
// "2 cans of 15 oz", "1 medium"; "" for a line without an amount.
func AmountText(r Reading) string {
	if !r.HasAmount || r.Amount.Quantity.High.IsZero() {
		return ""
	}
	text := measure.Format(r.Amount.Quantity, r.Amount.Unit)
	if r.HasContainer {
		text += " of " + measure.Format(r.Container.Quantity, r.Container.Unit)
	}
	if r.Size != "" {
		text += " " + r.Size
	}
	return text
}
