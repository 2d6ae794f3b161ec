package method

import (
	"regexp"
	"strings"
)

// replaceText puts a rule's words in place of others, whole words, in any case.
func replaceText(text, find, with string) string {
	if strings.TrimSpace(find) == "" {
		return text
	}
	re, err := regexp.Compile(`(?i)(^|[^\pL\pN])(` + regexp.QuoteMeta(find) + `)($|[^\pL\pN])`)
	if err != nil {
		return text
	}
	var b strings.Builder
	for {
		at := re.FindStringSubmatchIndex(text)
		if at == nil {
			return b.String() + text
		}
		word := with
		if startsCapital(text[at[4]:at[5]]) {
			word = capital(with)
		}
		b.WriteString(text[:at[4]] + word)
		text = text[at[5]:]
	}
}

// drop takes out the clauses that hold the words of find and mention the changed
// food or nothing; a sentence that is one clause goes whole.
func (s *sentence) drop(find string, c *change) {
	ws := words(find)
	for i := 0; i < len(s.tokens) && len(ws) > 0; i++ {
		if matches(s.tokens, i, ws) == 0 {
			continue
		}
		cs, at := s.clauseAt(i)
		if !s.speaksOnlyOf(cs[at], c) {
			continue
		}
		s.dropClause(cs, at)
		i = -1
	}
}

func (s *sentence) speaksOnlyOf(in span, c *change) bool {
	for _, t := range s.tokens[in.from:in.to] {
		if t.mention != nil && !c.is(t.mention) {
			return false
		}
	}
	return true
}
