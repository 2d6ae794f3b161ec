package daybook

import (
	"fmt"
	"time"
)

// Date is a calendar day of the household, written 2006-01-02, so that dates sort as
// text. It has no time zone: it is the day on the household's own calendar.
type Date string

const dateForm = "2006-01-02"

// DateOf is the day that a clock shows where it hangs.
func DateOf(t time.Time) Date { return Date(t.Format(dateForm)) }

// ParseDate reads a day such as 2026-03-01.
func ParseDate(s string) (Date, error) {
	t, err := time.Parse(dateForm, s)
	if err != nil || t.Year() < 1 {
		return "", fmt.Errorf("date %.40q: expected a day such as 2026-03-01", s)
	}
	return Date(s), nil
}

// Time is the day's midnight in UTC, for reckoning with days; the zero time where the
// date is none.
func (d Date) Time() time.Time {
	t, err := time.Parse(dateForm, string(d))
	if err != nil {
		return time.Time{}
	}
	return t
}

// Plus is so many days later, earlier where n < 0.
func (d Date) Plus(n int) Date { return DateOf(d.Time().AddDate(0, 0, n)) }

// DaysInWeek is how many days a week has.
const DaysInWeek = 7

// Week is the seven days, Monday first (ISO 8601), that the day is among.
func (d Date) Week() [DaysInWeek]Date {
	back := (int(d.Time().Weekday()) + DaysInWeek - 1) % DaysInWeek
	var out [DaysInWeek]Date
	for i := range out {
		out[i] = d.Plus(i - back)
	}
	return out
}
