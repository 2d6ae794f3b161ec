package ingredient

import (
	"strings"

	"potwright/internal/measure"
)

// trailing are units that may stand behind the food: "2 garlic cloves".
var trailing = wordSet("clove stalk leaf sprig fillet ear slice strip wedge sheet head stick cube piece bulb bunch envelope link patty spear square")

// trailingUnit moves a unit at the end of the food's name to the amount, where
// the line has none, and drops the word where it only tells the shape.
func (p *reader) trailingUnit() {
	p.shapeIsUnit()
	n := len(p.food)
	if n < 2 || len(p.whole) == 0 || p.inCompound(p.food[n-1]) {
		return
	}
	u, ok := measure.FindUnit(p.food[n-1])
	if !ok || !trailing[u.Name] {
		return
	}
	if p.r.HasAmount && p.r.Amount.Unit.Name == "each" {
		p.r.Amount.Unit = u
	} else {
		p.r.Preparation = append(p.r.Preparation, p.food[n-1])
	}
	p.food = p.food[:n-1]
}

// shapeIsUnit makes the unit of a counted "6 lettuce leaves" or "3 lemon wedges"
// out of the shape.
func (p *reader) shapeIsUnit() {
	if !p.r.HasAmount || p.r.Amount.Unit.Name != "each" || len(p.food) == 0 {
		return
	}
	for i, prep := range p.r.Preparation {
		u, ok := measure.FindUnit(prep)
		if ok && (u.Name == "leaf" || u.Name == "wedge" || u.Name == "strip" || u.Name == "spear") {
			p.r.Amount.Unit = u
			p.r.Preparation = append(p.r.Preparation[:i:i], p.r.Preparation[i+1:]...)
			return
		}
	}
}

// inCompound reports whether the last word of the food belongs to a fixed name,
// such as "bay leaf" or "cinnamon sticks".
func (p *reader) inCompound(last string) bool {
	n := len(p.food)
	for k := 2; k <= min(3, n); k++ {
		if e, ok := vocabulary[strings.ReplaceAll(strings.Join(p.food[n-k:], " "), "-", " ")]; ok && e.value == compound {
			return true
		}
	}
	return false
}

// unitIsFood turns the unit back into the food where nothing else was named:
// "3 cloves", "1 package".
func (p *reader) unitIsFood() {
	switch p.r.Amount.Unit.Name {
	case "clove", "head", "rib", "stalk", "cube", "leaf", "bulb":
		p.r.Food = p.r.Amount.Unit.Written(p.r.Amount.Quantity)
		if p.wholeUnit {
			p.r.Food = "whole " + p.r.Food
		}
		p.r.Amount.Unit = measure.Each()
		p.named = true
		p.note(0.2, "read as the food "+p.r.Food)
	}
}

// borrowAmount uses a measure in parentheses where the number before the food
// makes no sense for it: "1/8 salt (1/8 teaspoon)".
func (p *reader) borrowAmount() {
	r := &p.r
	if !r.HasAmount || r.Amount.Unit.Name != "each" || r.HasContainer {
		return
	}
	for i, o := range r.Other {
		if o.Unit.Kind == measure.Volume && o.Quantity == r.Amount.Quantity {
			r.Amount = o
			r.Other = append(append([]Amount{}, r.Other[:i]...), r.Other[i+1:]...)
			p.note(0.05, "the measure in parentheses is used")
			return
		}
	}
}

// citrusNames are the fruit of which a line may mean the juice or zest.
var citrusNames = map[string]string{
	"lemon": "lemon", "lemons": "lemon", "lime": "lime", "limes": "lime", "orange": "orange", "oranges": "orange",
	"grapefruit": "grapefruit", "grapefruits": "grapefruit",
}

// juiceOf reads "juice of", "zest of", "juice and zest of" at the start.
func (p *reader) juiceOf(i int) int {
	k, juice, zest := i, false, false
	for k < p.to {
		switch p.tokens[k].low {
		case "juice":
			juice = true
		case "zest", "rind", "peel":
			zest = true
		case "grated", "fresh", "freshly", "squeezed", "finely", "the", "and", "&":
		case "of", "from":
			if juice || zest {
				p.takeFrom(juice, zest)
				p.part("preparation", i, k+1)
				return k + 1
			}
			return i
		default:
			return i
		}
		k++
	}
	return i
}

func (p *reader) takeFrom(juice, zest bool) {
	p.fromFruit = "juice"
	if zest && !juice {
		p.fromFruit = "zest"
	}
	p.bothFromFruit = juice && zest
}

// citrus turns a counted fruit of which only the juice or zest is used into
// that: "juice of 1 lemon", "1 lime, juiced".
func (p *reader) citrus() {
	r := &p.r
	if p.fromFruit == "" {
		p.fruitPreparation()
	}
	if p.fromFruit == "" || r.Food == "" {
		return
	}
	if !r.HasAmount {
		r.HasAmount, r.Amount = true, Amount{measure.Exactly(measure.Whole(1)), measure.Each()}
	}
	fruit := r.Food
	if known, ok := citrusNames[fruit]; ok {
		fruit = known
	}
	if p.bothFromFruit {
		zest := *r
		zest.Food, zest.Parts, zest.Notes, zest.Confidence = fruit+" zest", nil, nil, 1
		p.eachOf = true
		r.Together = append(r.Together, zest)
	}
	r.Food = fruit + " " + p.fromFruit
}

// fruitPreparation finds "juiced" or "zested" behind a counted citrus fruit.
func (p *reader) fruitPreparation() {
	if p.r.Amount.Unit.Name != "each" || citrusNames[p.r.Food] == "" {
		return
	}
	juice, zest := false, false
	for _, prep := range p.r.Preparation {
		juice = juice || strings.Contains(prep, "juice")
		zest = zest || strings.Contains(prep, "zest")
	}
	if juice || zest {
		p.takeFrom(juice, zest)
	}
}
