package cli_test

import (
	"encoding/json"
	"errors"
	"os/exec"
	"strconv"
	"strings"

	"github.com/rogpeppe/go-internal/testscript"
)

// status runs a command and holds its exit status: "status 2 potwright read x".
func status(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: status N command [args]")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	err = ts.Exec(args[1], args[2:]...)
	got := 0
	var exit *exec.ExitError
	if errors.As(err, &exit) {
		got = exit.ExitCode()
	} else if err != nil {
		ts.Fatalf("run %v: %v", args[1:], err)
	}
	if got != want {
		ts.Fatalf("exit status %d, want %d\n%s\n%s", got, want, ts.ReadFile("stdout"), ts.ReadFile("stderr"))
	}
}

// jsonKeys holds that standard output is one JSON object with these dotted
// keys: "json title lines.0.food.name".
func jsonKeys(ts *testscript.TestScript, neg bool, keys []string) {
	var doc any
	ts.Check(json.Unmarshal([]byte(ts.ReadFile("stdout")), &doc))
	for _, key := range keys {
		if _, ok := at(doc, strings.Split(key, ".")); ok == neg {
			ts.Fatalf("key %q: found %v", key, ok)
		}
	}
}

func at(doc any, path []string) (any, bool) {
	for _, p := range path {
		switch x := doc.(type) {
		case map[string]any:
			next, ok := x[p]
			if !ok {
				return nil, false
			}
			doc = next
		case []any:
			i, err := strconv.Atoi(p)
			if err != nil || i >= len(x) {
				return nil, false
			}
			doc = x[i]
		default:
			return nil, false
		}
	}
	return doc, true
}
