package cooking

import (
	"potwright/internal/composition"
	"potwright/internal/method"
)

// exposure is one time of heat that a line gets.
type exposure struct {
	heat      method.Heat
	low, high float64 // minutes; 0 where not told
	// alone is set where nothing else is in the vessel that would take up what
	// cooks out of the line.
	alone bool
	// wet is set where there is a liquid in the vessel.
	wet bool
	// apart is set where a food is cooked in water by itself.
	apart bool
}

// course is what is known of one line while the method is followed.
type course struct {
	sort      sort
	vessel    int // 0 for none yet
	exposures []exposure
	named     bool // some step names it
	doubtful  bool // only words that may mean another line name it
	// drained is set where it was boiled and its water poured off; drainDoubt
	// where that is not sure.
	drained, drainDoubt bool
	fatDrained, fatSure bool
	away                poured
	flamed, overnight   bool
	elsewhere           bool // stood in another vessel when heat without an object came
}

// poured is what of a line is thrown away, by the liquid it was in.
type poured string

const (
	pouredNothing poured = ""
	pouredWater   poured = "cooking water"
	pouredSalt    poured = "seasoning of the cooking water"
	pouredBath    poured = "marinade"
	pouredDoubt   poured = "marinade, perhaps kept"
)

// trace follows the method: which foods share a vessel, and what befalls it.
type trace struct {
	lines   []course
	matched []*method.Names
	vessels int // numbers given out
	cur     int // vessel worked on, 0 for none
	last    int // the vessel worked on before it, 0 for none
	moved   int // the step that turned from last to cur
	inStep  int // the step that cur was last used in
	// waiting is a clause without an object whose object follows: "cook and drain
	// the pasta".
	waiting []method.Clause
	// bathKept is set where a later step uses the marinade.
	bathKept bool
	reserved bool // liquid is kept back when drained
	periods  []vesselPeriod
}

// begin takes up a dish of other lines.
func (t *trace) begin(matched []*method.Names) {
	if cap(t.lines) < len(matched) {
		t.lines = make([]course, len(matched))
	}
	*t = trace{lines: t.lines[:len(matched)], matched: matched, inStep: -1, waiting: t.waiting[:0], periods: t.periods[:0]}
	for i := range t.lines {
		t.lines[i] = course{exposures: t.lines[i].exposures[:0]}
	}
}

// follow reads the course of every line.
func (b *Book) follow(t *trace, clauses []method.Clause, matched []*method.Names) *trace {
	t.begin(matched)
	for i := range t.lines {
		if f := t.food(i); f != nil {
			t.lines[i].sort = b.of(f).sort
		}
	}
	t.bathKept = usesMarinade(clauses)
	for i, c := range clauses {
		if t.waits(clauses, i) {
			t.waiting = append(t.waiting, c)
			continue
		}
		t.clause(c)
		t.waiting = t.waiting[:0]
	}
	return t
}

// waits reports whether a clause is only a verb and the next one of the same
// sentence has the object.
func (t *trace) waits(clauses []method.Clause, i int) bool {
	c := clauses[i]
	if len(c.Mentions) > 0 || len(c.Words) > 2 || i+1 == len(clauses) {
		return false
	}
	next := clauses[i+1]
	return (c.Heat != "" || has(c.Words, "drain")) && next.Step == c.Step && next.Sentence == c.Sentence && len(next.Mentions) > 0
}

// unheated are verbs whose minutes are no time on the stove.
var unheated = words("beat", "mix", "whisk", "knead", "process", "blend", "rest", "stand", "sit", "set", "soak", "cool", "chill", "off", "marinate", "refrigerate", "freeze", "rise", "wait")

func (t *trace) clause(c method.Clause) {
	if c.Heat == "" && !has(c.Words, unheated...) {
		for _, p := range c.Periods {
			if p.Heat != method.Rest {
				c.Heat = p.Heat // minutes go on with the heat that was last spoken of
				if c.Heat == method.Fry {
					c.Heat = method.Cook // a liquid may have come to it since
				}
			}
		}
	}
	t.place(c)
	for _, w := range t.waiting {
		w.Mentions = c.Mentions
		t.befall(w)
	}
	t.befall(c)
}

// befall applies what a clause says to the vessel worked on.
func (t *trace) befall(c method.Clause) {
	switch {
	case isMarinadeOff(c.Words):
		t.pourBath(c)
	case isFatOff(c.Words):
		t.pourFat(c)
	case isDrain(c.Words) && !t.drainsCan(c, t.linesOf(c)):
		t.drain(c)
	}
	if has(c.Words, "flame", "flambe", "ignite") {
		t.each(func(l *course) { l.flamed = true })
	}
	if has(c.Words, "overnight") || restMinutes(c) >= overnightInMinutes {
		t.each(func(l *course) { l.overnight = true })
	}
	if c.Heat != "" && !isPreheat(c) {
		t.heat(c)
	}
	if has(c.Words, "sieve") && t.last > 0 && t.moved == c.Step {
		t.cur, t.last = t.last, t.cur // something was made smooth beside the pot
	}
}

// linesOf are the lines that a clause names.
func (t *trace) linesOf(c method.Clause) []int {
	var out []int
	for _, m := range c.Mentions {
		if m.Line >= 0 && m.Line < len(t.lines) {
			out = append(out, m.Line)
		}
	}
	return out
}

// each visits the lines in the vessel worked on.
func (t *trace) each(do func(*course)) {
	for i := range t.lines {
		if t.cur > 0 && t.lines[i].vessel == t.cur {
			do(&t.lines[i])
		}
	}
}

// vesselPeriod is a stated time of heat of one vessel.
type vesselPeriod struct {
	vessel int
	method.Period
}

// minutesOf are the times of heat that a clause states, as one: those joined by
// "or" are choices, others follow one another.
func minutesOf(c method.Clause) (out method.Period, ok bool) {
	choice := has(c.Words, "or")
	for _, p := range c.Periods {
		switch {
		case p.Heat == method.Rest:
		case !ok:
			out, ok = p, true
		case choice:
			out.Low, out.High = min(out.Low, p.Low), max(out.High, p.High)
		default:
			out.Low, out.High = out.Low+p.Low, out.High+p.High
		}
	}
	return out, ok
}

// flowing are foods that keep what cooks out of others.
var flowing = words("water", "broth", "milk", "wine", "beer", "tomato_product", "soup", "condensed_soup", "cream_soup", "plant_milk", "coconut_milk", "fruit_juice", "vegetable_juice", "sauce", "pasta_sauce", "gravy")

// liquids are foods that others are stewed in.
var liquids = words("water", "broth", "milk", "tomato_product", "soup", "plant_milk", "coconut_milk")

// thirsty are foods that are cooked in water, whether the method says so or not.
var thirsty = words("pasta", "noodle", "rice", "dry_beans", "oats")

// heat gives the vessel worked on a time of heat.
func (t *trace) heat(c method.Clause) {
	e := exposure{heat: c.Heat}
	if p, ok := minutesOf(c); ok {
		e.low, e.high = p.Low, p.High
		t.periods = append(t.periods, vesselPeriod{t.cur, p})
	}
	solids, others, flows, thirsts := 0, 0, false, false
	for i := range t.lines {
		if t.lines[i].vessel != t.cur || t.cur == 0 {
			continue
		}
		sort := t.lines[i].sort
		if !sort.seasons {
			solids++
		}
		if !sort.thirsty && !sort.neutral {
			others++
		}
		flows, thirsts = flows || sort.flows, thirsts || sort.thirsty
	}
	e.apart = others == 0 && (c.Heat == method.Boil || c.Heat == method.Cook || c.Heat == method.Simmer)
	e.wet = flows || has(c.Words, "water") || c.Heat == method.Simmer || c.Heat == method.Boil || c.Heat == method.SlowCooker ||
		c.Heat == method.Cook && thirsts
	e.alone = solids <= 1 && !e.wet
	for i := range t.lines {
		switch {
		case t.lines[i].vessel == 0:
		case t.lines[i].vessel == t.cur:
			t.lines[i].exposures = append(t.lines[i].exposures, e)
		case len(c.Mentions) == 0 && c.Heat == method.Bake && len(t.lines[i].exposures) == 0:
			t.lines[i].elsewhere = true
		}
	}
}

// seasonings and fats take up no drippings worth counting.
var seasonings = []string{"salt", "spice", "herb", "herb_dried", "herb_fresh", "spice_blend", "spice_blend_salted", "seasoning_mix", "oil", "fat", "butter", "sugar", "vinegar", "garlic", "citrus_juice", "soy_sauce", "hot_sauce", "worcestershire", "mustard", "honey", "sweetener"}

// sort is what a line's first food is beside others in a vessel.
type sort struct {
	// seasons, flows, liquid and thirsty stand for the kinds of these names; neutral
	// is water, salt and oil.
	seasons, flows, liquid, thirsty, neutral bool
}

func sortOf(f *composition.Food) sort {
	return sort{seasons: isKind(f, seasonings...), flows: isKind(f, flowing...), liquid: isKind(f, liquids...),
		thirsty: isKind(f, thirsty...), neutral: isKind(f, "water", "salt", "oil")}
}

// isKind reports whether the line's first food is of one of the kinds.
func (t *trace) isKind(line int, kinds ...string) bool {
	items := t.matched[line].Line.Items
	return len(items) > 0 && isKind(items[0].Food, kinds...)
}

func isKind(f *composition.Food, kinds ...string) bool {
	for _, k := range kinds {
		if f.HasKind(k) {
			return true
		}
	}
	return false
}

func restMinutes(c method.Clause) float64 {
	var m float64
	for _, p := range c.Periods {
		if p.Heat == method.Rest {
			m += p.Low
		}
	}
	return m
}
