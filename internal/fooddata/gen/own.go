package main

import (
	"fmt"
	"io/fs"
	"strconv"
	"strings"

	"potwright/internal/composition"
)

// readOwn makes the rows of our own from names/own.tsv. Each is a recipe of
// other rows: "sr:02047" alone, or shares that sum to 1, "sr:02047*0.75 +
// sr:02020*0.25"; then figures that replace those of the recipe
// ("sodium_mg=17", with spread and second value "90~25|10"; "*=?" first makes
// every other figure unknown), and the
// measures: "as sr:…" or "tsp=2.8; cup chopped=150".
func readOwn(here fs.FS, rows []*row) ([]*row, error) {
	byID := make(map[string]*row, len(rows))
	for _, r := range rows {
		byID[r.ID] = r
	}
	var out []*row
	err := eachLine(here, "names/"+ownFile, 10, func(_ int, f []string) error {
		r := &row{file: ownFile, defaults: f[5]}
		r.ID, r.Name, r.Kinds, r.States, r.Synonyms = f[0], f[1], strings.Fields(f[2]), strings.Fields(f[3]), list(f[4])
		if byID[r.ID] != nil {
			return fmt.Errorf("id %s stands twice", r.ID)
		}
		if err := mix(&r.Food, f[6], byID); err != nil {
			return err
		}
		if err := replace(&r.Food, f[7]); err != nil {
			return err
		}
		if err := ownMeasures(&r.Food, f[8], byID); err != nil {
			return err
		}
		r.Source = f[9]
		if !strings.HasPrefix(r.ID, "pw:") || r.Source == "" {
			return fmt.Errorf("%s: expected an id that begins with pw: and a source", r.ID)
		}
		byID[r.ID] = r
		out = append(out, r)
		return nil
	})
	return out, err
}

// readExtra adds the household measures of names/measures.tsv, which SR28
// lacks, to rows by id.
func readExtra(here fs.FS, rows []*row) error {
	byID := make(map[string]*row, len(rows))
	for _, r := range rows {
		byID[r.ID] = r
	}
	return eachLine(here, "names/"+extraFile, 3, func(_ int, f []string) error {
		r := byID[f[0]]
		if r == nil {
			return fmt.Errorf("no food %q; expected the id of a row", f[0])
		}
		if f[2] == "" {
			return fmt.Errorf("%s: expected a source", f[0])
		}
		return ownMeasures(&r.Food, f[1], byID)
	})
}

// mix sums the shares of other rows; a nutrient unknown in one is unknown.
func mix(f *composition.Food, recipe string, byID map[string]*row) error {
	var total float64
	for i, term := range strings.Split(recipe, "+") {
		id, factor, has := strings.Cut(strings.TrimSpace(term), "*")
		share := 1.0
		if has {
			x, err := strconv.ParseFloat(factor, 64)
			if err != nil {
				return fmt.Errorf("%q is not a share", factor)
			}
			share = x
		}
		part := byID[id]
		if part == nil {
			return fmt.Errorf("no food %q above; expected the id of a row", id)
		}
		total += share
		if i == 0 {
			f.Group = part.Group
			f.Refuse = part.Refuse
		}
		addShare(f, &part.Food, share, i == 0)
	}
	if total < 0.999 || total > 1.001 {
		return fmt.Errorf("the shares sum to %g; expected 1", total)
	}
	return nil
}

func addShare(f, part *composition.Food, share float64, first bool) {
	for n := range f.Nutrients {
		c, p := &f.Nutrients[n], part.Nutrients[n]
		c.Known = (first || c.Known) && p.Known
		if !c.Known {
			*c = composition.Content{}
			continue
		}
		c.Mid = round6(c.Mid + share*p.Mid)
		if share == 1 {
			*c = p
		}
	}
}

func round6(x float64) float64 {
	y, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 6, 64), 64)
	return y
}

// replace sets the figures that differ from the recipe.
func replace(f *composition.Food, changes string) error {
	for _, change := range list(changes) {
		key, text, _ := strings.Cut(change, "=")
		if key == "*" {
			f.Nutrients = [composition.NutrientCount]composition.Content{}
			continue
		}
		n, ok := composition.ParseNutrient(key)
		if !ok {
			return fmt.Errorf("unknown nutrient %q", key)
		}
		c, err := content(text)
		if err != nil {
			return fmt.Errorf("%s: %w", key, err)
		}
		f.Nutrients[n] = c
	}
	return nil
}

// content reads mid~sd|other, of which the last two may be left out.
func content(text string) (composition.Content, error) {
	c := composition.Content{Known: true}
	rest, other, has := strings.Cut(text, "|")
	c.HasOther = has
	mid, sd, spread := strings.Cut(rest, "~")
	for _, p := range []struct {
		text string
		to   *float64
		has  bool
	}{{mid, &c.Mid, true}, {sd, &c.SD, spread}, {other, &c.Other, has}} {
		if !p.has {
			continue
		}
		x, err := strconv.ParseFloat(p.text, 64)
		if err != nil {
			return c, fmt.Errorf("%q is not a number", p.text)
		}
		*p.to = x
	}
	return c, nil
}

func ownMeasures(f *composition.Food, text string, byID map[string]*row) error {
	for _, m := range list(text) {
		if id, as := strings.CutPrefix(m, "as "); as {
			if byID[id] == nil {
				return fmt.Errorf("no food %q above for measures", id)
			}
			f.Measures = append(f.Measures, byID[id].Measures...)
			continue
		}
		name, grams, _ := strings.Cut(m, "=")
		x, err := strconv.ParseFloat(grams, 64)
		if err != nil {
			return fmt.Errorf("measure %q: %q is not a weight", name, grams)
		}
		unit, qualifier, _ := strings.Cut(name, " ")
		if rest, ok := strings.CutPrefix(name, "fl oz"); ok {
			unit, qualifier = "fl oz", strings.TrimSpace(rest)
		}
		f.Measures = append(f.Measures, composition.Measure{Amount: 1, Unit: unit, Qualifier: qualifier, Grams: x})
	}
	return nil
}
