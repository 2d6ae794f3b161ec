package fooddata

import (
	"fmt"
	"strconv"
	"strings"

	"potwright/internal/composition"
)

// fault puts file and line before what is wrong.
func fault(file string, line int, err error) error {
	return fmt.Errorf("%s:%d: %w", file, line, err)
}

// fixedColumns are the columns of a food before its nutrients: id, name, group,
// refuse, states, kinds, synonyms, default for, source.
const fixedColumns = 9

func parseFood(line string) (*composition.Food, error) {
	cols := strings.Split(line, "\t")
	if want := fixedColumns + composition.NutrientCount; len(cols) != want {
		return nil, fmt.Errorf("%d columns; expected %d", len(cols), want)
	}
	f := &composition.Food{
		ID: cols[0], Name: cols[1], Group: composition.Group(cols[2]),
		States: strings.Fields(cols[4]), Kinds: strings.Fields(cols[5]),
		Synonyms: list(cols[6]), Source: cols[8],
	}
	refuse, err := strconv.ParseFloat(cols[3], 64)
	if err != nil || refuse < 0 || refuse >= 1 {
		return nil, fmt.Errorf("refuse %q; expected a share from 0 to 1", cols[3])
	}
	f.Refuse = refuse
	if f.Defaults, err = parseDefaults(cols[7]); err != nil {
		return nil, err
	}
	for n := range f.Nutrients {
		if f.Nutrients[n], err = parseContent(cols[fixedColumns+n]); err != nil {
			return nil, fmt.Errorf("%s: %w", composition.Nutrient(n).Key(), err)
		}
	}
	return f, nil
}

// parseContent reads mid~sd#n|other; an empty cell is unknown.
func parseContent(s string) (c composition.Content, err error) {
	if s == "" {
		return c, nil
	}
	c.Known = true
	rest, other, has := strings.Cut(s, "|")
	if c.HasOther = has; has {
		if c.Other, err = amount(other); err != nil {
			return c, err
		}
	}
	rest, n, has := strings.Cut(rest, "#")
	if has {
		if c.N, err = strconv.Atoi(n); err != nil {
			return c, fmt.Errorf("%q is not a number of samples", n)
		}
	}
	mid, sd, has := strings.Cut(rest, "~")
	if has {
		if c.SD, err = amount(sd); err != nil {
			return c, err
		}
	}
	c.Mid, err = amount(mid)
	return c, err
}

func amount(s string) (float64, error) {
	x, err := strconv.ParseFloat(s, 64)
	if err != nil || !(x >= 0) || x > 1e6 {
		return 0, fmt.Errorf("%q; expected an amount of 0 or more", s)
	}
	return x, nil
}

// parseDefaults reads "phrase@unit,unit=weight: why; …"; all but the phrase may
// be left out.
func parseDefaults(s string) ([]composition.Default, error) {
	var out []composition.Default
	for _, item := range list(s) {
		d := composition.Default{Weight: 1}
		head, why, _ := strings.Cut(item, ":")
		d.Why = strings.TrimSpace(why)
		head, weight, has := strings.Cut(head, "=")
		if has {
			x, err := strconv.ParseFloat(weight, 64)
			if err != nil || x <= 0 || x > 1 {
				return nil, fmt.Errorf("default %q: weight %q; expected over 0 and at most 1", item, weight)
			}
			d.Weight = x
		}
		phrase, units, has := strings.Cut(head, "@")
		d.Phrase = strings.TrimSpace(phrase)
		if has {
			d.Units = strings.Split(units, ",")
		}
		out = append(out, d)
	}
	return out, nil
}

// parseMeasure reads id, amount, unit, qualifier, grams, sd, n.
func parseMeasure(line string, byID map[string]*composition.Food) error {
	cols := strings.Split(line, "\t")
	if len(cols) != 7 {
		return fmt.Errorf("%d columns; expected 7", len(cols))
	}
	f := byID[cols[0]]
	if f == nil {
		return fmt.Errorf("measure of %q; expected the id of a food", cols[0])
	}
	m := composition.Measure{Unit: cols[2], Qualifier: cols[3]}
	var err error
	if m.Amount, err = amount(cols[1]); err != nil {
		return err
	}
	if m.Grams, err = amount(cols[4]); err != nil {
		return err
	}
	if cols[5] != "" {
		if m.SD, err = amount(cols[5]); err != nil {
			return err
		}
	}
	if cols[6] != "" {
		if m.N, err = strconv.Atoi(cols[6]); err != nil {
			return fmt.Errorf("%q is not a number of samples", cols[6])
		}
	}
	f.Measures = append(f.Measures, m)
	return nil
}

// list splits "a; b; c".
func list(s string) []string {
	if s == "" {
		return nil
	}
	out := strings.Split(s, ";")
	for i := range out {
		out[i] = strings.TrimSpace(out[i])
	}
	return out
}
