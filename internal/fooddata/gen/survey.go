package main

import (
	"fmt"
	"io"
	"io/fs"
	"strconv"

	"potwright/internal/composition"
	"potwright/internal/fooddata/usda"
)

// eachRow calls f with the columns of every row of a CSV file by heading.
func eachRow(data fs.FS, name string, f func(get func(string) string) error) error {
	return within(data, name, func(r io.Reader) error { return usda.EachRow(r, name, usda.Stop, f) })
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
			x, err := usda.Number(text)
			if err != nil {
				return err
			}
			out[ndb][usda.NutrientNumber(n)] = usda.Value{Mid: x}
		}
		return nil
	})
	return out, err
}

// readChanges reads the cells where the survey and SR28 differ by over 5 %.
func readChanges(data fs.FS, wanted map[string]bool) (map[string]map[composition.Nutrient]float64, error) {
	out := map[string]map[composition.Nutrient]float64{}
	err := eachRow(data, "derived/sr28_vs_fndds1718_changes.csv", func(get func(string) string) error {
		ndb := get("ndb_no")
		n, known := usda.NutrientOf(get("nutr_no"))
		if !wanted[ndb] || !known {
			return nil
		}
		x, err := usda.Number(get("fndds1718"))
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
