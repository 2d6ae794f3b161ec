package cli

import (
	"fmt"

	"potwright/internal/kitchen"
	"potwright/internal/recipe"
	"potwright/internal/schemaorg"
)

// convert writes recipes in another form; what the form has no place for is said on
// standard error.
func convert(r *run) (int, error) {
	o, err := r.parseRecipes("convert", false, nil, "text", "markdown", "jsonld")
	if err != nil {
		return exitDone, err
	}
	return exitDone, r.each(o, func(_ *kitchen.Kitchen, a kitchen.Analysis) error {
		switch o.format {
		case "markdown":
			_, err := fmt.Fprint(r.out, recipe.Markdown(a.Recipe))
			return err
		case "jsonld":
			lost, err := schemaorg.Write(r.out, a)
			for _, l := range lost {
				fmt.Fprintln(r.errs, "note: "+l)
			}
			return err
		}
		_, err := fmt.Fprint(r.out, recipe.Text(a.Recipe))
		return err
	})
}
