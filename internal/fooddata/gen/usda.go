package main

import (
	"bufio"
	"compress/gzip"
	"fmt"
	"io"
	"io/fs"
	"math"
	"strconv"
	"strings"

	"potwright/internal/composition"
)

// description is a row of FOOD_DES.
type description struct {
	text   string
	group  composition.Group
	refuse float64
}

// value is one cell of NUT_DATA.
type value struct {
	mid, sd float64
	n       int
}

// values are the cells of one food by USDA nutrient number.
type values map[string]value

// eachRecord calls f with the fields of every record of a ~text~^number file in
// Latin-1 with CRLF line ends.
func eachRecord(r io.Reader, name string, f func(fields []string) error) error {
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
			return fmt.Errorf("%s:%d: %w", name, line, err)
		}
	}
	return sc.Err()
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

func readDescriptions(data fs.FS, wanted map[string]bool) (map[string]description, error) {
	const name = "usda-sr28/FOOD_DES.txt"
	out := map[string]description{}
	err := readFile(data, name, func(f []string) error {
		if len(f) < 9 || !wanted[f[0]] {
			return nil
		}
		if f[5] != "" {
			return fmt.Errorf("food %s carries a maker's name; expected a generic row", f[0])
		}
		refuse, err := number(f[8])
		out[f[0]] = description{text: f[2], group: composition.Group(f[1]), refuse: refuse / 100}
		return err
	})
	return out, err
}

func readFile(data fs.FS, name string, f func([]string) error) error {
	file, err := data.Open(name)
	if err != nil {
		return err
	}
	defer file.Close()
	return eachRecord(file, name, f)
}

// readValues reads NUT_DATA: the standard deviation is the standard error
// times the root of the number of samples.
func readValues(data fs.FS, wanted map[string]bool) (map[string]values, error) {
	const name = "usda-sr28/NUT_DATA.txt.gz"
	file, err := data.Open(name)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	zr, err := gzip.NewReader(file)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	out := map[string]values{}
	err = eachRecord(zr, name, func(f []string) error {
		if len(f) < 5 || !wanted[f[0]] {
			return nil
		}
		mid, err := number(f[2])
		if err != nil {
			return err
		}
		n, err := number(f[3])
		if err != nil {
			return err
		}
		se, err := number(f[4])
		if err != nil {
			return err
		}
		if out[f[0]] == nil {
			out[f[0]] = values{}
		}
		out[f[0]][f[1]] = value{mid: mid, n: int(n), sd: se * math.Sqrt(n)}
		return nil
	})
	return out, err
}

func readWeights(data fs.FS, wanted map[string]bool, names map[string]string) (map[string][]composition.Measure, error) {
	out := map[string][]composition.Measure{}
	err := readFile(data, "usda-sr28/WEIGHT.txt", func(f []string) error {
		if len(f) < 7 || !wanted[f[0]] {
			return nil
		}
		var nums [4]float64
		for i, at := range []int{2, 4, 5, 6} {
			x, err := number(f[at])
			if err != nil {
				return err
			}
			nums[i] = x
		}
		m, ok := normalMeasure(f[3], names[f[0]])
		if !ok || nums[0] <= 0 || nums[1] <= 0 {
			return nil
		}
		if m.Amount == 0 {
			m.Amount = 1
		}
		m.Amount, m.Grams, m.N, m.SD = m.Amount*nums[0], nums[1], int(nums[2]), nums[3]
		out[f[0]] = append(out[f[0]], m)
		return nil
	})
	return out, err
}

// number reads a figure; an empty field is zero.
func number(s string) (float64, error) {
	if s == "" {
		return 0, nil
	}
	x, err := strconv.ParseFloat(s, 64)
	if err != nil {
		return 0, fmt.Errorf("%q is not a number", s)
	}
	return x, nil
}
