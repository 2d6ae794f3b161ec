package cli

import (
	"flag"
	"fmt"

	"potwright/internal/kitchen"
)

// scale writes a recipe for another number of servings; what is not scaled is
// said on standard error.
func scale(r *run) (int, error) {
	var servings float64
	o, err := r.parseRecipes("scale", false, func(f *flag.FlagSet) {
		f.Float64Var(&servings, "servings", 0, "how many servings the recipe shall give")
	})
	if err != nil {
		return exitDone, err
	}
	if servings == 0 {
		return exitDone, badInput("no number of servings; expected --servings N")
	}
	return exitDone, r.each(o, func(_ *kitchen.Kitchen, a kitchen.Analysis) error {
		scaled, err := a.Scaled(servings)
		if err != nil {
			return err
		}
		if o.format == "json" {
			return r.json(scaled)
		}
		for _, note := range scaled.Notes {
			if _, err := fmt.Fprintln(r.errs, "note: "+note); err != nil {
				return err
			}
		}
		_, err = fmt.Fprint(r.out, scaled.Text)
		return err
	})
}
