package method

import (
	"fmt"

	"potwright/internal/recipe"
)

// Revision is a method fitted to changed lines.
type Revision struct {
	Steps []recipe.Step
	// Edits say which change each new or altered step belongs to.
	Edits []Edit
	// Marks are the places that a cook should look at.
	Marks []Mark
}

// Edit ties a step to a change.
type Edit struct {
	// Step is the index in Revision.Steps; -1 for a step that is gone.
	Step int
	// Was is the index in the recipe's own steps; -1 for a step that a rule adds.
	Was int
	// Change is the index in the changes given.
	Change int
}

// Mark is a step that could not be fitted for certain.
type Mark struct {
	// Step is the index in Revision.Steps; -1 where it is about the whole method.
	Step int
	// Change is the index in the changes given.
	Change int
	// Reason is a sentence for the cook, Swap the title of the change's rule.
	Reason, Swap string
}

// Text is the mark as a sentence that names its step.
func (m Mark) Text() string {
	text := capital(m.Reason)
	if m.Step >= 0 {
		text = fmt.Sprintf("Look at step %d: %s", m.Step+1, m.Reason)
	}
	if m.Swap != "" {
		text += " (" + m.Swap + ")"
	}
	return text
}

// Notes are the marks as sentences for the cook, each said once.
func (r Revision) Notes() []string {
	var out []string
	said := map[string]bool{}
	for _, m := range r.Marks {
		if text := m.Text(); !said[text] {
			said[text] = true
			out = append(out, text)
		}
	}
	return out
}
