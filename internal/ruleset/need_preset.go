package ruleset

import (
	"fmt"
	"strings"

	"potwright/internal/composition"
	"potwright/internal/household"
	"potwright/internal/kitchen"
)

func (r *needReader) presetFile(top value) {
	m := top.mapping("limits", "plans")
	seen := map[string]bool{}
	for _, v := range m.need("limits").list() {
		before := len(v.src.faults)
		if p := r.preset(v, seen); v.src.sound(before, kitchen.KnownLimit, p.ID, v.line()) {
			r.book.Presets = append(r.book.Presets, p)
		}
	}
	for _, v := range m.need("plans").list() {
		before := len(v.src.faults)
		if p := r.planPreset(v, seen); v.src.sound(before, kitchen.KnownPlan, p.ID, v.line()) {
			r.book.Plans = append(r.book.Plans, p)
		}
	}
}

func (r *needReader) preset(v value, seen map[string]bool) household.Preset {
	m := v.mapping("id", "title", "limits", "age_from", "age_to", "date", "memory", "source", "note")
	p := household.Preset{
		ID: r.id(m, seen), Title: m.need("title").text(),
		AgeFrom: m.get("age_from").whole(0, 120), AgeTo: m.get("age_to").whole(0, 120),
		Note: presetNote(m), Source: m.need("source").text(), Date: m.need("date").text(), FromMemory: m.get("memory").yes(),
	}
	if p.AgeTo != 0 && p.AgeTo < p.AgeFrom {
		m.get("age_to").fault(fmt.Sprintf("age_to %d is below age_from %d", p.AgeTo, p.AgeFrom), "age_from or more")
	}
	for _, l := range m.need("limits").list() {
		p.Limits = append(p.Limits, presetLimit(l))
	}
	return p
}

// presetNote reads a note that must leave the last word to the clinician.
func presetNote(m fields) string {
	note := m.need("note").text()
	if note != "" && !strings.HasSuffix(note, household.YourClinicianFirst) {
		m.get("note").fault("the note does not end with the clinician's precedence", fmt.Sprintf("%q at its end", household.YourClinicianFirst))
	}
	return note
}

func presetLimit(v value) household.Limit {
	m := v.mapping("nutrient", "at_most", "at_least", "per")
	l := household.Limit{Nutrient: nutrient(m.need("nutrient")), Per: period(m.need("per")), SetBy: household.Guidance}
	if at := m.get("at_most"); !at.absent() {
		x := at.number(0, 1e6)
		l.AtMost = &x
	}
	if at := m.get("at_least"); !at.absent() {
		x := at.number(0, 1e6)
		l.AtLeast = &x
	}
	switch {
	case l.AtMost == nil && l.AtLeast == nil:
		v.fault("the limit has no figure", "at_most or at_least")
	case l.AtMost != nil && l.AtLeast != nil && *l.AtLeast > *l.AtMost:
		v.fault(fmt.Sprintf("at_least %s is above at_most %s", plain(*l.AtLeast), plain(*l.AtMost)), "at_most or less")
	}
	return l
}

func (r *needReader) planPreset(v value, seen map[string]bool) household.PlanPreset {
	m := v.mapping("id", "title", "unit", "weights", "round_to", "floor", "per", "free", "date", "memory", "source", "note")
	p := household.PlanPreset{
		ID: r.id(m, seen), Title: m.need("title").text(), Note: presetNote(m), Source: m.need("source").text(),
		Date: m.need("date").text(), FromMemory: m.get("memory").yes(),
		Plan: household.Plan{Unit: m.need("unit").text(), Weights: map[composition.Nutrient]float64{},
			RoundTo: m.get("round_to").positive(1e6), Floor: m.get("floor").number(0, 1e6),
			Per: period(m.need("per")), Free: m.get("free").words("kind", r.kinds)},
	}
	weights := m.need("weights").mapping()
	if !weights.absent() && len(weights.order()) == 0 {
		weights.fault("nothing is counted", "nutrients with their weights, such as carbohydrate_g: 0.0667")
	}
	for _, key := range weights.order() {
		if n, ok := composition.ParseNutrient(key); ok {
			p.Plan.Weights[n] = weights.get(key).number(-1e6, 1e6)
		} else {
			weights.get(key).faultNutrient(key)
		}
	}
	return p
}
