package method

import (
	"slices"
	"strings"

	"potwright/internal/measure"
	"potwright/internal/recipe"
)

// Heat is how a dish cooks over a period.
type Heat string

// Heats. Rest is time without heat: standing, chilling, soaking, marinating.
const (
	Simmer     Heat = "simmer"
	Boil       Heat = "boil"
	Bake       Heat = "bake"
	Grill      Heat = "grill" // over or under the heat, the drippings lost
	Fry        Heat = "fry"
	Steam      Heat = "steam"
	Microwave  Heat = "microwave"
	SlowCooker Heat = "slow cooker"
	Cook       Heat = "cook" // not said how
	Rest       Heat = "rest"
)

// Lid is what a step says of the lid.
type Lid string

// Lids. LidUnknown where no step has said.
const (
	LidUnknown    Lid = ""
	Covered       Lid = "covered"
	PartlyCovered Lid = "partly covered"
	Uncovered     Lid = "uncovered"
)

// Period is a time that a step states.
type Period struct {
	Step int // index
	Heat Heat
	Lid  Lid
	// Low and High are minutes; equal where the step states one number.
	Low, High float64
}

// Treatment is something done to a food that changes what is eaten of it.
type Treatment string

// Treatments.
const (
	Drained           Treatment = "drained"
	Rinsed            Treatment = "rinsed"
	MarinadeDiscarded Treatment = "marinade discarded"
	LiquidReserved    Treatment = "liquid reserved"
)

// Deed is a treatment with the step that says it.
type Deed struct {
	Step      int
	Treatment Treatment
}

// Cooking is what the steps say about time, lid and treatment.
type Cooking struct {
	Periods []Period
	Deeds   []Deed
}

// heats are the words that say how the dish cooks.
var heats = map[string]Heat{
	"simmer": Simmer, "stew": Simmer, "braise": Simmer, "simmering": Simmer, "poach": Simmer,
	"boil": Boil, "boiling": Boil, "blanch": Boil, "parboil": Boil,
	"bake": Bake, "roast": Bake, "broil": Grill, "grill": Grill,
	"fry": Fry, "saute": Fry, "brown": Fry, "sear": Fry, "sautee": Fry, "stir-fry": Fry,
	"steam": Steam, "microwave": Microwave, "cook": Cook, "heat": Cook, "soften": Fry, "wilt": Fry,
	"rest": Rest, "stand": Rest, "chill": Rest, "refrigerate": Rest, "marinate": Rest, "cool": Rest, "soak": Rest,
	"freeze": Rest, "rise": Rest, "sit": Rest, "drain": Rest,
}

// heatAt is the heat that token i names; "the rest of the oil" is none.
func heatAt(tokens []token, i int) (Heat, bool) {
	h, ok := heats[tokens[i].norm]
	if tokens[i].norm == "rest" && (after(tokens, i) == "of" || before(tokens, i) == "the") {
		return "", false
	}
	return h, ok
}

// clock carries what is said from one clause to the next: "cover; 20 minutes on
// low".
type clock struct {
	out  Cooking
	heat Heat
	lid  Lid
	slow bool
}

// Times reads cooking times, lids and treatments out of steps. A number of
// minutes "a side" counts twice. What a step does not say is not guessed.
func Times(steps []recipe.Step) Cooking {
	c := clock{heat: Cook}
	for i, s := range steps {
		tokens, _ := lex(s.Text)
		ws := wordsOf(tokens)
		c.slow = c.slow || hasRun(ws, "slow", "cooker")
		for _, sentence := range sentences(tokens) {
			for _, cl := range clauses(sentence.tokens) {
				c.clause(i, sentence.tokens[cl.from:cl.to])
			}
		}
		c.deeds(i, ws)
	}
	return c.out
}

func (c *clock) clause(step int, tokens []token) {
	c.lid = lidOf(tokens, c.lid)
	for i := 0; i < len(tokens); i++ {
		if h, ok := heatAt(tokens, i); ok {
			c.turn(h)
		}
		low, high, n := duration(tokens, i)
		if n == 0 {
			continue
		}
		i += n - 1
		if next := after(tokens, i); next == "less" || next == "sooner" || next == "earlier" {
			continue // than what is stated elsewhere
		}
		if i+2 < len(tokens) && (tokens[i+1].norm == "a" || tokens[i+1].norm == "per" || tokens[i+1].norm == "each") && tokens[i+2].norm == "side" {
			low, high = 2*low, 2*high
		}
		lid, heat := c.lid, c.heat
		switch {
		case heat == Rest:
			lid = LidUnknown
		case c.slow && low >= slowMinutes:
			heat = SlowCooker
		}
		c.out.Periods = append(c.out.Periods, Period{Step: step, Heat: heat, Lid: lid, Low: low, High: high})
	}
}

// slowMinutes is the time from which a dish with a slow cooker cooks in it.
const slowMinutes = 60

// turn changes the heat. "Cook" after "simmer" leaves it; baking starts without
// a word about the lid.
func (c *clock) turn(h Heat) {
	if c.slow && h != Rest {
		h = SlowCooker
	}
	if h == Cook && c.heat != Rest {
		return
	}
	if h == Bake && c.heat != Bake && c.lid != Covered {
		c.lid = LidUnknown
	}
	c.heat = h
}

// lidOf is the lid after a clause. "Cover with water" is no lid.
func lidOf(tokens []token, lid Lid) Lid {
	for i, t := range tokens {
		next := after(tokens, i)
		switch t.norm {
		case "uncover", "uncovered":
			lid = Uncovered
		case "covered", "cover":
			if partly(before(tokens, i)) {
				lid = PartlyCovered
			} else if next != "with" || hasLid(tokens[i:]) {
				lid = Covered
			}
		case "lid":
			switch {
			case next == "off" || before(tokens, i) == "off" || isWithout(tokens, i):
				lid = Uncovered
			case next == "on" || next == "ajar":
				lid = map[string]Lid{"on": Covered, "ajar": PartlyCovered}[next]
			}
		}
	}
	return lid
}

func partly(w string) bool {
	return w == "partly" || w == "partially" || w == "half" || w == "loosely"
}

func hasLid(tokens []token) bool {
	for _, t := range tokens[:min(len(tokens), 5)] {
		if t.norm == "foil" || t.norm == "lid" || t.norm == "wrap" || t.norm == "plate" {
			return true
		}
	}
	return false
}

func isWithout(tokens []token, i int) bool {
	prev := before(tokens, i)
	return prev == "without" || i > 1 && (prev == "a" || prev == "the") && tokens[i-2].norm == "without"
}

// minutesOf are units of time in minutes.
var minutesOf = map[string]float64{"minute": 1, "min": 1, "mins": 1, "hour": 60, "hr": 60, "second": 1.0 / 60, "sec": 1.0 / 60}

// duration reads "30 to 40 minutes", "1 hour 15 minutes", "half an hour" at
// token i; n is how many tokens it takes, 0 where there is none.
func duration(tokens []token, i int) (low, high float64, n int) {
	for k := i; k < len(tokens); {
		l, h, used := oneDuration(tokens, k)
		if used == 0 {
			break
		}
		low, high, n = low+l, high+h, k+used-i
		k += used
		if k < len(tokens) && tokens[k].norm == "and" {
			k++
		}
	}
	return low, high, n
}

func oneDuration(tokens []token, i int) (low, high float64, n int) {
	if !tokens[i].num && !(tokens[i].word && measure.BeginsQuantity(tokens[i].norm)) {
		return 0, 0, 0
	}
	window := tokens[i:min(len(tokens), i+12)]
	if !slices.ContainsFunc(window, func(t token) bool { return t.minutes != 0 }) {
		return 0, 0, 0 // no unit of time follows
	}
	rest := strings.TrimLeft(render(window), " \t\n")
	q, used, ok := measure.ScanQuantity(rest)
	if !ok {
		return 0, 0, 0
	}
	k := i
	for length := -len(tokens[i].space); k < len(tokens) && length < used; k++ {
		length += len(tokens[k].space) + len(tokens[k].text)
	}
	if k < len(tokens) && isHyphen(tokens[k]) {
		k++
	}
	for k < len(tokens) && (tokens[k].norm == "more" || tokens[k].norm == "full" || tokens[k].norm == "additional" || tokens[k].norm == "further") {
		k++
	}
	if k >= len(tokens) || tokens[k].minutes == 0 {
		return 0, 0, 0
	}
	unit := tokens[k].minutes
	return q.Low.Float() * unit, q.High.Float() * unit, k + 1 - i
}

// deeds reads treatments from a step's words.
func (c *clock) deeds(step int, ws []string) {
	did := func(t Treatment) { c.out.Deeds = append(c.out.Deeds, Deed{step, t}) }
	text := " " + strings.Join(ws, " ") + " "
	if strings.Contains(text, " drain ") || strings.Contains(text, " drained ") || strings.Contains(text, " strain ") {
		did(Drained)
	}
	if strings.Contains(text, " rinse ") || strings.Contains(text, " rinsed ") {
		did(Rinsed)
	}
	if strings.Contains(text, " marinade ") && (strings.Contains(text, " discard") || strings.Contains(text, " throw ")) {
		did(MarinadeDiscarded)
	}
	if reserves(ws) {
		did(LiquidReserved)
	}
}

var liquids = newSet(`liquid water broth juice marinade stock brine`)

// reserves looks for "reserve", "save" or "keep" with a liquid close after.
func reserves(ws []string) bool {
	for i, w := range ws {
		if w != "reserve" && w != "reserving" && w != "save" && w != "saving" && w != "keep" && w != "keeping" {
			continue
		}
		for _, next := range ws[i+1 : min(len(ws), i+7)] {
			if liquids[next] {
				return true
			}
		}
	}
	return false
}

func hasRun(ws []string, a, b string) bool {
	for i := range ws {
		if ws[i] == a && i+1 < len(ws) && ws[i+1] == b {
			return true
		}
	}
	return false
}
