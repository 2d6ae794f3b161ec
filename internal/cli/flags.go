package cli

import (
	"flag"
	"fmt"
	"strconv"
	"strings"

	"potwright/internal/adaptation"
	"potwright/internal/measure"
)

// measuresFlag adds --measures: whose cups and spoons the recipe means.
func measuresFlag(f *flag.FlagSet, to *measure.System) {
	f.Func("measures", "whose cups and spoons the recipe means: us, uk, au or metric (us)", func(s string) error {
		system, ok := measure.ParseSystem(s)
		if !ok {
			return fmt.Errorf("%q is no system of cups and spoons; expected us, uk, au or metric", s)
		}
		*to = system
		return nil
	})
}

// lineFlag collects line numbers, counted from 1 by people and from 0 inside.
func lineFlag(to *[]int) func(string) error {
	return func(s string) error {
		n, err := strconv.Atoi(s)
		if err != nil || n < 1 {
			return fmt.Errorf("%q is no line number; expected 1, 2, 3 …", s)
		}
		*to = append(*to, n-1)
		return nil
	}
}

// pickFlag collects RULE (every line) or LINE:RULE.
func pickFlag(to *[]adaptation.Pick) func(string) error {
	return func(s string) error {
		line, rule, found := strings.Cut(s, ":")
		if !found {
			*to = append(*to, adaptation.Pick{Line: -1, Rule: s})
			return nil
		}
		n, err := strconv.Atoi(line)
		if err != nil || n < 1 || rule == "" {
			return fmt.Errorf("%q is no pick; expected LINE:RULE, such as 4:broth-no-salt-added", s)
		}
		*to = append(*to, adaptation.Pick{Line: n - 1, Rule: rule})
		return nil
	}
}
