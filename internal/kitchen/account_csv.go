package kitchen

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode/utf8"

	"potwright/internal/composition"
	"potwright/internal/spread"
)

// accountColumns are the columns of WriteAccountsCSV.
var accountColumns = []string{
	"recipe", "part", "line", "text", "counted", "state", "confidence",
	"food_ids", "foods", "sources", "grams_low", "grams_mid", "grams_high", "grams_from",
	"nutrient", "unit", "per_100g", "kept", "low", "mid", "high", "unknown_parts", "notes",
}

// WriteAccountsCSV writes accounts as one table (RFC 4180): a row for each line
// and nutrient (part "line"), then for the pot, a serving, and each plate with
// its amounts. The mid of the rows "line" that are counted "in the pot" add up to
// the row "pot". Text that a spreadsheet would take for a formula, and text that begins
// with an apostrophe, gets an apostrophe before it: without the first one of a cell the
// text is as it was. per_100g is the row's own content, for each food of the
// line in order, empty where the row does not say;
// kept is the share of it that cooking leaves.
func WriteAccountsCSV(w io.Writer, accounts ...Account) error {
	t := accountTable{csv.NewWriter(w)}
	t.w.UseCRLF = true
	t.row(accountColumns...)
	for _, a := range accounts {
		t.account(a)
	}
	t.w.Flush()
	if err := t.w.Error(); err != nil {
		return fmt.Errorf("write the figures line by line: %w", err)
	}
	return nil
}

// accountTable keeps the first write error for the end, as its writer does.
type accountTable struct{ w *csv.Writer }

func (t accountTable) row(cells ...string) { _ = t.w.Write(cells) }

func (t accountTable) account(a Account) {
	for _, l := range a.Lines {
		ids, names, sources, from := foodCells(l.Foods)
		head := []string{cell(a.Title), "line", strconv.Itoa(l.Line), cell(l.Text), l.Counted, l.State, decimal(l.Confidence),
			cell(ids), cell(names), cell(sources), decimal(l.Grams.Low), decimal(l.Grams.Mid), decimal(l.Grams.High), cell(from)}
		t.panel(head, l.Nutrients, l.Foods, cell(strings.Join(l.Notes, "; ")))
	}
	t.panel(sumCells(a, "pot", "the pot", a.Yield.Grams), a.Pot, nil, "")
	t.panel(sumCells(a, "serving", "a serving of "+decimal(a.Servings), a.Yield.Grams.Scale(1/a.Servings)), a.Serving, nil, "")
	for _, m := range a.Members {
		t.plate(a, m)
	}
}

// panel writes a row for each nutrient.
func (t accountTable) panel(head []string, p AccountPanel, foods []AccountFood, notes string) {
	for _, n := range composition.Nutrients() {
		x := p[n.Key()]
		t.row(append(append([]string{}, head...), n.Name(), n.Unit(), contents(foods, n.Key()), keptCells(foods, n.Key()), decimal(x.Low), decimal(x.Mid), decimal(x.High), strconv.Itoa(x.Unknown), notes)...)
	}
}

// plate writes a member's plate.
func (t accountTable) plate(a Account, m AccountMember) {
	head := sumCells(a, "plate", m.Name+", "+decimal(m.Portion)+" of a serving", a.Yield.Grams.Scale(m.Portion/a.Servings))
	head[4] = m.Fits
	t.panel(head, m.Amounts, nil, "")
}

// contents are what the rows hold in 100 g of the nutrient with this key.
func contents(foods []AccountFood, key string) string {
	var all []string
	for _, f := range foods {
		text := ""
		if r, known := f.Per100g[key]; known {
			text = decimal(r.Mid)
		}
		all = append(all, text)
	}
	return strings.Join(all, "; ")
}

// keptCells are the shares that cooking leaves of the nutrient with this key.
func keptCells(foods []AccountFood, key string) string {
	var all []string
	for _, f := range foods {
		text := "1"
		if r, takes := f.Kept[key]; takes {
			text = decimal(r.Mid)
		}
		all = append(all, text)
	}
	return strings.Join(all, "; ")
}

// sumCells begin a row of a sum: no line, no food.
func sumCells(a Account, part, text string, grams spread.Range) []string {
	return []string{cell(a.Title), part, "", cell(text), "", "", "", "", "", "",
		decimal(roundSix(grams.Low)), decimal(roundSix(grams.Mid)), decimal(roundSix(grams.High)), ""}
}

func foodCells(foods []AccountFood) (ids, names, sources, from string) {
	var all [4][]string
	for _, f := range foods {
		for i, s := range []string{f.ID, f.Name, f.Source, f.GramsFrom} {
			all[i] = append(all[i], s)
		}
	}
	join := func(i int) string { return strings.Join(all[i], "; ") }
	return join(0), join(1), join(2), join(3)
}

// formulaStarts are what makes a spreadsheet take a cell for a formula (OWASP, CSV
// Injection, from memory), the wide forms among them, and the apostrophe put before it.
const formulaStarts = "=+-@\t\r\n＝＋－＠'"

// cell is text that stays text in a spreadsheet.
func cell(s string) string {
	if first, _ := utf8.DecodeRuneInString(s); s != "" && strings.ContainsRune(formulaStarts, first) {
		return "'" + s
	}
	return s
}

func decimal(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
