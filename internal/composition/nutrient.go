package composition

import "fmt"

// Nutrient is one of the nutrients that every food row has a place for.
type Nutrient int

// The nutrients of a food row, in the order of every table, file and page.
const (
	Energy Nutrient = iota
	Protein
	Fat
	SaturatedFat
	TransFat
	Cholesterol
	Sodium
	Carbohydrate
	Fibre
	Sugars
	AddedSugars
	Potassium
	Phosphorus
	Calcium
	Iron
	Magnesium
	VitaminC
	VitaminD
	VitaminK
	Folate
	Water
	Alcohol
	NutrientCount int = iota
)

type nutrientInfo struct{ key, name, unit string }

var nutrientInfos = [NutrientCount]nutrientInfo{
	{"energy_kcal", "energy", "kcal"},
	{"protein_g", "protein", "g"},
	{"fat_g", "fat", "g"},
	{"saturated_fat_g", "saturated fat", "g"},
	{"trans_fat_g", "trans fat", "g"},
	{"cholesterol_mg", "cholesterol", "mg"},
	{"sodium_mg", "sodium", "mg"},
	{"carbohydrate_g", "carbohydrate", "g"},
	{"fibre_g", "fibre", "g"},
	{"sugars_g", "sugars", "g"},
	{"added_sugars_g", "added sugars", "g"},
	{"potassium_mg", "potassium", "mg"},
	{"phosphorus_mg", "phosphorus", "mg"},
	{"calcium_mg", "calcium", "mg"},
	{"iron_mg", "iron", "mg"},
	{"magnesium_mg", "magnesium", "mg"},
	{"vitamin_c_mg", "vitamin C", "mg"},
	{"vitamin_d_ug", "vitamin D", "µg"},
	{"vitamin_k_ug", "vitamin K", "µg"},
	{"folate_ug", "folate", "µg"},
	{"water_g", "water", "g"},
	{"alcohol_g", "alcohol", "g"},
}

// Nutrients lists every nutrient in order.
func Nutrients() []Nutrient {
	ns := make([]Nutrient, NutrientCount)
	for i := range ns {
		ns[i] = Nutrient(i)
	}
	return ns
}

// Key is the name with unit used in files and JSON, such as "sodium_mg".
func (n Nutrient) Key() string { return nutrientInfos[n].key }

// Name is the plain name, such as "sodium".
func (n Nutrient) Name() string { return nutrientInfos[n].name }

// Unit is kcal, g, mg or µg.
func (n Nutrient) Unit() string { return nutrientInfos[n].unit }

// String is the key.
func (n Nutrient) String() string {
	if n < 0 || int(n) >= NutrientCount {
		return fmt.Sprintf("nutrient(%d)", int(n))
	}
	return n.Key()
}

// ParseNutrient finds a nutrient by its key.
func ParseNutrient(key string) (Nutrient, bool) {
	for i, info := range nutrientInfos {
		if info.key == key {
			return Nutrient(i), true
		}
	}
	return 0, false
}

// MarshalText writes the key, so that maps by nutrient read well in JSON.
func (n Nutrient) MarshalText() ([]byte, error) { return []byte(n.String()), nil }

// UnmarshalText reads the key.
func (n *Nutrient) UnmarshalText(b []byte) error {
	got, ok := ParseNutrient(string(b))
	if !ok {
		return fmt.Errorf("unknown nutrient %q", b)
	}
	*n = got
	return nil
}
