package api

import (
	"net/http"

	"potwright/internal/kitchen"
	"potwright/internal/label"
	"potwright/internal/method"
	"potwright/internal/recipe"
)

func versionOperations() []operation {
	two := []parameter{
		{name: "a", about: "a version of the recipe", schema: schema{"type": "integer", "minimum": 1}, required: true},
		{name: "b", about: "another", schema: schema{"type": "integer", "minimum": 1}, required: true},
	}
	servings := []parameter{{name: "servings", about: "how many the recipe shall give", schema: schema{"type": "number", "exclusiveMinimum": 0, "maximum": recipe.MostServings}, required: true}}
	batch := []parameter{{name: "servings", about: "how many the batch gives; as many as the recipe where it is left out", schema: schema{"type": "number", "exclusiveMinimum": 0, "maximum": recipe.MostServings}}}
	return []operation{
		{method: http.MethodGet, path: ofRecipe + "/compare", id: "compareVersions", summary: "Two versions of a recipe side by side", query: two, answer: compareAnswer{}, status: http.StatusOK, do: compareVersions},
		{method: http.MethodPost, path: ofVersion + "/again", id: "takeUpAgain", summary: "Save an earlier version as the newest; those in between are kept", body: noteBody{}, answer: versionAnswer{}, status: http.StatusCreated, changes: true, do: takeUpAgain},
		{method: http.MethodGet, path: ofVersion + "/scaled", id: "scale", summary: "The recipe for another number of servings; nothing is saved", query: servings, answer: kitchen.ScaledRecipe{}, status: http.StatusOK, do: scale},
		{method: http.MethodGet, path: ofVersion + "/cook", id: "cook", summary: "The method step by step, for a batch of any size: what goes in, the times, what is hard on the hands", query: batch, answer: cookingAnswer{}, status: http.StatusOK, do: cook},
		{method: http.MethodGet, path: ofVersion + "/claims", id: "findClaims", summary: "A serving against numeric definitions of label terms; no claim", answer: claimsAnswer{}, status: http.StatusOK, do: findClaims},
	}
}

// differenceDocument is a line or step of two versions; From and To count from 0, -1
// where there is none.
type differenceDocument struct {
	Kind     recipe.DiffKind `json:"kind"`
	FromText string          `json:"from_text"`
	ToText   string          `json:"to_text"`
	From     int             `json:"from"`
	To       int             `json:"to"`
}

func differences(ds []recipe.Difference) []differenceDocument {
	out := []differenceDocument{}
	for _, d := range ds {
		out = append(out, differenceDocument{d.Kind, d.From, d.To, d.FromIndex, d.ToIndex})
	}
	return out
}

// compareAnswer is two versions side by side; the figures are a serving's.
type compareAnswer struct {
	A           int64                `json:"a"`
	B           int64                `json:"b"`
	Lines       []differenceDocument `json:"lines"`
	Steps       []differenceDocument `json:"steps"`
	PerServingA kitchen.Amounts      `json:"per_serving_a"`
	PerServingB kitchen.Amounts      `json:"per_serving_b"`
}

// openOf opens the version of the query that is one of the recipe of the path.
func (r *request) openOf(name string) (recipe.Version, kitchen.Analysis, error) {
	id, err := wholeNumber(name, r.gin.Query(name))
	if err != nil {
		return recipe.Version{}, kitchen.Analysis{}, err
	}
	if _, err := r.versionOf(id); err != nil {
		return recipe.Version{}, kitchen.Analysis{}, err
	}
	return r.kitchen.Open(r.ctx, r.household.ID, id)
}

func compareVersions(r *request) (any, error) {
	va, a, err := r.openOf("a")
	if err != nil {
		return nil, err
	}
	vb, b, err := r.openOf("b")
	if err != nil {
		return nil, err
	}
	lines, steps := recipe.Diff(a.Recipe, b.Recipe)
	return compareAnswer{va.ID, vb.ID, differences(lines), differences(steps), kitchen.AmountsOf(a.Pot.Serving), kitchen.AmountsOf(b.Pot.Serving)}, nil
}

// noteBody is a note for what is saved.
type noteBody struct {
	Note string `json:"note,omitempty"`
}

func takeUpAgain(r *request) (any, error) {
	old, err := r.store.FindVersion(r.ctx, r.household.ID, r.id("version_id"))
	if err != nil {
		return nil, err
	}
	v, err := r.kitchen.SaveAgain(r.ctx, r.household.ID, old, r.body.(*noteBody).Note)
	return r.saved(v, err)
}

func scale(r *request) (any, error) {
	servings, err := r.number("servings", 0)
	if err != nil {
		return nil, err
	}
	_, a, err := r.kitchen.Open(r.ctx, r.household.ID, r.id("version_id"))
	if err != nil {
		return nil, err
	}
	scaled, err := a.Scaled(servings)
	return scaled, err
}

// stepDocument is one step of the method.
type stepDocument struct {
	Section string `json:"section,omitempty"`
	Text    string `json:"text"`
	// Lines are the ingredient lines that it speaks of, from 0; Perhaps those that its
	// words may mean as well.
	Lines   []int                  `json:"lines"`
	Perhaps []int                  `json:"perhaps"`
	Times   []timeDocument         `json:"times"`
	Hands   []kitchen.HandDocument `json:"hands"`
}

// timeDocument is a time that a step states, in seconds.
type timeDocument struct {
	LeastSeconds float64 `json:"least_seconds"`
	MostSeconds  float64 `json:"most_seconds"`
	Heat         string  `json:"heat"`
	Lid          string  `json:"lid,omitempty"`
}

// cookingAnswer is a dish while it is cooked.
type cookingAnswer struct {
	// SetOut are the ingredient lines with what is hard on the hands, by line.
	SetOut  []string                 `json:"set_out"`
	Hands   []kitchen.HandDocument   `json:"hands"`
	Steps   []stepDocument           `json:"steps"`
	Plates  []kitchen.MemberDocument `json:"plates"`
	Keeping kitchen.KeepingDocument  `json:"keeping"`
	// Notes say what of the batch is not scaled.
	Notes   []string `json:"notes"`
	Caution string   `json:"caution"`
}

func cook(r *request) (any, error) {
	v, a, err := r.kitchen.Open(r.ctx, r.household.ID, r.id("version_id"))
	if err != nil {
		return nil, err
	}
	saved, err := versionAnswerOf(v)
	if err != nil {
		return nil, err
	}
	servings, err := r.number("servings", a.Pot.Servings)
	if err != nil {
		return nil, err
	}
	a, notes, err := r.kitchen.ForServings(r.ctx, r.household.ID, a, servings)
	if err != nil {
		return nil, err
	}
	doc := r.kitchen.Check(a, r.household).Document(a)
	out := cookingAnswer{Notes: append([]string{}, notes...), SetOut: []string{}, Hands: []kitchen.HandDocument{}, Steps: stepsOf(a), Plates: saved.Plates, Keeping: doc.Keeping, Caution: kitchen.Caution}
	if out.Plates == nil {
		out.Plates = doc.Members
	}
	for _, l := range a.Recipe.Lines {
		out.SetOut = append(out.SetOut, l.Reading.Text)
	}
	for _, h := range doc.Hands {
		if h.Step >= 0 && h.Step < len(out.Steps) {
			out.Steps[h.Step].Hands = append(out.Steps[h.Step].Hands, h)
		} else {
			out.Hands = append(out.Hands, h)
		}
	}
	return out, nil
}

// stepsOf are the steps with what goes into each and how long it takes.
func stepsOf(a kitchen.Analysis) []stepDocument {
	out := []stepDocument{}
	mentions := method.Mentions(a.Recipe.Steps, a.Pot.Matched())
	for i, st := range a.Recipe.Steps {
		d := stepDocument{Section: st.Section, Text: st.Text, Lines: []int{}, Perhaps: []int{}, Times: []timeDocument{}, Hands: []kitchen.HandDocument{}}
		seen := map[int]bool{}
		for _, m := range mentions[i] {
			if seen[m.Line] {
				continue
			}
			seen[m.Line] = true
			d.Lines, d.Perhaps = append(d.Lines, m.Line), append(d.Perhaps, m.Others...)
		}
		out = append(out, d)
	}
	for _, p := range method.Times(a.Recipe.Steps).Periods {
		if p.Step >= 0 && p.Step < len(out) {
			out[p.Step].Times = append(out[p.Step].Times, timeDocument{60 * p.Low, 60 * p.High, string(p.Heat), string(p.Lid)})
		}
	}
	return out
}

// claimDocument is a numeric definition held against a serving.
type claimDocument struct {
	Term      string          `json:"term"`
	Section   string          `json:"section"`
	Judgement label.Judgement `json:"judgement"`
	Why       string          `json:"why,omitempty"`
	// FromMemory is set where the figures were not read in the regulation.
	FromMemory bool `json:"from_memory,omitempty"`
}

// claimsAnswer is what the regulations' figures say of a serving. It is no claim: a
// home figure is not a label.
type claimsAnswer struct {
	Basis       string          `json:"basis"`
	Terms       []claimDocument `json:"terms"`
	Disclosures []string        `json:"disclosures"`
}

func claimsAnswerOf(c kitchen.Claims) claimsAnswer {
	out := claimsAnswer{Basis: c.Basis, Terms: []claimDocument{}, Disclosures: append([]string{}, c.Disclosures...)}
	for _, j := range append(c.Judged, c.Compared...) {
		out.Terms = append(out.Terms, claimDocument{j.Term, j.Section, j.Judgement, j.Why, j.Memory})
	}
	return out
}

// findClaims compares with the version that this one was made from.
func findClaims(r *request) (any, error) {
	v, a, err := r.kitchen.Open(r.ctx, r.household.ID, r.id("version_id"))
	if err != nil {
		return nil, err
	}
	var earlier *kitchen.Analysis
	if v.ParentID != 0 {
		_, b, err := r.kitchen.Open(r.ctx, r.household.ID, v.ParentID)
		if err != nil {
			return nil, err
		}
		earlier = &b
	}
	return claimsAnswerOf(kitchen.DishClaims(a, earlier)), nil
}
