package method

import "strings"

// formWords tell the form of some foods only.
var formWords = map[string]set{
	"melted":   newSet("butter margarine cheese chocolate shortening ghee"),
	"softened": newSet("butter margarine cheese shortening"),
	"beaten":   newSet("egg white yolk"),
	"crumbled": newSet("cheese feta bacon tofu sausage"),
}

// states of food as bought or prepared, said of the old food and perhaps not
// true of the new.
var states = newSet("thawed frozen canned drained")

// freshSays reports whether a new line has a word; without one, "frozen".
func (c *change) freshSays(word string) bool {
	if word == "" {
		word = "frozen"
	}
	for _, r := range c.fresh {
		if hasWord(r.Text, word) {
			return true
		}
	}
	return false
}

func (s *sentence) dropForm(from, food int, c *change) {
	ws := c.names
	last := ""
	if len(ws) > 0 {
		last = head(ws[len(ws)-1])
	}
	for k := food - 1; k >= from; k-- {
		norm := s.tokens[k].norm
		fits, ok := formWords[norm]
		if ok && !fits[last] || states[norm] && !c.freshSays(strings.TrimPrefix(norm, "thawed")) {
			s.cut(k, k+1)
		}
	}
}

// flowing are last words of foods that are poured, and what is said of them in
// place of a verb for a solid food.
var (
	flowing  = newSet(`oil milk water broth juice sauce vinegar syrup mixture`)
	pourings = map[string]string{"cream": "beat", "dot": "drizzle", "scatter": "spoon", "sprinkle": "drizzle"}
)

// fitVerb says "heat the oil" where butter was melted, and the like.
func (s *sentence) fitVerb(i int, phrase string, c *change) {
	h := head(phrase)
	if !flowing[h] || flowing[head(c.old.Food)] {
		return
	}
	cs, at := s.clauseAt(i)
	for k := cs[at].from; k < i; k++ {
		if s.tokens[k].mention != nil {
			continue
		}
		instead := pourings[s.tokens[k].norm]
		if s.tokens[k].norm == "melt" && h == "oil" {
			instead = "heat"
		}
		if instead != "" {
			s.put(k, k+1, s.begun(k, instead))
			return
		}
	}
}
