package pages

import (
	"fmt"
	"strings"

	"potwright/internal/keeping"
	"potwright/internal/kitchen"
)

// keepingView is how a dish is kept, as a page tells it.
type keepingView struct {
	Topics   []keepingTopic
	Reminder string
}

// keepingTopic is the advice under one heading.
type keepingTopic struct {
	Title  string
	Advice []adviceView
}

// adviceView is one advice; For names the lines and steps it comes from.
type adviceView struct{ Text, Reason, Source, For string }

func newKeepingView(a kitchen.Analysis) keepingView {
	v := keepingView{Reminder: keeping.Reminder}
	for _, topic := range keeping.Topics() {
		t := keepingTopic{Title: topicTitle(topic)}
		for _, x := range a.Keeping() {
			if x.Topic == topic {
				t.Advice = append(t.Advice, adviceView{x.Text, x.Reason, x.Source, adviceFor(a, x)})
			}
		}
		if len(t.Advice) > 0 {
			v.Topics = append(v.Topics, t)
		}
	}
	return v
}

func topicTitle(t keeping.Topic) string {
	switch t {
	case keeping.Cooking:
		return "While it cooks"
	case keeping.Cooling:
		return "Before it goes into the fridge"
	case keeping.Storing:
		return "How long it keeps"
	case keeping.Reheating:
		return "Warming it up again"
	default:
		return "Who should not eat it as it is"
	}
}

// mostLinesNamed is how many lines an advice names before the rest is counted.
const mostLinesNamed = 3

// adviceFor names the lines and steps that an advice comes from, "" where it holds
// for any dish.
func adviceFor(a kitchen.Analysis, x keeping.Advice) string {
	var parts []string
	for i, line := range x.Lines {
		if i == mostLinesNamed {
			parts = append(parts, countWords(len(x.Lines)-i, "further line", "further lines"))
			break
		}
		if line < len(a.Recipe.Lines) {
			parts = append(parts, "“"+a.Recipe.Lines[line].Reading.Text+"”")
		}
	}
	for _, step := range x.Steps {
		parts = append(parts, fmt.Sprintf("step %d", step+1))
	}
	return strings.Join(parts, "; ")
}

// keepingText is the advice as plain text, a line each: no line is a heading of
// its own, which a recipe pasted back might be read by.
func keepingText(a kitchen.Analysis) string {
	var b strings.Builder
	for _, t := range newKeepingView(a).Topics {
		for _, x := range t.Advice {
			fmt.Fprintf(&b, "%s: %s %s (%s)\n", t.Title, x.Text, x.Reason, x.Source)
		}
	}
	return b.String() + keeping.Reminder + "\n"
}
