package ruleset

import (
	"fmt"
	"io/fs"
	"regexp"

	"potwright/internal/composition"
	"potwright/internal/diagnostic"
	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/swap"

	yaml "go.yaml.in/yaml/v4"
)

// Swaps reads the swap rules (swap/*.yaml) and the balance of a dish
// (balance/*.yaml) under fsys, and files of either sort at its top. Names of foods, kinds and states are checked
// against the rows given. Every fault of every file is in the error, which is
// then a diagnostic.Faults.
func Swaps(fsys fs.FS, foods []*composition.Food) (*swap.Book, error) {
	r := &swapReader{vocabulary: newVocabulary(foods), seen: map[string]place{}}
	faults := eachFile(fsys, "swap", r.file)
	faults = append(faults, eachFile(fsys, "balance", r.balanceFile)...)
	faults = append(faults, eachFile(fsys, ".", r.eitherFile)...)
	if len(faults) == 0 && len(r.rules)+len(r.balances)+len(r.refusals) == 0 {
		faults = diagnostic.Faults{{Problem: "no rules found", Expected: "*.yaml files, in folders swap and balance or at the top"}}
	}
	if err := faults.Err(); err != nil {
		return nil, err
	}
	return swap.NewBook(r.rules, r.balances, r.refusals), nil
}

type place struct {
	file string
	line int
}

type swapReader struct {
	*vocabulary
	rules    []swap.Rule
	balances []swap.Balance
	refusals []swap.Refusal
	seen     map[string]place
	// examples are those of each rule, for the places of their faults.
	examples map[string]value
}

// eitherFile reads a file that stands in no folder: it tells by its keys what it
// is.
func (r *swapReader) eitherFile(top value) {
	if hasKey(top, "function") {
		r.balanceFile(top)
		return
	}
	r.file(top)
}

// computedOnly are keys a rule may not have.
func computedOnly() map[string]string {
	const problem = "the effect on nutrients is never written down, it is computed from the foods"
	m := map[string]string{}
	for _, key := range []string{"nutrients", "nutrient", "effect", "effects", "saves"} {
		m[key] = problem
	}
	for _, n := range composition.Nutrients() {
		m[n.Key()] = problem
	}
	return m
}

func (r *swapReader) file(top value) {
	top.src.forbidden = computedOnly()
	m := top.mapping("theme", "rules", "refuse")
	top.src.theme = m.need("theme").text()
	if !m.has("rules") && !m.has("refuse") && top.node.Kind == yaml.MappingNode {
		top.fault("neither rules nor refuse", `a list under "rules" or "refuse"`)
	}
	for _, v := range m.get("rules").list() {
		before := len(v.src.faults)
		if rule := r.rule(v); v.src.sound(before, kitchen.SwapRule, rule.ID, v.line()) {
			r.rules = append(r.rules, rule)
		}
	}
	for _, v := range m.get("refuse").list() {
		before := len(v.src.faults)
		if x := r.refusal(v); v.src.sound(before, kitchen.LeftAlone, x.ID, v.line()) {
			r.refusals = append(r.refusals, x)
		}
	}
}

// mostChange ends the scale of how far a swap departs from the dish, which
// rules/swap/README.md reasons out.
const mostChange = 10

// mostMinutes bounds how much longer or shorter a replacement may cook: a rule
// that needs more asks for a step of its own.
const mostMinutes = 120

func (r *swapReader) rule(v value) swap.Rule {
	v.src.rule = peekID(v)
	m := v.mapping("id", "title", "match", "do", "with", "restores", "keep", "change", "effort", "minutes", "touches", "spares",
		"asks", "softens", "method", "why", "source", "cautions", "together", "manual", "examples")
	out := swap.Rule{
		ID:       r.id(m),
		Title:    m.need("title").text(),
		Match:    r.match(m.need("match")),
		Do:       swap.Action(m.need("do").word("action", ruleActions())),
		With:     r.with(m.get("with")),
		Restores: m.get("restores").word("function", functionNames()),
		Keep:     shares(m.get("keep")),
		Change:   m.need("change").whole(0, mostChange),
		Effort:   m.get("effort").whole(-3, 3),
		Minutes:  m.get("minutes").whole(-mostMinutes, mostMinutes),
		Touches:  m.get("touches").words("function", functionNames()),
		Spares:   m.get("spares").words("hand load", household.Loads()),
		Asks:     m.get("asks").words("hand load", household.Loads()),
		Softens:  m.get("softens").words("texture feature", textureFeatures()),
		Method:   methodEdits(m.get("method")),
		Why:      m.need("why").text(),
		Source:   m.need("source").text(),
		Cautions: m.get("cautions").texts(),
		Together: m.get("together").text(),
		Manual:   m.get("manual").yes(),
		Examples: examples(m.need("examples")),
		File:     v.src.file,
		Line:     v.line(),
	}
	agree(m, out)
	if r.examples != nil {
		r.examples[out.ID] = m.get("examples")
	}
	return out
}

// peek is the node of a key before the mapping is read, nil where it is not
// there.
func peek(v value, key string) *yaml.Node {
	if v.absent() || v.node.Kind != yaml.MappingNode {
		return nil
	}
	for i := 0; i+1 < len(v.node.Content); i += 2 {
		if v.node.Content[i].Value == key {
			return v.node.Content[i+1]
		}
	}
	return nil
}

func hasKey(v value, key string) bool { return peek(v, key) != nil }

// peekID is the id of a rule, for the faults found before it is read.
func peekID(v value) string {
	if n := peek(v, "id"); n != nil {
		return n.Value
	}
	return ""
}

func (r *swapReader) id(m fields) string {
	v := m.need("id")
	id := v.text()
	if id == "" {
		return ""
	}
	wellNamed(v, id)
	if first, twice := r.seen[id]; twice {
		v.fault(fmt.Sprintf("id %q is taken by the rule at %s:%d", id, first.file, first.line), "an id of its own")
		return id
	}
	r.seen[id] = place{v.src.file, v.line()}
	return id
}

func (r *swapReader) match(v value) swap.Match {
	m := v.mapping("foods", "kinds", "not_kinds", "not_foods", "states", "not_states", "units",
		"words", "not_words", "dish_has", "dish_not", "most", "steps", "not_steps", "not_title", "most_sweet")
	out := swap.Match{
		Foods:    r.foodNames(m.get("foods")),
		Kinds:    m.get("kinds").words("kind", r.kinds),
		NotKinds: m.get("not_kinds").words("kind", r.kinds),
		NotFoods: r.foodNames(m.get("not_foods")),
		States:   m.get("states").words("state", r.states),
		NotState: m.get("not_states").words("state", r.states),
		Units:    unitNames(m.get("units")),
		Words:    m.get("words").texts(),
		NotWords: m.get("not_words").texts(),
		DishHas:  m.get("dish_has").words("kind or food", r.kindsAndFoods),
		DishNot:  m.get("dish_not").words("kind or food", r.kindsAndFoods),
		Most:     m.get("most").positive(1000),
		Steps:    m.get("steps").texts(),
		NotSteps: m.get("not_steps").texts(),
		NotTitle: m.get("not_title").texts(),

		MostSweet: m.get("most_sweet").positive(100),
	}
	return out
}

func (r *swapReader) with(v value) []swap.Ingredient {
	var out []swap.Ingredient
	for _, e := range v.list() {
		m := e.mapping("food", "ratio", "by", "unit", "say", "note", "keep_preparation")
		ing := swap.Ingredient{
			Same:            isSame(m.get("food")),
			Ratio:           m.need("ratio").positive(100),
			By:              swap.By(m.need("by").word("way to measure", ratioBys())),
			Unit:            unitName(m.get("unit")),
			Say:             m.get("say").text(),
			Note:            m.get("note").text(),
			KeepPreparation: m.get("keep_preparation").yes(),
		}
		if !ing.Same {
			ing.Row = r.food(m.need("food"))
		}
		if ing.Row != nil {
			ing.Food = ing.Row.Name
		}
		if ing.Same && ing.Note == "" && ing.Say == "" {
			e.fault("the same food without a change", "a note, such as peeled")
		}
		out = append(out, ing)
	}
	return out
}

// isSame reports whether a replacement is the line's own food.
func isSame(v value) bool {
	return !v.absent() && v.node.Kind == yaml.ScalarNode && v.node.Value == "same"
}

// highPotassium is the content, mg in 100 g, above which a replacement stands
// for salt or soda by potassium: potassium salts hold over 10 g, the richest
// herb 4.7 g (USDA SR28).
const highPotassium = 8000

// agree checks what the parts of a rule ask of one another.
func agree(m fields, r swap.Rule) {
	agreeOnMatch(m.get("match"), r)
	agreeOnAdding(m, r)
	with, keep := m.get("with"), m.get("keep")
	switch {
	case (r.Do == swap.Replace || r.Do == swap.Add) && len(with.list()) == 0 && m.has("do"):
		m.get("do").fault(fmt.Sprintf(`action %q without "with"`, string(r.Do)), `foods under "with"`)
	case r.Do != "" && r.Do != swap.Replace && r.Do != swap.Add && m.has("with"):
		with.fault(fmt.Sprintf(`"with" does not go with action %q`, string(r.Do)), `it only with "replace" or "add"`)
	}
	switch {
	case r.Do == swap.Reduce && len(keep.list()) == 0:
		m.get("do").fault(`action "reduce" without "keep"`, `the shares kept under "keep", such as [0.5]`)
	case r.Do != "" && r.Do != swap.Reduce && r.Do != swap.ToTable && r.Do != swap.Add && m.has("keep"):
		keep.fault(fmt.Sprintf(`"keep" does not go with action %q`, string(r.Do)), `it only with "reduce", "table" or "add"`)
	}
	if r.Minutes != 0 && r.Do != swap.Replace && r.Do != "" {
		m.get("minutes").fault(fmt.Sprintf(`"minutes" does not go with action %q`, string(r.Do)), `it only with action "replace"`)
	}
	for _, v := range keep.list() {
		if r.Do == swap.Reduce && v.node.Value == "1" {
			v.fault("the whole line is kept", "a share below 1")
		}
	}
	for _, ing := range r.With {
		k := composition.Potassium
		if ing.Row != nil && ing.Row.Nutrients[k].Mid > highPotassium && (!r.Manual || len(r.Cautions) == 0) {
			with.fault(fmt.Sprintf("%q is rich in potassium, which kidney disease and some medicines forbid", ing.Food),
				`"manual: true" and a caution`)
		}
	}
}

// agreeOnMatch checks that a rule says what it fits: a line, or for action "add" a
// dish.
func agreeOnMatch(v value, r swap.Rule) {
	if v.absent() || v.node.Kind != yaml.MappingNode {
		return
	}
	line := hasKey(v, "foods") || hasKey(v, "kinds") || hasKey(v, "words")
	method := hasKey(v, "steps") || hasKey(v, "not_steps") || hasKey(v, "not_title") || hasKey(v, "most_sweet")
	switch {
	case r.Do == swap.Add && (line || !hasKey(v, "dish_has")):
		v.fault(`action "add" is about the dish, not about a line`, "dish_has, and no foods, kinds or words")
	case r.Do != "" && r.Do != swap.Add && !line:
		v.fault("fits every line", "foods, kinds or words")
	case r.Do != "" && r.Do != swap.Add && method:
		v.fault("steps, title and sweetness are looked at for additions only", `them only with action "add"`)
	}
}

// agreeOnAdding checks that amounts by serving and by liquid, and what is
// restored, go with action "add" and with nothing else.
func agreeOnAdding(m fields, r swap.Rule) {
	if r.Do == "" {
		return
	}
	switch {
	case r.Do == swap.Add && !m.has("restores"):
		m.get("do").fault(`action "add" without "restores"`, "the function of the dish that it makes up for")
	case r.Do != swap.Add && m.has("restores"):
		m.get("restores").fault(fmt.Sprintf(`"restores" does not go with action %q`, string(r.Do)), `it only with action "add"`)
	}
	for _, ing := range r.With {
		whole := ing.By == swap.ByServing || ing.By == swap.ByLiquid
		if ing.By != "" && whole != (r.Do == swap.Add) {
			m.get("with").fault(fmt.Sprintf("measured by %q with action %q", string(ing.By), string(r.Do)), `"serving" or "liquid" with action "add", and only there`)
		}
	}
}

func shares(v value) []float64 {
	var out []float64
	for _, e := range v.list() {
		if x := e.positive(1); x > 0 {
			out = append(out, x)
		}
	}
	return out
}

func methodEdits(v value) []swap.MethodEdit {
	var out []swap.MethodEdit
	for _, e := range v.list() {
		m := e.mapping("do", "find", "text", "at")
		edit := swap.MethodEdit{
			Do:   m.need("do").word("method edit", []string{"add", "drop", "replace", "move"}),
			Find: m.get("find").text(),
			Text: m.get("text").text(),
			At:   m.get("at").word("place", []string{"start", "end", "before", "with", "after"}),
		}
		placesIn(m.get("find"), false)
		placesIn(m.get("text"), true)
		for _, key := range map[string][]string{"add": {"text", "at"}, "drop": {"find"}, "replace": {"find", "text"}, "move": {"text", "at"}}[edit.Do] {
			m.need(key)
		}
		out = append(out, edit)
	}
	return out
}

// placesIn holds the words in braces of a method edit against those that are
// filled in, which are none in what is looked for.
func placesIn(v value, filled bool) {
	if v.absent() || v.node.Kind != yaml.ScalarNode {
		return
	}
	for _, word := range braces.FindAllString(v.node.Value, -1) {
		if word != "{food}" || !filled {
			v.fault(fmt.Sprintf("%s is filled in by nothing", word), `{food} in "text", or no braces`)
		}
	}
}

var (
	braces = regexp.MustCompile(`\{[^{}]*\}`)
	idForm = regexp.MustCompile(`^[a-z0-9]+([-_][a-z0-9]+)*$`)
)

// wellNamed holds an id against the form that addresses and files can carry.
func wellNamed(v value, id string) {
	if !idForm.MatchString(id) {
		v.fault(fmt.Sprintf("id %q is not in small letters, digits and hyphens", id), `a short name such as "salt-half"`)
	}
}

func examples(v value) swap.Examples {
	m := v.mapping("fires", "not", "dish")
	out := swap.Examples{Fires: m.need("fires").texts(), Not: m.need("not").texts(), Dish: m.get("dish").texts()}
	for key, lines := range map[string][]string{"fires": out.Fires, "not": out.Not} {
		if at := m.get(key); !at.absent() && at.node.Kind == yaml.SequenceNode && len(lines) == 0 {
			at.fault("no example", "at least one ingredient line")
		}
	}
	return out
}

func (r *swapReader) refusal(v value) swap.Refusal {
	m := v.mapping("id", "title", "title_ends", "not_title", "steps", "lines", "why", "source")
	out := swap.Refusal{ID: r.id(m), Title: m.get("title").texts(),
		TitleEnds: m.get("title_ends").texts(), NotTitle: m.get("not_title").texts(),
		Steps: m.get("steps").texts(), Lines: m.get("lines").texts(),
		Why: m.need("why").text(), Source: m.need("source").text()}
	if !m.has("title") && !m.has("title_ends") && !m.has("steps") && !m.has("lines") {
		v.fault("refuses no recipe", "words under title, steps or lines")
	}
	return out
}

func functionNames() []string {
	var out []string
	for _, f := range swap.Functions() {
		out = append(out, f.String())
	}
	return out
}
