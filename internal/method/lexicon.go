package method

import "strings"

// set is a set of words in normal form.
type set map[string]bool

func newSet(text string) set {
	s := set{}
	for _, w := range strings.Fields(text) {
		s[w] = true
	}
	return s
}

// verbs of cooking that start a clause. Words that are rather foods in a list
// ("zest", "juice") are left out.
var verbs = newSet(`add adjust allow arrange bake baste beat blanch blend boil braise break bring broil brown brush
bury caramelize chill chop clean coat combine continue cook cool core cover cream crumble crush cube cut deglaze dice
dip discard dissolve distribute divide dot drain drape dredge drizzle drop dry dust enjoy fill finish flip fluff fold
form freeze fry garnish gather give grate grease grill grind halve heat hold keep knead ladle lay layer leave let lift
line loosen lower marinate mash measure melt microwave mince mix moisten mound parboil pat peel pierce pinch pit place
plate poach pop pour preheat prepare press process puree push put raise reduce refrigerate reheat remove repeat reserve
rest return rinse roast roll rub saute sautee scatter scoop scrape scrub sear season separate serve set shake shape
shred sift simmer skim slice slide smooth soak soften spoon spray spread sprinkle squeeze stand start steam steep stir
store strain stuff swirl take taste tear test thaw thicken thin tip toast top toss transfer trim turn uncover use
warm wash whip whisk wilt wipe work wrap stew salt bloom char check close crack crisp draw get invert loosen lower make
nestle open rehydrate run save scald score slip smear sweat sweeten thread tuck unmold unwrap wait brine coddle dab`)

// garnishers say nothing once what they put on is gone.
var garnishers = newSet(`season sprinkle top garnish dust dot drizzle coat brush rub scatter spread salt finish dredge
flavour flavor baste stuff fill`)

// intransitive verbs stand on their own: "cook in the butter until soft".
var intransitive = newSet(`serve cook simmer bake boil fry roast saute brown marinate grill broil braise stew poach
return continue rest stand stir-fry sear`)

var prepositions = newSet(`with in into over on onto to from under among around between through at by for of off
alongside beside using along inside`)

var subordinators = newSet(`until till when once while as if before after because so unless`)

var conjunctions = newSet(`and or & plus`)

var determiners = newSet(`the a an some your any each every both all this that these those its their`)

var quantifiers = newSet(`half quarter third all most rest remaining remainder remainde bit little more another
enough one two three four five six several few`)

// adjectives that stand before a food, besides words in -ed.
var adjectives = newSet(`fresh dry frozen hot cold warm large small medium raw whole ripe lean extra black white red
green yellow ground big thin thick soft crisp crispy other finely coarsely thinly freshly roughly lightly plain
unsalted boneless skinless canned tinned cool lukewarm reserved brown dark light plump tender cut`)

// pieces are nouns that belong to the food before them: "tofu cubes".
var pieces = newSet(`piece slice strip cube chunk half floret leaf clove stalk wedge ring bit fat dripping grease skin
fillet breast thigh sprig crumb shred spear`)

// mixtures are what a food before them only names: "the onion mixture".
var mixtures = newSet(`mixture mix batter dough layer filling topping sauce marinade pan pot bowl skillet side plate
base crust stew soup dish glaze dressing paste wash rub puree cake loaf water liquid cooker`)

// weakHeads are last words of a food's name that do not name it alone.
var weakHeads = newSet(`sauce mix mixture seasoning leaf clove dressing stick piece flake spray powder filling topping
marinade glaze soup stew blend crumb mixe starter base dish batter dough`)

// made are words for what the lines make together; without "the" they name a
// line that ends with them: "mix sauce, beans and rice".
var made = newSet(`sauce soup dressing filling topping marinade`)

// partHeads are last words that are parts of the food before them, which then
// names the food: "chicken breast", "broccoli florets".
var partHeads = newSet(`breast thigh drumstick wing leg fillet filet steak chop roast tenderloin loin shoulder cutlet
tender strip piece chunk floret leaf clove stalk sprig head rib kernel chip flake round shank link half spear slice
drumette heart cube wedge meat egg stew mince seed`)

// varieties of cheese go by their own name, as soy sauce does.
var varieties = newSet(`soy cheddar mozzarella parmesan ricotta feta swiss provolone romano asiago gouda gruyere havarti`)

// classes are what a food is called for short, by a word of its name.
var classes = map[string][]string{
	"cod": {"fish"}, "haddock": {"fish"}, "salmon": {"fish"}, "tilapia": {"fish"}, "halibut": {"fish"},
	"pollock": {"fish"}, "trout": {"fish"}, "catfish": {"fish"}, "tuna": {"fish"}, "flounder": {"fish"}, "sole": {"fish"},
	"beef": {"meat"}, "pork": {"meat"}, "lamb": {"meat"}, "veal": {"meat"}, "venison": {"meat"},
	"spaghetti": {"pasta"}, "penne": {"pasta"}, "macaroni": {"pasta"}, "rotini": {"pasta"}, "fusilli": {"pasta"},
	"ziti": {"pasta"}, "rigatoni": {"pasta"}, "linguine": {"pasta"}, "fettuccine": {"pasta"}, "lasagna": {"pasta"},
	"shell": {"pasta"}, "noodle": {"pasta"}, "orzo": {"pasta"},
	"broth": {"stock"}, "stock": {"broth"}, "bouillon": {"broth", "stock"},
	"scallion": {"green onion"}, "chickpea": {"garbanzo bean", "garbanzo", "bean"}, "garbanzo": {"chickpea", "bean"},
	"cheddar": {"cheese"}, "mozzarella": {"cheese"}, "parmesan": {"cheese"}, "ricotta": {"cheese"}, "feta": {"cheese"},
	"swiss": {"cheese"}, "provolone": {"cheese"}, "romano": {"cheese"}, "asiago": {"cheese"}, "gouda": {"cheese"},
	"gruyere": {"cheese"}, "havarti": {"cheese"}, "colby": {"cheese"},
	"pecan": {"nut"}, "walnut": {"nut"}, "almond": {"nut"}, "cashew": {"nut"}, "hazelnut": {"nut"}, "peanut": {"nut"},
	"honey": {"sweetener"}, "jalapeno": {"chile", "chili"},
	"cilantro": {"coriander"}, "margarine": {"butter"}, "kale": {"green"}, "spinach": {"green"}, "chard": {"green"},
	"collard": {"green"}, "prawn": {"shrimp"}, "shrimp": {"prawn"}, "cornstarch": {"cornflour"},
}

// compounds are other foods whose name holds that of a line: the word is no
// mention where the compound is not in the recipe. They stand by their first word.
var compounds = compoundsOf(`peanut butter, almond butter, apple butter, butter bean, coconut milk, salt pork,
garlic powder, onion powder, chili powder, mustard powder, celery salt, garlic salt, onion salt, seasoned salt,
lemon pepper, pepper flake, red pepper flake, pepper sauce, tomato paste, tomato sauce, tomato juice, tomato puree,
bread crumb, rice vinegar, wine vinegar, egg noodle, egg white, egg yolk, cream cheese, sour cream, ice cream,
cream of tartar, chicken broth, chicken stock, beef broth, beef stock, vegetable broth, vegetable stock, fish sauce,
fish stock, bean sprout, green bean, corn syrup, corn starch, corn bread, corn tortilla, potato starch, potato chip,
lemon juice, lemon zest, lime juice, orange juice, apple juice, sesame oil, sesame seed, mustard seed, celery seed,
baking powder, baking soda, soda water, milk powder, chicken bouillon, beef bouillon, ginger ale, cooking water, salt water, salted water, ice water, pan juice, cooking spray, green onion, spring onion, sweet potato`)

func compoundsOf(text string) map[string][][]string {
	out := map[string][][]string{}
	for _, phrase := range strings.Split(text, ",") {
		ws := words(phrase)
		out[ws[0]] = append(out[ws[0]], ws)
	}
	return out
}

// everything are words by which a step may mean lines that it does not name.
var everything = newSet(`everything ingredient seasoning spice herb vegetable aromatic rest remaining topping`)

// doings are foods that are also done to something: "salt the water".
var doings = map[string]string{"salt": "", "pepper": "", "butter": "grease", "oil": "grease", "flour": "dust", "sugar": ""}
