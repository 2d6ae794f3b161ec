package adaptation

import (
	"fmt"
	"slices"

	"potwright/internal/foodmatch"
	"potwright/internal/household"
	"potwright/internal/swap"
)

// allowed is what may be done with a line after hard needs and wishes: keep it
// (first, where that is possible), or one of its options. Where nothing is left
// the model is blocked, with the reason.
func (m *model) allowed(i int) []cell {
	if m.in.Pot.Lines[i].AtTable {
		return []cell{{sight: &sight{}}}
	}
	seen := m.kept(i)
	keep := cell{sight: seen}
	insisted := m.insistedOn(i)
	hard := m.against(seen)
	locked := slices.Contains(m.in.Wishes.Lock, i)
	var cells []cell
	if len(hard) == 0 && insisted == nil {
		cells = append(cells, keep)
	}
	m.unkept[i] = hard
	if !locked {
		cells = append(cells, m.usable(i, seen, insisted)...)
	}
	if len(cells) == 0 {
		m.blocked = append(m.blocked, m.blockText(i, hard, locked, insisted)...)
		return []cell{keep}
	}
	if m.spareHands && insisted == nil && !locked {
		cells = m.easier(i, cells)
	}
	return cells
}

// usable are the options of a line that no hard need and no wish rules out.
func (m *model) usable(i int, was *sight, insisted *Pick) []cell {
	var cells []cell
	for k := range m.options.lines[i] {
		o := &m.options.lines[i][k]
		if insisted != nil && !insisted.is(*o) {
			continue
		}
		if o.Rule.Manual && insisted == nil || m.refused(i, *o) {
			continue
		}
		if s := m.taken(i, o); len(m.against(s)) == 0 && !m.bringsIn(s, was) {
			cells = append(cells, cell{option: o, sight: s})
		}
	}
	return cells
}

// easier leaves only what spares the cook's hands, where some option does.
func (m *model) easier(i int, cells []cell) []cell {
	hands := m.in.Needs.Hands(m.in.Household.Cook)
	load := func(c cell) (heavy bool, text string) {
		for _, n := range hands.Judge(c.foods, nil, 0) {
			if n.Score >= heavyLoad && slices.Contains(m.in.Household.Cook.Spare, n.Load) {
				return true, n.Text
			}
		}
		return false, ""
	}
	heavy, text := load(cells[0])
	if cells[0].option != nil || !heavy {
		return cells
	}
	var out []cell
	for _, c := range cells {
		if c.option == nil || c.option.Change > easyChange || !spares(c.option, m.in.Household.Cook) {
			continue
		}
		if h, _ := load(c); !h {
			out = append(out, c)
		}
	}
	if len(out) == 0 {
		return cells
	}
	m.unkept[i] = append(m.unkept[i], reason{"the cook", text})
	return out
}

// heavyLoad is the load, 0..3, from which a spared load is taken away where a
// swap can. A design choice.
const heavyLoad = 2

// easyChange is the most, on the scale of the rules' change, that a swap made
// for the cook's hands alone may change the dish. A design choice.
const easyChange = 4

func spares(o *swap.Option, cook household.Cook) bool {
	for _, s := range o.Rule.Spares {
		if slices.Contains(cook.Spare, s) {
			return true
		}
	}
	return false
}

// insistedOn is what must be taken on a line, nil where nothing must.
func (m *model) insistedOn(i int) *Pick {
	for _, p := range m.in.Wishes.Insist {
		if p.Line == i {
			return &p
		}
	}
	return nil
}

func (m *model) refused(i int, o swap.Option) bool {
	return slices.ContainsFunc(m.in.Wishes.Refuse, func(p Pick) bool {
		return p.is(o) && (p.Line == i || p.Line < 0)
	})
}

func (m *model) blockText(i int, hard []reason, locked bool, insisted *Pick) []string {
	text := m.in.Recipe.Lines[i].Reading.Text
	why := "No swap in the rulebook mends that."
	switch {
	case m.in.Pot.Lines[i].Matched.State == foodmatch.Unread:
		return []string{fmt.Sprintf("%q was not read, so nobody's limits can be held against it: correct the line or leave it out.", text)}
	case locked:
		why = "The line is locked."
	case insisted != nil:
		return []string{fmt.Sprintf("%q: the swap asked for (%s) can't be used here.", text, insisted.Rule)}
	}
	var out []string
	for _, r := range hard {
		out = append(out, fmt.Sprintf("%q: %s %s", text, r.text, why))
	}
	return out
}
