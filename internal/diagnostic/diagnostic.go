// Package diagnostic is a fault found in a file or a text: where it is, what
// is wrong and what was expected. One shape serves recipe text, household
// files and rule files, on the command line and on pages.
package diagnostic

import (
	"fmt"
	"math/bits"
	"slices"
	"sort"
	"strings"
)

// Fault is one thing wrong with an input. Line and Column count from 1; 0 means
// the whole input.
type Fault struct {
	File     string `json:"file,omitempty"`
	Line     int    `json:"line,omitempty"`
	Column   int    `json:"column,omitempty"`
	Field    string `json:"field,omitempty"`    // the field or key at fault, such as "limits[0].nutrient"
	Problem  string `json:"problem"`            // what is wrong, with the offending text quoted
	Expected string `json:"expected,omitempty"` // what would have been right
	Rule     string `json:"rule,omitempty"`     // id of the rule or check that found it
}

// Error writes file:line:column: problem; expected …
func (f Fault) Error() string {
	var b strings.Builder
	if f.File != "" {
		b.WriteString(f.File + ":")
	}
	if f.Line > 0 {
		fmt.Fprintf(&b, "%d:", f.Line)
		if f.Column > 0 {
			fmt.Fprintf(&b, "%d:", f.Column)
		}
	}
	if b.Len() > 0 {
		b.WriteString(" ")
	}
	if f.Field != "" {
		b.WriteString(f.Field + ": ")
	}
	b.WriteString(f.Problem)
	if f.Expected != "" {
		b.WriteString("; expected " + f.Expected)
	}
	if f.Rule != "" {
		b.WriteString(" [" + f.Rule + "]")
	}
	return b.String()
}

// Faults is an error that holds every fault of an input, in order of place.
type Faults []Fault

// Error lists the faults, one a line.
func (fs Faults) Error() string {
	lines := make([]string, len(fs))
	for i, f := range fs {
		lines[i] = f.Error()
	}
	return strings.Join(lines, "\n")
}

// Err sorts the faults by place and returns them as an error, or nil if there
// are none.
func (fs Faults) Err() error {
	if len(fs) == 0 {
		return nil
	}
	sort.SliceStable(fs, func(i, j int) bool {
		a, b := fs[i], fs[j]
		if a.File != b.File {
			return a.File < b.File
		}
		if a.Line != b.Line {
			return a.Line < b.Line
		}
		return a.Column < b.Column
	})
	return fs
}

// Nearest returns the allowed word closest to word, or "" when none is within
// two edits: a suggestion, never a decision.
func Nearest(word string, allowed []string) string {
	if near := Near(word, allowed, 1); len(near) > 0 {
		return near[0]
	}
	return ""
}

// Near lists at most so many of the allowed words within two edits of word, the closest
// first, then as they are given.
func Near(word string, allowed []string, most int) []string {
	const edits = 2
	word = strings.ToLower(word)
	letters := lettersOf(word)
	var near [edits + 1][]string // by distance
	for _, a := range allowed {
		low := strings.ToLower(a)
		if bits.OnesCount64(letters^lettersOf(low)) > 2*edits {
			continue // an edit brings and takes a letter at most
		}
		if d := distance(word, low, edits+1); d <= edits {
			near[d] = append(near[d], a)
		}
	}
	all := slices.Concat(near[:]...)
	return all[:min(len(all), most)]
}

// lettersOf are the letters of a word as bits; rare ones share them.
func lettersOf(word string) (letters uint64) {
	for _, r := range word {
		letters |= 1 << (uint(r) % 64)
	}
	return letters
}
