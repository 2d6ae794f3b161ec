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
	// saidMarks and nameMarks are the marks of the words said and of those of foodName.
	saidMarks, nameMarks uint64

	smooth, thin bool
	bears        []bearing // by feature of the book
	cut          cut       // what the line itself cuts the food to
	fine         bool      // it is minced or grated
}

// seenLine is a line with what was seen in it.
type seenLine struct {
	*LineFood
	*look
}

// see looks at lines; the food of one that was not read is not believed.
func (n *Needs) see(lines []LineFood) []seenLine {
	out := make([]seenLine, len(lines))
	for i := range lines {
		l := &lines[i]
		if l.Unread && l.Food != nil {
			disbelieved := *l
			disbelieved.Food = nil
			out[i] = seenLine{&disbelieved, n.look(l)}
			continue
		}
		out[i] = seenLine{l, n.look(l)}
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
	text := tokens(l.Text)
	out := &look{said: text, bears: make([]bearing, len(n.features))}
	if len(l.Words) > 0 {
		out.said = l.words()
	}
	out.cut, out.fine = cutTo(l.Text, text), fine(out.said)
	food := l.Food
	if food != nil {
		out.foodName, out.head = tokens(food.Name), headWords(food.Name)
	}
	out.saidMarks, out.nameMarks = marksOf(out.said), marksOf(out.foodName)
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
