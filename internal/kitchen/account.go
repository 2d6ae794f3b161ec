package kitchen

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"potwright/internal/composition"
	"potwright/internal/cooking"
	"potwright/internal/foodmatch"
	"potwright/internal/ingredient"
	"potwright/internal/measure"
	"potwright/internal/nutrient"
	"potwright/internal/spread"
)

// Account is a dish's figures line by line with what each rests on, so that a
// dietitian can follow every figure back to a row of a table and an amount of a
// line. Amounts are central 90 % ranges, to six decimals; WriteText, WriteCSV and
// encoding/json write it.
type Account struct {
	Title    string        `json:"title"`
	Servings float64       `json:"servings"`
	Notes    []string      `json:"notes"`
	Lines    []AccountLine `json:"lines"`
	// Pot is the sum of the lines counted in the pot, Serving that over the
	// servings, Table what a serving's share of the things at the table holds.
	Pot     AccountPanel `json:"pot"`
	Serving AccountPanel `json:"per_serving"`
	Table   AccountPanel `json:"at_table_per_serving"`
	Yield   AccountYield `json:"yield"`
	// Unknown lists, by nutrient, the lines (counted from 1) whose part is missing.
	Unknown map[string][]int `json:"unknown"`
	// Narrow ranks, by nutrient, what makes the range of the pot wide.
	Narrow  map[string][]AccountDoubt `json:"narrow"`
	Members []AccountMember           `json:"members,omitempty"`
	Basis   []string                  `json:"basis"`
	Caution string                    `json:"caution"`
}

// AccountPanel is the amounts by nutrient key, in the unit of the key. Every
// nutrient is there; one with unknown parts is a lower bound.
type AccountPanel map[string]AccountAmount

// AccountAmount is an amount and how many parts of it are unknown.
type AccountAmount struct {
	spread.Range
	Unknown int `json:"unknown_parts,omitempty"`
}

// AccountYield is the finished dish, in grams and millilitres.
type AccountYield struct {
	Grams       spread.Range `json:"grams"`
	Millilitres spread.Range `json:"millilitres"`
}

// AccountDoubt is a source of doubt: Share of the variance, 0..1, of line Line
// (counted from 1), and what would narrow it.
type AccountDoubt struct {
	Line  int     `json:"line"`
	Share float64 `json:"share"`
	Text  string  `json:"text"`
}

// AccountMember is a member's plate; Amounts is what it holds, with what is not
// known of it.
type AccountMember struct {
	MemberDocument
	Amounts AccountPanel `json:"amounts"`
}

// Where a line counts.
const (
	CountedInPot   = "in the pot"
	CountedAtTable = "at the table"
	LeftOut        = "left out"
	NotKnown       = "not known"
)

// AccountLine is one ingredient line: its words, how they were read, the food and
// grams they stand for, and what that brings.
type AccountLine struct {
	Line       int           `json:"line"` // counted from 1
	Section    string        `json:"section,omitempty"`
	Text       string        `json:"text"`
	Read       AccountParts  `json:"read"`
	State      string        `json:"state"`
	Counted    string        `json:"counted"`
	Corrected  bool          `json:"corrected"`
	Foods      []AccountFood `json:"foods"`
	Grams      spread.Range  `json:"grams"`
	Finished   spread.Range  `json:"finished_grams"`
	Confidence float64       `json:"confidence"`
	Notes      []string      `json:"notes"`
	// Cooking is what the method does to the line, "" where it is not told.
	Cooking   string       `json:"cooking,omitempty"`
	Nutrients AccountPanel `json:"nutrients"`
}

// AccountParts are the parts of a line as read, in words; empty where the line
// has none.
type AccountParts struct {
	Amount      string   `json:"amount,omitempty"`
	Container   string   `json:"container,omitempty"`
	Also        []string `json:"also_written,omitempty"`
	Size        string   `json:"size,omitempty"`
	Food        string   `json:"food"`
	States      []string `json:"states,omitempty"`
	Preparation []string `json:"preparation,omitempty"`
	Use         string   `json:"use,omitempty"`
	Optional    bool     `json:"optional,omitempty"`
	Or          []string `json:"or,omitempty"`
	And         []string `json:"and,omitempty"`
}

// AccountFood is a row of the table that a line stands for.
type AccountFood struct {
	ID        string             `json:"id"`
	Name      string             `json:"name"`
	Source    string             `json:"source"`
	Grams     spread.Range       `json:"grams"`
	GramsFrom string             `json:"grams_from"`
	Weight    float64            `json:"weight"` // how likely this row is, 0..1
	MayBe     []AccountCandidate `json:"may_be,omitempty"`
	// Per100g is what the row holds in 100 g edible portion, by nutrient key; a
	// nutrient that is not there is unknown in the row.
	Per100g map[string]spread.Range `json:"per_100g"`
	// Kept is the share, 0..1, that cooking leaves of a nutrient, by key, where it
	// may take any.
	Kept map[string]spread.Range `json:"kept,omitempty"`
}

// AccountCandidate is another row the words may mean, and how likely, 0..1.
type AccountCandidate struct {
	ID     string  `json:"id"`
	Name   string  `json:"name"`
	Weight float64 `json:"weight"`
}

// basis says how the figures come about; it stands on every account.
var basis = []string{
	"Each amount is a best estimate with the low and high end of a central 90 % range.",
	"A line is its grams of edible food times the row's content per 100 g, times the share that cooking keeps; the pot is the sum of the lines counted in the pot.",
	"Middles add up. The ends of ranges do not: independent doubts are added in quadrature.",
	"An amount with unknown parts is a lower bound, never nothing.",
}

// Account writes an analysis line by line.
func (a Analysis) Account() Account {
	acc := Account{
		Title: a.Recipe.Title, Servings: a.Pot.Servings, Notes: slices.Concat([]string{}, a.Recipe.Strayed(), a.Recipe.Notes, a.Plan.Notes),
		Lines: []AccountLine{}, Pot: accountPanel(a.Pot.Total), Serving: accountPanel(a.Pot.Serving), Table: accountPanel(a.Pot.Table),
		Yield:   AccountYield{sixDecimals(a.Pot.YieldGrams), sixDecimals(a.Pot.YieldMillilitres)},
		Unknown: map[string][]int{}, Narrow: map[string][]AccountDoubt{}, Basis: append([]string{}, basis...), Caution: Caution,
	}
	for i, lp := range a.Pot.Lines {
		l := accountLine(lp)
		l.Line, l.Section, l.Corrected = i+1, a.Recipe.Lines[i].Section, a.Recipe.Lines[i].Fix != nil
		if !lp.AtTable && lp.Matched.State != foodmatch.Skipped {
			l.Cooking = CookingText(a.Plan.Of(i))
		}
		acc.Lines = append(acc.Lines, l)
	}
	for _, n := range composition.Nutrients() {
		for _, i := range a.Pot.Unknown[n] {
			acc.Unknown[n.Key()] = append(acc.Unknown[n.Key()], i+1)
		}
		for _, s := range nutrient.Narrow(a.Pot, n) {
			acc.Narrow[n.Key()] = append(acc.Narrow[n.Key()], AccountDoubt{s.Line + 1, roundSix(s.Share), s.Text})
		}
	}
	return acc
}

// Account is the account of the dish with what it means for everyone.
func (r Report) Account(a Analysis) Account {
	acc := a.Account()
	for _, p := range r.Plates {
		acc.Members = append(acc.Members, AccountMember{memberDocument(p), accountPanel(p.Panel)})
	}
	return acc
}

func accountLine(lp nutrient.LinePanel) AccountLine {
	m := lp.Matched
	l := AccountLine{
		Text: m.Reading.Text, Read: accountParts(m.Reading), State: string(m.State), Counted: counted(lp),
		Foods: []AccountFood{}, Grams: sixDecimals(lp.Grams), Finished: sixDecimals(lp.Finished), Confidence: roundSix(m.Confidence),
		Notes: append([]string{}, m.Notes...), Nutrients: accountPanel(lp.Panel),
	}
	for i, item := range m.Items {
		f := accountFood(item)
		if i < len(lp.Cooked) {
			f.Kept = keptShares(lp.Cooked[i], item.Food)
		}
		l.Foods = append(l.Foods, f)
	}
	return l
}

// keptShares are the shares that cooking leaves, of the nutrients it may take.
func keptShares(c nutrient.Cooked, f *composition.Food) map[string]spread.Range {
	out := map[string]spread.Range{}
	for n, kept := range c.Kept(f) {
		if kept != spread.Exact(1) {
			out[composition.Nutrient(n).Key()] = sixDecimals(kept)
		}
	}
	return out
}

// CookingText says what the method does to a line, "" where it does not tell.
func CookingText(l cooking.Line) string {
	if l.Treatment == cooking.TreatmentUnknown {
		return ""
	}
	text := strings.ReplaceAll(string(l.Treatment), "_", " ")
	switch {
	case l.High > l.Low:
		text += fmt.Sprintf(" for %s to %s minutes", decimal(l.Low), decimal(l.High))
	case l.High > 0:
		text += fmt.Sprintf(" for %s minutes", decimal(l.High))
	}
	if l.AwayFor != "" {
		text += "; in part poured off (" + strings.ReplaceAll(string(l.AwayFor), "_", " ") + ")"
	}
	if !l.Sure {
		text += "; as the dish, the method does not name the line"
	}
	return text
}

func counted(lp nutrient.LinePanel) string {
	switch {
	case lp.Matched.State == foodmatch.Skipped:
		return LeftOut
	case lp.AtTable:
		return CountedAtTable
	case lp.Matched.State == foodmatch.Unread:
		return NotKnown
	}
	return CountedInPot
}

func accountFood(item foodmatch.Item) AccountFood {
	f := AccountFood{ID: item.Food.ID, Name: item.Food.Name, Source: item.Food.Source,
		Grams: sixDecimals(item.Grams), GramsFrom: item.GramsFrom, Weight: 1, Per100g: map[string]spread.Range{}}
	for _, n := range composition.Nutrients() {
		if r, ok := item.Food.Per100g(n); ok {
			f.Per100g[n.Key()] = sixDecimals(r)
		}
	}
	for _, c := range item.Candidates {
		switch {
		case c.Food == item.Food:
			f.Weight = roundSix(c.Weight)
		case c.Food != nil:
			f.MayBe = append(f.MayBe, AccountCandidate{c.Food.ID, c.Food.Name, roundSix(c.Weight)})
		}
	}
	return f
}

func accountParts(r ingredient.Reading) AccountParts {
	p := AccountParts{Size: r.Size, Food: r.Food, States: r.States, Preparation: r.Preparation, Use: r.UseOf, Optional: r.Optional}
	if r.HasAmount {
		p.Amount = amountOf(r.Amount)
	}
	if r.HasContainer {
		p.Container = amountOf(r.Container)
	}
	for _, o := range r.Other {
		p.Also = append(p.Also, amountOf(o))
	}
	for _, other := range r.Alternatives {
		p.Or = append(p.Or, other.Food)
	}
	for _, further := range r.Together {
		p.And = append(p.And, further.Food)
	}
	return p
}

func amountOf(a ingredient.Amount) string { return measure.Format(a.Quantity, a.Unit) }

func accountPanel(p nutrient.Panel) AccountPanel {
	out := AccountPanel{}
	for n, a := range p {
		out[composition.Nutrient(n).Key()] = AccountAmount{sixDecimals(a.Range), a.Unknown}
	}
	return out
}

// sixDecimals keeps written figures short and the same on every machine; it is
// far below what any amount is known to.
func sixDecimals(r spread.Range) spread.Range {
	return spread.Range{Low: roundSix(r.Low), Mid: roundSix(r.Mid), High: roundSix(r.High)}
}

func roundSix(x float64) float64 { return math.Round(x*1e6) / 1e6 }
