package main

import (
	"encoding/csv"
	"fmt"
	"io/fs"
	"sort"
	"strconv"
	"strings"

	"potwright/internal/composition"
)

// retentionFile is written below factor/, beside the food table.
const retentionFile = "retention.tsv"

// retained are the nutrients of the retention table that a food row has, by the
// table's number.
var retained = map[string]composition.Nutrient{
	"301": composition.Calcium, "303": composition.Iron, "304": composition.Magnesium, "305": composition.Phosphorus,
	"306": composition.Potassium, "307": composition.Sodium, "401": composition.VitaminC, "417": composition.Folate,
	"221": composition.Alcohol,
}

// retention renders the USDA retention factors as one line a code. A factor that
// is no whole number from 0 to 100 is left out: the copy in circulation has rows
// of code 5005 with shifted columns.
func retention(data fs.FS) ([]byte, error) {
	const name = "usda-retention/retn06.csv"
	file, err := data.Open(name)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	names, cells := map[string]string{}, map[string]map[composition.Nutrient]string{}
	for i, r := range rows {
		if len(r) != 6 {
			return nil, fmt.Errorf("%s:%d: %d columns; expected 6", name, i+1, len(r))
		}
		n, ok := retained[r[3]]
		percent, err := strconv.Atoi(r[5])
		if !ok || err != nil || percent < 0 || percent > 100 {
			continue
		}
		if cells[r[0]] == nil {
			cells[r[0]] = map[composition.Nutrient]string{}
		}
		names[r[0]], cells[r[0]][n] = strings.ToLower(r[2]), strconv.Itoa(percent)
	}
	return []byte(retentionText(names, cells)), nil
}

func retentionText(names map[string]string, cells map[string]map[composition.Nutrient]string) string {
	var columns []composition.Nutrient
	for _, n := range retained {
		columns = append(columns, n)
	}
	sort.Slice(columns, func(i, j int) bool { return columns[i] < columns[j] })
	codes := make([]string, 0, len(names))
	for code := range names {
		codes = append(codes, code)
	}
	sort.Strings(codes)
	var b strings.Builder
	b.WriteString("# USDA Table of Nutrient Retention Factors, Release 6 (Agricultural Research Service, December 2007): percent that stays, of what went in\n# code\tname")
	for _, n := range columns {
		b.WriteString("\t" + n.Key())
	}
	for _, code := range codes {
		b.WriteString("\n" + code + "\t" + names[code])
		for _, n := range columns {
			b.WriteString("\t" + cells[code][n])
		}
	}
	return b.String() + "\n"
}
