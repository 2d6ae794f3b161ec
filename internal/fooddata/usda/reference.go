package usda

import (
	"io"
	"math"

	"potwright/internal/composition"
)

// Description is a row of FOOD_DES.
type Description struct {
	// Text is the long description, such as "Butter, salted".
	Text  string
	Group composition.Group
	// Refuse is the share of the weight as bought that is not eaten, 0..1.
	Refuse float64
	// Maker is the maker's name, "" for a generic food.
	Maker string
}

// Value is one cell of the nutrient file, per 100 g in the nutrient's unit.
type Value struct {
	Mid float64
	// SD is the standard deviation between samples, the standard error times the
	// root of N; 0 where the file gives none.
	SD float64
	N  int
}

// Descriptions reads FOOD_DES by NDB number, the foods that are wanted alone.
func Descriptions(r io.Reader, name string, bad OnBad, wanted func(ndb string) bool) (map[string]Description, error) {
	out := map[string]Description{}
	err := EachRecord(r, name, bad, func(f []string) error {
		if len(f) < 9 {
			return tooFew(f, 9)
		}
		if !wanted(f[0]) {
			return nil
		}
		refuse, err := Number(f[8])
		if err != nil {
			return err
		}
		out[f[0]] = Description{Text: f[2], Group: composition.Group(f[1]), Refuse: refuse / 100, Maker: f[5]}
		return nil
	})
	return out, err
}

// Values calls f with every cell of NUT_DATA.
func Values(r io.Reader, name string, bad OnBad, f func(ndb, nutrient string, v Value)) error {
	return EachRecord(r, name, bad, func(fields []string) error {
		ndb, nutrient, v, err := cell(fields)
		if err != nil {
			return err
		}
		f(ndb, nutrient, v)
		return nil
	})
}

// cell reads a record of NUT_DATA.
func cell(fields []string) (ndb, nutrient string, v Value, err error) {
	if len(fields) < 5 {
		return "", "", v, tooFew(fields, 5)
	}
	var nums [3]float64
	for i := range nums {
		if nums[i], err = Number(fields[2+i]); err != nil {
			return "", "", v, err
		}
	}
	return fields[0], fields[1], Value{Mid: nums[0], N: int(nums[1]), SD: nums[2] * math.Sqrt(max(nums[1], 0))}, nil
}

// Weights reads the household measures of WEIGHT for the foods that are called
// something; those no cook would write are left out.
func Weights(r io.Reader, name string, bad OnBad, called map[string]string) (map[string][]composition.Measure, error) {
	out := map[string][]composition.Measure{}
	err := EachRecord(r, name, bad, func(f []string) error {
		if len(f) < 7 {
			return tooFew(f, 7)
		}
		food, wanted := called[f[0]]
		if !wanted {
			return nil
		}
		var nums [4]float64
		for i, at := range []int{2, 4, 5, 6} {
			x, err := Number(f[at])
			if err != nil {
				return err
			}
			nums[i] = x
		}
		m, ok := NormalMeasure(f[3], food)
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
