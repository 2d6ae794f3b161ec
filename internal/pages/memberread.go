package pages

import (
	"strconv"
	"strings"

	"potwright/internal/composition"
	"potwright/internal/household"
)

// memberFrom reads a member from what was typed and notes what is wrong in the
// form; at is the member's place in the household, -1 for someone new.
func (s *Site) memberFrom(f *memberForm, h household.Household, at int) household.Member {
	var m household.Member
	name, wrong := cleanName(f.Name.Value)
	if wrong != "" {
		f.Wrong.add("name", "%s", wrong)
	}
	for i, other := range h.Members {
		if i != at && wrong == "" && strings.EqualFold(other.Name, name) {
			f.Wrong.add("name", "Someone here is already called %s; add a letter to tell them apart.", other.Name)
		}
	}
	m.Name = name
	age, _ := numberIn(&f.Wrong, "age", f.Age.Value, bounds{Low: 0, High: household.MostAge, Whole: true, Example: "71"})
	m.Age = int(age)
	f.readPortions(&m)
	m.Limits = f.readLimits()
	m.Plan = f.readPlan()
	m.Avoid = s.readAvoid(f)
	m.Dislikes = s.readFoods(f, f.Dislikes)
	m.Cautions = f.readCautions()
	m.Texture = f.readTexture()
	return m
}

func (f *memberForm) readPortions(m *household.Member) {
	b := bounds{Low: 0.05, High: household.MaxPortion, Example: "0.5"}
	m.Portion = 1
	if p, ok := numberIn(&f.Wrong, "portion", f.Portion.Value, b); ok {
		m.Portion = p
	}
	m.PortionMin, _ = numberIn(&f.Wrong, "least", f.Least.Value, b)
	m.PortionMax, _ = numberIn(&f.Wrong, "most", f.Most.Value, b)
	if m.PortionMin > m.Portion {
		f.Wrong.add("least", "The least accepted is more than the usual portion of %s.", typedAmount(m.Portion))
	}
	if m.PortionMax > 0 && m.PortionMax < m.Portion {
		f.Wrong.add("most", "The most accepted is less than the usual portion of %s.", typedAmount(m.Portion))
	}
}

func (f *memberForm) readLimits() []household.Limit {
	var out []household.Limit
	for i, row := range f.Limits {
		t, field := row.typed, rowName("limit_amount", i)
		if t.empty() {
			continue
		}
		n, ok := composition.ParseNutrient(t.nutrient)
		x, isNumber := numberIn(&f.Wrong, field, t.amount, bounds{High: household.MostAmount, Example: "600"})
		switch {
		case !ok && t.nutrient == "":
			f.Wrong.add(field, "Choose what the limit is on.")
			continue
		case !ok:
			f.Wrong.add(field, "“%s” is not among the nutrients; choose one from the list.", short(t.nutrient, 40))
			continue
		case t.amount == "":
			f.Wrong.add(field, "Write the amount, in %s of %s, or choose “–” to drop the row.", n.Unit(), n.Name())
			continue
		case !isNumber:
			continue
		case !allowed(t.per, periods("")) || !allowed(t.setBy, setters("")):
			f.Wrong.add(field, "Choose the period and whose figure it is from the lists.")
			continue
		}
		l := household.Limit{Nutrient: n, Per: household.Period(t.per), SetBy: household.SetBy(t.setBy)}
		if t.bound == "least" {
			l.AtLeast = &x
		} else {
			l.AtMost = &x
		}
		out = append(out, l)
	}
	return out
}

// readPlan reads the plan; nil where the box is not ticked.
func (f *memberForm) readPlan() *household.Plan {
	p := f.Plan
	if !p.On {
		return nil
	}
	out := household.Plan{Per: household.Period(p.per), Weights: map[composition.Nutrient]float64{}}
	var wrong string
	if out.Unit, wrong = cleanName(p.unit); wrong != "" {
		f.Wrong.add("plan_unit", "Write what one unit is called. %s", wrong)
	}
	var ok bool
	if out.Allowance, ok = numberIn(&f.Wrong, "plan_allowance", p.allowance, bounds{High: household.MostAmount, Example: "4"}); !ok && p.allowance == "" {
		f.Wrong.add("plan_allowance", "Write how many units there are to use.")
	}
	out.RoundTo, _ = numberIn(&f.Wrong, "plan_round", p.roundTo, bounds{High: household.MostStep, Example: "0.5"})
	out.Floor, _ = numberIn(&f.Wrong, "plan_floor", p.floor, bounds{High: household.MostStep, Example: "0"})
	if !allowed(p.per, periods("")) {
		f.Wrong.add("plan_allowance", "Choose the period from the list.")
	}
	f.readWeights(out.Weights)
	for _, w := range splitNames(p.frees) {
		out.Free = append(out.Free, strings.ReplaceAll(w, " ", "_"))
	}
	return &out
}

func (f *memberForm) readWeights(into map[composition.Nutrient]float64) {
	for i, r := range f.Plan.Weights {
		field := rowName("weight_amount", i)
		if r.nutrient == "" && r.amount == "" {
			continue
		}
		n, known := composition.ParseNutrient(r.nutrient)
		x, ok := numberIn(&f.Wrong, field, r.amount, bounds{Low: 0.001, High: household.MostAmount, Example: "15"})
		switch {
		case !known:
			f.Wrong.add(field, "Choose what is counted.")
		case r.amount == "":
			f.Wrong.add(field, "Write how much of %s makes one unit.", n.Name())
		case ok:
			into[n] = 1 / x
		}
	}
	if len(into) == 0 && len(f.Wrong) == 0 {
		f.Wrong.add(rowName("weight_amount", 0), "Say what makes one unit: 15 g of carbohydrate, for one.")
	}
}

// readAvoid reads boxes and free names. A name the table knows neither as a
// food nor as a kind would never be found in a dish, so it is not taken in
// silence.
func (s *Site) readAvoid(f *memberForm) []string {
	var out []string
	for _, o := range f.words.avoid {
		if contains(f.avoided, o.Value) {
			out = append(out, o.Value)
		}
	}
	return append(out, s.readFoods(f, f.AvoidOther)...)
}

// readFoods reads free names of foods and kinds of food.
func (s *Site) readFoods(f *memberForm, typed entry) []string {
	var out []string
	names := splitNames(typed.Value)
	if whole := strings.ToLower(typed.Value); len(names) > 1 {
		if _, ok := s.foods.ByName(whole); ok { // one name with a comma in it
			names = []string{whole}
		}
	}
	if len(names) > household.MostListed {
		f.Wrong.add(typed.Name, "Write at most %d of them.", household.MostListed)
		return nil
	}
	for _, name := range names {
		if key, ok := s.avoidKey(name); ok {
			out = append(out, key)
			continue
		}
		f.Wrong.add(typed.Name, "“%s” is not in the food table%s.", short(name, 40), s.nearFoods(name))
	}
	return out
}

// readCautions are the cautions ticked, in the order of the rulebook.
func (f *memberForm) readCautions() []string {
	var out []string
	for _, g := range f.words.cautions {
		for _, o := range g.options {
			if contains(f.told, o.Value) {
				out = append(out, o.Value)
			}
		}
	}
	return out
}

// avoidKey finds what a name means: an avoidance of the book, a kind of food,
// or words that the name of some food of the table holds.
func (s *Site) avoidKey(name string) (string, bool) {
	if _, err := s.needs.Avoidance(name); err == nil && !strings.Contains(name, ":") {
		return name, true
	}
	kind := "kind:" + strings.ReplaceAll(name, " ", "_")
	if _, err := s.needs.Avoidance(kind); err == nil {
		return kind, true
	}
	if food, ok := s.foods.ByName(name); ok {
		return "food:" + food.Name, true
	}
	for _, food := range s.foods.Search(name, 3) {
		if holdsWords(food.Name, name) {
			return "food:" + name, true
		}
	}
	return "", false
}

// holdsWords reports whether every word of a name is in a food's.
func holdsWords(food, name string) bool {
	for _, w := range strings.Fields(name) {
		if !strings.Contains(strings.ToLower(food), strings.TrimSuffix(w, "s")) {
			return false
		}
	}
	return true
}

// nearFoods offers names that the table does know.
func (s *Site) nearFoods(name string) string {
	var near []string
	for _, food := range s.foods.Search(name, 3) {
		near = append(near, "“"+food.Name+"”")
	}
	if len(near) == 0 {
		return "; write it another way"
	}
	return "; it has " + strings.Join(near, ", ")
}

// splitNames splits at semicolons and commas. The names of the table have
// commas of their own ("butter, salted"), so a semicolon, where there is one,
// is the only divider.
func splitNames(s string) []string {
	sep := ","
	if strings.Contains(s, ";") {
		sep = ";"
	}
	var out []string
	for _, part := range strings.Split(strings.ToLower(s), sep) {
		if name := strings.Trim(strings.Join(strings.Fields(printable(part)), " "), ", "); name != "" {
			out = append(out, name)
		}
	}
	return out
}

func (f *memberForm) readTexture() *household.Texture {
	typed := f.Level.Name
	if !allowed(typed, levels("")) {
		f.Wrong.add("level", "Choose a level from the list.")
		return nil
	}
	var shun []string
	for _, o := range f.words.features {
		if contains(f.shunned, o.Value) {
			shun = append(shun, o.Value)
		}
	}
	if typed == "" && len(shun) == 0 {
		return nil
	}
	level := 7
	if typed != "" {
		level, _ = strconv.Atoi(typed)
	}
	return &household.Texture{Level: level, Avoid: shun}
}
