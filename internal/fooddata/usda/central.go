package usda

import (
	"fmt"
	"io"
	"strings"

	"potwright/internal/composition"
	"potwright/internal/fooddata"
)

// taken are the sorts of food of FoodData Central that a kitchen can use, with
// what they are called in a food's source.
var taken = map[string]string{
	"sr_legacy_food":    "SR Legacy",
	"foundation_food":   "Foundation Foods",
	"survey_fndds_food": "FNDDS",
}

// leftName says what the sorts that are not taken are.
var leftName = map[string]string{
	"branded_food": "packages of named makers",
}

// standIn are numbers of nutrients measured or summed another way that stand in
// where the usual number has no value, best first (FoodData Central, nutrient.csv,
// from memory): energy by specific and by general factors, carbohydrate and sugars
// summed from their parts, fat by fatty acids, fibre by the newer method.
var standIn = map[composition.Nutrient][]string{
	composition.Energy:       {"958", "957"},
	composition.Carbohydrate: {"205.2"},
	composition.Sugars:       {"269.3"},
	composition.Fat:          {"298"},
	composition.Fibre:        {"293"},
}

// rankOf says which nutrient a number is of and how good: 0 for the usual one.
func rankOf(number string) (n composition.Nutrient, rank int, ok bool) {
	if n, ok := NutrientOf(number); ok {
		return n, 0, true
	}
	for n, numbers := range standIn {
		for i, has := range numbers {
			if has == number {
				return n, i + 1, true
			}
		}
	}
	return 0, 0, false
}

// central reads the files of FoodData Central.
func (r *reading) central() error {
	steps := []func() error{r.centralFoods, r.centralNumbers, r.centralValues, r.centralPortions}
	for _, step := range steps {
		if err := step(); err != nil {
			return err
		}
	}
	return nil
}

func (r *reading) each(name string, mayLack bool, f func(get func(string) string) error) error {
	return r.within(name, mayLack, func(in io.Reader) error { return EachRow(in, name, r.bad, f) })
}

func (r *reading) centralFoods() error {
	return r.each("food.csv", false, func(get func(string) string) error {
		sort, id := get("data_type"), strings.Clone(get("fdc_id"))
		called, ok := taken[sort]
		if !ok {
			name := leftName[sort]
			if name == "" {
				name = "single samples and other rows"
			}
			r.left[name]++
			return nil
		}
		if id == "" {
			return fmt.Errorf("no fdc_id")
		}
		return r.add(id, &composition.Food{ID: "fdc:" + id, Name: get("description"),
			Source: "USDA FoodData Central " + id + " (" + called + ")"})
	})
}

// centralNumbers gives foods of the Standard Reference their old number, under
// which the program's own table knows them.
func (r *reading) centralNumbers() error {
	return r.each("sr_legacy_food.csv", true, func(get func(string) string) error {
		f, ndb := r.foods[get("fdc_id")], get("NDB_number")
		if f == nil || ndb == "" {
			return nil
		}
		f.ID = "sr:" + strings.Repeat("0", max(0, 5-len(ndb))) + ndb
		f.Source += " NDB " + ndb
		return nil
	})
}

func (r *reading) centralValues() error {
	number := map[string]string{} // by the file's own id
	err := r.each("nutrient.csv", false, func(get func(string) string) error {
		number[strings.Clone(get("id"))] = strings.Clone(strings.TrimSuffix(get("nutrient_nbr"), ".0"))
		return nil
	})
	if err != nil {
		return err
	}
	type place struct {
		food string
		n    composition.Nutrient
	}
	from := map[place]int{}
	return r.each("food_nutrient.csv", false, func(get func(string) string) error {
		id := get("fdc_id")
		f := r.foods[id]
		if f == nil || get("amount") == "" {
			return nil
		}
		num, ok := number[get("nutrient_id")]
		if !ok {
			num = get("nutrient_id") // the survey's rows give the number itself
		}
		n, rank, ok := rankOf(num)
		if !ok {
			return nil
		}
		at := place{f.ID, n}
		if was, has := from[at]; has && was <= rank {
			return nil
		}
		mid, err := Number(get("amount"))
		if err != nil {
			return err
		}
		points, err := Number(get("data_points"))
		if err != nil {
			return err
		}
		if err := fooddata.SetContent(f, n, composition.Content{Mid: mid, N: int(points)}); err != nil {
			return err
		}
		from[at] = rank
		return nil
	})
}

// undetermined is the unit of a portion whose words stand in another column.
const undetermined = "9999"

func (r *reading) centralPortions() error {
	unit := map[string]string{}
	err := r.each("measure_unit.csv", true, func(get func(string) string) error {
		unit[strings.Clone(get("id"))] = strings.Clone(get("name"))
		return nil
	})
	if err != nil {
		return err
	}
	return r.each("food_portion.csv", true, func(get func(string) string) error {
		f := r.foods[get("fdc_id")]
		if f == nil {
			return nil
		}
		amount, err := Number(get("amount"))
		if err != nil {
			return err
		}
		grams, err := Number(get("gram_weight"))
		if err != nil {
			return err
		}
		words := get("modifier")
		if u := unit[get("measure_unit_id")]; u != "" && get("measure_unit_id") != undetermined {
			words = strings.TrimSuffix(u+", "+words, ", ")
		}
		if text := get("portion_description"); text != "" && text != "Quantity not specified" {
			words = text
		}
		if lead, rest, ok := strings.Cut(words, " "); ok {
			if x, err := Number(lead); err == nil && x > 0 {
				amount, words = x, rest
			}
		}
		m, ok := NormalMeasure(words, f.Name)
		if !ok || amount <= 0 || grams <= 0 {
			return nil
		}
		if m.Amount == 0 {
			m.Amount = 1
		}
		m.Amount, m.Grams = m.Amount*amount, grams
		f.Measures = append(f.Measures, m)
		return nil
	})
}
