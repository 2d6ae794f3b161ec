package cli

import (
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"os"
	"slices"
	"strings"

	"potwright/internal/diagnostic"
	"potwright/internal/household"
	"potwright/internal/measure"
	"potwright/internal/ruleset"
	"potwright/internal/schemaorg"
)

// options are the flags that several commands share.
type options struct {
	format    string
	household string
	// measures is whose cups and spoons the lines are measured in; a household
	// named says so itself.
	measures measure.System
	files    []string
	// place is where saved recipes and households are, recipes the saved ones asked for.
	place   place
	recipes []string
}

// parse reads flags, those that more adds among them, and file names. formats are what --format may be, the first unless said; text
// and json where none are given.
func (r *run) parse(name string, more func(*flag.FlagSet), formats ...string) (options, error) {
	var o options
	if len(formats) == 0 {
		formats = []string{"text", "json"}
	}
	choice := strings.Join(formats[:len(formats)-1], ", ") + " or " + formats[len(formats)-1]
	f := flag.NewFlagSet("potwright "+name, flag.ContinueOnError)
	f.StringVar(&o.format, "format", formats[0], choice)
	r.rulesFlag(f)
	r.foodsFlag(f)
	if more != nil {
		more(f)
	}
	if err := r.parseFlags(f, r.args); err != nil {
		return o, err
	}
	o.files = f.Args()
	if !slices.Contains(formats, o.format) {
		return o, badInput("--format %q is not known; expected %s", o.format, choice)
	}
	return o, nil
}

// text is one recipe given to a command.
type text struct{ name, body string }

// texts reads the files named, or standard input for "-".
func (r *run) texts(files []string) ([]text, error) {
	if len(files) == 0 {
		return nil, badInput("no recipe; expected a file name, or - for standard input")
	}
	var out []text
	for _, name := range files {
		body, err := r.body(name)
		if err != nil {
			return nil, err
		}
		if body, err = r.marked(name, body); err != nil {
			return nil, err
		}
		out = append(out, text{name, body})
	}
	return out, nil
}

// marked is the recipe in JSON-LD or in a page that holds some, in plain words, and
// any other text as it is. What is not taken over is told.
func (r *run) marked(name, body string) (string, error) {
	found, ok, err := schemaorg.Read(body)
	var fault diagnostic.Fault
	if errors.As(err, &fault) {
		return "", inFile(name, diagnostic.Faults{fault})
	}
	if err != nil || !ok {
		return body, err
	}
	for _, l := range found.Lost {
		fmt.Fprintf(r.errs, "potwright: note: %s: %s\n", name, l)
	}
	return found.Text, nil
}

func (r *run) body(name string) (string, error) {
	if name == "-" {
		b, err := io.ReadAll(r.in)
		if err != nil {
			return "", fmt.Errorf("read standard input: %w", err)
		}
		return string(b), nil
	}
	b, err := os.ReadFile(name)
	if err != nil {
		return "", notRead("file", name, err)
	}
	return string(b), nil
}

// notRead says why a file of some sort can't be read, and what would do.
func notRead(sort, name string, err error) error {
	info, statErr := os.Stat(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return badInput("there is no %s %q", sort, name)
	case statErr == nil && info.IsDir():
		return badInput("%q is a folder; expected a %s", name, sort)
	case errors.Is(err, fs.ErrPermission):
		return badInput("%q may not be read; expected a %s that you may read", name, sort)
	}
	return inputError{fmt.Errorf("read %q: %w", name, err)}
}

// inFile puts the file's name on faults that have none.
func inFile(name string, err error) error {
	var faults diagnostic.Faults
	if name == "-" || !errors.As(err, &faults) {
		return err
	}
	for i := range faults {
		if faults[i].File == "" {
			faults[i].File = name
		}
	}
	return faults
}

func readHousehold(name string, needs *household.Needs) (household.Household, error) {
	f, err := os.Open(name)
	if err != nil {
		return household.Household{}, notRead("household file", name, err)
	}
	defer f.Close()
	if info, err := f.Stat(); err == nil && info.IsDir() {
		return household.Household{}, notRead("household file", name, fs.ErrInvalid)
	}
	h, err := ruleset.ReadHousehold(f, name)
	if err != nil {
		return h, err
	}
	return h, inFile(name, h.Validate(needs))
}

func (r *run) json(v any) error {
	enc := json.NewEncoder(r.out)
	enc.SetEscapeHTML(false)
	return enc.Encode(v)
}
