package ruleset

import (
	"bytes"
	"fmt"
	"io/fs"
	"path"
	"strings"
	"unicode/utf8"

	"potwright/internal/diagnostic"
)

// badBytes finds what no text file may hold; ok is false for a file that has
// none of it.
func badBytes(data []byte) (f diagnostic.Fault, ok bool) {
	if bytes.HasPrefix(data, []byte{0xff, 0xfe}) || bytes.HasPrefix(data, []byte{0xfe, 0xff}) {
		return diagnostic.Fault{Line: 1, Column: 1, Problem: "the text is in UTF-16", Expected: "a file saved as UTF-8"}, true
	}
	line, column := 1, 1
	for i := 0; i < len(data); {
		r, size := utf8.DecodeRune(data[i:])
		switch {
		case r == utf8.RuneError && size == 1:
			return diagnostic.Fault{Line: line, Column: column, Problem: fmt.Sprintf("byte 0x%02x is not UTF-8 text", data[i]), Expected: "a file saved as UTF-8"}, true
		case r < ' ' && r != '\n' && r != '\r' && r != '\t' || r == 0x7f:
			return diagnostic.Fault{Line: line, Column: column, Problem: fmt.Sprintf("control character 0x%02x in the text", r), Expected: "plain text"}, true
		}
		if column++; r == '\n' {
			line, column = line+1, 1
		}
		i += size
	}
	return diagnostic.Fault{}, false
}

// tabbed reports whether the place of a syntax fault is a tab among the spaces
// that a line starts with.
func tabbed(data []byte, line int) bool {
	lines := bytes.Split(data, []byte("\n"))
	if line < 1 || line > len(lines) {
		return false
	}
	text := lines[line-1]
	start := text[:len(text)-len(bytes.TrimLeft(text, " \t"))]
	return bytes.ContainsRune(start, '\t')
}

// remedy says what a syntax fault of YAML asks for, "" where nothing more can be
// said.
func remedy(message string) string {
	for _, r := range [...]struct{ part, expected string }{
		{"mapping values are not allowed", "a line no deeper than the one before, or quotes round text with a colon in it"},
		{"expected ',' or ']'", "a comma or the closing ]"},
		{"expected ',' or '}'", "a comma or the closing }"},
		{"unexpected end of stream", "the closing quote"},
		{"expected '-' indicator", "keys of one entry at the same depth"},
		{"did not find expected key", "keys of one mapping at the same depth"},
		{"nothing in the file", "keys and values"},
		{"multiple", "one document, without ---"},
		{"unknown anchor", "the value itself"},
		{"cannot start any token", "quotes round text that starts with this character"},
		{"unknown escape", `\\ for a backslash, or single quotes`},
	} {
		if strings.Contains(message, r.part) {
			return r.expected
		}
	}
	return ""
}

// oddName is the fault of a file that looks like one of rules but is named so
// that it would not be read; ok is false for any other file.
func oddName(name string) (f diagnostic.Fault, ok bool) {
	base := path.Base(name)
	lower := strings.ToLower(base)
	switch {
	case strings.HasPrefix(base, "."), strings.HasSuffix(base, ".yaml"):
		return diagnostic.Fault{}, false
	case strings.HasSuffix(lower, ".yaml"), strings.HasSuffix(lower, ".yml"), strings.HasSuffix(lower, ".yaml.txt"), strings.HasSuffix(lower, ".yml.txt"):
		stem := base[:strings.Index(lower, ".y")]
		return diagnostic.Fault{File: name, Problem: fmt.Sprintf("a file named %q is not read", base), Expected: fmt.Sprintf("%q", stem+".yaml")}, true
	case strings.HasSuffix(lower, ".json"), strings.HasSuffix(lower, ".toml"):
		return diagnostic.Fault{File: name, Problem: fmt.Sprintf("a file named %q is not read", base), Expected: "a YAML file named *.yaml"}, true
	}
	return diagnostic.Fault{}, false
}

// misplaced gives the faults of what lies in a folder of rules and would not be
// read: files of the wrong name, folders that are none of ours, folders in
// folders.
func misplaced(fsys fs.FS, folders []string) diagnostic.Faults {
	var out diagnostic.Faults
	visit := func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			out = append(out, diagnostic.Fault{File: name, Problem: "can't be read: " + err.Error()})
			if d != nil && d.IsDir() {
				return fs.SkipDir
			}
			return nil
		case name == ".":
			return nil
		case d.IsDir() && (strings.HasPrefix(path.Base(name), ".")):
			return fs.SkipDir
		case d.IsDir() && !contains(folders, name):
			if holdsRules(fsys, name) {
				expected := "one of " + strings.Join(folders, ", ")
				if near := diagnostic.Nearest(path.Base(name), folders); near != "" {
					expected = fmt.Sprintf("%q", near)
				}
				out = append(out, diagnostic.Fault{File: name, Problem: "a folder of this name is not read", Expected: expected})
			}
			return fs.SkipDir
		case d.IsDir():
			return nil
		}
		if f, odd := oddName(name); odd {
			out = append(out, f)
		}
		return nil
	}
	if err := fs.WalkDir(fsys, ".", visit); err != nil {
		out = append(out, diagnostic.Fault{Problem: "the folder can't be read: " + err.Error()})
	}
	return out
}

func holdsRules(fsys fs.FS, dir string) bool {
	names, err := fs.Glob(fsys, path.Join(dir, "*.y*ml"))
	return err == nil && len(names) > 0
}
