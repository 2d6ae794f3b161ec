package household

import (
	"fmt"
	"slices"
)

// Dislikes are the lines that hold what a member does not like to eat, a sentence each.
// They are a matter of taste and no part of a verdict.
func (n *Needs) Dislikes(m Member, lines []LineFood) []string {
	var out []string
	for _, a := range n.disliked(m) {
		for _, l := range lines {
			if a.judge(&l, n.look(&l)).Presence != Contains {
				continue
			}
			if text := fmt.Sprintf("%s, in %q", a.Title, l.name()); !slices.Contains(out, text) {
				out = append(out, text)
			}
		}
	}
	return out
}

// dislikes are the keys of what is not liked that some foods surely hold.
func (n *Needs) dislikes(disliked []Avoidance, lines []LineFood) []string {
	var out []string
	for _, a := range disliked {
		if slices.ContainsFunc(lines, func(l LineFood) bool { return a.judge(&l, n.look(&l)).Presence == Contains }) {
			out = append(out, "dislike:"+a.Key)
		}
	}
	return out
}

// disliked are a member's dislikes, ready to judge lines; words that the book does not
// know match nothing.
func (n *Needs) disliked(m Member) []Avoidance {
	var out []Avoidance
	for _, key := range m.Dislikes {
		if a, err := n.Avoidance(key); err == nil {
			out = append(out, a)
		}
	}
	return out
}
