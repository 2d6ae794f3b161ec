package pages

import (
	"fmt"
	"strings"

	"potwright/internal/kitchen"
	"potwright/internal/swap"
)

// ruleSorts are the sorts of rules in the order shown.
func ruleSorts() []kitchen.RuleSort {
	return []kitchen.RuleSort{kitchen.SwapRule, kitchen.LeftAlone, kitchen.DishBalance, kitchen.AvoidedFood, kitchen.CautionRule,
		kitchen.Texture, kitchen.HandLoad, kitchen.KnownLimit, kitchen.KnownPlan, kitchen.Retention, kitchen.YieldFactor,
		kitchen.KeepingAdvice, kitchen.SaltFall}
}

func sortWords(s kitchen.RuleSort) string {
	switch s {
	case kitchen.SwapRule:
		return "swap"
	case kitchen.LeftAlone:
		return "dish that is left alone"
	case kitchen.DishBalance:
		return "balance of a dish"
	case kitchen.AvoidedFood:
		return "something avoided"
	case kitchen.CautionRule:
		return "caution"
	case kitchen.Texture:
		return "texture"
	case kitchen.HandLoad:
		return "load on the hands"
	case kitchen.KnownLimit:
		return "published limit"
	case kitchen.KnownPlan:
		return "published plan"
	case kitchen.Retention:
		return "what heat leaves"
	case kitchen.YieldFactor:
		return "what becomes of the weight"
	case kitchen.SaltFall:
		return "taste with less salt"
	case kitchen.KeepingAdvice:
		return "keeping and safety"
	}
	return string(s)
}

// farWords says how far a swap takes a dish from itself.
func farWords(change int) string {
	words := "another dish"
	for _, step := range [...]struct {
		to    int
		words string
	}{{0, "the same dish"}, {1, "nobody notices"}, {3, "hardly anyone notices"}, {5, "some notice"},
		{7, "everyone notices, it is the same dish"}, {9, "in part another dish"}} {
		if change <= step.to {
			words = step.words
			break
		}
	}
	return fmt.Sprintf("%s (%d of 10)", words, change)
}

// longerWords says how much longer a swap cooks, "" where it takes as long.
func longerWords(minutes int) string {
	switch {
	case minutes > 0:
		return fmt.Sprintf("about %d minutes longer", minutes)
	case minutes < 0:
		return fmt.Sprintf("about %d minutes less", -minutes)
	}
	return ""
}

func effortWords(effort int) string {
	switch {
	case effort <= -3:
		return "much less work for the cook"
	case effort < 0:
		return "less work for the cook"
	case effort == 0:
		return "as much work as before"
	case effort < 3:
		return "more work for the cook"
	}
	return "much more work for the cook"
}

// doesWords says what a swap does, a sentence for each thing it puts in.
func doesWords(r swap.Rule) []string {
	switch r.Do {
	case swap.Rinse:
		return []string{"drains and rinses it"}
	case swap.Drain:
		return []string{"drains it"}
	case swap.Omit:
		return []string{"leaves it out"}
	case swap.First:
		return []string{"takes the first of the foods that the line names"}
	case swap.Second:
		return []string{"takes the other food that the line names"}
	case swap.ToTable:
		if len(r.Keep) > 0 {
			return []string{fmt.Sprintf("keeps it out of the pot and offers %s of it at the table", shareWords(r.Keep[0]))}
		}
		return []string{"keeps it out of the pot and offers it at the table"}
	case swap.Reduce:
		var shares []string
		for _, k := range r.Keep {
			shares = append(shares, shareWords(k))
		}
		return []string{"keeps " + strings.Join(shares, " or ") + " of it"}
	}
	out := []string{"puts in its place:"}
	if r.Do == swap.Add {
		out = []string{"puts in besides, where the dish has lost its " + r.Restores + ":"}
	}
	for _, w := range r.With {
		out = append(out, withWords(w))
	}
	return out
}

func withWords(w swap.Ingredient) string {
	name := w.Food
	if w.Same {
		name = "the same food"
	}
	if w.Note != "" {
		name += ", " + w.Note
	}
	switch w.By {
	case swap.ByServing:
		return fmt.Sprintf("%s: %s %s a serving", name, typedAmount(w.Ratio), w.Unit)
	case swap.ByLiquid:
		return fmt.Sprintf("%s: %s %s a cup of liquid", name, typedAmount(w.Ratio), w.Unit)
	}
	amount := map[swap.By]string{swap.ByLine: "the amount of the line", swap.ByVolume: "the volume",
		swap.ByWeight: "the weight", swap.ByPiece: "the number of pieces"}[w.By]
	if w.Ratio == 1 {
		return fmt.Sprintf("%s: %s as it was", name, amount)
	}
	return fmt.Sprintf("%s: %s times %s", name, amount, typedAmount(w.Ratio))
}

func shareWords(x float64) string {
	return fmt.Sprintf("%s %%", figure(x*100))
}

// matchFacts tell which lines a swap rule fits.
func matchFacts(b *builder, m swap.Match) {
	b.list("Fits the foods", m.Foods)
	b.list("Fits kinds of food", readable(m.Kinds))
	b.list("Only where it is", readable(m.States))
	b.list("Only measured in", m.Units)
	b.list("Only with the words", m.Words)
	b.list("Only in a dish with", readable(m.DishHas))
	if m.Most > 0 {
		b.fact("Up to an amount of", typedAmount(m.Most)+", in the line’s own measure")
	}
	b.list("Not these", append(append([]string(nil), m.NotFoods...), readable(m.NotKinds)...))
	b.list("Not where it is", readable(m.NotState))
	b.list("Not with the words", m.NotWords)
	b.list("Not in a dish with", readable(m.DishNot))
	b.list("Only where the method says", m.Steps)
	b.list("Not where the method says", m.NotSteps)
	b.list("Not where the title says", m.NotTitle)
	if m.MostSweet > 0 {
		b.fact("Not in sweet dishes", "above "+typedAmount(m.MostSweet)+" g of sugar a serving")
	}
}

// methodWords says what a swap does to the method.
func methodWords(edits []swap.MethodEdit) []string {
	var out []string
	for _, e := range edits {
		switch e.Do {
		case "add":
			out = append(out, fmt.Sprintf("adds “%s” (%s)", e.Text, e.At))
		case "drop":
			out = append(out, fmt.Sprintf("drops “%s”", e.Find))
		case "replace":
			out = append(out, fmt.Sprintf("says “%s” for “%s”", e.Text, e.Find))
		case "move":
			out = append(out, fmt.Sprintf("moves it: “%s” (%s)", e.Text, e.At))
		}
	}
	return out
}

// originWords says where an entry comes from; own is what a list shows of it, ""
// for what is built in.
func originWords(o kitchen.RuleOrigin) (full, own string) {
	if o.Folder == "" {
		return "built in: " + o.File, ""
	}
	own = "your own"
	if o.Replaces {
		own = "your own, in place of the built-in one"
	}
	return fmt.Sprintf("%s: %s/%s, line %d", own, o.Folder, o.File, o.Line), own
}
