package ruleset

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"potwright/internal/diagnostic"
	"potwright/internal/kitchen"

	yaml "go.yaml.in/yaml/v4"
)

// maxBytes bounds a file; the largest of ours is under 100 kB.
const maxBytes = 1 << 20

// source is a file being read: it collects the faults of all its values.
type source struct {
	file   string
	root   *yaml.Node // nil where the file can't be parsed
	rule   string     // id of the rule being read, written into its faults
	theme  string     // what the file says it is about
	faults diagnostic.Faults
	seen   map[diagnostic.Fault]bool
	// entries are those that were read without a fault.
	entries []entry
	// forbidden are keys that people are tempted to write and may not, each with
	// the problem to report.
	forbidden map[string]string
}

// value is one node of a file with its place. The zero node is an absent value:
// reading it gives the zero of what is asked for and no fault.
type value struct {
	src  *source
	node *yaml.Node
}

// open parses one document. A file that can't be parsed gives an absent value
// and its fault in src.
func open(file string, data []byte) (*source, value) {
	src := &source{file: file, seen: map[diagnostic.Fault]bool{}}
	top := value{src: src}
	if len(data) > maxBytes {
		src.add(diagnostic.Fault{Problem: fmt.Sprintf("file of %d bytes is too large", len(data)),
			Expected: fmt.Sprintf("at most %d bytes", maxBytes)})
		return src, top
	}
	if f, bad := badBytes(data); bad {
		src.add(f)
		return src, top
	}
	var doc yaml.Node
	if err := yaml.Load(data, &doc); err != nil {
		src.syntax(err, data)
		return src, top
	}
	if doc.Kind == yaml.DocumentNode && len(doc.Content) == 1 {
		top.node = doc.Content[0]
		src.root = top.node
	}
	if top.absent() {
		src.add(diagnostic.Fault{Problem: "nothing in the file", Expected: "keys and values"})
	}
	return src, top
}

// entry is one rule, factor or need of a file.
type entry struct {
	kitchen.RuleKey
	line int
}

// sound notes an entry and reports whether it is to be used: it is where reading
// it added no fault to those there were before.
func (s *source) sound(before int, sort kitchen.RuleSort, id string, line int) bool {
	s.rule = ""
	if len(s.faults) != before {
		return false
	}
	s.entries = append(s.entries, entry{kitchen.RuleKey{Sort: sort, ID: id}, line})
	return true
}

func (s *source) add(f diagnostic.Fault) {
	f.File = s.file
	if f.Rule == "" {
		f.Rule = s.rule
	}
	if s.seen[f] {
		return
	}
	s.seen[f] = true
	s.faults = append(s.faults, f)
}

func (s *source) syntax(err error, data []byte) {
	f := diagnostic.Fault{Problem: "not readable as YAML: " + err.Error()}
	var one *yaml.LoadError
	var all *yaml.LoadErrors
	switch {
	case errors.As(err, &one) && one.Message != "":
		f.Line, f.Column = max(one.Mark.Line, 0), max(one.Mark.Column, 0)
		f.Problem = "not readable as YAML: " + one.Message
		if one.ContextMsg != "" && one.ContextMark.Line > 0 {
			f.Problem += fmt.Sprintf(" (%s at line %d)", one.ContextMsg, one.ContextMark.Line)
		}
	case errors.As(err, &all) && len(all.Errors) > 0:
		e := all.Errors[0]
		f.Line, f.Column = max(e.Mark.Line, 0), max(e.Mark.Column, 0)
		f.Problem = "not readable as YAML: " + strings.TrimPrefix(e.Message, "yaml: ")
	}
	if strings.Contains(f.Problem, "no documents") {
		f.Problem = "nothing in the file"
	}
	f.Expected = remedy(f.Problem)
	if tabbed(data, f.Line) {
		f.Problem, f.Expected = "a tab indents the line", "spaces"
	}
	s.add(f)
}

// absent reports whether there is no value here (a key left out, or null).
func (v value) absent() bool {
	return v.node == nil || v.node.Kind == yaml.ScalarNode && v.node.ShortTag() == "!!null"
}

// line is where the value stands, 0 for an absent one.
func (v value) line() int {
	if v.node == nil {
		return 0
	}
	return v.node.Line
}

// mostPaths is how many faults of a file are told with the way to them; all are with
// their line.
const mostPaths = 200

// fault records that this value is wrong.
func (v value) fault(problem, expected string) {
	f := diagnostic.Fault{Problem: problem, Expected: expected}
	if v.node != nil {
		if len(v.src.faults) < mostPaths {
			f.Field, _ = pathTo(v.node, v.src.root, "")
		}
		f.Line, f.Column = v.node.Line, v.node.Column
	}
	v.src.add(f)
}

// pathTo is the way from a node down to another, such as "limits[0].nutrient"; a
// key stands where its mapping does. It is looked for when a fault is told:
// nearly all values have none.
func pathTo(want, at *yaml.Node, path string) (string, bool) {
	if at == nil || want == at {
		return path, at != nil
	}
	for i, n := range at.Content {
		below := path
		switch {
		case at.Kind == yaml.SequenceNode:
			below = fmt.Sprintf("%s[%d]", path, i)
		case i%2 == 1:
			if below != "" {
				below += "."
			}
			below += at.Content[i-1].Value
		}
		if found, ok := pathTo(want, n, below); ok {
			return found, true
		}
	}
	return "", false
}

// faultWord records an unknown word and the nearest allowed one.
func (v value) faultWord(what, word string, allowed []string) {
	expected := ""
	switch near := diagnostic.Nearest(word, allowed); {
	case near != "":
		expected = strconv.Quote(near)
	case len(allowed) > 0 && len(allowed) <= 24:
		expected = "one of " + strings.Join(allowed, ", ")
	}
	v.fault(fmt.Sprintf("unknown %s %q", what, word), expected)
}

// quoted is the offending text as written, cut short.
func (v value) quoted() string {
	switch {
	case v.node == nil:
		return "nothing"
	case v.node.Kind == yaml.MappingNode:
		return "a mapping"
	case v.node.Kind == yaml.SequenceNode:
		return "a list"
	case v.node.Kind == yaml.AliasNode:
		return strconv.Quote("*" + v.node.Value)
	}
	text := []rune(v.node.Value)
	if len(text) > 60 {
		text = append(text[:60], '…')
	}
	return strconv.Quote(string(text))
}

// scalar is the plain text here; ok is false, with a fault, for anything else.
func (v value) scalar(expected string) (string, bool) {
	if v.absent() {
		return "", false
	}
	if v.node.Kind != yaml.ScalarNode {
		v.fault("found "+v.quoted(), expected)
		return "", false
	}
	return v.node.Value, true
}

// text reads one line of words, trimmed; an empty one is a fault.
func (v value) text() string {
	s, ok := v.scalar("text")
	if ok && strings.TrimSpace(s) == "" {
		v.fault("empty text", "words")
	}
	return strings.TrimSpace(s)
}

// word reads text that must be one of allowed; what names it in the fault.
func (v value) word(what string, allowed []string) string {
	if v.absent() {
		return ""
	}
	if v.node.Kind != yaml.ScalarNode {
		v.fault("found "+v.quoted(), "one of "+strings.Join(allowed, ", "))
		return ""
	}
	s := v.node.Value
	for _, a := range allowed {
		if a == s {
			return s
		}
	}
	v.faultWord(what, s, allowed)
	return ""
}

// number reads a finite number within low..high.
func (v value) number(low, high float64) float64 {
	return v.numeral(func() string { return between("a number", low, high) }, func(x float64) bool { return x >= low && x <= high })
}

// positive reads a number above 0 and at most high.
func (v value) positive(high float64) float64 {
	return v.numeral(func() string { return "a number above 0, at most " + plain(high) }, func(x float64) bool { return x > 0 && x <= high })
}

// whole reads a whole number within low..high.
func (v value) whole(low, high int) int {
	return int(v.numeral(func() string { return between("a whole number", float64(low), float64(high)) }, func(x float64) bool {
		return x == math.Trunc(x) && x >= float64(low) && x <= float64(high)
	}))
}

// numeral reads a number that must pass a check; 0, with a fault, where it does
// not.
func (v value) numeral(expected func() string, pass func(x float64) bool) float64 {
	if v.absent() {
		return 0
	}
	if v.node.Kind != yaml.ScalarNode {
		v.fault("found "+v.quoted(), expected())
		return 0
	}
	s := v.node.Value
	x, err := strconv.ParseFloat(s, 64)
	if whole, part, comma := strings.Cut(s, ","); err != nil && comma {
		if _, err := strconv.ParseFloat(whole+"."+part, 64); err == nil {
			v.fault(v.quoted()+" has a comma in it", fmt.Sprintf("a point: %s.%s", whole, part))
			return 0
		}
	}
	if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
		v.fault(v.quoted()+" is not a number", expected())
		return 0
	}
	if !pass(x) {
		v.fault(v.quoted()+" is out of range", expected())
		return 0
	}
	return x
}

// yes reads true or false.
func (v value) yes() bool {
	s, ok := v.scalar("true or false")
	if ok && s != "true" && s != "false" {
		v.fault(v.quoted()+" is neither true nor false", "true or false")
	}
	return s == "true"
}

func between(what string, low, high float64) string {
	return fmt.Sprintf("%s from %s to %s", what, plain(low), plain(high))
}

func plain(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

func contains(words []string, w string) bool {
	for _, x := range words {
		if x == w {
			return true
		}
	}
	return false
}
