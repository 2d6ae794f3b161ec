package pages

import (
	"fmt"
	"strings"

	"github.com/gin-gonic/gin"
)

// exportText is a version as plain text. The recipe itself comes first and as
// saved, so that pasted back it is the same recipe; what we say about it
// follows as notes.
func (s *Site) exportText(c *gin.Context) error {
	o, err := s.openNamed(c)
	if err != nil {
		return err
	}
	sendFile(c, fmt.Sprintf("recipe-%d-version-%d.txt", o.recipeID, o.version.Number), "text/plain; charset=utf-8", []byte(versionText(o)))
	return nil
}

func versionText(o opened) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n\nNotes\n\nVersion %d, saved %s.\n", strings.TrimRight(o.version.Text, "\n"), o.version.Number,
		o.version.SavedAt.Format("2 January 2006"))
	for _, ch := range savedChanges(o.version.Changes) {
		if ch.From == "" {
			fmt.Fprintf(&b, "Added: %s.", ch.To)
		} else {
			fmt.Fprintf(&b, "Changed: %s -> %s.", ch.From, ch.To)
		}
		if ch.For != "" {
			fmt.Fprintf(&b, " For %s.", ch.For)
		}
		fmt.Fprintln(&b, " "+ch.Why)
	}
	for _, p := range savedPlates(o.version, measuringFor(o)) {
		fmt.Fprintf(&b, "Plate of %s: %s; %s.\n", p.Name, p.Portion, p.Verdict)
		for _, t := range p.AtTable {
			fmt.Fprintln(&b, "  "+t)
		}
	}
	fmt.Fprintln(&b, "A serving holds:")
	for _, r := range panelRows(o.analysis) {
		if r.Main {
			fmt.Fprintf(&b, "  %s: %s\n", r.Name, r.Serving)
		}
	}
	b.WriteString(keepingText(o.analysis))
	for _, line := range cautions() {
		fmt.Fprintln(&b, line)
	}
	return b.String()
}
