package adaptation

import (
	"fmt"

	"potwright/internal/nutrient"
	"potwright/internal/swap"
)

// brings is what panels bring of every function of the dish.
func brings(book *swap.Book, panels []nutrient.LinePanel) swap.Amounts {
	var sum swap.Amounts
	for i := range panels {
		if lp := &panels[i]; !lp.AtTable {
			sum = sum.Add(book.LineContribution(*lp.Matched))
		}
	}
	return sum
}

// addBalanceRows keeps every function that matters in this dish within its band.
func (m *model) addBalanceRows() {
	before := m.options.before
	m.balanceFrom = len(m.problem.Rows)
	defer func() { m.balanceTo = len(m.problem.Rows) }()
	for _, b := range m.in.Book.Balances() {
		was := before[b.Function]
		if was <= 0 || was/m.in.Pot.Servings < b.Enough {
			continue
		}
		if b.Low > 0 {
			m.addBalanceRow(fmt.Sprintf("the dish must keep its %s", b.Function), b.Function, -1, -b.Low*was)
		}
		if b.High > 0 {
			m.addBalanceRow(fmt.Sprintf("the dish must not gain too much %s", b.Function), b.Function, 1, b.High*was)
		}
	}
}

func (m *model) addBalanceRow(name string, f swap.Function, sign, bound float64) {
	row := m.newRow(name, bound)
	for g, cells := range m.cells {
		for k, c := range cells {
			row.Mid[g][k] = sign * c.brings[f]
		}
	}
	m.problem.Rows = append(m.problem.Rows, row)
}

// balanceOf lists the functions of a dish before and after.
func balanceOf(book *swap.Book, before, after nutrient.Pot) []Balance {
	was, is := brings(book, before.Lines), brings(book, after.Lines)
	var out []Balance
	for _, b := range book.Balances() {
		if was[b.Function] == 0 && is[b.Function] == 0 {
			continue
		}
		out = append(out, Balance{Function: b.Function.String(), Before: was[b.Function], After: is[b.Function], Unit: b.Unit})
	}
	return out
}
