package swap

import (
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
	for i := range b.refusals {
		if b.refusals[i].speaksOf(r) {
			return b.refusals[i].Why, true
		}
	}
	return "", false
}

func (x *Refusal) speaksOf(r recipe.Recipe) bool {
	title := plainWords(r.Title)
	if (anyPhrase(title, x.Title) || endsIn(title, x.TitleEnds)) && !anyPhrase(title, x.NotTitle) {
		return true
	}
	for _, s := range r.Steps {
		if anyPhrase(plainWords(s.Text), x.Steps) {
			return true
		}
	}
	for _, l := range r.Lines {
		if anyPhrase(plainWords(l.Reading.Text), x.Lines) {
			return true
		}
	}
	return false
}

func endsIn(words string, phrases []string) bool {
	for _, p := range phrases {
		if strings.HasSuffix(words, plainWords(p)) {
			return true
		}
	}
	return false
}
