package swap

import (
	"slices"
	"strings"

	"potwright/internal/recipe"
)

// Refusal is a sort of recipe that is not rewritten, because its salt or acid
// keeps it safe.
type Refusal struct {
	ID string
	// Title are words of the title, Steps words of the method, Lines words of
	// the ingredient lines; one is enough.
	Title, Steps, Lines []string
	// TitleEnds are words that the title ends in, for names that are also used of
	// what goes into other dishes.
	TitleEnds []string
	// NotTitle are words of the title that say it is another sort of dish.
	NotTitle []string
	Why      string
	Source   string
}

// Refusals are the sorts of recipe that are left alone, in the order written.
func (b *Book) Refusals() []Refusal { return append([]Refusal(nil), b.refusals...) }

// Refuses reports whether a recipe is one where salt or acid is the safety
// factor, such as curing, fermenting, pickling or canning at home, with the
// reason as a sentence for people.
func (b *Book) Refuses(r recipe.Recipe) (reason string, yes bool) {
	title, steps, lines := plainWords(r.Title), make([]said, len(r.Steps)), make([]said, len(r.Lines))
	for i := range r.Steps {
		steps[i] = plainWords(r.Steps[i].Text)
	}
	for i := range r.Lines {
		lines[i] = plainWords(r.Lines[i].Reading.Text)
	}
	for i := range b.refusals {
		if b.refusals[i].speaksOf(title, steps, lines) {
			return b.refusals[i].Why, true
		}
	}
	return "", false
}

// speaksOf reports whether a recipe, in plain words, is of the sort.
func (x *Refusal) speaksOf(title said, steps, lines []said) bool {
	if (anyPhrase(title, x.Title) || endsIn(title, x.TitleEnds)) && !anyPhrase(title, x.NotTitle) {
		return true
	}
	holdsOne := func(of []string) func(said) bool {
		return func(words said) bool { return anyPhrase(words, of) }
	}
	return slices.ContainsFunc(steps, holdsOne(x.Steps)) || slices.ContainsFunc(lines, holdsOne(x.Lines))
}

func endsIn(words said, phrases []string) bool {
	for _, p := range phrases {
		if strings.HasSuffix(string(words), string(plainWords(p))) {
			return true
		}
	}
	return false
}
