package recipe

import "strings"

// DiffKind tells how a line of one recipe relates to the other.
type DiffKind string

// Kinds of difference.
const (
	Same    DiffKind = "same"
	Added   DiffKind = "added"
	Removed DiffKind = "removed"
	Changed DiffKind = "changed"
)

// Difference is one ingredient line or step of two recipes side by side. From is
// empty where it was added, To where it was removed. FromIndex and ToIndex count
// from 0; -1 where there is none.
type Difference struct {
	Kind      DiffKind
	From, To  string
	FromIndex int
	ToIndex   int
}

// Diff compares two recipes: their ingredient lines and their steps, in order.
func Diff(a, b Recipe) (lines, steps []Difference) {
	la, lb := make([]string, len(a.Lines)), make([]string, len(b.Lines))
	for i, l := range a.Lines {
		la[i] = l.Reading.Text
	}
	for i, l := range b.Lines {
		lb[i] = l.Reading.Text
	}
	sa, sb := make([]string, len(a.Steps)), make([]string, len(b.Steps))
	for i, s := range a.Steps {
		sa[i] = s.Text
	}
	for i, s := range b.Steps {
		sb[i] = s.Text
	}
	return diffTexts(la, lb), diffTexts(sa, sb)
}

// maxTable bounds the table of the exact comparison; longer texts are compared
// place by place.
const maxTable = 4_000_000

// diffTexts finds the longest common subsequence and pairs what lies between
// its members: a removal with an addition is a change.
func diffTexts(a, b []string) []Difference {
	if len(a)*len(b) > maxTable {
		return between(a, b, 0, len(a), 0, len(b))
	}
	common := make([][]int, len(a)+1)
	for i := range common {
		common[i] = make([]int, len(b)+1)
	}
	for i := len(a) - 1; i >= 0; i-- {
		for j := len(b) - 1; j >= 0; j-- {
			if a[i] == b[j] {
				common[i][j] = common[i+1][j+1] + 1
			} else {
				common[i][j] = max(common[i+1][j], common[i][j+1])
			}
		}
	}
	var out []Difference
	i, j, fromA, fromB := 0, 0, 0, 0
	for i < len(a) && j < len(b) {
		switch {
		case a[i] == b[j]:
			out = append(out, between(a, b, fromA, i, fromB, j)...)
			out = append(out, Difference{Same, a[i], b[j], i, j})
			i, j = i+1, j+1
			fromA, fromB = i, j
		case common[i+1][j] >= common[i][j+1]:
			i++
		default:
			j++
		}
	}
	return append(out, between(a, b, fromA, len(a), fromB, len(b))...)
}

// between pairs the entries of two stretches that have nothing in common.
func between(a, b []string, i, endA, j, endB int) []Difference {
	var out []Difference
	for i < endA || j < endB {
		switch {
		case i < endA && j < endB && a[i] == b[j]:
			out = append(out, Difference{Same, a[i], b[j], i, j})
			i, j = i+1, j+1
		case i < endA && j < endB:
			out = append(out, Difference{Changed, a[i], b[j], i, j})
			i, j = i+1, j+1
		case i < endA:
			out = append(out, Difference{Removed, a[i], "", i, -1})
			i++
		default:
			out = append(out, Difference{Added, "", b[j], -1, j})
			j++
		}
	}
	return out
}

// Word is a run of words of a text; Changed where the other text has not got it.
type Word struct {
	Text    string
	Changed bool
}

// Words marks in two texts the words that the other has not, runs together.
func Words(from, to string) (was, now []Word) {
	for _, d := range diffTexts(strings.Fields(from), strings.Fields(to)) {
		if d.FromIndex >= 0 {
			was = withWord(was, d.From, d.Kind != Same)
		}
		if d.ToIndex >= 0 {
			now = withWord(now, d.To, d.Kind != Same)
		}
	}
	return was, now
}

func withWord(runs []Word, text string, changed bool) []Word {
	if last := len(runs) - 1; last >= 0 && runs[last].Changed == changed {
		runs[last].Text += " " + text
		return runs
	}
	return append(runs, Word{text, changed})
}
