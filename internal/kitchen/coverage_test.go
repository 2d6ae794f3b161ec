package kitchen_test

import (
	"fmt"
	"regexp"
	"sort"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/composition"
	"potwright/internal/foodmatch"
	"potwright/internal/household"
	"potwright/internal/ingredient"
	"potwright/internal/nutrient"
	"potwright/internal/swap"
	"potwright/internal/testkit"
)

// openedLine is a line of the published recipes with what may be done with it.
type openedLine struct {
	line    nutrient.LinePanel
	options []swap.Option
}

func (l openedLine) text() string { return l.line.Matched.Reading.Text }

func (l openedLine) food() *composition.Food { return l.line.Matched.Items[0].Food }

// everyLine is every line of the published recipes, opened in its dish. Rules
// that are never chosen on their own are left out.
func everyLine(t *testing.T) []openedLine {
	t.Helper()
	k := testkit.Kitchen(t)
	read := func(text string) foodmatch.Matched {
		return foodmatch.Weigh(ingredient.Read(text), k.Table, nil, nil)
	}
	var all []openedLine
	for _, r := range publishedRecipes(t) {
		text := fmt.Sprintf("%s\nServes %g\nIngredients\n%s\n", r.Title, r.Servings, strings.Join(r.Ingredients, "\n"))
		a, err := k.Read(text, nil, nil)
		require.NoError(t, err)
		dish := make([]foodmatch.Matched, len(a.Pot.Lines))
		for i, lp := range a.Pot.Lines {
			dish[i] = *lp.Matched
		}
		for _, lp := range a.Pot.Lines {
			if len(lp.Matched.Items) > 0 && lp.Matched.Items[0].Food != nil {
				all = append(all, openedLine{lp, automatic(k.Book.Options(*lp.Matched, dish, read))})
			}
		}
	}
	return all
}

func automatic(options []swap.Option) []swap.Option {
	var out []swap.Option
	for _, o := range options {
		if !o.Rule.Manual {
			out = append(out, o)
		}
	}
	return out
}

var spareWords = regexp.MustCompile(`(?i)\b(optional|garnish|if desired|to taste|for serving|as desired|topping)\b`)

// spareKinds are foods that season or garnish a dish without being what it is.
var spareKinds = []string{"salt", "herb", "spice", "spice_blend", "spice_blend_salted", "seasoning_mix", "mustard",
	"worcestershire", "fish_sauce", "hot_sauce", "pickle", "flavoring"}

// keepsTheDish reports whether an option is more than leaving the line out:
// only what garnishes or seasons may go without anything in its place.
func (l openedLine) keepsTheDish(o swap.Option) bool {
	if o.Rule.Do != swap.Omit && o.Rule.Do != swap.ToTable {
		return true
	}
	spare := spareWords.MatchString(l.text())
	for _, k := range spareKinds {
		spare = spare || l.food().HasKind(k)
	}
	return spare
}

// lowers reports whether an option takes a tenth or more of a line's sodium away.
func (l openedLine) lowers(o swap.Option) bool {
	var after float64
	for i, m := range o.Lines {
		after += nutrient.Line(fmt.Sprint(i), &m, 1).Panel[composition.Sodium].Mid
	}
	return after < 0.9*l.line.Panel[composition.Sodium].Mid
}

// coverage counts lines by what may be done with them.
type coverage struct {
	lines, kept, any int
	missing          map[string]int // foods of lines without
}

func (c *coverage) add(l openedLine, least int, does func(swap.Option) bool) {
	kept, any, less := 0, 0, false
	for _, o := range l.options {
		if !does(o) || less && o.Rule.Do == swap.Reduce {
			continue // less, and still less, is one way
		}
		less = less || o.Rule.Do == swap.Reduce
		any++
		if l.keepsTheDish(o) {
			kept++
		}
	}
	c.lines++
	if any >= least {
		c.any++
	}
	if kept >= least {
		c.kept++
		return
	}
	if c.missing == nil {
		c.missing = map[string]int{}
	}
	c.missing[l.food().Name]++
}

func (c *coverage) share() float64 { return float64(c.kept) / float64(c.lines) }

func (c *coverage) String() string {
	return fmt.Sprintf("%d of %d lines: %.1f %% (%.1f %% if anything may be left out); not %v",
		c.kept, c.lines, 100*c.share(), 100*float64(c.any)/float64(c.lines), c.missing)
}

// The fewest lines that together give four fifths of all sodium of the published
// recipes have at least two ways to bring it down.
func TestLinesThatGiveMostSodiumHaveTwoWaysDown(t *testing.T) {
	all := everyLine(t)
	sodium := func(l openedLine) float64 { return l.line.Panel[composition.Sodium].Mid }
	sort.SliceStable(all, func(i, j int) bool { return sodium(all[i]) > sodium(all[j]) })
	var total, sum float64
	for _, l := range all {
		total += sodium(l)
	}
	var c coverage
	for _, l := range all {
		if sum >= 0.8*total {
			break
		}
		sum += sodium(l)
		c.add(l, 2, l.lowers)
	}
	t.Logf("two ways down: %s", &c)
	assert.GreaterOrEqual(t, c.share(), 0.90)
}

// A line that holds what someone may have to avoid has a way without it: a way
// that is free of it as far as known, not one whose label has to be read.
func TestLinesThatHoldAnAllergenHaveAWayWithoutIt(t *testing.T) {
	k := testkit.Kitchen(t)
	all := everyLine(t)
	for _, key := range []string{"milk", "egg", "wheat", "soy", "tree_nut", "peanut", "fish"} {
		avoid, err := k.Needs.Avoidance(key)
		require.NoError(t, err)
		var c coverage
		for _, l := range all {
			if presence(avoid, *l.line.Matched) == household.Contains {
				c.add(l, 1, func(o swap.Option) bool { return freeOf(avoid, o) })
			}
		}
		t.Logf("%s: %s", key, &c)
		assert.GreaterOrEqual(t, c.share(), 0.90, key)
	}
}

func freeOf(avoid household.Avoidance, o swap.Option) bool {
	for _, m := range o.Lines {
		if presence(avoid, m) != household.FreeSoFar {
			return false
		}
	}
	return true
}

// presence is that of the worst food of a line.
func presence(avoid household.Avoidance, m foodmatch.Matched) household.Presence {
	worst := household.FreeSoFar
	for _, i := range m.Items {
		p := avoid.Judge(household.LineFood{Food: i.Food, Text: m.Reading.Text}).Presence
		if p == household.Contains {
			return p
		}
		if p != household.FreeSoFar {
			worst = p
		}
	}
	return worst
}
