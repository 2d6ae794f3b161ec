package ruleset

import (
	"potwright/internal/diagnostic"
	"potwright/internal/keeping"
	"potwright/internal/kitchen"
)

// keepingReader reads how dishes are kept and what their cooking must not leave
// out.
type keepingReader struct {
	*needReader
	rules   []keeping.Rule
	seen    map[string]bool
	inForce []string // ids that own advice may name besides those of its files
	instead []value  // what rules name as said in their place, to be looked up last
}

// unknownInstead leaves out the rules that name, in any file, an advice that no
// file has, and gives the faults of it.
func (r *keepingReader) unknownInstead() diagnostic.Faults {
	var out diagnostic.Faults
	var sound []keeping.Rule
	known := append(sortedKeys(r.seen), r.inForce...)
	for i, v := range r.instead {
		before := len(v.src.faults)
		v.src.rule = r.rules[i].ID
		v.words("advice", known)
		v.src.rule = ""
		if len(v.src.faults) == before {
			sound = append(sound, r.rules[i])
		}
		out = append(out, v.src.faults[before:]...)
	}
	r.rules = sound
	return out
}

func (r *keepingReader) file(top value) {
	m := top.mapping("theme", "advice")
	top.src.theme = m.need("theme").text()
	for _, v := range m.need("advice").list() {
		before := len(v.src.faults)
		if x := r.rule(v); v.src.sound(before, kitchen.KeepingAdvice, x.ID, v.line()) {
			r.rules = append(r.rules, x)
			r.instead = append(r.instead, v.mapping().get("instead"))
		}
	}
}

func topics() []string {
	var out []string
	for _, t := range keeping.Topics() {
		out = append(out, string(t))
	}
	return out
}

func (r *keepingReader) rule(v value) keeping.Rule {
	m := v.mapping(signKeys("id", "topic", "heat", "steps", "not_steps", "slow_cooker", "boiled_minutes", "inside_f", "instead",
		"fridge_days", "freezer_months", "say", "reason", "source", "examples")...)
	out := keeping.Rule{
		ID: r.id(m, r.seen), Topic: keeping.Topic(m.need("topic").word("topic", topics())), Signs: r.signs(m),
		Steps: m.get("steps").texts(), NotSteps: m.get("not_steps").texts(), SlowCooker: m.get("slow_cooker").yes(),
		Boiled: m.get("boiled_minutes").number(1, 600), DegreesF: m.get("inside_f").number(100, 212), Instead: m.get("instead").texts(),
		Fridge: timeSpan(m.get("fridge_days")), Freezer: timeSpan(m.get("freezer_months")),
		Say: m.need("say").text(), Reason: m.need("reason").text(), Source: m.need("source").text(), Line: v.line(),
	}
	if h := m.get("heat"); !h.absent() {
		out.Heat = keeping.Heat(h.word("heat", []string{string(keeping.OnlyHeated), string(keeping.OnlyRaw)}))
	}
	if out.Fridge == nil && (out.Freezer != nil || out.Topic == keeping.Storing) {
		v.fault("how long in the fridge is not said", "fridge_days: [3, 4]")
	}
	out.Examples = dishExamples(m.need("examples"))
	return out
}

// mostSpan bounds how long anything is said to keep, in days or months.
const mostSpan = 60

// timeSpan reads [least, most]; nil where nothing is written.
func timeSpan(v value) *keeping.Span {
	list := v.list()
	if v.absent() {
		return nil
	}
	if len(list) != 2 {
		v.fault("not two numbers", "the least and the most, such as [3, 4]")
		return nil
	}
	s := &keeping.Span{Least: list[0].positive(mostSpan), Most: list[1].positive(mostSpan)}
	if s.Least > s.Most {
		v.fault("the least is more than the most", "the smaller first")
	}
	return s
}

// dishExamples reads dishes that must and must not call for an advice; one of
// either is needed.
func dishExamples(v value) []keeping.Example {
	m := v.mapping("speaks", "silent")
	var out []keeping.Example
	for _, key := range []string{"speaks", "silent"} {
		for _, e := range m.need(key).list() {
			em := e.mapping("lines", "method")
			x := keeping.Example{Speaks: key == "speaks", Lines: em.need("lines").texts(), Method: em.need("method").text(), Line: e.line()}
			out = append(out, x)
		}
	}
	return out
}
