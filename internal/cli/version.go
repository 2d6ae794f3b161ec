package cli

import (
	"fmt"
	"strings"

	"potwright/internal/about"
	"potwright/internal/kitchen"
	"potwright/internal/store/sqlite"
)

// version prints which program this is, its licence and where its figures come from.
func version(r *run) (int, error) {
	o, err := r.parse("version", nil)
	if err != nil {
		return exitDone, err
	}
	if len(o.files) > 0 {
		return exitDone, badInput("version takes no %q", o.files[0])
	}
	build, _ := about.ReadBuild()
	schema, err := sqlite.NewestSchema()
	if err != nil {
		return exitFailed, err
	}
	if o.format == "json" {
		return exitDone, r.json(struct {
			about.Build
			Schema  int            `json:"schema"`
			Licence string         `json:"licence"`
			Sources []about.Source `json:"sources"`
		}{build, schema, about.Licence, about.Sources()})
	}
	var b strings.Builder
	fmt.Fprintf(&b, "potwright %s, %s, data file schema %d\n", orUnknown(build.Version), orUnknown(build.Go), schema)
	if build.Revision != "" {
		fmt.Fprintf(&b, "built from %s%s\n", build.Revision, map[bool]string{true: ", with changes"}[build.Changed])
	}
	fmt.Fprintf(&b, "%s licence\n\nFigures come from:\n", about.Licence)
	for _, s := range about.Sources() {
		fmt.Fprintf(&b, "  %s: %s (%s)\n", s.Name, s.What, s.Terms)
	}
	fmt.Fprintln(&b, kitchen.Caution)
	_, err = fmt.Fprint(r.out, b.String())
	return exitDone, err
}

func orUnknown(s string) string {
	if s == "" {
		return "of unknown version"
	}
	return s
}
