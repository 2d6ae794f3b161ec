package cli

import (
	"fmt"
	"strings"
)

// completion prints a script that teaches a shell the commands and flags.
func completion(r *run) (int, error) {
	writers := map[string]func() string{"bash": bashCompletion, "zsh": zshCompletion, "fish": fishCompletion}
	if len(r.args) == 1 && (r.args[0] == "-h" || r.args[0] == "--help") {
		_, err := fmt.Fprintln(r.errs, "Usage of potwright completion: bash, zsh or fish; load what it prints, for bash with: source <(potwright completion bash)")
		return exitDone, err
	}
	if len(r.args) != 1 || writers[r.args[0]] == nil {
		return exitInput, badInput("which shell? expected bash, zsh or fish")
	}
	_, err := fmt.Fprint(r.out, writers[r.args[0]]())
	return exitDone, err
}

func commandNames() string {
	var names []string
	for _, c := range commands() {
		names = append(names, c.name)
	}
	return strings.Join(append(names, "help"), " ")
}

func bashCompletion() string {
	var b strings.Builder
	b.WriteString("_potwright() {\n\tlocal cur=${COMP_WORDS[COMP_CWORD]} words=\n\tif ((COMP_CWORD == 1)); then\n")
	fmt.Fprintf(&b, "\t\tCOMPREPLY=($(compgen -W '%s' -- \"$cur\"))\n\t\treturn\n\tfi\n\tcase ${COMP_WORDS[1]} in\n", commandNames())
	for _, c := range commands() {
		fmt.Fprintf(&b, "\t%s) words='%s' ;;\n", c.name, strings.Join(flagNames(c), " "))
	}
	fmt.Fprintf(&b, "\thelp) words='%s' ;;\n", commandNames())
	b.WriteString("\tesac\n\tCOMPREPLY=($(compgen -W \"$words\" -- \"$cur\") $(compgen -f -- \"$cur\"))\n}\ncomplete -o filenames -F _potwright potwright\n")
	return b.String()
}

// zshCompletion lets zsh use the words for bash.
func zshCompletion() string {
	return "autoload -U +X bashcompinit && bashcompinit\n" + bashCompletion()
}

func fishCompletion() string {
	var b strings.Builder
	for _, c := range commands() {
		fmt.Fprintf(&b, "complete -c potwright -n __fish_use_subcommand -a %s -d '%s'\n", c.name, strings.ReplaceAll(c.summary, "'", `\'`))
		for _, flag := range flagNames(c) {
			fmt.Fprintf(&b, "complete -c potwright -n '__fish_seen_subcommand_from %s' -l %s\n", c.name, strings.TrimPrefix(flag, "--"))
		}
	}
	return b.String()
}
