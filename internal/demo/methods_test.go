package demo_test

import (
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/adaptation"
	"potwright/internal/demo"
	"potwright/internal/foodmatch"
	"potwright/internal/ingredient"
	"potwright/internal/kitchen"
	"potwright/internal/method"
	"potwright/internal/swap"
	"potwright/internal/testkit"
)

var rewritten = flag.String("rewritten", "", "write every rewritten method of the published recipes to this file")

// TestMethodsFollowTheirSwaps rewrites the methods of published recipes (USDA
// MyPlate Kitchen, NIH/NHLBI, state extension services) and of the demo dishes
// for every option of every line, one at a time, and for the answers of the demo
// household. It checks them with its own plain words, not with those of the
// rewriter: nothing that left may still be said, nothing that came may be
// unsaid, and few steps may be left for the cook to look at. Run it with -v for
// the counts and the worst examples.
func TestMethodsFollowTheirSwaps(t *testing.T) {
	k, h := testkit.Kitchen(t), people(t)
	seen := newFaults()
	for _, a := range recipesWithMethods(t, k) {
		dish := make([]foodmatch.Matched, len(a.Pot.Lines))
		for i, lp := range a.Pot.Lines {
			dish[i] = *lp.Matched
		}
		read := func(text string) foodmatch.Matched { return foodmatch.Weigh(ingredient.Read(text), k.Table, nil, nil) }
		for i := range dish {
			for _, o := range k.Book.Options(dish[i], dish, read) {
				seen.judge("one swap", a, dish, []method.LineChange{{Line: i, Option: o}})
			}
		}
		whole := swap.Dish{Title: a.Recipe.Title, Lines: dish, Servings: a.Pot.Servings}
		for _, step := range a.Recipe.Steps {
			whole.Steps = append(whole.Steps, step.Text)
		}
		for _, o := range k.Book.Additions(whole, read) {
			seen.judge("one addition", a, dish, []method.LineChange{{Line: adaptation.WholeDish, Option: o}})
		}
		ans, err := k.Adapt(context.Background(), a, h, adaptation.Wishes{})
		require.NoError(t, err, a.Recipe.Title)
		var all []method.LineChange
		for _, c := range ans.Changes {
			all = append(all, method.LineChange{Line: c.Line, Option: c.Option})
		}
		if len(all) > 0 {
			seen.judge("household", a, dish, all)
		}
	}
	t.Log(seen.report())
	if *rewritten != "" {
		require.NoError(t, os.WriteFile(*rewritten, []byte(seen.log.String()), 0o644))
	}
	for _, kind := range []string{leftOver, neverSaid, badSeam} {
		assert.Zero(t, seen.count[kind], kind)
	}
	assert.LessOrEqual(t, seen.share(forTheCook), 0.05, "steps left for the cook to look at")
}

func recipesWithMethods(t *testing.T, k *kitchen.Kitchen) []kitchen.Analysis {
	t.Helper()
	raw, err := os.ReadFile(testkit.Shared(t, filepath.Join("validation", "recipes_with_methods.json")))
	require.NoError(t, err)
	var recipes []struct {
		Title              string
		Servings           float64
		Ingredients, Steps []string
	}
	require.NoError(t, json.Unmarshal(raw, &recipes))
	var texts []string
	for _, r := range recipes {
		texts = append(texts, fmt.Sprintf("%s\nServes %g\nIngredients\n%s\nMethod\n%s\n",
			r.Title, r.Servings, strings.Join(r.Ingredients, "\n"), strings.Join(r.Steps, "\n")))
	}
	for _, name := range demo.Dishes() {
		text, err := demo.Dish(name)
		require.NoError(t, err)
		texts = append(texts, text)
	}
	var out []kitchen.Analysis
	for _, text := range texts {
		a, err := k.Read(text, nil, nil)
		require.NoError(t, err)
		out = append(out, a)
	}
	return out
}

// Kinds of fault.
const (
	leftOver   = "left over: a step still says what is gone"
	neverSaid  = "never said: no step says what is new"
	badSeam    = "bad seam: words that do not fit together"
	forTheCook = "for the cook: a step is marked to be looked at"
)

type faults struct {
	took            time.Duration
	rewrites, steps int
	count           map[string]int
	examples        map[string][]string
	log             strings.Builder
}

func newFaults() *faults { return &faults{count: map[string]int{}, examples: map[string][]string{}} }

func (f *faults) add(kind, format string, args ...any) {
	f.count[kind]++
	f.examples[kind] = append(f.examples[kind], fmt.Sprintf(format, args...))
}

func (f *faults) share(kind string) float64 {
	return float64(f.count[kind]) / float64(max(1, f.steps))
}

func (f *faults) report() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%d methods rewritten in %v each, %d steps in all\n", f.rewrites, f.took/time.Duration(f.rewrites), f.steps)
	for _, kind := range []string{leftOver, neverSaid, badSeam, forTheCook} {
		fmt.Fprintf(&b, "%5d  %5.2f %%  %s\n", f.count[kind], 100*f.share(kind), kind)
		for i, e := range f.examples[kind] {
			if i%max(1, len(f.examples[kind])/25) == 0 {
				fmt.Fprintf(&b, "       %s\n", e)
			}
		}
	}
	return b.String()
}

// was is the line that a change is of; an addition is of none.
func was(dish []foodmatch.Matched, c method.LineChange) foodmatch.Matched {
	if c.Line < 0 {
		return foodmatch.Matched{}
	}
	return dish[c.Line]
}

// judge rewrites a recipe's method for some changes and notes what is wrong.
func (f *faults) judge(when string, a kitchen.Analysis, dish []foodmatch.Matched, changes []method.LineChange) {
	f.rewrites++
	start := time.Now()
	r := method.Rewrite(a.Recipe, dish, changes)
	f.took += time.Since(start)
	notes := r.Notes()
	var before, now []string
	for _, s := range a.Recipe.Steps {
		before = append(before, s.Text)
	}
	for _, s := range r.Steps {
		now = append(now, s.Text)
	}
	f.steps += len(now)
	label := when + ", " + a.Recipe.Title
	for _, c := range changes {
		label += fmt.Sprintf(" [%s: %s => %s]", c.Option.Rule.ID, was(dish, c).Reading.Text, strings.Join(c.Option.Text, " + "))
	}
	f.record(label, before, now, notes)
	for _, n := range notes {
		f.add(forTheCook, "%s %s", label, n)
	}
	f.leftovers(label, dish, changes, before, now)
	f.unsaid(label, dish, changes, before, now)
	f.seams(label, before, now)
}

func (f *faults) record(label string, before, now, notes []string) {
	fmt.Fprintf(&f.log, "## %s\n", label)
	for _, s := range before {
		if !slices.Contains(now, s) {
			fmt.Fprintf(&f.log, "  - %s\n", s)
		}
	}
	for _, s := range now {
		if !slices.Contains(before, s) {
			fmt.Fprintf(&f.log, "  + %s\n", s)
		}
	}
	for _, n := range notes {
		fmt.Fprintf(&f.log, "  ! %s\n", n)
	}
}

// plain are the words of a text in lower case and singular, by a rule of thumb.
func plain(text string) []string {
	var out []string
	for _, w := range regexp.MustCompile(`[\pL]+`).FindAllString(strings.ToLower(text), -1) {
		switch {
		case strings.HasSuffix(w, "oes"), strings.HasSuffix(w, "shes"), strings.HasSuffix(w, "ches"):
			w = strings.TrimSuffix(w, "es")
		case strings.HasSuffix(w, "ies") && len(w) > 4:
			w = strings.TrimSuffix(w, "ies") + "y"
		case strings.HasSuffix(w, "ves") && w != "olives" && w != "chives":
			w = strings.TrimSuffix(w, "ves") + "f"
		case strings.HasSuffix(w, "s") && !strings.HasSuffix(w, "ss") && len(w) > 3:
			w = strings.TrimSuffix(w, "s")
		}
		out = append(out, w)
	}
	return out
}

// describing are words of ingredient lines that name no food.
var describing = plain(`fresh dried dry ground whole large small medium low reduced light fat free sodium unsalted salted
lean extra virgin raw cooked uncooked frozen canned instant quick boneless skinless white red green yellow brown black
dark baby ripe sweet hot cold warm plain all purpose regular thick thin skim nonfat part mild sharp hard soft firm
prepared crushed chopped diced sliced shredded grated minced packed style and or with of in the ready to eat serve
no added unsweetened sweetened creamy old fashioned long grain head cube piece slice can stick bunch pure granulated
kosher italian fine coarse leaf clove powder kernel mix breast thigh fillet seasoning spicy center cut wild caught`)

func food(text string) []string {
	head, _, _ := strings.Cut(text, ",")
	var out []string
	for _, w := range plain(head) {
		if !slices.Contains(describing, w) {
			out = append(out, w)
		}
	}
	return out
}

// made is what the dish's foods make together: "the sauce" of a recipe without a
// line of that name alone.
var made = regexp.MustCompile(`(?i)\bthe sauce\b`)

// leftovers looks for words of the foods that left which nothing that stays or
// comes has.
func (f *faults) leftovers(label string, dish []foodmatch.Matched, changes []method.LineChange, before, now []string) {
	staying := map[string]bool{}
	gone := map[int]bool{}
	var old []string
	for _, c := range changes {
		gone[c.Line] = true
		_, use, _ := strings.Cut(was(dish, c).Reading.Text, " for ") // "salt, for the pasta water"
		for _, w := range food(was(dish, c).Reading.Food) {
			if !slices.Contains(plain(use), w) {
				old = append(old, w)
			}
		}
		for _, r := range was(dish, c).Reading.Together {
			old = append(old, food(r.Food)...)
		}
		texts := slices.Concat(c.Option.Text, c.Option.AtTable)
		for _, e := range c.Option.Rule.Method {
			texts = append(texts, e.Text)
		}
		for _, w := range plain(strings.Join(texts, " ")) {
			staying[w] = true
		}
	}
	for i, m := range dish {
		if !gone[i] {
			for _, w := range plain(m.Reading.Text) {
				staying[w] = true
			}
		}
	}
	for _, w := range old {
		if staying[w] || !slices.Contains(plain(strings.Join(before, " ")), w) {
			continue
		}
		for _, s := range now {
			s := made.ReplaceAllString(s, "")
			if slices.Contains(plain(s), w) {
				f.add(leftOver, "%s %q in: %s", label, w, s)
			}
		}
	}
}

// collective are words by which steps mean foods that they do not name.
var collective = plain(`everything all ingredients seasonings seasoned season spices herbs vegetables things topping
dressing mixture sauce fruit nuts meat marinade liquid glaze fish greens cheese batter broth pasta slices`)

// unsaid looks for new foods that no step names, nor means by a collective word
// that meant the old one.
func (f *faults) unsaid(label string, dish []foodmatch.Matched, changes []method.LineChange, before, now []string) {
	said, first := plain(strings.Join(now, " ")), plain(strings.Join(before, " "))
	others := map[string]bool{}
	for i, m := range dish {
		if slices.ContainsFunc(changes, func(c method.LineChange) bool { return c.Line == i }) {
			continue
		}
		for _, w := range plain(m.Reading.Text) {
			others[w] = true
		}
	}
	for _, c := range changes {
		old := food(was(dish, c).Reading.Food)
		unnamed := len(old) > 0 && !slices.ContainsFunc(old, func(w string) bool { return !others[w] && slices.Contains(first, w) })
		meant := unnamed &&
			slices.ContainsFunc(collective, func(w string) bool { return slices.Contains(said, w) })
		for _, m := range c.Option.Lines {
			ws := food(m.Reading.Food)
			if len(ws) == 0 || meant || isPart(ws, old) {
				continue // nothing to say, or less of the same food
			}
			spice := len(m.Items) > 0 && m.Items[0].Food.HasKind("spice") && slices.Contains(said, "spice")
			named := spice || slices.Contains(said, ws[len(ws)-1])
			for _, w := range ws {
				named = named || !others[w] && slices.Contains(said, w) || w == "jalapeno" && slices.Contains(said, "chile")
			}
			if !named {
				f.add(neverSaid, "%s %q in: %s", label, m.Reading.Food, strings.Join(now, " / "))
			}
		}
	}
}

func isPart(ws, of []string) bool {
	return !slices.ContainsFunc(ws, func(w string) bool { return !slices.Contains(of, w) })
}

var seams = regexp.MustCompile(`  | [,.;:]|,,|,\.|\( | \)|\(\)|;[.,;]|(?i)\b(\w+) and (?:the )?(and|or|with)\b|\b(and|with|of|the|a|an|into|or)[.;,]|` +
	`\b(the the|a a|of of|and and|a [aeio]\w+|an [bcdfgjklmnpqrstvwxyz]\w*|the \d|half the half)\b`)

// seams looks for words that do not fit together where the original's did.
func (f *faults) seams(label string, before, now []string) {
	original := strings.Join(before, "\n")
	for _, s := range now {
		if slices.Contains(before, s) {
			continue
		}
		for _, at := range seams.FindAllString(s, -1) {
			if !strings.Contains(original, at) {
				f.add(badSeam, "%s %q in: %s", label, at, s)
			}
		}
		if first := []rune(s)[0]; strings.ToUpper(string(first)) != string(first) {
			f.add(badSeam, "%s small letter: %s", label, s)
		}
		f.doubled(label, original, s)
	}
}

// doubled looks for an item that a list has twice.
func (f *faults) doubled(label, original, s string) {
	for _, sentence := range regexp.MustCompile(`[.;:]`).Split(s, -1) {
		items := regexp.MustCompile(`,| and `).Split(sentence, -1)
		for i := 1; i < len(items); i++ {
			a := strings.TrimPrefix(strings.TrimSpace(items[i-1]), "the ")
			b := strings.TrimPrefix(strings.TrimSpace(items[i]), "the ")
			if b != "" && (a == b || strings.HasSuffix(a, " "+b)) && !strings.Contains(original, a+" and "+b) {
				f.add(badSeam, "%s twice %q in: %s", label, b, s)
			}
		}
	}
}
