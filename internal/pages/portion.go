package pages

import (
	"fmt"

	"potwright/internal/adaptation"
	"potwright/internal/nutrient"
	"potwright/internal/portion"
)

// costWords says where the cost of a portion steps up in the member's plan.
func costWords(p adaptation.Plate) string {
	if p.Member.Plan == nil {
		return ""
	}
	return costsSentence(portion.CostText(*p.Member.Plan, p.Costs, p.Portion))
}

func costsSentence(costs string) string {
	if costs == "" {
		return ""
	}
	return "What a portion costs: " + costs + "."
}

// commonWords is the one size of portion that is inside every limit of everyone,
// "" for a table of one or where nothing bounds it.
func commonWords(by measuring, pot nutrient.Pot, plates []adaptation.Plate) string {
	if len(plates) < 2 {
		return ""
	}
	var names []string
	var each []portion.Largest
	for _, p := range plates {
		names, each = append(names, p.Member.Name), append(each, p.Largest)
	}
	common := portion.Common(names, each)
	if !common.Bounded() || common.Shown() <= 0 {
		return ""
	}
	text := fmt.Sprintf("One size for the whole table: up to %s is inside every limit of everyone (%s decides)", portionWords(common.Shown()), common.By)
	if weight := by.dished(portion.Dished(pot, common.Shown())); weight != "" {
		text += ", " + weight
	}
	return text + "."
}
