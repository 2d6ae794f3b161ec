package cooking_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/composition"
	"potwright/internal/cooking"
	"potwright/internal/foodmatch"
	"potwright/internal/nutrient"
)

func nutrientLine(m foodmatch.Matched) nutrient.LinePanel { return nutrient.Line("0", &m, 1) }

// USDA Table of Nutrient Retention Factors, Release 6 (December 2007): percent
// of what went in that stays.
func TestRetentionIsThatOfTheUSDATable(t *testing.T) {
	table, book := realBook(t)
	for _, c := range []struct {
		line  string
		plan  cooking.Line
		n     composition.Nutrient
		stays float64
		row   string
	}{
		{"1 lb spaghetti", cooking.Line{Treatment: cooking.Boiled}, composition.Potassium, 30, "0381 pasta, boiled, drained"},
		{"1 lb spaghetti", cooking.Line{Treatment: cooking.BoiledBaked}, composition.Folate, 50, "0382 pasta, boiled, drained, baked"},
		{"1 lb spaghetti", cooking.Line{Treatment: cooking.Stewed}, composition.Potassium, 100, "0384 pasta, boiled, not drained"},
		{"10 oz fresh spinach", cooking.Line{Treatment: cooking.Boiled}, composition.VitaminC, 55, "3005 greens, boiled, water to cover, drained"},
		{"10 oz fresh spinach", cooking.Line{Treatment: cooking.Stewed}, composition.Folate, 75, "3006 greens, boiled, water used"},
		{"1 lb potatoes", cooking.Line{Treatment: cooking.Boiled}, composition.VitaminC, 75, "3308 potatoes, boiled, pared, drained"},
		{"1 lb potatoes", cooking.Line{Treatment: cooking.Boiled}, composition.Potassium, 90, "3308 potatoes, boiled, pared, drained"},
		{"2 cups broccoli florets", cooking.Line{Treatment: cooking.Boiled}, composition.VitaminC, 75, "3775 vegetables, boiled, drained"},
		{"2 cups broccoli florets", cooking.Line{Treatment: cooking.Steamed}, composition.VitaminC, 85, "3784 vegetables, steamed"},
		{"2 carrots", cooking.Line{Treatment: cooking.Boiled}, composition.Folate, 65, "3455 roots, boiled, drained"},
		{"2 tomatoes", cooking.Line{Treatment: cooking.Stewed}, composition.VitaminC, 95, "3751 tomatoes, boiled or baked"},
		{"1 lb beef stew meat", cooking.Line{Treatment: cooking.Stewed}, composition.Iron, 100, "0702 beef, browned, simmered, with drippings"},
		{"1 lb boneless skinless chicken breasts", cooking.Line{Treatment: cooking.Baked}, composition.Potassium, 80, "0805 chicken, roasted"},
		{"1 lb boneless skinless chicken breasts", cooking.Line{Treatment: cooking.Grilled}, composition.Magnesium, 75, "0801 chicken, broiled"},
		{"1 lb cod fillets", cooking.Line{Treatment: cooking.Baked}, composition.VitaminC, 80, "2301 finfish under 5 % fat, baked"},
		{"1 lb dry pinto beans", cooking.Line{Treatment: cooking.Stewed, Low: 120, High: 150}, composition.Folate, 35, "0542 legumes, 2 to 2.5 hours, water used"},
		{"1 lb dry lentils", cooking.Line{Treatment: cooking.Stewed, Low: 20, High: 25}, composition.Folate, 65, "0502 legumes, 15 to 20 minutes, water used"},
		{"1 cup long-grain white rice", cooking.Line{Treatment: cooking.Stewed}, composition.Iron, 95, "0432 rice, cooked, water used"},
		{"2 cups all-purpose flour", cooking.Line{Treatment: cooking.BakedInDish}, composition.Folate, 70, "0301 flour, baked"},
		{"2 cups milk", cooking.Line{Treatment: cooking.Stewed, Low: 10, High: 10}, composition.Folate, 85, "2151 milk, heated about 10 minutes"},
		{"1 cup canned black beans, drained", cooking.Line{Treatment: cooking.Stewed}, composition.Folate, 100, "cooked when bought: nothing more is taken"},
	} {
		t.Run(c.row+" "+c.n.Key(), func(t *testing.T) {
			c.plan.Sure = true
			m := matched(table, c.line)[0]
			require.NotEmpty(t, m.Items, c.line)
			plan := cooking.Plan{Told: true, Lines: []cooking.Line{c.plan}}
			raw, got := nutrientLine(m).Panel[c.n], book.Panel("0", plan, 0, &m, 1).Panel[c.n]
			require.Positive(t, raw.Mid)
			assert.InDelta(t, c.stays, 100*got.Mid/raw.Mid, 1e-9, m.Items[0].Food.Name)
			for _, n := range []composition.Nutrient{composition.Energy, composition.Protein, composition.Carbohydrate, composition.Fibre, composition.VitaminK} {
				if c.plan.Treatment != cooking.Grilled && c.plan.Treatment != cooking.Baked {
					assert.Equal(t, nutrientLine(m).Panel[n].Mid, book.Panel("0", plan, 0, &m, 1).Panel[n].Mid, n)
				}
			}
		})
	}
}

// USDA Table of Nutrient Retention Factors, Release 6, p. 12 (Augustin et al.
// 1992, J Am Diet Assoc 92:486), and the handbook's own arithmetic for 100 ml of
// wine at 12 % by volume (0.789 g a millilitre): 9.47 g of alcohol, of which 3.32
// stay after half an hour. The table's wine row has 10.4 g in 100 g, so shares
// are compared.
func TestAlcoholByTime(t *testing.T) {
	table, book := realBook(t)
	wine := matched(table, "1 cup dry white wine")[0]
	raw := nutrientLine(wine).Panel
	require.Positive(t, raw[composition.Alcohol].Mid)
	for _, c := range []struct {
		line  cooking.Line
		stays float64
	}{
		{cooking.Line{Treatment: cooking.Stewed, Low: 15, High: 15}, 40},
		{cooking.Line{Treatment: cooking.Stewed, Low: 30, High: 30}, 35},
		{cooking.Line{Treatment: cooking.BakedInDish, Low: 60, High: 60}, 25},
		{cooking.Line{Treatment: cooking.Stewed, Low: 90, High: 90}, 20},
		{cooking.Line{Treatment: cooking.Stewed, Low: 120, High: 120}, 10},
		{cooking.Line{Treatment: cooking.Stewed, Low: 150, High: 150}, 5},
		{cooking.Line{Treatment: cooking.Stewed, Low: 400, High: 480}, 5},
		{cooking.Line{Treatment: cooking.Stewed, Low: 20, High: 25}, 37.5},
		{cooking.Line{Treatment: cooking.Stewed}, 85},
		{cooking.Line{Treatment: cooking.Raw, Flamed: true}, 75},
		{cooking.Line{Treatment: cooking.Raw, Overnight: true}, 70},
		{cooking.Line{Treatment: cooking.Raw}, 100},
	} {
		c.line.Sure = true
		got := book.Panel("0", cooking.Plan{Told: true, Lines: []cooking.Line{c.line}}, 0, &wine, 1).Panel
		assert.InDelta(t, c.stays, 100*got[composition.Alcohol].Mid/raw[composition.Alcohol].Mid, 1e-9, "%+v", c.line)
		lost := raw[composition.Alcohol].Mid - got[composition.Alcohol].Mid
		assert.InDelta(t, 7*lost, raw[composition.Energy].Mid-got[composition.Energy].Mid, 1e-6, "7 kcal a gram go with it")
	}
	assert.InDelta(t, 3.32, 9.47*0.35, 0.01)
}

// USDA Table of Cooking Yields for Meat and Poultry, Release 2, and the waters of
// dry and cooked rows of USDA SR28: 100 g of dry spaghetti make some 235 g.
func TestWhatAFoodWeighsWhenItIsCooked(t *testing.T) {
	table, book := realBook(t)
	for _, c := range []struct {
		line      string
		treatment cooking.Treatment
		percent   float64
		within    float64
	}{
		{"100 g spaghetti", cooking.Boiled, 238, 5},
		{"100 g long-grain white rice", cooking.Stewed, 280, 5},
		{"100 g bacon", cooking.Fried, 32, 1},
		{"100 g ground beef (80% lean)", cooking.Fried, 67, 3},
		{"100 g ground beef (95% lean)", cooking.Fried, 69, 4},
		{"100 g boneless skinless chicken breasts", cooking.Baked, 72, 3},
		{"100 g carrots", cooking.Stewed, 100, 0},
	} {
		m := matched(table, c.line)[0]
		plan := cooking.Plan{Told: true, Lines: []cooking.Line{{Treatment: c.treatment, Sure: true, TakesUp: true}}}
		got := book.Panel("0", plan, 0, &m, 1)
		assert.InDelta(t, c.percent, got.Finished.Mid/got.Grams.Mid*100, c.within+1e-9, c.line)
		assert.True(t, got.Finished.Valid())
	}
}

func TestEveryFactorHoldsForSomeFoodAndNamesItsSource(t *testing.T) {
	table, book := realBook(t)
	taken := map[string]int{}
	for _, f := range table.Foods() {
		for _, x := range book.Factors() {
			if x.Holds(f) {
				taken[x.ID]++
				break
			}
		}
		for _, y := range book.Yields() {
			if y.Holds(f) {
				taken[y.ID]++
			}
		}
	}
	for _, x := range book.Factors() {
		assert.Positive(t, taken[x.ID], x.ID)
		assert.Contains(t, x.Source, "USDA", x.ID)
	}
	for _, y := range book.Yields() {
		assert.Positive(t, taken[y.ID], y.ID)
		assert.Contains(t, y.Source, "USDA", y.ID)
	}
}
