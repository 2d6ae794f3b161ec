package adaptation

import (
	"fmt"
	"slices"

	"potwright/internal/composition"
	"potwright/internal/household"
	"potwright/internal/nutrient"
	"potwright/internal/swap"
)

// sight is what is seen of one thing that may be done with a line: what it puts
// into the pot, and what it means for people's needs. It is the same for every
// model of one dish, so it is looked at once.
type sight struct {
	panels []nutrient.LinePanel
	// serving is what the panels bring to a serving.
	serving [composition.NutrientCount]nutrient.Middle
	brings  swap.Amounts
	foods   []household.LineFood // as the method heats them
	means   []needed             // by what a member needs
}

// needed is what foods mean for those with the same needs; one who has none needs
// nothing said.
type needed struct {
	needs string
	meaning
}

// meaning is what foods mean for one member's needs.
type meaning struct {
	avoid  []household.Finding
	breaks []string // of the texture, where no plate can mend it
	barred []string // cautions that it is surely about, and dislikes
}

// sights are those of a dish, by what is done.
type sights map[sightKey]*sight

// sightKey is an option of a line; rule is "" for keeping it.
type sightKey struct {
	line  int
	rule  string
	share float64
}

// kept is the sight of a line as it is.
func (m *model) kept(i int) *sight {
	return m.options.seen.at(sightKey{line: i}, func() []nutrient.LinePanel { return m.in.Pot.Lines[i : i+1 : i+1] }, m)
}

// taken is the sight of an option of a line.
func (m *model) taken(i int, o *swap.Option) *sight {
	return m.options.seen.at(sightKey{i, o.Rule.ID, o.Share}, func() []nutrient.LinePanel { return m.panelsOf(i, o) }, m)
}

func (ss sights) at(key sightKey, panels func() []nutrient.LinePanel, m *model) *sight {
	if s := ss[key]; s != nil {
		return s
	}
	s := &sight{panels: panels()}
	for i := range s.panels {
		for n, a := range s.panels[i].Panel {
			s.serving[n].Mid += a.Mid / m.in.Pot.Servings
			s.serving[n].Unknown += a.Unknown
		}
	}
	s.brings = brings(m.in.Book, s.panels)
	if len(s.panels) == 1 {
		s.foods = s.panels[0].Matched.Foods(key.line)
	} else {
		for i := range s.panels {
			s.foods = append(s.foods, s.panels[i].Matched.Foods(key.line)...)
		}
	}
	s.foods = heated(s.foods, m.heatOf)
	m.in.Needs.Look(s.foods)
	ss[key] = s
	return s
}

// needy is a member's needs that foods have a meaning for, made ready.
type needy struct {
	needs    string // tells them from those of others
	bars     household.Bars
	texture  household.TextureNeed
	textured bool
}

func needyOf(needs *household.Needs, mem household.Member) needy {
	out := needy{needs: fmt.Sprint(mem.Age, mem.Avoid, mem.Dislikes, mem.Cautions), bars: needs.Bars(mem)}
	if out.texture, out.textured = needs.Texture(mem); out.textured {
		out.needs += fmt.Sprint(*mem.Texture)
	}
	return out
}

// of is what the sight means for a member.
func (s *sight) of(m *model, who int) *meaning {
	eater := &m.options.eaters[who]
	for i := range s.means {
		if s.means[i].needs == eater.needs {
			return &s.means[i].meaning
		}
	}
	out := meaning{avoid: m.in.Needs.AvoidFindings(m.in.Household.Members[who], s.foods), barred: eater.bars.On(s.foods)}
	if eater.textured {
		for _, lt := range eater.texture.Broken(s.foods, m.options.method) {
			out.breaks = append(out.breaks, lt.Text+" "+lt.Remedy)
		}
	}
	if s.means == nil {
		s.means = make([]needed, 0, len(m.options.eaters))
	}
	s.means = append(s.means, needed{eater.needs, out})
	return &s.means[len(s.means)-1].meaning
}

// against are the hard reasons why a cell cannot be on the table: someone
// avoids what it holds, a texture that no plate can mend, or an amount that
// someone limits and nobody knows.
func (m *model) against(s *sight) []reason {
	var out []reason
	for who, mem := range m.in.Household.Members {
		means := s.of(m, who)
		for _, f := range means.avoid {
			if f.Fit == household.Over || !m.trustLabels || !allRead(f, s.foods) {
				out = append(out, reason{mem.Name, fmt.Sprintf("%s avoids it. %s", mem.Name, f.Text)})
			}
		}
		for _, text := range means.breaks {
			out = append(out, reason{mem.Name, mem.Name + ": " + text})
		}
	}
	for i := range m.asks {
		a := &m.asks[i]
		if _, unknown := a.weigh(s, m.in.Pot.Servings); unknown {
			out = append(out, reason{m.in.Household.Members[a.member].Name, fmt.Sprintf("Not all of it is known that counts for %s.", a.name)})
		}
	}
	return out
}

// bringsIn reports whether one thing may hold something that someone avoids, or
// surely something that a caution of theirs is about, and another does not; was is
// nil where nothing was there.
func (m *model) bringsIn(is, was *sight) bool {
	for who := range m.in.Household.Members {
		now, before := is.of(m, who), &meaning{}
		if was != nil {
			before = was.of(m, who)
		}
		if slices.ContainsFunc(now.barred, func(id string) bool { return !slices.Contains(before.barred, id) }) {
			return true
		}
		if len(now.avoid) > len(before.avoid) {
			return true
		}
	}
	return false
}
