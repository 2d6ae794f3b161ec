// Package about is what the program says of itself: version, licence, where its
// figures come from.
package about

import (
	"runtime/debug"
	"slices"
)

// Licence is the licence of the program and of its rules.
const Licence = "MIT"

// Source is a body of data that the program's figures come from.
type Source struct {
	Name, What, Terms string
}

// Sources lists where figures come from, the largest part first.
func Sources() []Source {
	return []Source{
		{"USDA National Nutrient Database for Standard Reference, Release 28 (2015)", "nutrients, household measures, refuse, LanguaL codes of foods", publicDomain},
		{"USDA Food and Nutrient Database for Dietary Studies 2017–2018", "newer values of some foods; added sugars are inferred from its food-pattern equivalents", publicDomain},
		{"USDA Table of Nutrient Retention Factors, Release 6 (2007)", "what cooking leaves of vitamins and minerals", publicDomain},
		{"USDA Table of Cooking Yields for Meat and Poultry, Release 2 (2014)", "what cooked meat weighs", publicDomain},
		{"rules of the program", "swaps, needs, keeping and taste, each entry with its own source or \"common practice\"", "of the program, " + Licence + " licence"},
	}
}

const publicDomain = "work of the US Government, public domain"

// Build is which program this is.
type Build struct {
	// Version is the module's version, "(devel)" for one built from a checkout.
	Version string
	// Go is the version it was built with.
	Go string
	// Revision is the commit it was built from, "" where it is not known; Changed is
	// set where files differed from that commit.
	Revision string
	Changed  bool
	// Libraries are the modules in it, "path version", in order.
	Libraries []string
}

// ReadBuild tells which program this is; ok is false where the linker left nothing.
func ReadBuild() (b Build, ok bool) {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return Build{}, false
	}
	b = Build{Version: info.Main.Version, Go: info.GoVersion}
	for _, s := range info.Settings {
		switch s.Key {
		case "vcs.revision":
			b.Revision = s.Value
		case "vcs.modified":
			b.Changed = s.Value == "true"
		}
	}
	for _, m := range info.Deps {
		if m.Replace != nil {
			m = m.Replace
		}
		if m.Version != "" {
			b.Libraries = append(b.Libraries, m.Path+" "+m.Version)
		}
	}
	slices.Sort(b.Libraries)
	return b, true
}
