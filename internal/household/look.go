package household

import (
	"strings"

	"potwright/internal/composition"
)

// lineKey is all of a line that needs look at besides its amount and its heat.
type lineKey struct {
	text, words string
	food        *composition.Food
	unread      bool
}

// look is a line with its words, and what the book says of it.
type look struct {
	said           []string // the words of the line
	foodName, head []string // of its food's name, and of that up to the first comma
	smooth, thin   bool
	bears          []bearing // by feature of the book
	cut            cut       // what the line itself cuts the food to
	fine           bool      // it is minced or grated
}

// seenLine is a line with what was seen in it.
type seenLine struct {
	LineFood
	*look
}

// see looks at lines; the food of one that was not read is not believed.
func (n *Needs) see(lines []LineFood) []seenLine {
	out := make([]seenLine, len(lines))
	for i, l := range lines {
		out[i] = seenLine{l, n.look(&l)}
		if l.Unread {
			out[i].Food = nil
		}
	}
	return out
}

// bearing is how a line stands to a feature: whether it has it, and whether what is
// said of the line takes it away.
type bearing struct {
	carried carried
	gone    bool
}

// carried is whether a line has a feature.
type carried uint8

const (
	notCarried carried = iota
	maybeCarried
	surelyCarried
)

// Look looks at lines ahead of everything that is asked about them: their text,
// words and food must stay as they are.
func (n *Needs) Look(lines []LineFood) {
	for i := range lines {
		lines[i].look = n.look(&lines[i])
	}
}

// look reads the words of a line; lines looked at before are remembered.
func (n *Needs) look(l *LineFood) *look {
	if l.look != nil {
		return l.look
	}
	key := lineKey{l.Text, strings.Join(l.Words, " ; "), l.Food, l.Unread}
	return n.looks.Of(key, func() *look { return n.lookAnew(*l) })
}

// lookAnew reads the words of a line. Whether a food is smooth is told by the head
// of its name only: "peaches, canned in syrup" are no syrup.
func (n *Needs) lookAnew(l LineFood) *look {
	out := &look{said: l.words(), bears: make([]bearing, len(n.features))}
	out.cut, out.fine = cutTo(l.Text, tokens(l.Text)), fine(out.said)
	food := l.Food
	if food != nil {
		out.foodName, out.head = tokens(food.Name), headWords(food.Name)
	}
	if l.Unread {
		food = nil
	}
	if food != nil {
		_, out.smooth = n.smooth.inFood(food, out.head, out.said)
		_, out.thin = n.thin.inFood(food, out.foodName, out.said)
	}
	for i := range n.features {
		if c := n.features[i].carriedBy(food, out); c != notCarried {
			out.bears[i] = bearing{c, n.features[i].goneIn(food, out)}
		}
	}
	return out
}
