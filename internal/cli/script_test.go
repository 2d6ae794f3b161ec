package cli_test

import (
	"os"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"potwright/internal/cli"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"potwright": func() { os.Exit(cli.Main(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) },
	})
}

// TestScripts runs the command line as a person would: each script in
// testdata/scripts is one subcommand with its files attached. "status N CMD…"
// holds the exit status.
func TestScripts(t *testing.T) {
	if slowed {
		t.Skip("each of a hundred commands is a process of its own that reads the food table, on one goroutine")
	}
	testscript.Run(t, testscript.Params{
		Dir:                 "../../testdata/scripts",
		RequireExplicitExec: true,
		Cmds:                map[string]func(*testscript.TestScript, bool, []string){"status": status, "json": jsonKeys},
	})
}
