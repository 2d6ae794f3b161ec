package foodmatch

import (
	"fmt"
	"slices"
	"strings"

	"potwright/internal/composition"
	"potwright/internal/ingredient"
	"potwright/internal/measure"
	"potwright/internal/recipe"
	"potwright/internal/spread"
)

// Weigh finds the food of a line and the grams of it that go into the pot. fix
// is the person's correction of this line, remembered those of the household by
// Phrase; both may be nil. A food or weight that cannot be told leaves the line
// Unread: it is never counted as nothing.
func Weigh(r ingredient.Reading, t *composition.Table, fix *recipe.Correction, remembered map[string]recipe.Correction) Matched {
	return WeighIn(measure.US, r, t, fix, remembered)
}

// WeighIn is Weigh where the line is measured in the cups and spoons of a system.
// The words and the reading stay those of the line; only the grams differ.
func WeighIn(s measure.System, r ingredient.Reading, t *composition.Table, fix *recipe.Correction, remembered map[string]recipe.Correction) Matched {
	m := Matched{Reading: r, State: Read, Confidence: r.Confidence, Measures: s}
	m.Notes = append(m.Notes, r.Notes...)
	fix, told := WithRemembered(fix, remembered, r)
	if told {
		m.Notes = append(m.Notes, "the food is the one your household chose before")
	}
	if fix != nil && fix.Skip {
		m.State, m.Confidence = Skipped, 1
		return m
	}
	if fix == nil && notFood(r.Food) {
		m.State, m.Confidence = Skipped, 1
		m.Notes = append(m.Notes, "not a food")
		return m
	}
	m.weighAll(r, t, fix)
	m.conclude(r)
	return m
}

// tools stand on ingredient lines but are not eaten.
var tools = []string{"skewers", "skewer", "toothpicks", "toothpick", "tray", "foil", "parchment paper", "paper cups", "cup liners", "twine"}

func notFood(food string) bool {
	for _, tool := range tools {
		if food == tool || strings.HasSuffix(food, " "+tool) {
			return true
		}
	}
	return false
}

// weighAll adds an item for the line's food and for each further food of it.
func (m *Matched) weighAll(r ingredient.Reading, t *composition.Table, fix *recipe.Correction) {
	ok := m.item(r, t, fix)
	if !ok && fix == nil {
		ok = m.alternative(r, t)
	}
	for _, further := range r.Together {
		ok = m.item(further, t, nil) && ok
	}
	if !ok {
		m.State = Unread
		m.Items = nil
		m.Confidence = 0
	}
}

// alternative takes the first of the line's other foods that can be weighed,
// where its own cannot.
func (m *Matched) alternative(r ingredient.Reading, t *composition.Table) bool {
	for _, other := range r.Alternatives {
		trial := Matched{State: Read, Confidence: m.Confidence, Measures: m.Measures}
		if trial.item(other, t, nil) {
			m.Items = append(m.Items, trial.Items...)
			m.assume("%q is not in the food table; %q is counted", r.Food, other.Food)
			m.Notes = append(m.Notes, trial.Notes...)
			return true
		}
	}
	return false
}

// item finds and weighs one food.
func (m *Matched) item(r ingredient.Reading, t *composition.Table, fix *recipe.Correction) bool {
	candidates := m.candidates(r, t, fix)
	if len(candidates) == 0 {
		if r.Food != "" {
			m.Notes = append(m.Notes, fmt.Sprintf("%q is not in the food table", r.Food)+spelling(r.Food, t))
		}
		return false
	}
	best := candidates[0]
	w := weigher{reading: r, food: best.Food, like: candidates[1:], measures: m.Measures}
	if fix != nil && fix.Grams != nil {
		w.set(*fix.Grams, "weight you gave")
	} else {
		w.weigh()
		w.takenUp()
	}
	if w.ok && w.grams.High <= 0 && fix == nil {
		m.Notes = append(m.Notes, fmt.Sprintf("the amount of %s reads as nothing", best.Food.Name))
		return false
	}
	if !w.ok {
		m.Notes = append(m.Notes, fmt.Sprintf("no weight is known for this amount of %s", best.Food.Name))
		return false
	}
	m.Items = append(m.Items, Item{Food: best.Food, Grams: w.grams, Candidates: candidates, GramsFrom: w.from, PouredOff: w.pouredOff})
	m.Notes = append(m.Notes, w.notes...)
	if w.assumed {
		m.State = Assumed
	}
	m.Confidence = min(m.Confidence, r.Confidence*w.sure*candidates[0].Weight)
	m.doubtFood(candidates)
	if best.Why == "" && isLessSalty(best.Food.HasState) && !isLessSalty(func(state string) bool { return slices.Contains(r.States, state) }) {
		m.assume("%s is the nearest row, and has less salt than usual: the label may say more", best.Food.Name)
	}
	return true
}

// isLessSalty reports whether one of the states is of food made with less salt.
func isLessSalty(has func(state string) bool) bool {
	return has("low_sodium") || has("reduced_sodium") || has("no_salt_added") || has("unsalted")
}

// spelling asks whether a word is a slip of the pen, or "".
func spelling(food string, t *composition.Table) string {
	words := strings.Fields(food)
	if len(words) == 0 || len(words) > 3 {
		return ""
	}
	for _, word := range words {
		if len(word) < 6 { // short words are near too many others
			continue
		}
		for _, near := range t.Suggest(word) {
			if near[0] == word[0] {
				return fmt.Sprintf("; did you mean %q?", near)
			}
		}
	}
	return ""
}

// candidates are the foods the phrase may mean, best first.
func (m *Matched) candidates(r ingredient.Reading, t *composition.Table, fix *recipe.Correction) []composition.Candidate {
	if fix != nil && fix.FoodID != "" {
		if food, ok := t.ByID(fix.FoodID); ok {
			return []composition.Candidate{{Food: food, Weight: 1, Why: "your choice"}}
		}
		m.assume("the food you chose (%s) is no longer in the table; the words decide", fix.FoodID)
	}
	if r.Food == "" {
		return nil
	}
	phrase := phraseOf(r)
	if found := usable(t.Match(phrase)); len(found) > 0 {
		return peeledRow(r, found, t)
	}
	if found := m.respelled(phrase, t); len(found) > 0 {
		return found
	}
	return m.shorter(phrase, t)
}

// peeledRow puts the row of the peeled food first where the line peels it and the
// table has one: "cucumber, peeled, raw", "apple, raw, without skin".
func peeledRow(r ingredient.Reading, found []composition.Candidate, t *composition.Table) []composition.Candidate {
	line := weigher{reading: r}
	if !line.says([]string{"peeled", "pared", "skinned"}) {
		return found
	}
	name := found[0].Food.Name
	for _, peeled := range []string{strings.Replace(name, ", raw", ", peeled, raw", 1), strings.Replace(name, "with skin", "without skin", 1)} {
		if f, ok := t.ByName(peeled); ok && peeled != name {
			return append([]composition.Candidate{{Food: f, Weight: found[0].Weight}}, found...)
		}
	}
	return found
}

// respelled takes a long word that no food is called by for the only one it is a
// letter away from, and says so.
func (m *Matched) respelled(p composition.Phrase, t *composition.Table) []composition.Candidate {
	for _, word := range strings.Fields(p.Words) {
		right, ok := t.Respelled(word)
		if !ok {
			continue
		}
		p.Words = strings.Replace(p.Words, word, right, 1)
		if found := usable(t.Match(p)); len(found) > 0 {
			m.assume("%q is read as %q", word, right)
			m.Confidence *= 0.7
			return found
		}
	}
	return nil
}

// tailWords is how many words at the end of a phrase are tried on their own.
const tailWords = 5

// shorter drops words from the front of the phrase until a food is found:
// "grandmother's green beans" are green beans.
func (m *Matched) shorter(p composition.Phrase, t *composition.Table) []composition.Candidate {
	words := strings.Fields(p.Words)
	if len(words) > tailWords {
		words = words[len(words)-tailWords-1:]
	}
	for len(words) > 1 {
		words = words[1:]
		p.Words = strings.Join(words, " ")
		if found := usable(t.Match(p)); len(found) > 0 {
			m.assume("read as %q", p.Words)
			m.Confidence *= 0.6
			return found
		}
	}
	return nil
}

func usable(list []composition.Candidate) []composition.Candidate {
	return slices.DeleteFunc(slices.Clone(list), func(c composition.Candidate) bool {
		return c.Food == nil || c.Weight <= 0
	})
}

// sureOfFood is the weight of the best candidate from which the food counts as
// told by the words.
const sureOfFood = 0.75

// doubtFood says which other foods the words may mean.
func (m *Matched) doubtFood(candidates []composition.Candidate) {
	best := candidates[0]
	if best.Why != "" && best.Why != "your choice" {
		m.Notes = append(m.Notes, best.Food.Name+": "+best.Why)
	}
	if best.Weight >= sureOfFood || len(candidates) < 2 {
		return
	}
	m.assume("counted as %s; it may be %s", best.Food.Name, candidates[1].Food.Name)
}

func (m *Matched) assume(format string, args ...any) {
	if m.State == Read {
		m.State = Assumed
	}
	m.Notes = append(m.Notes, fmt.Sprintf(format, args...))
}

// conclude adds what holds for the whole line.
func (m *Matched) conclude(r ingredient.Reading) {
	if m.State == Unread {
		return
	}
	m.dropRepeated()
	if r.Optional {
		// Published panels leave optional lines out of their figures (common
		// practice, no source); the cook may add all of it.
		m.assume("optional: the figure leaves it out, the range reaches to all of it")
		for i := range m.Items {
			m.Items[i].Grams = spread.Between(0, 0, m.Items[i].Grams.High)
		}
	}
	if r.PlusMore {
		m.Notes = append(m.Notes, "the \"plus more\" is not counted")
	}
	if len(r.Alternatives) > 0 && m.Items[0].Candidates[0].Why != "your choice" {
		names := make([]string, len(r.Alternatives))
		for i, a := range r.Alternatives {
			names[i] = a.Food
		}
		m.Notes = append(m.Notes, "counted as the first named; also named: "+strings.Join(names, ", "))
	}
	for _, i := range m.Items {
		if !i.Grams.Valid() || i.Grams.High > recipe.MostGrams {
			m.Items = nil
			m.State, m.Confidence = Unread, 0
			m.Notes = append(m.Notes, fmt.Sprintf("the amount is too large to weigh; expected at most %d kg on a line", recipe.MostGrams/1000))
			return
		}
	}
}

// dropRepeated takes out the reader's remark that no amount is written where a
// later note says what is taken instead, and any note said twice.
func (m *Matched) dropRepeated() {
	const noAmount = "no amount is written"
	var kept []string
	for i, n := range m.Notes {
		taken := n == noAmount && slices.ContainsFunc(m.Notes[i+1:], func(later string) bool { return strings.HasPrefix(later, noAmount+";") })
		if !taken && !slices.Contains(kept, n) {
			kept = append(kept, n)
		}
	}
	m.Notes = kept
}

// Grams is the weight of the whole line: the sum of its items.
func (m *Matched) Grams() spread.Range {
	var sum spread.Range
	for _, i := range m.Items {
		sum = sum.Add(i.Grams)
	}
	return sum
}
