package ruleset

import (
	"potwright/internal/cooking"
	"potwright/internal/method"
	"potwright/internal/spread"

	yaml "go.yaml.in/yaml/v4"
)

// alcohol reads what stays of it, by minutes.
func alcohol(v value) cooking.Alcohol {
	m := v.mapping("steps", "flamed", "overnight", "source")
	a := cooking.Alcohol{Flamed: m.need("flamed").number(0, 100) / 100, Overnight: m.need("overnight").number(0, 100) / 100, Source: m.need("source").text()}
	for i, e := range m.need("steps").list() {
		s := e.mapping("minutes", "kept")
		step := cooking.AlcoholStep{Minutes: s.need("minutes").number(0, 1e4), Kept: s.need("kept").number(0, 100) / 100}
		switch {
		case i == 0 && step.Minutes != 0:
			e.fault("the first step is not at 0 minutes", "minutes: 0")
		case i > 0 && (step.Minutes <= a.Steps[i-1].Minutes || step.Kept > a.Steps[i-1].Kept):
			e.fault("steps are out of order", "more minutes and no more kept than before")
		}
		a.Steps = append(a.Steps, step)
	}
	return a
}

var (
	heatWords = []string{string(method.Simmer), string(method.Boil), string(method.Bake), string(method.Grill), string(method.Fry),
		string(method.Steam), string(method.Microwave), string(method.SlowCooker), string(method.Cook)}
	lidWords = []string{string(method.Covered), string(method.PartlyCovered), string(method.Uncovered)}
)

// rate reads how much water goes, in grams a minute.
func rate(v value) cooking.Rate {
	m := v.mapping("heat", "lid", "low", "mid", "high", "source")
	r := cooking.Rate{
		Heat: method.Heat(m.need("heat").word("heat", heatWords)), Lid: method.Lid(m.get("lid").word("lid", lidWords)), Source: m.need("source").text(),
		Grams: spread.Range{Low: m.need("low").number(0, 100), Mid: m.need("mid").number(0, 100), High: m.need("high").number(0, 100)},
	}
	if r.Grams.Low > r.Grams.Mid || r.Grams.Mid > r.Grams.High {
		v.fault("low, mid and high are out of order", "numbers that do not fall")
	}
	return r
}

// scalarOf is the text here, without a fault where there is none.
func scalarOf(v value) (string, bool) {
	if v.absent() || v.node.Kind != yaml.ScalarNode {
		return "", false
	}
	return v.node.Value, true
}
