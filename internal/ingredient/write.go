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
