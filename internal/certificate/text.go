package certificate

import (
	"fmt"
	"io"
	"math"
	"strings"
)

// Write prints a certificate that Check has accepted, for people: the chosen
// options, each limit's sum by line, and why nothing else does with less.
// Amounts are in the limits' own units, as low–mid–high.
func Write(w io.Writer, c Certificate, r Report) error {
	var b strings.Builder
	if c.Chosen == nil {
		fmt.Fprintf(&b, "Nothing that is allowed keeps every limit.\n")
	} else {
		c.writeChosen(&b, r)
		for _, row := range c.Rows {
			c.writeRow(&b, row)
		}
	}
	c.writeProof(&b, r)
	_, err := io.WriteString(w, b.String())
	return err
}

func (c Certificate) writeChosen(b *strings.Builder, r Report) {
	fmt.Fprintf(b, "Chosen, with what it changes (%d in all):\n", r.Cost)
	for g, o := range c.Chosen {
		option := c.Groups[g].Options[o]
		fmt.Fprintf(b, "  %3d  %s: %s\n", option.Cost, c.Groups[g].Name, option.Name)
	}
}

// writeRow prints what each line brings to a limit.
func (c Certificate) writeRow(b *strings.Builder, row Row) {
	fmt.Fprintf(b, "%s: comes to %s, at most %s is allowed\n", row.Name, figure(row.Value(c.Chosen)), figure(row.Bound))
	for g, o := range c.Chosen {
		mid, half := row.Mid[g][o], row.half(g, o)
		switch {
		case half > 0:
			fmt.Fprintf(b, "  %12s (%s to %s)  %s\n", figure(mid), figure(mid-half), figure(mid+half), c.Groups[g].Name)
		case mid != 0:
			fmt.Fprintf(b, "  %12s  %s\n", figure(mid), c.Groups[g].Name)
		}
	}
}

// half is the half-width that one option brings by itself.
func (r Row) half(g, o int) float64 {
	var squares float64
	for _, h := range summed(r.loads(g, o)) {
		squares += h * h
	}
	return math.Sqrt(squares)
}

func (c Certificate) writeProof(b *strings.Builder, r Report) {
	claim := "no choice keeps every limit"
	if c.Chosen != nil {
		claim = fmt.Sprintf("every other choice that keeps all limits changes at least %d", r.Cost)
	}
	fmt.Fprintf(b, "Proof that %s (what changes is counted in whole numbers). Cases: %d.\n", claim, len(r.Closed))
	for i, k := range r.Closed {
		path := "the rest"
		if len(k.Path) > 0 {
			var words []string
			for _, p := range k.Path {
				words = append(words, fmt.Sprintf("%s: %s", c.Groups[p.Group].Name, c.Groups[p.Group].Options[p.Option].Name))
			}
			path = strings.Join(words, "; ")
		}
		why := "the limits clash"
		if !math.IsInf(k.Bound, 1) {
			why = "changes at least " + figure(k.Bound)
		}
		fmt.Fprintf(b, "  case %d (%s): %s\n", i+1, path, why)
	}
}

func figure(v float64) string { return fmt.Sprintf("%.6g", v) }
