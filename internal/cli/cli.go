// Package cli is the command line: each subcommand parses its flags, calls the
// kitchen and writes text or JSON.
package cli

import (
	"errors"
	"flag"
	"fmt"
	"io"

	"potwright/internal/diagnostic"
	"potwright/internal/store/sqlite"
)

// Exit statuses.
const (
	exitDone    = 0 // done, and everyone is inside
	exitFailed  = 1 // anything else
	exitInput   = 2 // the input could not be used
	exitOutside = 3 // done, and someone is not inside
)

// run is one call of the program.
type run struct {
	args []string
	in   io.Reader
	out  io.Writer
	errs io.Writer
	// rules are folders of own rules given by flag.
	rules []string
	// foodsFolder is the folder of imported foods asked for.
	foodsFolder string
}

type command struct {
	name, summary string
	do            func(*run) (int, error)
	// onFile is set where it works on the data file itself and on no server.
	onFile bool
}

func commands() []command {
	return []command{
		{name: "serve", summary: "open the pages in a browser (--demo for an invented household)", do: serve, onFile: true},
		{name: "read", summary: "show how each ingredient line is read", do: read},
		{name: "analyse", summary: "compute the nutrients of the pot and of a serving", do: analyse},
		{name: "report", summary: "every figure line by line, with its source, to check or keep (text, csv, json)", do: report},
		{name: "scale", summary: "write a recipe for another number of servings", do: scale},
		{name: "convert", summary: "write a recipe as plain text, Markdown or schema.org JSON-LD", do: convert},
		{name: "check", summary: "say what a dish means for everyone in a household", do: check},
		{name: "adapt", summary: "find the least change that suits everyone", do: adapt},
		{name: "sweep", summary: "say of every recipe whether it suits the household now (--swaps looks for swaps)", do: sweep},
		{name: "recipes", summary: "list saved recipes (--words and --tag look for some)", do: recipes},
		{name: "save", summary: "save recipe files as new recipes, or one as a further version of a saved recipe", do: save},
		{name: "photo", summary: "photo list, add FILE ... and remove NUMBER ...: the photos of a saved recipe", do: photos, onFile: true},
		{name: "foods", summary: "search the food table; foods import FILE takes in a USDA distribution or a CSV file", do: foods},
		{name: "rules", summary: "list the swap rules; rules check [FOLDER ...] finds every fault of your own", do: rulebook},
		{name: "export", summary: "write everything kept as one readable archive (a zip of text and JSON)", do: export},
		{name: "import", summary: "take an archive in: households as new ones, or recipes into a household", do: importAll},
		{name: "backup", summary: "write a copy of a data file, also while it is in use; backup check FILE says whether one is whole", do: backup, onFile: true},
		{name: "restore", summary: "put a backup in the place of a data file, which is kept aside", do: restore, onFile: true},
		{name: "passphrase", summary: "passphrase set: set a keeper's passphrase; from then on every page asks to sign in", do: passphrase, onFile: true},
		{name: "diagnose", summary: "print what someone who helps needs to know: versions, counts, settings; no names, recipes or limits", do: diagnose, onFile: true},
		{name: "completion", summary: "print a script that completes commands and flags in bash, zsh or fish", do: completion},
		{name: "version", summary: "print the version, the licence and where the figures come from", do: version},
	}
}

// Main runs the program with the arguments after its name and returns the exit
// status.
func Main(args []string, in io.Reader, out, errs io.Writer) int {
	if len(args) == 0 {
		usage(out)
		return exitInput
	}
	if args[0] == "help" || args[0] == "-h" || args[0] == "--help" {
		return help(args[1:], out, errs)
	}
	c, ok := find(args[0], errs)
	if !ok {
		return exitInput
	}
	if err := elsewhere(c, args[1:]); err != nil {
		fmt.Fprintln(errs, "potwright "+c.name+": "+err.Error())
		return exitInput
	}
	return finish(c, &run{args: args[1:], in: in, out: out, errs: errs})
}

// finish runs a command and turns its error into a message and a status.
func finish(c command, r *run) int {
	status, err := c.do(r)
	var faults diagnostic.Faults
	var bad inputError
	var broken *sqlite.DamagedError
	switch {
	case err == nil, errors.Is(err, flag.ErrHelp):
		return status
	case errors.As(err, &faults):
		fmt.Fprintln(r.errs, faults.Error())
		return exitInput
	case errors.As(err, &bad):
		fmt.Fprintln(r.errs, "potwright "+c.name+": "+bad.Error())
		return exitInput
	case errors.As(err, &broken):
		fmt.Fprintln(r.errs, "potwright "+c.name+": "+err.Error())
		fmt.Fprintln(r.errs, wayBack(broken))
		return exitFailed
	default:
		fmt.Fprintln(r.errs, "potwright "+c.name+": "+err.Error())
		return exitFailed
	}
}

// inputError is a fault of what the caller gave: a flag, a missing file.
type inputError struct{ error }

func badInput(format string, args ...any) error {
	return inputError{fmt.Errorf(format, args...)}
}
