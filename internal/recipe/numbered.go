package recipe

import (
	"maps"
	"slices"

	"potwright/internal/ingredient"
)

// TieNumbered gives versions their corrections where those were kept by the number of
// the line, counted from 0, and not by its words, as they were before. vs are the
// versions of one recipe that are at hand, numbered the corrections by a version's id.
//
// What a number meant is told by the changes that were made to the same text: they name
// lines with their words. Where they agree with how the text is read today, so does the
// number; where they do not, the text was read otherwise then, and a number that none of
// them explains is a stray: a guess might give someone another food's figures.
func TieNumbered(vs []Version, numbered map[int64]map[int]Correction) {
	said := wordsSaid(vs)
	for i := range vs {
		v := &vs[i]
		if fixes := numbered[v.ID]; len(fixes) > 0 {
			v.Corrections = tied(v.Text, fixes, said[v.Text])
		}
	}
}

// wordsSaid are the words of lines by text and number, as the changes made to it name
// them; "" where two changes name a line otherwise.
func wordsSaid(vs []Version) map[string]map[int]string {
	texts := map[int64]string{}
	for _, v := range vs {
		texts[v.ID] = v.Text
	}
	out := map[string]map[int]string{}
	for _, v := range vs {
		text, known := texts[v.ParentID]
		if !known {
			continue
		}
		if out[text] == nil {
			out[text] = map[int]string{}
		}
		for _, c := range v.Changes {
			if c.Line < 0 || c.From == "" {
				continue // a step, or something that was added
			}
			words := plainWords(c.From)
			if before, two := out[text][c.Line]; two && before != words {
				words = ""
			}
			out[text][c.Line] = words
		}
	}
	return out
}

// tied are corrections by number as they belong to the lines of a text; said are words
// of lines by number.
func tied(text string, fixes map[int]Correction, said map[int]string) []LineCorrection {
	r, err := ParseKept(text, ingredient.Read)
	if err != nil {
		r = Recipe{} // no line is read any more
	}
	asToday := true
	for i, words := range said {
		asToday = asToday && i < len(r.Lines) && plainWords(r.Lines[i].Reading.Text) == words
	}
	for _, i := range slices.Sorted(maps.Keys(fixes)) {
		switch {
		case asToday && i >= 0 && i < len(r.Lines):
			fix := fixes[i]
			r.Lines[i].Fix = &fix
		case said[i] != "":
			r.Correct([]LineCorrection{{Words: said[i], Correction: fixes[i]}})
		default:
			r.Strays = append(r.Strays, LineCorrection{At: i + 1, Correction: fixes[i]})
		}
	}
	return r.Corrections()
}
