package ruleset

import (
	"fmt"

	"potwright/internal/household"
	"potwright/internal/kitchen"
)

// maxAge bounds the age below which a caution is raised without a tick.
const maxAge = 18

func (r *needReader) cautionFile(top value) {
	m := top.mapping("cautions")
	seen := map[string]bool{}
	includes := map[string]value{}
	owner := map[string]string{}
	for _, v := range m.need("cautions").list() {
		before := len(v.src.faults)
		rule := r.cautionRule(v, seen)
		if v.src.sound(before, kitchen.CautionRule, rule.ID, v.line()) {
			r.book.Cautions = append(r.book.Cautions, rule)
			includes[rule.ID] = v.mapping().get("includes")
		}
		for _, w := range append([]string{rule.ID}, rule.Also...) {
			if first, taken := owner[w]; taken && first != rule.ID {
				v.fault(fmt.Sprintf("the word %q belongs to %s and to %s", w, first, rule.ID), "a word of its own for each caution")
			}
			owner[w] = rule.ID
		}
	}
	top.src.rule = ""
	all := r.book.Cautions
	if r.base != nil {
		all = byID(r.base.Cautions, all, cautionID)
	}
	var ids []string
	for _, c := range all {
		ids = append(ids, c.ID)
	}
	for _, c := range r.book.Cautions {
		includes[c.ID].words("caution", ids)
	}
}

func (r *needReader) cautionRule(v value, seen map[string]bool) household.CautionRule {
	m := v.mapping(signKeys("id", "title", "also", "group", "includes", "under_age", "stands", "heat_mends", "still", "gone_by",
		"amount", "steady", "only_warns", "say", "source", "examples")...)
	c := household.CautionRule{
		ID: r.id(m, seen), Title: m.need("title").text(), Also: m.get("also").texts(), Group: m.need("group").text(),
		Includes: m.get("includes").texts(), UnderAge: m.get("under_age").whole(1, maxAge), Signs: r.signs(m), Stands: r.carriers(m.get("stands")),
		Heat: m.get("heat_mends").yes(), Still: m.get("still").texts(), GoneBy: m.get("gone_by").texts(),
		OnlyWarns: m.get("only_warns").yes(), Say: m.need("say").text(), Source: m.need("source").text(), Line: v.line(),
	}
	if a := m.get("amount"); !a.absent() {
		am := a.mapping("nutrient", "at_least")
		c.Amount = &household.CautionAmount{Nutrient: nutrient(am.need("nutrient")), AtLeast: am.need("at_least").positive(household.MostAmount)}
	}
	if s := m.get("steady"); !s.absent() {
		sm := s.mapping("nutrient", "percent", "at_least")
		c.Steady = &household.CautionSteady{Nutrient: nutrient(sm.need("nutrient")), Percent: sm.need("percent").positive(100),
			AtLeast: sm.need("at_least").positive(household.MostAmount)}
	}
	knows := len(c.Kinds) + len(c.Foods) + len(c.Words) + len(c.Includes)
	if !v.absent() && knows == 0 && c.Amount == nil && c.Steady == nil {
		v.fault("nothing to know it by", "kinds, foods, words, includes, amount or steady")
	}
	if len(c.Still) > 0 && !c.Heat {
		m.get("still").fault("still without heat_mends", "heat_mends: true, or no still")
	}
	c.Examples = cautionExamples(m.get("examples"))
	if knows > len(c.Includes) && len(c.Examples) == 0 {
		v.fault("no examples", "lines under raises and under silent")
	}
	return c
}

// carriers reads foods that may hold something, each with its reason.
func (r *needReader) carriers(v value) []household.Carrier {
	var out []household.Carrier
	for _, c := range v.list() {
		m := c.mapping(signKeys("why")...)
		out = append(out, household.Carrier{Signs: r.someSigns(m), Why: m.need("why").text()})
	}
	return out
}

// cautionExamples reads lines that must and must not raise a caution: a line, or
// a line with a method.
func cautionExamples(v value) []household.CautionExample {
	m := v.mapping("raises", "silent")
	var out []household.CautionExample
	for _, key := range []string{"raises", "silent"} {
		for _, e := range m.get(key).list() {
			x := household.CautionExample{Raises: key == "raises", Line: e.line()}
			if _, plainText := scalarOf(e); plainText {
				x.Text = e.text()
			} else {
				em := e.mapping("line", "method")
				x.Text, x.Method = em.need("line").text(), em.need("method").text()
			}
			out = append(out, x)
		}
	}
	return out
}
