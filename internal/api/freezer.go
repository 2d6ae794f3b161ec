package api

import (
	"math"
	"net/http"
	"slices"

	"potwright/internal/daybook"
	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/portion"
	"potwright/internal/spread"
)

func freezerOperations() []operation {
	const container = ofHousehold + "/freezer/:container_id"
	size := []parameter{
		{name: "by", about: "what the size counts", schema: schema{"type": "string", "enum": []any{"servings", "grams", "cups"}, "default": "servings"}},
		{name: "size", about: "what one container holds", schema: schema{"type": "number", "exclusiveMinimum": 0, "default": 1}},
		{name: "made", about: "the day the dish is made; today where it is left out", schema: schema{"type": "string", "format": "date"}},
	}
	return []operation{
		{method: http.MethodGet, path: ofVersion + "/portions", id: "divide", summary: "The finished dish divided into containers, with what each label says", query: size, answer: portionsAnswer{}, status: http.StatusOK, do: divide},
		{method: http.MethodGet, path: ofHousehold + "/freezer", id: "listFreezer", summary: "Containers in the freezer, the first put in first", answer: containerList{}, status: http.StatusOK, do: listFreezer},
		{method: http.MethodPost, path: ofVersion + "/containers", id: "putInFreezer", summary: "Write containers of a version down as in the freezer", body: putInBody{}, answer: containerList{}, status: http.StatusCreated, changes: true, do: putInFreezer},
		{method: http.MethodGet, path: container, id: "findContainer", summary: "One container in the freezer", answer: containerAnswer{}, status: http.StatusOK, do: findContainer},
		{method: http.MethodPost, path: container + "/out", id: "takeOut", summary: "Take a container out, and write down who eats it", body: takeOutBody{}, status: http.StatusNoContent, changes: true, state: findContainer, do: takeOut},
	}
}

// containerAnswer is a container in the freezer.
type containerAnswer struct {
	ID int64 `json:"id"`
	daybook.Container
	// PastBest is set where the day of the advice is over. The day is about quality: no
	// figure tells whether it may still be eaten.
	PastBest bool `json:"past_best"`
}

type containerList struct {
	Containers []containerAnswer `json:"containers"`
}

func (r *request) containersOf(cs []daybook.Container) containerList {
	out := containerList{[]containerAnswer{}}
	for _, c := range cs {
		out.Containers = append(out.Containers, containerAnswer{c.ID, c, c.PastBest(r.today())})
	}
	return out
}

// keepsDocument are the last days by the shorter end of the advice on keeping; left
// out where none is known.
type keepsDocument struct {
	ChilledUntil daybook.Date `json:"chilled_until,omitempty"`
	FrozenUntil  daybook.Date `json:"frozen_until,omitempty"`
	// Unfrozen is set where the advice gives no time in the freezer.
	Unfrozen bool     `json:"not_for_the_freezer,omitempty"`
	Advice   []string `json:"advice"`
}

// portionsAnswer is a dish divided.
type portionsAnswer struct {
	// Full counts the full containers, LeftOver is the rest as a share of one.
	Full     int     `json:"full"`
	LeftOver float64 `json:"left_over"`
	// Servings is one container's share of a serving, Grams what it weighs.
	Servings     spread.Range    `json:"servings"`
	Grams        spread.Range    `json:"grams"`
	PerContainer kitchen.Amounts `json:"per_container"`
	Keeps        keepsDocument   `json:"keeps"`
	// Members say what eating a whole container means; none where it is more than one
	// person eats.
	Members []kitchen.MemberDocument `json:"members"`
}

// sizeBody is what one container holds.
type sizeBody struct {
	By   kitchen.Dividing `json:"by,omitempty"`
	Size float64          `json:"size"`
	Made daybook.Date     `json:"made,omitempty"`
}

// mostSize is the largest container asked about, in any of the ways to divide.
const mostSize = 100_000

// share is one container's share of a serving, and the day it is made.
func (r *request) share(a kitchen.Analysis, b sizeBody) (spread.Range, daybook.Date, error) {
	if b.By == "" {
		b.By = kitchen.ByServings
	}
	if b.Made == "" {
		b.Made = r.today()
	}
	if _, err := daybook.ParseDate(string(b.Made)); err != nil {
		return spread.Range{}, "", unusable("made", "%s", err)
	}
	if !slices.Contains(kitchen.Dividings(), b.By) || !(b.Size > 0) || b.Size > mostSize {
		return spread.Range{}, "", unusable("size", "%v by %q; expected a size above 0 by one of %v", b.Size, b.By, kitchen.Dividings())
	}
	share, ok := a.ShareOf(b.By, b.Size)
	if !ok {
		return share, "", unusable("by", "what the finished dish weighs or fills is not known; expected servings")
	}
	return share, b.Made, nil
}

func divide(r *request) (any, error) {
	_, a, err := r.kitchen.Open(r.ctx, r.household.ID, r.id("version_id"))
	if err != nil {
		return nil, err
	}
	size, err := r.number("size", 1)
	if err != nil {
		return nil, err
	}
	share, made, err := r.share(a, sizeBody{kitchen.Dividing(r.gin.Query("by")), size, daybook.Date(r.gin.Query("made"))})
	if err != nil {
		return nil, err
	}
	whole := a.Pot.Servings / share.Mid
	keeps := a.KeepsFrom(made)
	out := portionsAnswer{Full: int(math.Min(math.Floor(whole+1e-9), 1e6)), Servings: share, Grams: portion.Dished(a.Pot, share.Mid).Grams, PerContainer: kitchen.Amounts{},
		Keeps: keepsDocument{keeps.Chilled, keeps.Frozen, keeps.Unfrozen, []string{}}, Members: []kitchen.MemberDocument{}}
	out.LeftOver = max(0, whole-float64(out.Full))
	for key, x := range kitchen.AmountsOf(a.Pot.Serving) {
		out.PerContainer[key] = x.Times(share)
	}
	doc := a.Document()
	for _, x := range doc.Keeping.Advice {
		if x.Topic == "storing" {
			out.Keeps.Advice = append(out.Keeps.Advice, x.Text)
		}
	}
	if share.High <= household.MaxPortion {
		portions := make([]float64, len(r.household.Members))
		for i := range portions {
			portions[i] = share.High
		}
		out.Members = r.kitchen.CheckPortions(a, r.household, portions).Document(a).Members
	}
	return out, nil
}

func listFreezer(r *request) (any, error) {
	cs, err := r.store.ListContainers(r.ctx, r.household.ID)
	if err != nil {
		return nil, err
	}
	return r.containersOf(cs), nil
}

// putInBody is how many containers go in, and what each holds.
type putInBody struct {
	Count int `json:"count"`
	sizeBody
}

// mostContainers is how many are put in at once.
const mostContainers = 60

func putInFreezer(r *request) (any, error) {
	b := *r.body.(*putInBody)
	if b.Count < 1 || b.Count > mostContainers {
		return nil, unusable("count", "count is %d; expected 1 to %d", b.Count, mostContainers)
	}
	v, a, err := r.kitchen.Open(r.ctx, r.household.ID, r.id("version_id"))
	if err != nil {
		return nil, err
	}
	share, made, err := r.share(a, b.sizeBody)
	if err != nil {
		return nil, err
	}
	title := a.Recipe.Title
	if title == "" {
		s, err := r.store.FindRecipe(r.ctx, r.household.ID, v.RecipeID)
		if err != nil {
			return nil, err
		}
		title = s.Title
	}
	in, err := r.store.PutIn(r.ctx, r.household.ID, slices.Repeat([]daybook.Container{a.Container(v, title, share, made)}, b.Count))
	if err != nil {
		return nil, err
	}
	return r.containersOf(in), nil
}

// container is the one of the path, if it is still in.
func (r *request) container() (daybook.Container, error) {
	c, err := r.store.FindContainer(r.ctx, r.household.ID, r.id("container_id"))
	if err == nil && c.Out != "" {
		return c, notFound("container %d was taken out on %s", c.ID, c.Out)
	}
	return c, err
}

func findContainer(r *request) (any, error) {
	c, err := r.container()
	return containerAnswer{c.ID, c, c.PastBest(r.today())}, err
}

// takeOutBody is who eats of a container, and when; nobody where no helping is given.
// A helping without an amount is an even share of the container.
type takeOutBody struct {
	whenBody
	Helpings []helpingBody `json:"helpings,omitempty"`
}

func takeOut(r *request) (any, error) {
	b := *r.body.(*takeOutBody)
	box, err := r.container()
	if err != nil {
		return nil, err
	}
	var entries []daybook.Entry
	for _, h := range b.Helpings {
		m, err := r.eater(h)
		if err != nil {
			return nil, err
		}
		v, a, err := r.kitchen.Open(r.ctx, r.household.ID, box.VersionID)
		if err != nil {
			return nil, err
		}
		share, err := h.of(a, box.Portion/float64(len(b.Helpings)))
		if err != nil {
			return nil, err
		}
		e := b.on(r.today(), r.kitchen.DishEntry(r.household, m, v, a, share))
		if err := e.Check(); err != nil {
			return nil, unusable("", "%s", err)
		}
		entries = append(entries, e)
	}
	return nil, r.store.TakeOut(r.ctx, r.household.ID, box.ID, r.today(), entries)
}
