package usda

import (
	"bufio"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
)

// EachRecord calls f with the fields of every record of a ~text~^number file in
// Latin-1 with CRLF line ends, as the Standard Reference is published. name is the
// file's in what bad is told.
func EachRecord(r io.Reader, name string, bad OnBad, f func(fields []string) error) error {
	sc := bufio.NewScanner(r)
	sc.Buffer(make([]byte, 1<<16), 1<<20)
	for line := 1; sc.Scan(); line++ {
		text := latin1(strings.TrimRight(sc.Text(), "\r"))
		if text == "" {
			continue
		}
		fields := strings.Split(text, "^")
		for i := range fields {
			fields[i] = strings.Trim(fields[i], "~")
		}
		if err := f(fields); err != nil {
			if err := bad(name, line, err); err != nil {
				return err
			}
		}
	}
	if err := sc.Err(); err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	return nil
}

// EachRow calls f with the columns of every row of a CSV file by heading; a heading
// that the file lacks is "". name is the file's in what bad is told.
func EachRow(r io.Reader, name string, bad OnBad, f func(get func(string) string) error) error {
	in := csv.NewReader(r)
	in.ReuseRecord = true
	head, err := in.Read()
	if err != nil {
		return fmt.Errorf("%s: the line of headings can't be read: %w", name, err)
	}
	at := make(map[string]int, len(head))
	for i, h := range head {
		at[strings.TrimPrefix(h, "\ufeff")] = i
	}
	var rec []string
	get := func(h string) string {
		if i, ok := at[h]; ok && i < len(rec) {
			return rec[i]
		}
		return ""
	}
	for {
		rec, err = in.Read()
		if err == io.EOF {
			return nil
		}
		if err == nil {
			err = f(get)
		} else if !errors.Is(err, csv.ErrFieldCount) {
			return fmt.Errorf("%s: %w", name, err)
		}
		if err != nil {
			line, _ := in.FieldPos(0)
			if err := bad(name, line, err); err != nil {
				return err
			}
		}
	}
}

// latin1 turns bytes that are not UTF-8 into the characters they stand for.
func latin1(s string) string {
	ascii := true
	for i := 0; i < len(s); i++ {
		if s[i] >= 0x80 {
			ascii = false
		}
	}
	if ascii {
		return s
	}
	rs := make([]rune, len(s))
	for i := 0; i < len(s); i++ {
		rs[i] = rune(s[i])
	}
	return string(rs)
}

// Number reads a figure; an empty field is zero.
func Number(s string) (float64, error) {
	if s == "" {
		return 0, nil
	}
	x, err := strconv.ParseFloat(s, 64)
	if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
		return 0, fmt.Errorf("%q is not a number", s)
	}
	return x, nil
}

func tooFew(fields []string, want int) error {
	return fmt.Errorf("%d fields; expected at least %d", len(fields), want)
}
