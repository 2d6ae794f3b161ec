package ruleset

import (
	"fmt"
	"io"

	"potwright/internal/composition"
	"potwright/internal/diagnostic"
	"potwright/internal/household"
	"potwright/internal/measure"
)

// maxPeople bounds a household file.
const maxPeople = 100

// ReadHousehold reads a household file, YAML or JSON. Every fault is in the
// error, which is then a diagnostic.Faults; file names the input in them.
// Amounts are in the unit of the nutrient's key, portions are shares of one
// serving. A member without a portion gets one serving.
func ReadHousehold(r io.Reader, file string) (household.Household, error) {
	data, err := io.ReadAll(io.LimitReader(r, maxBytes+1))
	if err != nil {
		return household.Household{}, diagnostic.Faults{{File: file, Problem: "can't be read: " + err.Error()}}
	}
	src, top := open(file, data)
	h := household.Household{}
	if len(src.faults) == 0 {
		h = readHousehold(top)
	}
	if err := src.faults.Err(); err != nil {
		return household.Household{}, err
	}
	return h, nil
}

func readHousehold(top value) household.Household {
	m := top.mapping("household", "cook", "equipment", "members", "meal_share", "measures")
	h := household.Household{Name: m.need("household").text(), Cook: cook(m.get("cook")), Equipment: equipment(m.get("equipment"))}
	if share := m.get("meal_share"); !share.absent() {
		h.MealShare = share.positive(1)
	}
	if v := m.get("measures"); !v.absent() {
		h.Measures, _ = measure.ParseSystem(v.word("system of cups and spoons", systemKeys()))
	}
	people := m.need("members")
	list := people.list()
	if !people.absent() && (len(list) == 0 || len(list) > maxPeople) {
		people.fault(fmt.Sprintf("%d members", len(list)), fmt.Sprintf("1 to %d", maxPeople))
		return h
	}
	names := map[string]bool{}
	for _, v := range list {
		one := v.mapping("name", "age", "limits", "plan", "avoid", "dislikes", "cautions", "texture",
			"portion", "portion_min", "portion_max")
		who := member(one)
		if names[who.Name] && who.Name != "" {
			one.get("name").fault(fmt.Sprintf("two members are named %q", who.Name), "a name of its own")
		}
		names[who.Name] = true
		h.Members = append(h.Members, who)
	}
	return h
}

// systemKeys are the words of the systems of kitchen measures.
func systemKeys() []string {
	var keys []string
	for _, s := range measure.Systems() {
		keys = append(keys, s.Key())
	}
	return keys
}

func cook(v value) household.Cook {
	hands := v.mapping("hands").get("hands").mapping("spare", "lift_limit_kg")
	c := household.Cook{Spare: hands.get("spare").words("hand load", household.Loads())}
	if lift := hands.get("lift_limit_kg"); !lift.absent() {
		c.LiftLimitKg = lift.positive(household.MostLiftKg)
	}
	return c
}

func equipment(v value) household.Equipment {
	m := v.mapping("pots", "no_scales", "no_oven")
	var e household.Equipment
	if scales := m.get("no_scales"); !scales.absent() {
		e.NoScales = scales.yes()
	}
	if oven := m.get("no_oven"); !oven.absent() {
		e.NoOven = oven.yes()
	}
	pots := m.get("pots")
	list := pots.list()
	if len(list) > household.MostPots {
		pots.fault(fmt.Sprintf("%d pots", len(list)), fmt.Sprintf("at most %d", household.MostPots))
		return e
	}
	for _, v := range list {
		p := v.mapping("name", "litres")
		e.Pots = append(e.Pots, household.Pot{Name: p.need("name").text(), Litres: p.need("litres").positive(household.MostLitres)})
	}
	return e
}

func member(m fields) household.Member {
	who := household.Member{
		Name:     m.need("name").text(),
		Age:      m.get("age").whole(0, household.MostAge),
		Plan:     plan(m.get("plan")),
		Avoid:    m.get("avoid").texts(),
		Dislikes: m.get("dislikes").texts(),
		Cautions: m.get("cautions").texts(),
		Texture:  texture(m.get("texture")),
		Portion:  1,
	}
	for _, v := range m.get("limits").list() {
		who.Limits = append(who.Limits, limit(v))
	}
	portion(m, &who)
	return who
}

// portion reads the usual share of a serving with the least and most that the
// member accepts.
func portion(m fields, who *household.Member) {
	if v := m.get("portion"); !v.absent() {
		who.Portion = v.positive(household.MaxPortion)
	}
	least, most := m.get("portion_min"), m.get("portion_max")
	if !least.absent() {
		who.PortionMin = least.positive(household.MaxPortion)
	}
	if !most.absent() {
		who.PortionMax = most.positive(household.MaxPortion)
	}
	if who.PortionMin > who.Portion {
		least.fault(least.quoted()+" is more than the usual portion", "at most "+plain(who.Portion))
	}
	if who.PortionMax > 0 && who.PortionMax < who.Portion {
		most.fault(most.quoted()+" is less than the usual portion", "at least "+plain(who.Portion))
	}
}

func limit(v value) household.Limit {
	m := v.mapping("nutrient", "at_most", "at_least", "per", "set_by")
	l := household.Limit{
		Nutrient: nutrient(m.need("nutrient")),
		Per:      period(m.need("per")),
		SetBy:    household.SetBy(m.need("set_by").word("source of a limit", []string{"clinician", "guidance", "own_choice"})),
	}
	if most := m.get("at_most"); !most.absent() {
		x := most.number(0, household.MostAmount)
		l.AtMost = &x
	}
	if least := m.get("at_least"); !least.absent() {
		x := least.number(0, household.MostAmount)
		l.AtLeast = &x
	}
	switch {
	case !v.absent() && l.AtMost == nil && l.AtLeast == nil:
		v.fault("a limit without a bound", "at_most or at_least")
	case l.AtMost != nil && l.AtLeast != nil && *l.AtMost < *l.AtLeast:
		m.get("at_most").fault(fmt.Sprintf("at_most %s is below at_least %s", plain(*l.AtMost), plain(*l.AtLeast)),
			"at_most no less than at_least")
	}
	return l
}

func period(v value) household.Period {
	return household.Period(v.word("period", []string{"serving", "meal", "day"}))
}

func plan(v value) *household.Plan {
	if v.absent() {
		return nil
	}
	m := v.mapping("unit", "weights", "round_to", "floor", "allowance", "per", "free")
	p := &household.Plan{
		Unit:      m.need("unit").text(),
		Weights:   map[composition.Nutrient]float64{},
		RoundTo:   m.get("round_to").number(0, household.MostStep),
		Floor:     m.get("floor").number(0, household.MostStep),
		Allowance: m.need("allowance").positive(household.MostAmount),
		Per:       period(m.need("per")),
		Free:      m.get("free").texts(),
	}
	weights := m.need("weights").mapping()
	for _, key := range weights.order() {
		n, ok := composition.ParseNutrient(key)
		if !ok {
			weights.keyAt(key).faultNutrient(key)
			continue
		}
		p.Weights[n] = weights.get(key).number(-household.MostWeight, household.MostWeight)
	}
	if len(weights.order()) == 0 && m.has("weights") {
		m.get("weights").fault("a plan without weights", "a weight for at least one nutrient")
	}
	return p
}

func texture(v value) *household.Texture {
	if v.absent() {
		return nil
	}
	m := v.mapping("level", "avoid")
	t := &household.Texture{Level: m.need("level").whole(3, 7), Avoid: m.get("avoid").texts()}
	return t
}
