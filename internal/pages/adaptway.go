package pages

import (
	"fmt"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"potwright/internal/adaptation"
)

// A way picked from the other ways stands in the address: take=LINE-RULE for each
// of its swaps, take=dish-RULE for each of its additions, with @SHARE where a rule
// has several, and way=1 to tell it from none. Every other line stays.

// takenOfDish is the line of an addition in an address.
const takenOfDish = "dish"

func takeText(p adaptation.Pick) string {
	line := takenOfDish
	if p.Line != adaptation.WholeDish {
		line = strconv.Itoa(p.Line)
	}
	if p.Share == 0 {
		return line + "-" + p.Rule
	}
	return fmt.Sprintf("%s-%s@%g", line, p.Rule, p.Share)
}

// readTake reads what takeText wrote, for a dish of n lines.
func readTake(v string, n int) (adaptation.Pick, bool) {
	v, of, _ := strings.Cut(v, "@")
	share, err := strconv.ParseFloat(of, 64)
	if err != nil || !(share > 0 && share <= 1) {
		share = 0
	}
	line, rule, ok := strings.Cut(v, "-")
	if line == takenOfDish {
		return adaptation.Pick{Line: adaptation.WholeDish, Rule: rule, Share: share}, ok
	}
	i, err := strconv.Atoi(line)
	return adaptation.Pick{Line: i, Rule: rule, Share: share}, ok && err == nil && i >= 0 && i < n
}

// wayQuery is the address of a way, with everyone's portion in it.
func wayQuery(e evening, w adaptation.Wishes, portions []float64) string {
	q := url.Values{"seated": {"1"}, "way": {"1"}}
	if e.today {
		q.Set("today", "1")
	}
	if e.today {
		q.Set("today", "1")
	}
	for i, m := range e.table.Members {
		id := strconv.FormatInt(m.ID, 10)
		q.Add("m", id)
		if i < len(portions) {
			q.Set("p"+id, typedAmount(portions[i]))
		}
	}
	for _, p := range w.Insist {
		q.Add("take", takeText(p))
	}
	return q.Encode()
}

// takenWay reads the way in an address or form, nil where there is none.
func takenWay(f form, n int) *adaptation.Wishes {
	if f.text("way") != "1" {
		return nil
	}
	w := adaptation.Wishes{AddNoMore: true}
	var taken []int
	for _, v := range f.all("take") {
		if p, ok := readTake(v, n); ok {
			w.Insist, taken = append(w.Insist, p), append(taken, p.Line)
		}
	}
	for i := range n {
		if !slices.Contains(taken, i) {
			w.Lock = append(w.Lock, i)
		}
	}
	return &w
}

// takenFields repeat the way in the form that saves it.
func takenFields(f form) []option {
	if f.text("way") != "1" {
		return nil
	}
	out := []option{{Label: "way", Value: "1"}}
	for _, v := range f.all("take") {
		out = append(out, option{Label: "take", Value: v})
	}
	return out
}

// aimTicks are what an answer may be best at.
func aimTicks(chosen adaptation.Aim) []tick {
	var out []tick
	for _, a := range []struct {
		aim         adaptation.Aim
		label, hint string
	}{
		{adaptation.LeastChange, "Least change to the dish", "As near to the original as everyone’s limits let it be."},
		{adaptation.LeastEffort, "Least work for the cook", "Swaps that save work come first, then the least change."},
		{adaptation.MostRoom, "Most room under the limits", "Every swap that helps; a cap on the lines keeps it in bounds."},
	} {
		out = append(out, tick{Name: "aim", Value: string(a.aim), Label: a.label, Hint: a.hint, On: a.aim == chosen})
	}
	return out
}

// proofWords says how sure it is that the answer is the best of its aim.
func proofWords(ans adaptation.Answer, aim adaptation.Aim) string {
	best := map[adaptation.Aim][2]string{
		adaptation.LeastChange: {"Proved: nothing else that is allowed changes the dish less.", "a smaller change may exist."},
		adaptation.LeastEffort: {"Proved: nothing else that is allowed is less work.", "something with less work may exist."},
		adaptation.MostRoom:    {"Proved: nothing else that is allowed leaves more room.", "more room may be had."},
	}[aim]
	switch ans.Proof {
	case adaptation.Optimal:
		return best[0]
	case adaptation.BestFound:
		return "The search was stopped before it was done: " + best[1]
	}
	return "Proved: every way to combine the swaps was ruled out."
}
