package household

import "potwright/internal/composition"

// CautionRule is one caution that a member may tick, as written in rules/need:
// something their pharmacist or clinician told them to watch.
type CautionRule struct {
	ID    string
	Title string   // what is ticked, after "told to" or as a thing to take care with
	Also  []string // other words people use for it
	// Group is the heading it stands under where people tick it.
	Group string
	// Includes are cautions that are raised too where this one is ticked.
	Includes []string
	// UnderAge raises it without a tick for a member whose age is told and below
	// it, in years; 0 where only a tick does.
	UnderAge int
	Signs
	// Stands are foods that may hold it without saying so.
	Stands []Carrier
	// Heat is set where heating a food through takes the caution away; Still are
	// words of a line or step that leave it all the same: "soft-boiled".
	Heat  bool
	Still []string
	// GoneBy are words of the line, or of a step that names its food, that take the
	// caution away: "quartered".
	GoneBy []string
	// Amount raises it by how much a plate holds; nil where only foods do.
	Amount *CautionAmount
	// Steady is set where a change from day to day matters, not the amount alone.
	Steady *CautionSteady
	// OnlyWarns is set where a swap may bring such a food in all the same.
	OnlyWarns bool
	// Say is what to tell the member: warn and refer.
	Say    string
	Source string
	// Examples are lines that must and must not raise it.
	Examples []CautionExample
	Line     int // where the rule stands in its file
}

// CautionAmount is how much of a nutrient on one plate raises a caution, in the
// nutrient's unit.
type CautionAmount struct {
	Nutrient composition.Nutrient
	AtLeast  float64
}

// CautionSteady is how far, in percent either way, a plate of a changed recipe
// may differ in a nutrient from one of the recipe before; differences below
// AtLeast, in the nutrient's unit, are too small to matter.
type CautionSteady struct {
	Nutrient composition.Nutrient
	Percent  float64
	AtLeast  float64
}

// CautionExample is an ingredient line, with a method where heat matters, for one
// serving, that must raise the caution or must not.
type CautionExample struct {
	Text   string
	Method string
	Raises bool
	Line   int // where the example stands in its file
}

// caution is one CautionRule ready for use.
type caution struct {
	rule     CautionRule
	signs    signs
	carriers []carrier
	still    phrases
	goneBy   phrases
	// stays and gone are still and goneBy in steps.
	stays, gone phraseSet
}

func newCaution(r CautionRule, inSteps *lexicon) caution {
	c := caution{rule: r, signs: newSigns(r.Signs), still: newPhrases(r.Still), goneBy: newPhrases(r.GoneBy)}
	c.stays, c.gone = inSteps.add(c.still), inSteps.add(c.goneBy)
	for _, s := range r.Stands {
		c.carriers = append(c.carriers, carrier{newSigns(s.Signs), s.Why})
	}
	return c
}

// bySigns reports whether foods raise it, not an amount alone.
func (c caution) bySigns() bool {
	return len(c.rule.Kinds)+len(c.rule.Foods)+len(c.rule.Words)+len(c.carriers) > 0
}
