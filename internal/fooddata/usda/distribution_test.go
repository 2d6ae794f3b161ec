package usda

import (
	"os"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/composition"
	"potwright/internal/testkit"
)

func file(s string) *fstest.MapFile { return &fstest.MapFile{Data: []byte(s)} }

// central is a small archive with the files and headings of FoodData Central's CSV
// download (USDA, field descriptions of the download, from memory); the rows are
// invented but for whole milk's energy and sodium (SR28 01077).
var central = fstest.MapFS{
	"FoodData_Central_csv/food.csv": file(`"fdc_id","data_type","description","food_category_id","publication_date"
"171265","sr_legacy_food","Milk, whole, 3.25% milkfat, with added vitamin D","1","2019-04-01"
"321358","foundation_food","Hummus, commercial","16","2019-04-01"
"2705384","survey_fndds_food","Oatmeal, regular or quick, made with milk","","2022-10-28"
"999","branded_food","BOXED THING","","2020-01-01"
"998","sub_sample_food","Hummus, sample 3","",""
"997","foundation_food","","16",""
"996","foundation_food","Nothing known","16",""
`),
	"FoodData_Central_csv/sr_legacy_food.csv": file("\"fdc_id\",\"NDB_number\"\n\"171265\",\"1077\"\n"),
	"FoodData_Central_csv/nutrient.csv": file(`"id","name","unit_name","nutrient_nbr","rank"
"1008","Energy","KCAL","208","300.0"
"2047","Energy (Atwater General Factors)","KCAL","957","280.0"
"2048","Energy (Atwater Specific Factors)","KCAL","958","290.0"
"1093","Sodium, Na","MG","307","5800.0"
"1062","Energy","kJ","268","400.0"
`),
	"FoodData_Central_csv/food_nutrient.csv": file(`"id","fdc_id","nutrient_id","amount","data_points","derivation_id","min","max","median","footnote","min_year_acquired"
"1","171265","1008","61","","","","","","",""
"2","171265","1093","43","35","1","","","","",""
"3","171265","1062","255","","","","","","",""
"4","321358","2047","243","","","","","","",""
"5","321358","2048","229","","","","","","",""
"6","321358","1093","-5","","","","","","",""
"7","2705384","307","61","","","","","","",""
"8","999","1093","900","","","","","","",""
"9","321358","1093","438","x","","","","","",""
`),
	"FoodData_Central_csv/measure_unit.csv": file("\"id\",\"name\"\n\"1000\",\"cup\"\n\"9999\",\"undetermined\"\n"),
	"FoodData_Central_csv/food_portion.csv": file(`"id","fdc_id","seq_num","amount","measure_unit_id","portion_description","modifier","gram_weight","data_points","footnote","min_year_acquired"
"1","171265","1","1","9999","","cup","244","","",""
"2","321358","1","2","1000","","","492","","",""
"3","2705384","1","","9999","1 cup, cooked","10205","240","","",""
"4","2705384","2","","9999","Quantity not specified","90000","240","","",""
`),
}

func TestFoodDataCentralIsReadAsDownloaded(t *testing.T) {
	in, err := Read(central)
	require.NoError(t, err)
	byID := map[string]*composition.Food{}
	for _, f := range in.Foods {
		byID[f.ID] = f
	}
	require.Len(t, byID, 3)

	milk := byID["sr:01077"]
	require.NotNil(t, milk, "a row of the Standard Reference has its number")
	assert.Equal(t, composition.Content{Known: true, Mid: 43, N: 35}, milk.Nutrients[composition.Sodium])
	assert.Equal(t, 61.0, milk.Nutrients[composition.Energy].Mid, "kilojoules are another nutrient's number")
	assert.Equal(t, []composition.Measure{{Amount: 1, Unit: "cup", Grams: 244}}, milk.Measures)

	hummus := byID["fdc:321358"]
	require.NotNil(t, hummus)
	assert.Equal(t, 229.0, hummus.Nutrients[composition.Energy].Mid, "specific factors stand in before general ones")
	assert.False(t, hummus.Nutrients[composition.Sodium].Known, "a negative figure is no figure")
	assert.Equal(t, []composition.Measure{{Amount: 2, Unit: "cup", Grams: 492}}, hummus.Measures)

	oatmeal := byID["fdc:2705384"]
	require.NotNil(t, oatmeal)
	assert.Equal(t, 61.0, oatmeal.Nutrients[composition.Sodium].Mid, "the survey gives the nutrient's number itself")
	assert.Equal(t, []composition.Measure{{Amount: 1, Unit: "cup", Qualifier: "cooked", Grams: 240}}, oatmeal.Measures)

	assert.Equal(t, map[string]int{"packages of named makers": 1, "single samples and other rows": 1}, in.Left)
	var told []string
	for _, r := range in.Rejected {
		told = append(told, r.String())
	}
	assert.Equal(t, []string{
		`fdc:996: no figure for "nothing known"`,
		"food.csv:7: no description",
		"food_nutrient.csv:7: sodium of -5 mg in 100 g; expected 0 to 100000",
		`food_nutrient.csv:10: "x" is not a number`,
	}, told)
}

func TestAnArchiveThatIsNoneOfTheAgencysSaysWhatWasExpected(t *testing.T) {
	_, err := Read(fstest.MapFS{"notes.txt": file("x")})
	require.ErrorContains(t, err, "neither FOOD_DES.txt (the Standard Reference) nor food.csv (FoodData Central)")
	_, err = Read(fstest.MapFS{"a/food.csv": central["FoodData_Central_csv/food.csv"]})
	require.ErrorContains(t, err, "nutrient.csv is not in the folder")
}

// TestTheStandardReferenceIsReadWhole reads the release as downloaded: 8,789 foods
// (USDA SR28 documentation, table of files).
func TestTheStandardReferenceIsReadWhole(t *testing.T) {
	dir := testkit.Shared(t, "data/usda-sr28")
	files := fstest.MapFS{}
	for _, name := range []string{"FOOD_DES.txt", "WEIGHT.txt"} {
		b, err := os.ReadFile(dir + "/" + name)
		require.NoError(t, err)
		files[name] = &fstest.MapFile{Data: b}
	}
	files["NUT_DATA.txt"] = file("~01001~^~307~^643^13^9.4^~1~^~A~\r\n")
	in, err := Read(files)
	require.NoError(t, err)
	left := in.Left["packages of named makers"]
	assert.Equal(t, 8789, len(in.Foods)+left+len(in.Rejected), "every food is taken, left out or rejected, and told")
	require.Len(t, in.Foods, 1)
	butter := in.Foods[0]
	assert.Equal(t, "butter, salted", butter.Name)
	assert.InDelta(t, 33.9, butter.Nutrients[composition.Sodium].SD, 0.05, "standard error 9.4 of 13 samples")
	assert.Contains(t, butter.Measures, composition.Measure{Amount: 1, Unit: "cup", Grams: 227})
}

func FuzzRead(f *testing.F) {
	f.Add(string(central["FoodData_Central_csv/food.csv"].Data), string(central["FoodData_Central_csv/food_nutrient.csv"].Data), string(central["FoodData_Central_csv/food_portion.csv"].Data))
	f.Fuzz(func(t *testing.T, foods, values, portions string) {
		in, err := Read(fstest.MapFS{
			"food.csv": file(foods), "food_nutrient.csv": file(values), "food_portion.csv": file(portions),
			"nutrient.csv": central["FoodData_Central_csv/nutrient.csv"], "measure_unit.csv": central["FoodData_Central_csv/measure_unit.csv"],
		})
		if err != nil {
			return
		}
		_, err = Read(fstest.MapFS{
			"FOOD_DES.txt": file(foods), "NUT_DATA.txt": file(values), "WEIGHT.txt": file(portions),
		})
		_ = err // a text of one sort need not read as the other
		_, err = composition.NewTable(in.Foods)
		require.NoError(t, err, "what is taken in makes a table")
	})
}
