package composition

import "strings"

// joining words say nothing of the food.
var joining = wordSet("and or of the a an with in for to from into on at some any your plus &")

// weak words say how a food looks, is cut or is sold; left over from a phrase
// they do not make it another food.
var weak = wordSet(`
small medium large extra big jumbo mini miniature baby tiny thick thin long short fine coarse
chopped diced sliced minced cubed shredded grated crushed peeled pitted seeded cored trimmed halved
quartered crumbled mashed melted softened beaten whipped packed cut torn ripe tender young mature cold
warm boiling lukewarm cooled chilled crisp crispy crunchy chunky creamy smooth half section segment piece chunk strip stick slice cube wedge
ring round floret spear stalk rib head bunch sprig leaf clove ear kernel tidbit bite size sized pat can
package bag jar box bottle carton container envelope packet fillet steak pure natural organic
quality good favorite favourite plain regular traditional classic original style type brand store
bought prepared premium fancy
unpeeled skin on seedless stemmed washed clean cleaned deveined shelled unbleached enriched iodized
additional more optional serving free range farm grass fed wild caught imported domestic local garden homegrown
seasonal assorted variety mild sharp strong fully instant quick thinly finely roughly coarsely
lightly freshly loosely firmly well very day old 100% us reserved leftover
unflavored simple everyday lean trimmed visible fat removed rindless split over butterfly butterflied
center centre boned family pack frying stewing roasting grilling light part one two three inch
shaved crumble choice select toasted roasted squeezed juiced bottled homemade sprinkle pinch dash
`)

// tint words count where they name a food ("green onion", "ground beef") and
// say little where they are left over.
var tint = wordSet(`
red green yellow white black brown purple orange pink golden dark ground whole sweet hot firm soft cooking table
`)

func wordSet(text string) map[string]bool {
	set := map[string]bool{}
	for _, w := range strings.Fields(text) {
		set[w] = true
	}
	return set
}
