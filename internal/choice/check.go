package choice

import (
	"fmt"
	"math"
	"slices"
)

// largest is how large a number of a row may be, so that squares stay finite.
const largest = 1e100

// exactInt is the range of integers that a float64 holds exactly.
const exactInt = 1 << 53

// check reports the first thing that makes a problem malformed.
func check(p Problem) error {
	if err := checkGroups(p); err != nil {
		return err
	}
	for r := range p.Rows {
		if err := checkRow(p, r); err != nil {
			return fmt.Errorf("row %d (%s): %w", r, p.Rows[r].Name, err)
		}
	}
	for s, set := range p.Apart {
		for _, k := range set {
			if k.Group < 0 || k.Group >= len(p.Groups) || k.Option < 0 || k.Option >= len(p.Groups[k.Group].Options) {
				return fmt.Errorf("apart set %d: there is no option %d of group %d", s, k.Option, k.Group)
			}
		}
	}
	return nil
}

func checkGroups(p Problem) error {
	levels := -1
	for g, group := range p.Groups {
		if len(group.Options) == 0 {
			return fmt.Errorf("group %d: has no option, expected at least one", g)
		}
		for o, option := range group.Options {
			if levels < 0 {
				levels = len(option.Cost)
			}
			if len(option.Cost) != levels {
				return fmt.Errorf("group %d, option %d: %d cost levels, expected %d as in the first option",
					g, o, len(option.Cost), levels)
			}
		}
	}
	for l := range max(levels, 0) {
		var span float64
		for _, group := range p.Groups {
			var low, high int64 = math.MaxInt64, math.MinInt64
			for _, option := range group.Options {
				low, high = min(low, option.Cost[l]), max(high, option.Cost[l])
			}
			span += max(float64(high)-float64(low), math.Abs(float64(low)), math.Abs(float64(high)))
		}
		if span >= exactInt/2 {
			return fmt.Errorf("cost level %d: costs add up to %g, expected less than 2^52", l, span)
		}
	}
	return nil
}

func checkRow(p Problem, r int) error {
	row := p.Rows[r]
	if !usable(row.Bound) {
		return fmt.Errorf("bound is %g, expected a finite number", row.Bound)
	}
	if len(row.Mid) != len(p.Groups) {
		return fmt.Errorf("mid has %d groups, expected %d", len(row.Mid), len(p.Groups))
	}
	if row.Loads != nil && len(row.Loads) != len(p.Groups) {
		return fmt.Errorf("loads have %d groups, expected %d", len(row.Loads), len(p.Groups))
	}
	for g, mid := range row.Mid {
		options := len(p.Groups[g].Options)
		if len(mid) != options {
			return fmt.Errorf("group %d: mid has %d options, expected %d", g, len(mid), options)
		}
		if o := slices.IndexFunc(mid, func(v float64) bool { return !usable(v) }); o >= 0 {
			return fmt.Errorf("group %d, option %d: mid is %g, expected a finite number", g, o, mid[o])
		}
		if row.Loads == nil || row.Loads[g] == nil {
			continue
		}
		if len(row.Loads[g]) != options {
			return fmt.Errorf("group %d: loads have %d options, expected %d", g, len(row.Loads[g]), options)
		}
		for o, loads := range row.Loads[g] {
			for _, load := range loads {
				if !usable(load.Half) {
					return fmt.Errorf("group %d, option %d, factor %d: load is %g, expected a finite number",
						g, o, load.Factor, load.Half)
				}
			}
		}
	}
	return nil
}

func usable(v float64) bool { return math.Abs(v) <= largest }
