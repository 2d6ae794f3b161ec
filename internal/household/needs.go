package household

import (
	"fmt"
	"slices"
	"strings"
	"sync"

	"potwright/internal/composition"
	"potwright/internal/diagnostic"
	"potwright/internal/recall"
)

// Book is everything that rules/need says, as written.
type Book struct {
	Avoid    []AvoidRule
	Levels   []Level
	Features []Feature
	// Smooth are foods without pieces: they need no cutting at any level.
	Smooth Signs
	// Thin are liquids that run off: with pieces in them a dish is mixed thin
	// and thick.
	Thin    Signs
	Actions []HandAction
	// Vessels and Boils tell what a full pot weighs.
	Vessels []Vessel
	Boils   []Boil
	Presets []Preset
	Plans   []PlanPreset
	// Cautions are what a pharmacist or clinician told someone to watch.
	Cautions []CautionRule
}

// Needs is the book ready for use. It is safe for concurrent use.
type Needs struct {
	book     Book
	avoid    map[string]Avoidance // by id
	names    map[string]string    // id by id, title and other words
	kinds    map[string]bool
	foods    []tableFood
	features []feature
	// inSteps are the phrases that are looked for in steps.
	inSteps    lexicon
	smooth     signs
	thin       signs
	levelWords map[int]phraseSet
	actions    []handAction
	vessels    []vessel
	// cautions are by id, cautionNames their ids by every word for them.
	cautions     map[string]caution
	cautionNames map[string]string

	looks recall.Memory[lineKey, *look]
	steps recall.Memory[string, *step]
}

// tableFood is a row with the words of its name.
type tableFood struct {
	food *composition.Food
	name []string
}

// NewNeeds makes a book ready for the foods given. An include that names no
// avoidance is left out; the reader of the book reports it.
func NewNeeds(book Book, foods []*composition.Food) *Needs {
	n := &Needs{book: book, avoid: map[string]Avoidance{}, names: map[string]string{}, kinds: map[string]bool{},
		smooth: newSigns(book.Smooth), thin: newSigns(book.Thin), levelWords: map[int]phraseSet{},
		cautions: map[string]caution{}, cautionNames: map[string]string{}}
	for _, f := range foods {
		n.foods = append(n.foods, tableFood{f, tokens(f.Name)})
		for _, k := range f.Kinds {
			n.kinds[k] = true
		}
	}
	parts := map[string]avoidance{}
	for _, r := range book.Avoid {
		part := newAvoidance(r)
		part.known = sync.OnceValue(func() map[*composition.Food]Answer { return n.answers(part) })
		parts[r.ID] = part
	}
	for _, r := range book.Avoid {
		n.avoid[r.ID] = build(r, parts)
		for _, w := range append([]string{r.ID, r.Title}, r.Also...) {
			n.names[plainKey(w)] = r.ID
		}
	}
	for _, f := range book.Features {
		n.features = append(n.features, newFeature(f, &n.inSteps))
	}
	for _, l := range book.Levels {
		n.levelWords[l.Level] = n.inSteps.add(newPhrases(l.DoneBy))
	}
	for _, v := range book.Vessels {
		n.vessels = append(n.vessels, vessel{v, newPhrases(v.Words)})
	}
	for _, a := range book.Actions {
		n.actions = append(n.actions, newHandAction(a))
	}
	for _, r := range book.Cautions {
		n.cautions[r.ID] = newCaution(r, &n.inSteps)
		for _, w := range append([]string{r.ID, r.Title}, r.Also...) {
			n.cautionNames[plainKey(w)] = r.ID
		}
	}
	return n
}

// build joins a rule with those it includes.
func build(r AvoidRule, parts map[string]avoidance) Avoidance {
	a := Avoidance{Key: r.ID, Title: r.Title, Note: r.Note, Source: r.Source}
	seen := map[string]bool{}
	var add func(id string)
	add = func(id string) {
		p, known := parts[id]
		if !known || seen[id] {
			return
		}
		seen[id] = true
		a.parts = append(a.parts, p)
		for _, in := range p.rule.Includes {
			add(in)
		}
	}
	add(r.ID)
	return a
}

// answers works out what one avoidance says of every food of the table.
func (n *Needs) answers(part avoidance) map[*composition.Food]Answer {
	out := make(map[*composition.Food]Answer, len(n.foods))
	for _, f := range n.foods {
		out[f.food] = part.food(f.food, f.name)
	}
	return out
}

func plainKey(w string) string { return strings.Join(tokens(w), "_") }

// Avoidance finds what a member avoids: an avoidance of the book by id, title
// or another word for it ("milk", "dairy"), "food:" with the words of a food, or
// "kind:" with a kind of the food table. The error says what the key is not.
func (n *Needs) Avoidance(key string) (Avoidance, error) {
	switch what, word, prefixed := strings.Cut(key, ":"); {
	case !prefixed:
		id, ok := n.names[plainKey(key)]
		if !ok {
			return Avoidance{}, fmt.Errorf("unknown avoidance %q", key)
		}
		a := n.avoid[id]
		a.Key = key
		return a, nil
	case strings.TrimSpace(word) == "":
		return Avoidance{}, fmt.Errorf("avoidance %q names nothing", key)
	case what == "food":
		word = strings.TrimSpace(word)
		return single(key, word, Signs{Foods: []string{word}, Words: []string{word}}), nil
	case what == "kind":
		word = strings.TrimSpace(word)
		if len(n.kinds) > 0 && !n.kinds[word] {
			return Avoidance{}, fmt.Errorf("unknown kind of food %q", word)
		}
		return single(key, strings.ReplaceAll(word, "_", " "), Signs{Kinds: []string{word}}), nil
	default:
		return Avoidance{}, fmt.Errorf("unknown avoidance %q", key)
	}
}

func single(key, title string, s Signs) Avoidance {
	part := newAvoidance(AvoidRule{ID: key, Title: title, Signs: s})
	return Avoidance{Key: key, Title: title, Source: "own choice", parts: []avoidance{part}}
}

// nearestAvoidance says what a key might have been.
func (n *Needs) nearestAvoidance(key string) string {
	words := make([]string, 0, len(n.names))
	for w := range n.names {
		words = append(words, w)
	}
	slices.Sort(words)
	if what, word, prefixed := strings.Cut(key, ":"); prefixed && what == "kind" {
		words = words[:0]
		for k := range n.kinds {
			words = append(words, k)
		}
		slices.Sort(words)
		key = word
	}
	if near := diagnostic.Nearest(key, words); near != "" {
		return fmt.Sprintf("%q", near)
	}
	return "an avoidance such as milk, food:celery or kind:cured_meat"
}

// AvoidRules lists the avoidances of the book in the order written.
func (n *Needs) AvoidRules() []AvoidRule { return slices.Clone(n.book.Avoid) }

// Features lists the texture features in the order written.
func (n *Needs) Features() []Feature { return slices.Clone(n.book.Features) }

// FeatureIDs lists the ids of the texture features.
func (n *Needs) FeatureIDs() []string {
	ids := make([]string, len(n.book.Features))
	for i, f := range n.book.Features {
		ids[i] = f.ID
	}
	return ids
}

// Presets lists the published limits on offer.
func (n *Needs) Presets() []Preset { return slices.Clone(n.book.Presets) }

// Plans lists the published allowance plans on offer.
func (n *Needs) Plans() []PlanPreset { return slices.Clone(n.book.Plans) }

// AvoidFindings judges every line against all that the member avoids. A key
// that is not known gives a finding of its own: it is never passed over.
func (n *Needs) AvoidFindings(m Member, lines []LineFood) []Finding {
	var out []Finding
	for _, key := range m.Avoid {
		a, err := n.Avoidance(key)
		if err != nil {
			out = append(out, Finding{Kind: "avoid", Need: key, Fit: Unknown, Text: capital(err.Error()) + ": nothing can be told about it."})
			continue
		}
		for i := range lines {
			l := &lines[i]
			if f, ok := a.finding(l, a.judge(l, n.look(l))); ok {
				out = append(out, f)
			}
		}
	}
	return out
}
