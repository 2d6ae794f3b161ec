package cli

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"regexp"
	"strings"

	"potwright/internal/diagnostic"
)

// parseFlags reads the flags of a command. What is wrong with one is told in a sentence
// of its own, not by the list of all of them, which help prints; flag.ErrHelp where that
// was asked for, once it is printed.
func (r *run) parseFlags(f *flag.FlagSet, args []string) error {
	f.SetOutput(io.Discard)
	err := f.Parse(args)
	switch {
	case err == nil:
		return nil
	case errors.Is(err, flag.ErrHelp):
		f.SetOutput(r.errs)
		f.Usage()
		return err
	}
	return inputError{errors.New(flagWords(f, err.Error()) + "; " + f.Name() + " -h lists the flags")}
}

// The messages of package flag.
var (
	noSuchFlag  = regexp.MustCompile(`^flag provided but not defined: -+(.*)$`)
	noFlagValue = regexp.MustCompile(`^flag needs an argument: -+(.*)$`)
	wrongValue  = regexp.MustCompile(`(?s)^invalid (?:boolean )?value ("(?:[^"\\]|\\.)*") for (?:flag )?-([^:]*): (.*)$`)
)

func flagWords(f *flag.FlagSet, said string) string {
	if m := noSuchFlag.FindStringSubmatch(said); m != nil {
		var names []string
		f.VisitAll(func(other *flag.Flag) { names = append(names, other.Name) })
		words := "there is no flag --" + m[1]
		if near := diagnostic.Nearest(m[1], names); near != "" {
			words += "; did you mean --" + near + "?"
		}
		return words
	}
	if m := noFlagValue.FindStringSubmatch(said); m != nil {
		return fmt.Sprintf("--%s has no value; expected %s behind it", m[1], valueWords(f, m[1]))
	}
	if m := wrongValue.FindStringSubmatch(said); m != nil {
		if strings.Contains(m[3], "expected ") {
			return fmt.Sprintf("--%s: %s", m[2], m[3])
		}
		return fmt.Sprintf("--%s is %s; expected %s", m[2], m[1], valueWords(f, m[2]))
	}
	return said
}

// valueWords are what a flag takes.
func valueWords(f *flag.FlagSet, name string) string {
	known := f.Lookup(name)
	if known == nil {
		return "a value"
	}
	if get, ok := known.Value.(flag.Getter); ok {
		switch get.Get().(type) {
		case bool:
			return "true or false"
		case int:
			return "a whole number, such as 3"
		case float64:
			return "a number, such as 4"
		}
	}
	return known.Usage
}
