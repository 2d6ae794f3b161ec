package household

import (
	"strings"
	"sync"

	"potwright/internal/composition"
)

// mostRemembered bounds how many lines, and how many steps, are remembered: some
// 20 MB in all where every one is new.
const mostRemembered = 1 << 14

// remembered keeps what was worked out, so that what recurs between people and
// between recipes is worked out once. It is safe for concurrent use; when it is
// full it starts anew.
type remembered[K comparable, V any] struct {
	mu sync.RWMutex
	by map[K]V
}

func (r *remembered[K, V]) of(key K, work func() V) V {
	r.mu.RLock()
	v, ok := r.by[key]
	r.mu.RUnlock()
	if ok {
		return v
	}
	v = work()
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.by == nil || len(r.by) >= mostRemembered {
		r.by = map[K]V{}
	}
	r.by[key] = v
	return v
}

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
	carried        []carried // by feature of the book
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
		out[i] = seenLine{l, n.look(l)}
		if l.Unread {
			out[i].Food = nil
		}
	}
	return out
}

// carried is whether a line has a feature.
type carried int

const (
	notCarried carried = iota
	maybeCarried
	surelyCarried
)

// look reads the words of a line; lines looked at before are remembered.
func (n *Needs) look(l LineFood) *look {
	key := lineKey{l.Text, strings.Join(l.Words, " ; "), l.Food, l.Unread}
	return n.looks.of(key, func() *look { return n.lookAnew(l) })
}

// lookAnew reads the words of a line. Whether a food is smooth is told by the head
// of its name only: "peaches, canned in syrup" are no syrup.
func (n *Needs) lookAnew(l LineFood) *look {
	out := &look{said: l.words(), carried: make([]carried, len(n.features))}
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
	for i, f := range n.features {
		out.carried[i] = f.carriedBy(food, out)
	}
	return out
}
