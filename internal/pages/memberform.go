package pages

import (
	"fmt"
	"strconv"
	"strings"

	"potwright/internal/household"
	"potwright/internal/kitchen"
)

// memberForm is what a member's form holds: the words as typed, and what is
// wrong with them.
type memberForm struct {
	Wrong messages
	// Seen is the mark of the member that the form was made from, "" for someone new.
	Seen string

	Name, Age, Portion, Least, Most entry
	Limits                          []limitRow
	Plan                            planForm
	Avoid                           folded
	AvoidOther                      entry
	Dislikes                        entry
	Cautions                        folded
	Level                           pick
	Features                        folded

	words            vocabulary
	avoided, shunned []string // values ticked
	told             []string
}

// limitRow is one limit as typed.
type limitRow struct {
	Row                         int
	Wrong                       string
	Nutrient, Bound, Per, SetBy pick
	Amount                      entry
	typed                       limitTyped
}

type limitTyped struct{ nutrient, bound, amount, per, setBy string }

func (t limitTyped) empty() bool { return t.nutrient == "" && t.amount == "" }

// planForm is an allowance plan as typed.
type planForm struct {
	On bool
	// Shown unfolds the plan: it counts, or something of one is typed.
	Shown                                       bool
	Unit, RoundTo, Floor, Allowance, Free       entry
	Per                                         pick
	Weights                                     []weightRow
	unit, roundTo, floor, allowance, per, frees string
}

// weightRow is one weight of a plan as typed: one unit for every Amount.
type weightRow struct {
	Row              int
	Nutrient         pick
	Amount           entry
	nutrient, amount string
}

// Rows offered beyond those in use.
const (
	spareLimits  = 1
	spareWeights = 1
	mostRows     = 60
)

// memberForm is the form of a member as saved.
func (s *Site) memberForm(m household.Member) memberForm {
	f := memberForm{words: s.words, avoided: m.Avoid, told: toldOf(m.Cautions, s.needs)}
	if m.ID != 0 {
		f.Seen = string(kitchen.MarkOf(m))
	}
	f.Name.Value = m.Name
	if m.Age > 0 {
		f.Age.Value = strconv.Itoa(m.Age)
	}
	usual, _, _ := m.Portions()
	f.Portion.Value = typedAmount(usual)
	f.Least.Value, f.Most.Value = typedOrEmpty(m.PortionMin), typedOrEmpty(m.PortionMax)
	f.Dislikes.Value = strings.Join(s.words.words(m.Dislikes), "; ")
	f.AvoidOther.Value = strings.Join(s.words.otherAvoidances(m.Avoid), "; ")
	if m.Texture != nil {
		f.Level.Name = strconv.Itoa(m.Texture.Level)
		f.shunned = m.Texture.Avoid
	}
	f.setLimits(m.Limits)
	if m.Plan != nil {
		f.setPlan(*m.Plan)
	}
	f.addRows()
	return f.dress()
}

// otherAvoidances are those without a box of their own, readable.
func (v vocabulary) otherAvoidances(avoid []string) []string {
	var out []string
	for _, a := range avoid {
		if !allowed(a, v.avoid) {
			out = append(out, readableKey(a))
		}
	}
	return out
}

func (f *memberForm) setLimits(ls []household.Limit) {
	for _, l := range ls {
		row := limitTyped{nutrient: l.Nutrient.Key(), per: string(l.Per), setBy: string(l.SetBy)}
		if l.AtLeast != nil {
			row.bound, row.amount = "least", typedAmount(*l.AtLeast)
			f.Limits = append(f.Limits, limitRow{typed: row})
		}
		if l.AtMost != nil {
			row.bound, row.amount = "most", typedAmount(*l.AtMost)
			f.Limits = append(f.Limits, limitRow{typed: row})
		}
	}
}

func (f *memberForm) setPlan(p household.Plan) {
	f.Plan.On = true
	f.Plan.unit, f.Plan.allowance, f.Plan.per = p.Unit, typedAmount(p.Allowance), string(p.Per)
	f.Plan.roundTo, f.Plan.floor = typedOrEmpty(p.RoundTo), typedOrEmpty(p.Floor)
	f.Plan.frees = strings.ReplaceAll(strings.Join(p.Free, ", "), "_", " ")
	for _, o := range nutrientOptions("") {
		for n, w := range p.Weights {
			if n.Key() == o.Value && w > 0 {
				f.Plan.Weights = append(f.Plan.Weights, weightRow{nutrient: o.Value, amount: typedWeight(w)})
			}
		}
	}
}

// fill puts a preset's limits and plan into the form, beside what is there.
func (f *memberForm) fill(p preset) {
	var kept []limitRow
	for _, l := range f.Limits {
		if !l.typed.empty() {
			kept = append(kept, l)
		}
	}
	f.Limits = kept
	f.setLimits(p.limits)
	if p.plan != nil {
		f.Plan = planForm{}
		f.setPlan(*p.plan)
	}
	f.addRows()
}

// addRows offers further empty rows.
func (f *memberForm) addRows() {
	for i := 0; i < spareLimits && len(f.Limits) < mostRows; i++ {
		f.Limits = append(f.Limits, limitRow{typed: limitTyped{bound: "most", per: "meal", setBy: "clinician"}})
	}
	for i := 0; i < spareWeights && len(f.Plan.Weights) < mostRows; i++ {
		f.Plan.Weights = append(f.Plan.Weights, weightRow{})
	}
}

// readMemberForm takes a form as sent, nothing judged yet.
func (v vocabulary) readMemberForm(in form) memberForm {
	f := memberForm{words: v, Seen: in.text("seen")}
	f.Name.Value, f.Age.Value = in.text("name"), in.text("age")
	f.Portion.Value, f.Least.Value, f.Most.Value = in.text("portion"), in.text("least"), in.text("most")
	f.avoided, f.shunned = in.all("avoid"), in.all("feature")
	f.told = in.all("caution")
	f.Dislikes.Value = in.text("dislikes")
	f.AvoidOther.Value, f.Level.Name = in.text("avoid_other"), in.text("level")
	for i := 0; i < mostRows && in.has(rowName("limit_nutrient", i)); i++ {
		f.Limits = append(f.Limits, limitRow{typed: limitTyped{in.text(rowName("limit_nutrient", i)), in.text(rowName("limit_bound", i)),
			in.text(rowName("limit_amount", i)), in.text(rowName("limit_per", i)), in.text(rowName("limit_by", i))}})
	}
	f.Plan = planForm{On: in.has("plan_on"), unit: in.text("plan_unit"), roundTo: in.text("plan_round"), floor: in.text("plan_floor"),
		allowance: in.text("plan_allowance"), per: in.text("plan_per"), frees: in.text("plan_free")}
	for i := 0; i < mostRows && in.has(rowName("weight_nutrient", i)); i++ {
		f.Plan.Weights = append(f.Plan.Weights, weightRow{nutrient: in.text(rowName("weight_nutrient", i)), amount: in.text(rowName("weight_amount", i))})
	}
	return f
}

func rowName(name string, i int) string { return fmt.Sprintf("%s_%d", name, i) }

// dress puts labels, hints and messages around what was typed.
func (f memberForm) dress() memberForm {
	w := f.Wrong
	f.Name = entry{Name: "name", Label: "Name", Value: f.Name.Value, Wrong: w.For("name")}
	f.Age = entry{Name: "age", Label: "Age in years", Hint: "May stay empty. It matters for piece sizes and for some limits.",
		Value: f.Age.Value, Wrong: w.For("age"), Mode: "numeric"}
	f.Portion = entry{Name: "portion", Label: "Usual portion, in servings", Hint: "1 is one serving, 0.5 is half of one.",
		Value: f.Portion.Value, Wrong: w.For("portion"), Mode: "decimal"}
	f.Least = entry{Name: "least", Label: "Accepts as little as", Unit: "servings", Hint: "Empty: the usual portion does not shrink.",
		Value: f.Least.Value, Wrong: w.For("least"), Mode: "decimal"}
	f.Most = entry{Name: "most", Label: "Accepts as much as", Unit: "servings", Hint: "Empty: the usual portion does not grow.",
		Value: f.Most.Value, Wrong: w.For("most"), Mode: "decimal"}
	f.Avoid = fold(tickGroup{Ticks: ticks("avoid", f.words.avoid, f.avoided)})
	f.AvoidOther = entry{Name: "avoid_other", Label: "Anything else to avoid", Hint: "Foods or kinds of food, with a semicolon between: celery root; cheese, blue.",
		Value: f.AvoidOther.Value, Wrong: w.For("avoid_other")}
	f.Dislikes = entry{Name: "dislikes", Label: "Does not like", Hint: "A matter of taste: told beside the plate, no part of a verdict, and no swap brings it in. Foods or kinds of food, with a semicolon between: liver; mushrooms.",
		Value: f.Dislikes.Value, Wrong: w.For("dislikes")}
	f.Cautions = fold(f.words.cautionTicks(f.told)...)
	f.Level = pick{Name: "level", Label: "Texture level", Hint: "Only as set by a swallowing specialist (IDDSI framework, 2019).",
		Wrong: w.For("level"), Options: levels(f.Level.Name)}
	f.Features = fold(tickGroup{Ticks: ticks("feature", f.words.features, f.shunned)})
	f.dressLimits()
	f.Plan.dress(w)
	return f
}

func (f *memberForm) dressLimits() {
	for i := range f.Limits {
		l := &f.Limits[i]
		t := l.typed
		name := func(s string) string { return rowName(s, i) }
		l.Row, l.Wrong = i+1, f.Wrong.For(name("limit_amount"))
		l.Nutrient = pick{Name: name("limit_nutrient"), Label: "What", Options: nutrientOptions(t.nutrient)}
		l.Bound = pick{Name: name("limit_bound"), Label: "Bound", Options: options(t.bound, "most", "at most", "least", "at least")}
		l.Amount = entry{Name: name("limit_amount"), Label: "Amount", Value: t.amount, Wrong: l.Wrong, Mode: "decimal"}
		l.Per = pick{Name: name("limit_per"), Label: "In", Options: periods(household.Period(t.per))}
		l.SetBy = pick{Name: name("limit_by"), Label: "Whose figure", Options: setters(household.SetBy(t.setBy))}
	}
}

func (p *planForm) dress(w messages) {
	p.Shown = p.On || p.unit+p.allowance+p.roundTo+p.floor+p.frees != ""
	p.Unit = entry{Name: "plan_unit", Label: "What one unit is called", Hint: "Your own word: choice, share, mark.", Value: p.unit, Wrong: w.For("plan_unit")}
	p.Allowance = entry{Name: "plan_allowance", Label: "How many units", Value: p.allowance, Wrong: w.For("plan_allowance"), Mode: "decimal"}
	p.Per = pick{Name: "plan_per", Label: "In", Options: periods(household.Period(p.per))}
	p.RoundTo = entry{Name: "plan_round", Label: "Round a portion to steps of", Unit: "units", Hint: "Empty: no rounding.", Value: p.roundTo, Wrong: w.For("plan_round"), Mode: "decimal"}
	p.Floor = entry{Name: "plan_floor", Label: "A portion counts at least", Unit: "units", Hint: "Empty: it may count nothing.", Value: p.floor, Wrong: w.For("plan_floor"), Mode: "decimal"}
	p.Free = entry{Name: "plan_free", Label: "Kinds of food that count nothing", Hint: "With commas between: non starchy vegetable, broth.", Value: p.frees, Wrong: w.For("plan_free")}
	for i := range p.Weights {
		r := &p.Weights[i]
		r.Row = i + 1
		r.Amount = entry{Name: rowName("weight_amount", i), Label: "One unit for every", Value: r.amount, Wrong: w.For(rowName("weight_amount", i)), Mode: "decimal"}
		r.Nutrient = pick{Name: rowName("weight_nutrient", i), Label: "of", Options: nutrientOptions(r.nutrient)}
	}
}
