package pages

import (
	"fmt"
	"strings"

	"potwright/internal/keeping"
	"potwright/internal/kitchen"
)

// keepingEntries tell how dishes are kept and made safely.
func (p *rulePages) keepingEntries() []ruleEntry {
	if p.book.Keeping == nil {
		return nil
	}
	var out []ruleEntry
	for _, r := range p.book.Keeping.Rules() {
		b := &builder{}
		b.fact("About", string(r.Topic))
		b.fact("What is said", r.Say)
		b.fact("In the fridge", spanWords(r.Fridge, "days"))
		b.fact("In the freezer", spanWords(r.Freezer, "months"))
		b.signs(r.Signs)
		switch r.Heat {
		case keeping.OnlyHeated:
			b.fact("When", "only where it is heated")
		case keeping.OnlyRaw:
			b.fact("When", "only where it is not heated")
		}
		if r.SlowCooker {
			b.fact("When", "only in a slow cooker")
		}
		b.list("Words of a step", r.Steps)
		b.list("Not with these in a step", r.NotSteps)
		if r.Boiled > 0 {
			b.fact("Not needed", fmt.Sprintf("where it is boiled %s minutes", typedAmount(r.Boiled)))
		}
		if r.DegreesF > 0 {
			b.fact("Not needed", fmt.Sprintf("where a step names %s °F inside or more", typedAmount(r.DegreesF)))
		}
		b.fact("Why", r.Reason)
		for _, x := range r.Examples {
			name := "It is said, for example, of"
			if !x.Speaks {
				name = "It is not said, for example, of"
			}
			b.fact(name, fmt.Sprintf("%s: %s", strings.Join(x.Lines, ", "), x.Method))
		}
		out = append(out, p.entry(kitchen.KeepingAdvice, r.ID, capitalized(readableID(r.ID)), r.Source, b, "keeping and safety"))
	}
	return out
}

// spanWords such as "3 to 4 days", "" where there is none.
func spanWords(s *keeping.Span, unit string) string {
	if s == nil {
		return ""
	}
	if s.Least == s.Most {
		return fmt.Sprintf("%s %s", typedAmount(s.Most), unit)
	}
	return fmt.Sprintf("%s to %s %s", typedAmount(s.Least), typedAmount(s.Most), unit)
}

// tasteEntries tell how far salt may fall.
func (p *rulePages) tasteEntries() []ruleEntry {
	if p.book.Taste == nil || p.book.Taste.Fall.Source == "" {
		return nil
	}
	f := p.book.Taste.Fall
	b := &builder{}
	b.fact("Goes by in most dishes", shareWords(f.Unnoticed)+" less")
	b.fact("With something that makes up for it", shareWords(f.Helped)+" less")
	b.fact("Counts where nothing makes up for it", fmt.Sprintf("%d, as a swap that people notice as much", f.Counts))
	b.fact("Why", f.Why)
	return []ruleEntry{p.entry(kitchen.SaltFall, "fall", "How far salt may fall", f.Source, b, "less sodium")}
}
