package ingredient

// The words cooks use on ingredient lines, from everyday practice. Phrases are
// written with spaces for hyphens.

const adverbs = `
finely, coarsely, freshly, thinly, roughly, lightly, thickly, very, well, firmly, loosely, partially,
completely, gently, slightly, evenly, diagonally, lengthwise, crosswise, newly, just, quickly, fresh ground,
fine, thin, thick`

const preparations = `
chopped, diced, minced, sliced, slivered, shredded, grated, julienned, cubed, crumbled, halved, quartered, quarterd,
peeled, unpeeled, pared, seeded, deseeded, de seeded, cored, pitted, stemmed, trimmed, hulled, shelled, shucked, deveined,
washed, scrubbed, cleaned, beaten, whipped, whisked, mashed, pureed, puréed, crushed, cracked, melted, softened,
sifted, packed, thawed, defrosted, chilled, cooled, warmed, heated, toasted, roasted, sauteed, sautéed, blanched, steamed, boiled,
grilled, browned, torn, broken, divided, separated, reserved, strained, squeezed, juiced, zested, snipped, shaved,
flaked, scalded, soaked, pressed, sorted, picked over, at room temperature, room temperature, cold, warm, hot, lukewarm,
ice cold, boiling, tepid, cut, cut up, cut in half, butterflied, pounded, bruised, split, smashed, bite size, bite sized,
florets, flowerets, chunks, cubes, wedges, halves, pieces, quarters, rings, strips, matchsticks, spears, coins, rounds, ribbons, chunked,
bite size pieces, bite sized pieces, small pieces, crushed in hand, leaves only, whites only, yolks only,
scored, tossed, mixed, blended, dissolved, prepared, unbeaten, undiluted, diluted, level, unsifted, filleted,
julienne, dice, chiffonade, hand torn, stems removed, stem removed, seeds removed, tops removed, bones removed, fat removed, fat trimmed,
trimmed of fat, ends trimmed, ends removed, core removed, peel removed, ribs removed, tough stems removed, patted dry,
and drained, squeezed dry, stale, day old, leftover, ready to use, storebought, store bought, homemade, home made,
coarse ground, freshly ground, fresh cracked, freshly cracked, freshly grated, fresh squeezed, freshly squeezed, soft boiled,
without skin, with skin, skins on, with peel, without peel, unpared, leaves, leaf, floret, zest only, juice only, juice of, juice from, the juice of,
cut into pieces, broken into pieces, in pieces, in chunks, well beaten, well drained, well shaken, room temp, finely cut, stemmed and seeded, picked, loose, whole or cut, rehydrated, reheated`

const adjectives = `
plain, red, green, yellow, orange, purple, white, black, brown, golden, dark, light, hot pepper, sweet, sour, bitter, spicy, mild, medium hot,
all purpose, whole wheat, whole grain, wholegrain, wholewheat, whole meal, self rising, enriched, unbleached, bleached, multigrain, multi grain,
old fashioned, quick, quick cooking, instant, rolled, steel cut, extra virgin, virgin, baby, new, young, mature, ripe, unripe, overripe, firm,
extra firm, silken, soft, crisp, crunchy, creamy, chunky, smooth, natural, organic, strawberry flavored, flavored, unflavored, seasoned, unseasoned,
seedless, unsweetened, sweetened, low sugar, sugar free, no sugar added, lite, long grain, short grain, medium grain, granulated, powdered,
confectioners, superfine, active dry, rapid rise, italian, mexican, french, greek, chinese, japanese, thai, dijon, english, swiss, american, spanish,
bermuda, colored, mixed color, kosher, sea, table, iodized, toasted sesame, smoked, bell, curly, flat leaf, flat, jack, wild, vegetable, sharp,
extra sharp, mild cheddar, low moisture, fine, coarse, regular, large curd, small curd, butter lettuce, top round, bottom round, round, jumbo shrimp,
pink, king, sockeye, atlantic, albacore, chunk light, chunk, solid white, navel, key, bulk, hothouse, persian, english cucumber, savoy, napa,
yellow or green, dutch process, semisweet, semi sweet, bittersweet, miniature, distilled, cider, apple cider, balsamic, red wine, white wine,
spicy brown, sandwich, hamburger, hot dog, thick cut, center cut, blade, acorn, butternut, winter, summer, crookneck, hard boiled, hard cooked,
soft cooked, skim, german, caribbean, freestone, unpopped, whole, in shell`

// sorts name a food or tell which one: "cheddar", "cheese (cheddar)".
const sorts = `
plum, cherry, grape, macaroni, spaghetti, penne, rotini, elbow, bow tie, shell, ziti, fusilli, linguine, cheddar, mozzarella, parmesan, monterey jack,
colby, ricotta, feta, provolone, pepper jack, romaine, iceberg, button, cremini, portobello, shiitake, crimini, tenderloin, drumsticks, thighs,
breasts, rice, mustard, collard, turnip, zucchini, roma, beefsteak, vidalia, russet, granny smith, golden delicious, red delicious, gala, fuji,
macintosh, mcintosh, rome, idaho, yukon gold, fingerling, sirloin, flank, loin, chuck, canola, olive, corn oil, safflower, sunflower, peanut, sesame,
vanilla, basmati, jasmine, arborio`

const noise = `
of, the, a, an, your, favorite, favourite, good quality, good, best, nice, some, any, any kind, any type, any color, any variety, your choice, of your choice, of choice, total, each, per person, scant, heaping, heaped, rounded, approximately, about, approx, approx., around,
if available, preferably, ideally, more or less, or so, or more, or less, or to taste, store brand, generic, brand, variety, type, kind, style, used in analysis, see note, see notes, see recipe, see tip, recipe follows, optional topping, 100%, other, additional, extra, etc, etc., etcetera, as desired amount, washed and dried, usda, commercial, commodity, usda commodity`

const instructions = `
cut into, cut in, cut to, cut crosswise, cut lengthwise, cut on, cut diagonally, cut from, sliced into, chopped into, diced into, broken into, torn into, cubed into, such as, like, use, using, used, note, see, from, to make, to equal, to serve, to yield, enough for, enough to, in place of, instead of, substitute, can use, can be, can omit, may use, may be, depending, according to, cooked according to,
at least, until, which, that, plus, adjust, recommended, recommend, choose, try, i use, we used, we use, works well, including, includes, excluding, with liquid, with their liquid, without, no stems, no seeds, no skin, no bones, made with, made from, mixed with, dissolved in, soaked in, in the shell, in shell, in shells, in their shells, in the husk, in husk, left over from, leftover from, not, if using, if you, if needed, before, after, then, remove, save, reserve, discard, makes, equals, equivalent, in half, in quarters, in eighths, into, yield, yields, for each, per, contains, containing, or enough, prepared according, prepared with, prepared as, approximately equal, with the, e.g., eg, i.e., such, as in, add, combine, drain, rinse, do not, don't, e.g, chop, slice, dice, peel, mince, grate`

const optionals = `
optional, if desired, if you like, if you wish, if liked, as desired, when desired, (optional)`

const plusMores = `
plus more, plus extra, plus additional, and more, plus some, with more, with extra, more for, extra for, plus a little more, plus a bit more, + extra, + more, + a knob, + a little,
+ a pinch, + a handful, + a drizzle, + a splash, + a squeeze, plus a knob, plus a handful`

const states = `
canned: canned, tinned, from a can, from can
drained: drained
undrained: undrained, un drained, not drained, with juice, with juices, with its juice, with their juice, with their juices, in its juice, including liquid, including juice, with liquid, with the liquid, juice included, and liquid, with syrup
rinsed: rinsed
drained, rinsed: drained and rinsed, rinsed and drained, drained rinsed
frozen: frozen
dried: dried, dry, dehydrated, sun dried, freeze dried
fresh: fresh
cooked: cooked, precooked, pre cooked, fully cooked, already cooked
raw: raw, uncooked, un cooked
unsalted: unsalted, un salted, no salt, without salt, salt free, saltless
salted: salted
no_salt_added: no salt added, no added salt, without added salt, no sodium added, no added sodium, without salt added
low_sodium: low sodium, lower sodium, very low sodium, low in sodium, low salt, light sodium
reduced_sodium: reduced sodium, less sodium, lite sodium, 25% less sodium, 33% less sodium, 50% less sodium, 40% less sodium, reduced salt, lightly salted, less salt
sodium_free: sodium free
fat_free: fat free, nonfat, non fat, skim, skimmed, fatfree, no fat, 0%, 0% fat
low_fat: low fat, lowfat, 1%, 1% fat, 1% lowfat, 1% low fat, lower fat
reduced_fat: reduced fat, 2%, 2% fat, less fat, 2% reduced fat, light reduced fat, semi skimmed
part_skim: part skim, part skimmed
full_fat: full fat, whole fat
lean: lean, extra lean
boneless: boneless, bone less, bones removed, boned, deboned, bone removed
skinless: skinless, skin less, skinned, skin removed, without skin, skin and fat removed, skins removed
boneless, skinless: boneless skinless, skinless boneless, boned and skinned, skinned and boned
bone_in: bone in, with bone, with bones, bones in
skin_on: skin on, with skin, skins on, with skins
ground: ground
sweetened: sweetened
unsweetened: unsweetened, no sugar added, sugar free, without sugar, no added sugar
in_water: packed in water, in water, water packed, water pack
in_oil: oil or water packed, packed in oil, in oil, in olive oil, oil packed
in_juice: in juice, in its own juice, in own juice, in 100% juice, packed in juice, juice packed, in natural juice, juice pack, in fruit juice, in pineapple juice
in_light_syrup: in light syrup, packed in light syrup, light syrup, in extra light syrup
in_heavy_syrup: in heavy syrup, packed in heavy syrup, heavy syrup, in syrup
in_brine: in brine
condensed: condensed`

const sizes = `
small: small, sm, sm., sml, small sized, small size
medium: medium, med, med., medium sized, medium size
large: large, lg, lg., big, large sized, large size
extra large: extra large, x large, xl, jumbo
small: mini sized, mini`

const uses = `
to taste: to taste, to your taste, for taste, if needed to taste
as needed: as needed, as required, as necessary, if needed, if necessary
seasoning: for seasoning, to season
greasing: for greasing, for the dish, for dish, for the pan, for pan, for greasing pan, for greasing the pan, to grease, to grease pan, to grease the pan, for the baking dish, for the skillet, to coat pan, to coat the pan, to coat
frying: for frying, for deep frying, for sauteing, for sautéing, for the fryer, to fry, for pan frying, for browning, for cooking
serving: for serving, to serve, for the table, on the side, for topping, as topping, for toppings, toppings, as garnish, for garnish, for garnishing, garnish, to garnish, for decoration, for dipping, for drizzling, for sprinkling, to sprinkle
dusting: for dusting, for rolling, for the work surface, for flouring, for kneading, for dredging, for coating
mixing: to mix, for mixing, to bind, for binding, to combine, to loosen, for loosening, to thin, for thinning, to moisten, to form a dough, to make a dough, to bring together
covering: to cover
glazing: to glaze, for glazing, for brushing, to brush
thickening: to thicken, for thickening`

// compounds are food names that hold a word which elsewhere is a preparation, a
// state, a unit, a size or a joint.
const compounds = `
ground beef, ground turkey, ground chicken, ground pork, ground lamb, ground veal, ground meat, ground bison, ground venison, ground sausage, ground round, ground chuck, ground sirloin,
ground turkey breast, ground chicken breast,
ground cinnamon, ground cumin, ground ginger, ground nutmeg, ground cloves, ground allspice, ground coriander, ground turmeric, ground cardamom, ground mustard, ground sage, ground thyme, ground oregano, ground marjoram, ground red pepper, ground cayenne pepper, ground cayenne, ground chili, ground mace, ground rosemary, ground fennel, ground anise, ground flaxseed, ground flax seed, ground flax, ground almonds, ground black pepper, ground white pepper, ground pepper, ground coffee,
crushed tomatoes, diced tomatoes, stewed tomatoes, canned tomatoes, whole tomatoes, whole peeled tomatoes, crushed pineapple, pineapple tidbits, pineapple chunks, sliced pineapple, crushed red pepper, crushed red pepper flakes, crushed red chili flakes, crushed chili flakes, crushed wheat, crushed ice,
cracked wheat, cracked black pepper, cracked pepper, shredded wheat, shredded wheat cereal, rolled oats, puffed rice, puffed wheat, baked beans, refried beans, split peas, green split peas, yellow split peas,
evaporated milk, condensed milk, condensed soup, powdered sugar, powdered milk, dry milk, dry milk powder, instant dry milk, nonfat dry milk, nonfat dry milk powder, non fat dry milk, non fat dry milk powder, instant nonfat dry milk, dry skim milk,
sour cream, whipped cream, whipped topping, whipping cream, heavy whipping cream, light whipping cream, whipped cream cheese, clotted cream, sweetened condensed milk, sweet potato, sweet potatoes, sweet pickle relish, sweet relish, sweet onion, sweet onions,
smoked salmon, smoked turkey, smoked paprika, smoked ham, smoked sausage, smoked haddock, cured ham, corned beef, dried beef, salt pork, salted butter, pulled pork, roast beef, roast turkey, roasted red peppers, roasted red pepper, roasted red bell peppers, roasted peppers, roasted garlic, roasted peanuts, toasted oat cereal, toasted sesame oil, toasted wheat germ,
half and half, half & half, cream of tartar, cream of wheat, cream of rice, cream of mushroom soup, cream of chicken soup, cream of celery soup, cream of potato soup, cream of broccoli soup, hearts of palm, hearts of romaine, leg of lamb, rack of lamb, heart of palm, cream of coconut,
baking powder, baking soda, baking chocolate, baking potato, baking potatoes, baking apples, cooking spray, cooking oil, vegetable cooking spray, nonstick cooking spray, non stick cooking spray, cooking wine, cooking apples, frying chicken, stewing beef, stew meat, stewing chicken, roasting chicken,
hot sauce, hot pepper sauce, hot pepper, hot peppers, hot dog, hot dogs, hot dog buns, hot chili sauce, hot cereal, hot cocoa mix, hot italian sausage, hot water, cold water, warm water, boiling water, ice water, ice cubes, ice cube, frozen yogurt, vanilla frozen yogurt, frozen custard, frozen whipped topping, frozen dessert, ice cream, bouillon cube, bouillon cubes, minced beef, minced lamb, minced pork, minced chicken, minced turkey, mixed herbs, mixed peel, lasagne sheets, lasagna sheets, lasagne sheet, stock cube, stock cubes, broth cube, broth cubes, boiling onions, cold cuts, cold milk, warm milk, hot milk, hot salsa,
macaroni and cheese, mac and cheese, pork and beans, peas and carrots, salt and pepper seasoning, sweet and sour sauce, franks and beans, fruit and nut mix, beans and rice, rice and beans, bread and butter pickles, oil and vinegar dressing, oil and vinegar, colby and monterey jack cheese, colby & monterey jack cheese, colby and monterey jack, broccoli and cauliflower, tomatoes and green chilies, tomatoes and green chiles, tomatoes and chilies, diced tomatoes and green chilies, diced tomatoes with green chilies, tomatoes with green chilies, tomatoes with green chiles, diced tomatoes with chilies,
dry mustard, dry yeast, active dry yeast, dry active yeast, dry white wine, dry red wine, dry sherry, dry vermouth, dry onion soup mix, dry ranch dressing mix, dry ranch mix, dry italian dressing mix, dry bread crumbs, dried bread crumbs, dry breadcrumbs, dried breadcrumbs, fresh bread crumbs, fresh breadcrumbs, soft bread crumbs, dry roasted peanuts, sun dried tomatoes, sun dried tomato, dried minced onion, dried onion flakes, dried onion, minced onion flakes, dried plums, dry roasted,
mashed potato flakes, instant mashed potatoes, mashed potatoes, mashed potato, hash browns, hash brown potatoes, shredded hash browns, french fries, potato wedges, whole wheat flour, whole wheat bread, whole milk, whole cloves, whole allspice, whole chicken, whole turkey, whole kernel corn, whole corn, whole peppercorns, whole egg, whole eggs, whole bran, whole cranberry sauce, whole berry cranberry sauce,
egg whites, egg white, egg yolks, egg yolk, medium grain rice, short grain rice, long grain rice, large curd cottage cheese, small curd cottage cheese, small red beans, small white beans, large lima beans, baby lima beans, small shell pasta, large shell pasta, jumbo pasta shells, jumbo shells, medium shells, medium egg noodles, extra wide egg noodles, wide egg noodles, fine egg noodles, large pearl tapioca, small pearl tapioca, quick cooking tapioca, medium salsa, mild salsa, fine bulgur, medium bulgur, coarse bulgur, coarse salt, fine sea salt, coarse cornmeal, fine cornmeal, large marshmallows, mini marshmallows, miniature marshmallows, small curd, large flake oats, medium cheddar cheese, medium cheddar, medium picante sauce,
lemon peel, orange peel, lime peel, lemon rind, orange rind, lemon zest, orange zest, lime zest, lemon juice, lime juice, orange juice, bay leaves, bay leaf, grape leaves, curry leaves, kaffir lime leaves, ice cubes, cinnamon stick, cinnamon sticks, celery salt, fish sticks, mozzarella sticks, bread sticks, breadsticks, bread cubes, stuffing cubes, croutons, potato leaves, banana leaves, lime leaves, tea leaves, pretzel sticks, string cheese, string cheese sticks,
cake flour, ladyfingers, graham cracker crumbs, bread crumbs, breadcrumbs, cornflake crumbs, cracker crumbs, cookie crumbs, cracklings, liquid smoke, pickled ginger, pickled beets, pickled jalapenos, pickled jalapeño peppers, pickled onions, pickled okra, marinated artichoke hearts, marinated artichokes, candied ginger, crystallized ginger, brewed coffee, strong coffee, prepared mustard, prepared horseradish, prepared pesto, prepared pie crust, prepared pizza crust, prepared pizza dough, blanched almonds, slivered almonds, sliced almonds, chopped green chilies, chopped green chiles, diced green chilies, diced green chiles, diced green chili peppers, chopped pimiento, diced pimientos, sliced pimientos, minced clams, chopped clams, stuffed olives, sliced black olives, sliced olives, stuffed green olives, french fried onions, fried onions, fried onion rings, imitation crab, mixed vegetables, mixed greens, mixed berries, mixed fruit, mixed nuts, mixed salad greens, mixed peppers, mixed dried fruit, light cream, heavy cream, split chicken breast, split chicken breasts, fruit cocktail, popped popcorn, unpopped popcorn, air popped popcorn, popping corn, plain popcorn, creamed corn, cream style corn, creamed cottage cheese, cubed steak, cubed steaks, cube steak, cube steaks, pie filling, egg substitute, sugar substitute, salt substitute, butter substitute, meat substitute, ginger root, gingerroot, leaf lettuce, red leaf lettuce, green leaf lettuce, leaf spinach, pot roast, chuck pot roast, pot stickers, rib eye, rib roast, rib steak, short ribs, spare ribs, spareribs, pork ribs, baby back ribs, country style ribs, prime rib, head cheese, head lettuce, ear corn, piece bacon, can biscuits, canned biscuits, refrigerated biscuits, box cake mix, seasoned salt, seasoned rice vinegar, seasoned bread crumbs, seasoned stuffing mix, instant rice, pepper strips, chicken strips, chicken pieces, chicken parts, chicken tenders, beef strips, cooked ham, boiled ham, hard boiled egg, hard boiled eggs, hard cooked egg, hard cooked eggs, boiled eggs, boiled egg, cut green beans, french cut green beans, cut corn, chocolate pieces, chocolate chunks, light brown sugar, dark brown sugar, lite coconut milk, light coconut milk, light sour cream, light mayonnaise, light butter, soft margarine, soft tofu, firm tofu, extra firm tofu, silken tofu, dry roasted almonds, natural peanut butter, chunky peanut butter, quick oats, quick cooking oats, quick rolled oats, old fashioned oats, steel cut oats, boil in bag rice, scallion greens, beet greens, fat free half and half, liquid egg whites, salad greens, cherry tomatoes, grape tomatoes, plum tomatoes, pearl onions, boiling potatoes, mild green chilies, long grain and wild rice, rice wine vinegar, red wine vinegar, white wine vinegar, all fruit spread, all bran cereal, fine noodles`
