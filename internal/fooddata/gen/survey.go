package main

import (
	"encoding/csv"
	"fmt"
	"io"
	"io/fs"
	"strconv"

	"potwright/internal/composition"
)

// eachRow calls f with the columns of every row of a CSV file by heading.
func eachRow(data fs.FS, name string, f func(get func(string) string) error) error {
	file, err := data.Open(name)
	if err != nil {
		return err
	}
	defer file.Close()
	r := csv.NewReader(file)
	head, err := r.Read()
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	at := map[string]int{}
	for i, h := range head {
		at[h] = i
	}
	for line := 2; ; line++ {
		rec, err := r.Read()
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		get := func(h string) string {
			if i, ok := at[h]; ok {
				return rec[i]
			}
			return ""
		}
		if err := f(get); err != nil {
			return fmt.Errorf("%s:%d: %w", name, line, err)
		}
	}
}

// surveyHeading is the heading of a nutrient in the survey's file; trans fat
// and added sugars are not there.
var surveyHeading = map[composition.Nutrient]string{
	composition.Energy: "Energy (kcal)", composition.Protein: "Protein (g)",
	composition.Fat: "Total Fat (g)", composition.SaturatedFat: "Fatty acids, total saturated (g)",
	composition.Cholesterol: "Cholesterol (mg)", composition.Sodium: "Sodium (mg)",
	composition.Carbohydrate: "Carbohydrate (g)", composition.Fibre: "Fiber, total dietary (g)",
	composition.Sugars: "Sugars, total (g)", composition.Potassium: "Potassium (mg)",
	composition.Phosphorus: "Phosphorus (mg)", composition.Calcium: "Calcium (mg)",
	composition.Iron: "Iron (mg)", composition.Magnesium: "Magnesium (mg)",
	composition.VitaminC: "Vitamin C (mg)", composition.VitaminD: "Vitamin D (D2 + D3) (mcg)",
	composition.VitaminK: "Vitamin K (phylloquinone) (mcg)", composition.Folate: "Folate, total (mcg)",
	composition.Water: "Water (g)", composition.Alcohol: "Alcohol (g)",
}

// readSurvey reads the values the 2017-2018 survey used, keyed like NUT_DATA.
func readSurvey(data fs.FS, wanted map[string]bool) (map[string]values, error) {
	out := map[string]values{}
	err := eachRow(data, "derived/fndds1718_implied_sr_values.csv", func(get func(string) string) error {
		ndb := get("ndb_no")
		if !wanted[ndb] || out[ndb] != nil {
			return nil
		}
		out[ndb] = values{}
		for n, heading := range surveyHeading {
			text := get(heading)
			if text == "" {
				continue
			}
			x, err := number(text)
			if err != nil {
				return err
			}
			out[ndb][usdaNumber[n]] = value{mid: x}
		}
		return nil
	})
	return out, err
}

// readChanges reads the cells where the survey and SR28 differ by over 5 %.
func readChanges(data fs.FS, wanted map[string]bool) (map[string]map[composition.Nutrient]float64, error) {
	byNumber := map[string]composition.Nutrient{}
	for n, num := range usdaNumber {
		byNumber[num] = n
	}
	out := map[string]map[composition.Nutrient]float64{}
	err := eachRow(data, "derived/sr28_vs_fndds1718_changes.csv", func(get func(string) string) error {
		ndb := get("ndb_no")
		n, known := byNumber[get("nutr_no")]
		if !wanted[ndb] || !known {
			return nil
		}
		x, err := number(get("fndds1718"))
		if err != nil {
			return err
		}
		if out[ndb] == nil {
			out[ndb] = map[composition.Nutrient]float64{}
		}
		out[ndb][n] = x
		return nil
	})
	return out, err
}

func readAddedSugars(data fs.FS, wanted map[string]bool) (map[string]float64, error) {
	out := map[string]float64{}
	err := eachRow(data, "derived/added_sugars_by_sr.csv", func(get func(string) string) error {
		ndb, text := get("ndb_no"), get("added_sugars_g_per_100g_est")
		if !wanted[ndb] || text == "" {
			return nil
		}
		x, err := strconv.ParseFloat(text, 64)
		if err != nil {
			return fmt.Errorf("%q is not a number", text)
		}
		out[ndb] = x
		return nil
	})
	return out, err
}
