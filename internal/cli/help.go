package cli

import (
	"bytes"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strings"

	"potwright/internal/diagnostic"
	"potwright/internal/kitchen"
)

// examples are calls of each command as a person makes them; a test runs every one.
var examples = map[string][]string{
	"serve":      {"potwright serve --demo", "potwright serve --data kitchen.db", "potwright serve --data kitchen.db --address 0.0.0.0:8097 --host kitchen.home --tls-cert cert.pem --tls-key key.pem"},
	"read":       {"potwright read chowder.txt", "potwright read --measures uk chowder.txt"},
	"analyse":    {"potwright analyse chowder.txt", "potwright analyse --format json chowder.txt"},
	"report":     {"potwright report --format csv chowder.txt"},
	"scale":      {"potwright scale --servings 9 chowder.txt"},
	"convert":    {"potwright convert --format markdown chowder.txt", "potwright convert --format jsonld chowder.txt"},
	"check":      {"potwright check --household household.yaml chowder.txt"},
	"adapt":      {"potwright adapt --household household.yaml chowder.txt", "potwright adapt --household household.yaml --certificate proof.txt chowder.txt", "potwright adapt --server http://127.0.0.1:8097 --recipe 2"},
	"sweep":      {"potwright sweep --household household.yaml chowder.txt stew.txt", "potwright sweep --data kitchen.db --household Quay", "potwright sweep --server http://127.0.0.1:8097"},
	"recipes":    {"potwright recipes --data kitchen.db", "potwright recipes --server http://127.0.0.1:8097 --words beans"},
	"save":       {"potwright save --data kitchen.db chowder.txt", "potwright save --server http://127.0.0.1:8097 --recipe 2 stew.txt"},
	"photo":      {"potwright photo add --data kitchen.db --recipe 1 --caption Ladled pot.png", "potwright photo list --data kitchen.db --recipe 1", "potwright photo remove --data kitchen.db --recipe 1 1"},
	"foods":      {"potwright foods --limit 5 kidney beans", "potwright foods import --to foods mine.csv"},
	"rules":      {"potwright rules", "potwright rules check my-rules"},
	"export":     {"potwright export --data kitchen.db kitchen.zip", "potwright export --server http://127.0.0.1:8097 --token-file token other.zip"},
	"import":     {"potwright import --data new.db kitchen.zip"},
	"backup":     {"potwright backup --data kitchen.db copy.db"},
	"restore":    {"potwright restore --data kitchen.db copy.db"},
	"passphrase": {"potwright passphrase set --data kitchen.db --household Quay --name ana"},
	"diagnose":   {"potwright diagnose --data kitchen.db", "potwright diagnose --data kitchen.db --to diagnosis.txt"},
	"completion": {"potwright completion bash"},
	"version":    {"potwright version"},
}

// help prints what the program does, or one command.
func help(args []string, out, errs io.Writer) int {
	if len(args) == 0 {
		usage(out)
		return exitDone
	}
	c, ok := find(args[0], errs)
	if !ok {
		return exitInput
	}
	fmt.Fprintf(out, "potwright %s: %s\n\n%s\nexamples:\n", c.name, c.summary, flagsText(c))
	for _, e := range examples[c.name] {
		fmt.Fprintln(out, "  "+e)
	}
	return exitDone
}

// find looks a command up; where there is none, it tells the nearest.
func find(name string, errs io.Writer) (command, bool) {
	var names []string
	for _, c := range commands() {
		if c.name == name {
			return c, true
		}
		names = append(names, c.name)
	}
	fmt.Fprintf(errs, "potwright: there is no command %q", name)
	if near := diagnostic.Nearest(name, names); near != "" {
		fmt.Fprintf(errs, "; did you mean %q?", near)
	}
	fmt.Fprintln(errs, "\nhint: potwright help lists the commands")
	return command{}, false
}

func usage(w io.Writer) {
	fmt.Fprintln(w, "potwright: one pot for a table of different needs")
	fmt.Fprintln(w, "\nusage: potwright COMMAND [flags] [FILE ... | -]")
	for _, c := range commands() {
		fmt.Fprintf(w, "  %-10s %s\n", c.name, c.summary)
	}
	fmt.Fprintln(w, "\nA recipe is plain text as people paste it, or a web page or JSON-LD file with a schema.org recipe in it. potwright help COMMAND shows a command's flags, with examples.")
	fmt.Fprintln(w, "exit status: 0 done and everyone inside; 3 done and someone is not; 2 the input could not be used; 1 anything else")
	fmt.Fprintln(w, kitchen.Caution)
}

// flagsText is what a command prints of its own flags.
func flagsText(c command) string {
	var b bytes.Buffer
	_, _ = c.do(&run{args: []string{"-h"}, in: strings.NewReader(""), out: io.Discard, errs: &b}) // asked for help, it does nothing else
	return b.String()
}

var flagName = regexp.MustCompile(`(?m)^  -([a-z-]+)`)

// flagNames are the flags of a command as they are typed, in order.
func flagNames(c command) []string {
	var out []string
	for _, m := range flagName.FindAllStringSubmatch(flagsText(c), -1) {
		out = append(out, "--"+m[1])
	}
	slices.Sort(out)
	return out
}
