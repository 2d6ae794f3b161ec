package choice

import "math"

// cut is a linear inequality Σ a <= of.b that every choice keeping the line
// keeps: the line itself, or for a cone its tangent.
type cut struct {
	a    []float64
	size float64 // largest |a|
	of   *line
	// lean are the weights of a tangent, by group and then by shared factor.
	lean []float64
}

// tableau is a condensed simplex tableau of the relaxation in which options may
// be mixed. One basic variable of each group, its key, has no stored row: its
// row is "the group adds up to 1" less the group's other basic rows. What is
// stored is therefore one row per cut, over the non-basic columns. Variables
// below n are options, n+k is the slack of cuts[k].
type tableau struct {
	m      *model
	key    []int32
	nb, bs []int32 // non-basic variable of each column, basic one of each row
	t      []float64
	stride int
	rhs, d []float64 // values of the basic variables; reduced costs
	z      float64
	cuts   []*cut
	sum    []float64 // by group: what its stored basic variables add up to
	work   int       // figures gone through since it was last asked
}

// Tolerances of the simplex. They steer the search and never decide anything:
// bounds are computed afresh from the multipliers, whatever these are.
const (
	tinyPivot = 1e-9
	tinyValue = 1e-9
	maxPivots = 400
)

type outcome int

const (
	solved  outcome = iota
	over            // the cost passed the limit
	blocked         // no mix keeps the cuts
	stuck           // gave up; the multipliers at hand still give a bound
)

// took is the work since it was last asked.
func (t *tableau) took() int {
	w := t.work
	t.work = 0
	return w
}

func (t *tableau) row(i int) []float64 { return t.t[i*t.stride : i*t.stride+len(t.nb)] }

// start lays out the tableau without cuts: the cheapest option of each group is
// basic, which is dual feasible.
func (t *tableau) start(m *model, n *node, cost []float64) {
	t.m = m
	groups := len(m.p.Groups)
	t.key = resize(t.key, groups)
	t.sum = resize(t.sum, groups)
	t.nb, t.bs, t.t, t.rhs, t.d, t.cuts, t.z = t.nb[:0], t.bs[:0], t.t[:0], t.rhs[:0], t.d[:0], t.cuts[:0], 0
	for g := range groups {
		live := n.options(m, g)
		key := live[0]
		for _, c := range live[1:] {
			if cost[c] < cost[key] || cost[c] == cost[key] && c < key {
				key = c
			}
		}
		t.key[g] = key
		t.z += cost[key]
		for _, c := range live {
			if c != key {
				t.nb = append(t.nb, c)
				t.d = append(t.d, cost[c]-cost[key])
			}
		}
	}
	t.stride = len(t.nb)
}

func resize[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n)
	}
	return s[:n]
}

// copyFrom makes t equal to u, leaving out space of dropped columns.
func (t *tableau) copyFrom(u *tableau) {
	t.m, t.z, t.stride = u.m, u.z, len(u.nb)
	t.key = append(t.key[:0], u.key...)
	t.sum = resize(t.sum, len(u.sum))
	t.nb = append(t.nb[:0], u.nb...)
	t.bs = append(t.bs[:0], u.bs...)
	t.rhs = append(t.rhs[:0], u.rhs...)
	t.d = append(t.d[:0], u.d...)
	t.cuts = append(t.cuts[:0], u.cuts...)
	t.t = t.t[:0]
	t.work += len(u.bs) * len(u.nb)
	for i := range u.bs {
		t.t = append(t.t, u.row(i)...)
	}
}

// dropColumn forgets a non-basic column that may never enter.
func (t *tableau) dropColumn(j int) {
	last := len(t.nb) - 1
	for i := range t.bs {
		t.t[i*t.stride+j] = t.t[i*t.stride+last]
	}
	t.nb[j], t.d[j] = t.nb[last], t.d[last]
	t.nb, t.d = t.nb[:last], t.d[:last]
}

// dropBanned forgets every column whose option is no longer allowed.
func (t *tableau) dropBanned(alive []bool) {
	for j := len(t.nb) - 1; j >= 0; j-- {
		if v := int(t.nb[j]); v < t.m.n && !alive[v] {
			t.dropColumn(j)
		}
	}
}

// purge forgets rows whose slack is basic and larger than room.
func (t *tableau) purge(room float64) {
	for i := len(t.bs) - 1; i >= 0; i-- {
		k := int(t.bs[i]) - t.m.n
		if k < 0 || t.rhs[i] <= room {
			continue
		}
		t.cuts[k] = nil
		last := len(t.bs) - 1
		if i != last {
			copy(t.row(i), t.row(last))
		}
		t.bs[i], t.rhs[i] = t.bs[last], t.rhs[last]
		t.bs, t.rhs, t.t = t.bs[:last], t.rhs[:last], t.t[:last*t.stride]
	}
}

// addCut enters a cut with its slack basic.
func (t *tableau) addCut(c *cut) {
	slot := len(t.cuts)
	for k := range t.cuts {
		if t.cuts[k] == nil {
			slot = k
			break
		}
	}
	if slot == len(t.cuts) {
		t.cuts = append(t.cuts, c)
	} else {
		t.cuts[slot] = c
	}
	i := len(t.bs)
	t.work += (i + 1) * t.stride
	need := (i + 1) * t.stride
	if cap(t.t) < need {
		grown := make([]float64, i*t.stride, 2*need+8*t.stride)
		copy(grown, t.t)
		t.t = grown
	}
	t.t = t.t[:need]
	t.bs = append(t.bs, int32(t.m.n+slot))
	row := t.row(i)
	rhs := c.of.b
	for _, k := range t.key {
		rhs -= c.a[k]
	}
	for j, v := range t.nb {
		row[j] = 0
		if int(v) < t.m.n {
			row[j] = c.a[v] - c.a[t.key[t.m.grp[v]]]
		}
	}
	for r := range i {
		v := int(t.bs[r])
		if v >= t.m.n {
			continue
		}
		f := c.a[v] - c.a[t.key[t.m.grp[v]]]
		if f != 0 {
			subtract(row, t.row(r), f)
			rhs -= f * t.rhs[r]
		}
	}
	t.rhs = append(t.rhs, rhs)
}

// subtract takes f times b from a.
func subtract(a, b []float64, f float64) {
	b = b[:len(a)]
	for j := range a {
		a[j] -= f * b[j]
	}
}

// solve runs the dual simplex until no basic variable is negative or banned, or
// the cost passes the limit. Where it is blocked the second value is the row
// that cannot be mended, the third its sign.
func (t *tableau) solve(alive []bool, limit float64) (outcome, int, float64) {
	t.dropBanned(alive)
	for range maxPivots {
		if t.z > limit {
			return over, 0, 0
		}
		i, g, sign := t.leaving(alive)
		if i < 0 && g < 0 {
			return solved, 0, 0
		}
		if i < 0 {
			if i = t.partner(g, alive); i < 0 {
				if !t.exchange(g) {
					return stuck, 0, 0
				}
				continue
			}
			t.swapKey(g, i)
		}
		j := t.entering(i, sign)
		if j < 0 {
			return blocked, i, sign
		}
		t.pivot(i, j)
		if v := int(t.nb[j]); v < t.m.n && !alive[v] {
			t.dropColumn(j)
		}
	}
	return stuck, 0, 0
}

// leaving picks the basic variable farthest outside its range: a stored row, or
// else the key of a group. sign is -1 where it must rise, +1 where it must fall.
func (t *tableau) leaving(alive []bool) (row, group int, sign float64) {
	row, group = -1, -1
	clear(t.sum)
	worst := tinyValue
	for i, v := range t.bs {
		x := t.rhs[i]
		if int(v) < t.m.n {
			t.sum[t.m.grp[v]] += x
			if x > worst && !alive[v] {
				worst, row, sign = x, i, 1
			}
		}
		if -x > worst {
			worst, row, sign = -x, i, -1
		}
	}
	for g, k := range t.key {
		x := 1 - t.sum[g]
		if x > worst && !alive[k] {
			worst, row, group, sign = x, -1, g, 1
		}
		if -x > worst {
			worst, row, group, sign = -x, -1, g, -1
		}
	}
	return row, group, sign
}

// partner is the stored row of a basic option of the group that may become its
// key, or -1.
func (t *tableau) partner(g int, alive []bool) int {
	best, size := -1, math.Inf(-1)
	for i, v := range t.bs {
		if int(v) >= t.m.n || int(t.m.grp[v]) != g {
			continue
		}
		x := t.rhs[i]
		if !alive[v] {
			x -= 1e6
		}
		if x > size {
			best, size = i, x
		}
	}
	return best
}

// swapKey makes the option of stored row i the key of its group and stores the
// old key's row instead.
func (t *tableau) swapKey(g, i int) {
	row := t.row(i)
	v := t.bs[i]
	for j := range row {
		row[j] = -row[j]
		if u := int(t.nb[j]); u < t.m.n && int(t.m.grp[u]) == g {
			row[j]++
		}
	}
	rhs := 1 - t.rhs[i]
	for r, u := range t.bs {
		if r != i && int(u) < t.m.n && int(t.m.grp[u]) == g {
			subtract(row, t.row(r), 1)
			rhs -= t.rhs[r]
		}
	}
	t.bs[i], t.rhs[i], t.key[g] = t.key[g], rhs, v
}

// exchange replaces a banned key whose group has no other basic option by the
// cheapest other one.
func (t *tableau) exchange(g int) bool {
	best := -1
	for j, v := range t.nb {
		if int(v) < t.m.n && int(t.m.grp[v]) == g && (best < 0 || t.d[j] < t.d[best]) {
			best = j
		}
	}
	if best < 0 {
		return false
	}
	d := t.d[best]
	t.z += d
	for j, v := range t.nb {
		if j == best || int(v) >= t.m.n || int(t.m.grp[v]) != g {
			continue
		}
		t.d[j] -= d
		for i := range t.bs {
			t.t[i*t.stride+j] -= t.t[i*t.stride+best]
		}
	}
	for i := range t.bs {
		t.rhs[i] -= t.t[i*t.stride+best]
	}
	t.key[g] = t.nb[best]
	t.dropColumn(best)
	return true
}

// entering is the column that keeps the reduced costs from going negative, the
// larger pivot where two do; -1 where there is none.
func (t *tableau) entering(i int, sign float64) int {
	best, ratio, size := -1, math.Inf(1), 0.0
	d := t.d
	for j, v := range t.row(i) {
		v *= sign
		if v <= tinyPivot {
			continue
		}
		q := d[j] / v
		if q < ratio-1e-12 || q <= ratio+1e-12 && v > size {
			best, ratio, size = j, q, v
		}
	}
	return best
}

func (t *tableau) pivot(i, j int) {
	t.work += (len(t.bs) + 2) * len(t.nb)
	row := t.row(i)
	p := row[j]
	inv := 1 / p
	for k := range row {
		row[k] *= inv
	}
	t.rhs[i] *= inv
	row[j] = 0
	for r := range t.bs {
		f := t.t[r*t.stride+j]
		if r == i || f == 0 {
			continue
		}
		other := t.row(r)
		subtract(other, row, f)
		other[j] = -f * inv
		t.rhs[r] -= f * t.rhs[i]
	}
	f := t.d[j]
	t.z += f * t.rhs[i]
	for k, v := range row {
		t.d[k] = max(t.d[k]-f*v, 0)
	}
	t.d[j] = max(-f*inv, 0)
	row[j] = inv
	t.bs[i], t.nb[j] = t.nb[j], t.bs[i]
}

// multipliers are the clamped duals of the cuts.
func (t *tableau) multipliers(into []float64) []float64 {
	into = resize(into, len(t.cuts))
	clear(into)
	for j, v := range t.nb {
		if k := int(v) - t.m.n; k >= 0 {
			into[k] = max(t.d[j], 0)
		}
	}
	return into
}

// ray are multipliers that show a blocked row cannot be mended.
func (t *tableau) ray(i int, sign float64, into []float64) []float64 {
	into = resize(into, len(t.cuts))
	clear(into)
	for j, v := range t.row(i) {
		if k := int(t.nb[j]) - t.m.n; k >= 0 {
			into[k] = max(-sign*v, 0)
		}
	}
	if k := int(t.bs[i]) - t.m.n; k >= 0 {
		into[k] = 1
	}
	return into
}

// point writes the mix of options.
func (t *tableau) point(n *node) {
	x := n.x
	clear(x)
	clear(t.sum)
	for i, v := range t.bs {
		if int(v) < t.m.n {
			t.sum[t.m.grp[v]] += t.rhs[i]
		}
	}
	for g, k := range t.key {
		x[k] = 1 - t.sum[g]
	}
	for i, v := range t.bs {
		if int(v) < t.m.n {
			x[v] = max(t.rhs[i], 0)
		}
	}
}
