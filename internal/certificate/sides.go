package certificate

import "math"

// sides tells, for each factor of a row, how its loads may be taken.
type sides map[int]side

type side struct {
	group    int  // the one group that has it, or -1
	up, down bool // whether some option's load is positive, negative
}

func sidesOf(row Row) sides {
	k := sides{}
	for g := range row.Loads {
		for o := range row.Loads[g] {
			for f, half := range summed(row.Loads[g][o]) {
				if half == 0 {
					continue
				}
				at, seen := k[f]
				if !seen {
					at.group = g
				}
				if at.group != g {
					at.group = -1
				}
				at.up, at.down = at.up || half > 0, at.down || half < 0
				k[f] = at
			}
		}
	}
	return k
}

// summed adds the loads of one option by factor.
func summed(loads []Load) map[int]float64 {
	sums := make(map[int]float64, len(loads))
	for _, l := range loads {
		sums[l.Factor] += l.Half
	}
	return sums
}

// load is what the loads of one option come to under weights, and the size of
// what was added. Loads that only its group has, and where split those of one
// sign, act as one load, since only one option of a group is chosen:
// (Σ h)² >= Σ h² for numbers of one sign.
func (k sides) load(loads []Load, own float64, shared map[int]float64, split bool) (sum, size float64) {
	var squares float64
	at := make([]Load, 0, len(loads))
	for _, l := range loads {
		found := false
		for i := range at {
			if at[i].Factor == l.Factor {
				at[i].Half += l.Half
				found = true
			}
		}
		if !found {
			at = append(at, l)
		}
	}
	for _, l := range at {
		s := k[l.Factor]
		if s.group >= 0 || split && !(s.up && s.down) {
			squares += l.Half * l.Half
			continue
		}
		sum += shared[l.Factor] * l.Half
		size += math.Abs(shared[l.Factor] * l.Half)
	}
	alone := own * math.Sqrt(squares)
	return sum + alone, size + math.Abs(alone)
}
