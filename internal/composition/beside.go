package composition

import (
	"fmt"
	"maps"
)

// Beside gives the table with further foods, such as an imported distribution. Their
// id, their whole name and Search find them, but no phrase is guessed to mean one, so
// that thousands of rows more do not change what recipes mean. A food whose id the
// table has is passed over: the table's row has been looked at by people. A name that
// the table uses already gets the id behind it. The table itself stays as it is.
func (t *Table) Beside(more []*Food) (*Table, error) {
	var beside []*Food
	for _, f := range more {
		if _, has := t.byID[f.ID]; has {
			continue
		}
		aside := *f
		aside.Imported = true
		if _, taken := t.byName[f.Name]; taken {
			aside.Name = fmt.Sprintf("%s (%s)", f.Name, f.ID)
		}
		beside = append(beside, &aside)
	}
	side, err := NewTable(beside)
	if err != nil {
		return nil, err
	}
	out := &Table{
		foods: append(t.Foods(), beside...), index: t.index, beside: side.index,
		byID: maps.Clone(t.byID), byName: maps.Clone(t.byName),
	}
	maps.Copy(out.byID, side.byID)
	maps.Copy(out.byName, side.byName)
	return out, nil
}
