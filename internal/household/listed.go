package household

import "slices"

// Levels lists the texture levels in the order written.
func (n *Needs) Levels() []Level { return slices.Clone(n.book.Levels) }

// HandActions lists what loads a cook's hands in the order written.
func (n *Needs) HandActions() []HandAction { return slices.Clone(n.book.Actions) }
