package choice

import "slices"

// dropDominated bans every option that another of its group can stand in for in
// any choice: no dearer in the order of the levels, first by number where equal,
// no larger in any row, and in no apart set the other is not in. Putting the
// other in its place never makes a choice later in the order, so the first of
// the best is kept.
func (s *search) dropDominated() {
	for g, group := range s.m.p.Groups {
		for o := range group.Options {
			for q := range group.Options {
				if q != o && s.base.alive[s.m.off[g]+q] && s.dominates(g, q, o) {
					s.base.ban(s.m, int32(s.m.off[g]+o))
					break
				}
			}
		}
	}
}

func (s *search) dominates(g, q, o int) bool {
	options := s.m.p.Groups[g].Options
	order := slices.Compare(options[q].Cost, options[o].Cost)
	if order > 0 || order == 0 && q > o {
		return false
	}
	a, b := s.m.off[g]+q, s.m.off[g]+o
	for _, l := range s.m.lines {
		if !l.below(a, b) {
			return false
		}
	}
	return s.aim == nil || s.aim.below(a, b)
}

// below tells whether column a never makes the line larger than column b does.
func (l *line) below(a, b int) bool {
	if l.a[a] > l.a[b] {
		return false
	}
	if l.cone == nil {
		return true
	}
	return l.cone.own[a] <= l.cone.own[b] && slices.Equal(l.cone.loads[a], l.cone.loads[b])
}
