package cooking

import (
	"slices"

	"potwright/internal/foodmatch"
	"potwright/internal/method"
	"potwright/internal/recipe"
	"potwright/internal/spread"
)

// desk is the room that reading a method takes; the next one is read in it too.
type desk struct {
	reader method.Reader
	trace  trace
}

// Read reads what the method does to every line. matched are the recipe's lines,
// in order. Without steps nothing is told.
func (b *Book) Read(steps []recipe.Step, matched []foodmatch.Matched) Plan {
	lines := make([]*method.Names, len(matched))
	for i := range matched {
		lines[i] = method.NamesOf(&matched[i])
	}
	return b.ReadNamed(steps, lines)
}

// ReadNamed is Read where the names of every line are known.
func (b *Book) ReadNamed(steps []recipe.Step, lines []*method.Names) Plan {
	p := Plan{Lines: make([]Line, len(lines))}
	if b == nil {
		return p
	}
	d, _ := b.desks.Get().(*desk)
	if d == nil {
		d = new(desk)
	}
	defer b.desks.Put(d)
	clauses := d.reader.Course(steps, lines)
	for i := range clauses {
		p.SlowCooker = p.SlowCooker || clauses[i].Heat == method.SlowCooker
		for _, t := range clauses[i].Periods {
			if t.Heat == method.Boil {
				p.Boiled = max(p.Boiled, t.Low)
			}
		}
	}
	t := b.follow(&d.trace, clauses, lines)
	if p.Told = t.tells(); !p.Told {
		p.Notes = []string{"No method is given: what cooking takes of vitamins and alcohol, and what is drained off, is not counted; vitamin C, folate and alcohol may be lower."}
		return p
	}
	t.reserved = slices.ContainsFunc(clauses, func(c method.Clause) bool { return c.Reserves })
	whole := t.strongest()
	for i := range t.lines {
		p.Lines[i] = t.line(i, whole)
		p.Lines[i].Away = b.pour(t, i)
	}
	p.Evaporated = b.evaporated(t.periods)
	return p
}

// tells reports whether the method tells how the dish is made: it names a third
// of the lines or more. A remark on one line alone is no method.
func (t *trace) tells() bool {
	named := 0
	for _, l := range t.lines {
		if l.named {
			named++
		}
	}
	return named > 0 && 3*named >= len(t.lines)
}

// pour is the share of a line that is thrown away. Words that may mean another
// line widen it only; liquid that is kept back when draining is less thrown away.
func (b *Book) pour(t *trace, i int) spread.Range {
	c := t.lines[i]
	r := b.pours[c.away]
	switch {
	case c.doubtful:
		return spread.Between(0, 0, r.High)
	case t.reserved && (c.away == pouredWater || c.away == pouredSalt):
		return spread.Between(r.Low/2, r.Mid, r.High)
	}
	return r
}

// strongest is the heat that a line gets that no step names, as long as the dish
// gets any.
func (t *trace) strongest() []exposure {
	var longest []exposure
	var most float64
	for _, l := range t.lines {
		var m float64
		for _, e := range l.exposures {
			m += e.high
		}
		if len(l.exposures) > 0 && (longest == nil || m > most) {
			longest, most = l.exposures, m
		}
	}
	return longest
}

// line is what the course of a line comes to.
func (t *trace) line(i int, whole []exposure) Line {
	c := t.lines[i]
	out := Line{Sure: c.named && !c.doubtful && !c.elsewhere, Flamed: c.flamed, Overnight: c.overnight}
	exposures := c.exposures
	// Toppings that no step names come to the table as they are.
	served := !c.named && t.matched[i].Line.Reading.UseOf == "serving"
	if served {
		whole = nil
	}
	if !c.named || c.vessel == 0 && len(exposures) == 0 && len(whole) > 0 {
		exposures, out.Sure = whole, false
	}
	if c.elsewhere {
		exposures = whole
	}
	for _, e := range exposures {
		out.Low, out.High = out.Low+e.low, out.High+e.high
	}
	out.Treatment = t.treatment(i, c, exposures)
	out.Sure = served || out.Sure && !c.drainDoubt && !(c.drained && t.reserved)
	out.FatDrained, out.FatSure = c.fatDrained, c.fatSure
	switch out.Treatment {
	case Grilled:
		out.FatDrained, out.FatSure = true, true
	case Baked:
		out.FatDrained, out.FatSure = true, false
	}
	out.AwayFor = string(c.away)
	out.TakesUp = c.drained || !t.hasLiquid(c.vessel)
	return out
}

func (t *trace) hasLiquid(vessel int) bool {
	for i := range t.lines {
		if t.lines[i].vessel == vessel && t.lines[i].sort.liquid {
			return true
		}
	}
	return false
}

// hasCompany reports whether the line ends in a vessel with a food that takes up
// what cooks out of it.
func (t *trace) hasCompany(line int) bool {
	for i := range t.lines {
		if i != line && t.lines[i].vessel == t.lines[line].vessel && !t.lines[i].sort.seasons && t.food(i) != nil && !t.isKind(i, "starch", "flour", "bread_crumbs") {
			return true
		}
	}
	return false
}

// driest are foods that are cooked in water that is then poured off where they
// are cooked by themselves. Common practice.
var driest = []string{"pasta", "noodle"}

// treatment names what a line's exposures come to.
func (t *trace) treatment(i int, c course, exposures []exposure) Treatment {
	baked := slices.ContainsFunc(exposures, func(e exposure) bool { return e.heat == method.Bake })
	drained := c.drained || !c.drainDoubt && len(exposures) > 0 && exposures[0].apart && t.isKind(i, driest...)
	switch {
	case drained && baked:
		return BoiledBaked
	case drained:
		return Boiled
	case len(exposures) == 0:
		return Raw
	}
	best := Raw
	for _, e := range exposures {
		if tr := e.treatment(); rankOf(tr) > rankOf(best) {
			best = tr
		}
	}
	if best == Fried && (t.hasLiquid(c.vessel) || t.isKind(i, "meat", "poultry", "fish", "shellfish") && t.hasCompany(i)) {
		return Stewed // a liquid or other foods came to the pan, and keep what cooked out
	}
	return best
}

// treatment is what one time of heat is.
func (e exposure) treatment() Treatment {
	switch e.heat {
	case method.Boil, method.Simmer, method.SlowCooker, method.Microwave:
		return Stewed
	case method.Bake:
		if e.alone {
			return Baked
		}
		return BakedInDish
	case method.Grill:
		return Grilled
	case method.Fry:
		return Fried
	case method.Steam:
		return Steamed
	}
	if e.wet {
		return Stewed
	}
	return Fried
}

// rankOf orders treatments: of several, the one that counts is the highest. A
// food that is browned and then stewed is a stewed one in the retention table.
func rankOf(t Treatment) int {
	return slices.Index([]Treatment{Raw, Steamed, Fried, Grilled, Baked, BakedInDish, Stewed, Boiled, BoiledBaked}, t)
}

// evaporated is the water that the vessels give off over the method's times; nil
// where it states none.
func (b *Book) evaporated(periods []vesselPeriod) *spread.Range {
	var low, mid, high float64
	told := false
	for _, p := range periods {
		rate, ok := b.rate(p.Heat, p.Lid)
		if !ok {
			continue
		}
		told = true
		low, mid, high = low+rate.Low*p.Low, mid+rate.Mid*(p.Low+p.High)/2, high+rate.High*p.High
	}
	if !told {
		return nil
	}
	r := spread.Between(low, mid, high)
	return &r
}
