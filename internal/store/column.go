package store

import (
	"encoding/json"
	"fmt"
	"time"

	"golang.org/x/text/cases"
	"golang.org/x/text/unicode/norm"
)

// timeLayout is RFC 3339 in UTC with nine decimals, so that text sorts as time.
const timeLayout = "2006-01-02T15:04:05.000000000Z"

// nameKey is what makes two names the same: composed, case-folded.
func nameKey(name string) string { return cases.Fold().String(norm.NFC.String(name)) }

// encode writes a JSON column.
func encode(column string, value any) (string, error) {
	b, err := json.Marshal(value)
	if err != nil {
		return "", fmt.Errorf("write %s: %w", column, err)
	}
	return string(b), nil
}

// place is where a stored value stands, to name it when it is damaged.
type place struct {
	table string
	id    int64
}

// decode reads a JSON column.
func (p place) decode(column, text string, into any) error {
	if err := json.Unmarshal([]byte(text), into); err != nil {
		return p.damaged(column, err)
	}
	return nil
}

// time reads a time column.
func (p place) time(column, text string) (time.Time, error) {
	t, err := time.Parse(timeLayout, text)
	if err != nil {
		return time.Time{}, p.damaged(column, err)
	}
	return t, nil
}

func (p place) damaged(column string, err error) error {
	return fmt.Errorf("table %s, row %d: %s is damaged: %w", p.table, p.id, column, err)
}
