package kitchen

import (
	"fmt"
	"slices"

	"potwright/internal/adaptation"
	"potwright/internal/composition"
	"potwright/internal/cooking"
	"potwright/internal/foodmatch"
	"potwright/internal/household"
	"potwright/internal/keeping"
	"potwright/internal/nutrient"
	"potwright/internal/portion"
	"potwright/internal/spread"
)

// Amounts is a panel as a document: by nutrient key, only what is known in
// full. What is missing is named beside it.
type Amounts map[string]spread.Range

// AmountsOf writes a panel. A nutrient of which a part is unknown is left out.
func AmountsOf(p nutrient.Panel) Amounts {
	out := Amounts{}
	for n, a := range p {
		if a.Unknown == 0 {
			out[composition.Nutrient(n).Key()] = a.Range
		}
	}
	return out
}

// FoodDocument names a food row.
type FoodDocument struct {
	ID   string `json:"id"`
	Name string `json:"name"`
}

// LineDocument is one ingredient line as read and computed.
type LineDocument struct {
	Text       string         `json:"text"`
	Section    string         `json:"section,omitempty"`
	State      string         `json:"state"`
	Food       *FoodDocument  `json:"food"`
	Also       []FoodDocument `json:"also,omitempty"` // further foods of the same line
	Grams      *spread.Range  `json:"grams"`
	Confidence float64        `json:"confidence"`
	Notes      []string       `json:"notes"`
	Nutrients  Amounts        `json:"nutrients"`
	AtTable    bool           `json:"at_table,omitempty"`
	// Cooked is nil where the method does not tell.
	Cooked *CookedDocument `json:"cooked,omitempty"`
}

// YieldDocument is the finished dish.
type YieldDocument struct {
	Grams       spread.Range `json:"grams"`
	Millilitres spread.Range `json:"millilitres"`
}

// CookedDocument is what the method does to a line.
type CookedDocument struct {
	Treatment string `json:"treatment"`
	Sure      bool   `json:"sure"`
	// Minutes of heat; nil where none are told.
	Minutes *spread.Range `json:"minutes,omitempty"`
	// PouredOff is the share that is thrown away, with what.
	PouredOff *spread.Range `json:"poured_off,omitempty"`
	With      string        `json:"with,omitempty"`
}

// AnalysisDocument is an analysis for other programs: amounts are ranges, of
// the whole pot and of one serving, in the unit of the key.
type AnalysisDocument struct {
	Title      string              `json:"title"`
	Servings   float64             `json:"servings"`
	Notes      []string            `json:"notes,omitempty"`
	Lines      []LineDocument      `json:"lines"`
	Pot        Amounts             `json:"pot"`
	PerServing Amounts             `json:"per_serving"`
	Yield      YieldDocument       `json:"yield"`
	Unknown    map[string][]string `json:"unknown"`
	Keeping    KeepingDocument     `json:"keeping"`
	Caution    string              `json:"caution"`
}

// KeepingDocument is how the dish is kept and what its cooking must not leave out.
type KeepingDocument struct {
	Advice   []AdviceDocument `json:"advice"`
	Reminder string           `json:"reminder"`
}

// AdviceDocument is one advice; Lines and Steps count from 0.
type AdviceDocument struct {
	Rule   string `json:"rule"`
	Topic  string `json:"topic"`
	Text   string `json:"text"`
	Reason string `json:"reason"`
	Source string `json:"source"`
	Lines  []int  `json:"lines"`
	Steps  []int  `json:"steps"`
}

func keepingDocument(advice []keeping.Advice) KeepingDocument {
	d := KeepingDocument{Advice: []AdviceDocument{}, Reminder: keeping.Reminder}
	for _, a := range advice {
		d.Advice = append(d.Advice, AdviceDocument{a.Rule, string(a.Topic), a.Text, a.Reason, a.Source, append([]int{}, a.Lines...), append([]int{}, a.Steps...)})
	}
	return d
}

// Caution stands on everything that shows a verdict.
const Caution = "Estimates with ranges, not medical advice. Your clinician's figures and your local food-safety rules come first; check labels for allergens, and test each plate where texture matters."

// Document writes an analysis.
func (a Analysis) Document() AnalysisDocument {
	doc := AnalysisDocument{
		Title: a.Recipe.Title, Servings: a.Pot.Servings, Notes: slices.Concat([]string{}, a.Recipe.Strayed(), a.Recipe.Notes, a.Plan.Notes),
		Lines: []LineDocument{}, Pot: AmountsOf(a.Pot.Total), PerServing: AmountsOf(a.Pot.Serving),
		Yield: YieldDocument{Grams: a.Pot.YieldGrams, Millilitres: a.Pot.YieldMillilitres}, Unknown: map[string][]string{}, Keeping: keepingDocument(a.Keeping()), Caution: Caution,
	}
	for _, lp := range a.Pot.Lines {
		doc.Lines = append(doc.Lines, lineDocument(lp))
	}
	for i, l := range a.Recipe.Lines {
		doc.Lines[i].Section = l.Section
		doc.Lines[i].Cooked = cookedDocument(a.Plan.Of(i))
	}
	for n, lines := range a.Pot.Unknown {
		for _, i := range lines {
			doc.Unknown[n.Key()] = append(doc.Unknown[n.Key()], a.Pot.Lines[i].Matched.Reading.Text)
		}
	}
	return doc
}

// cookedDocument is nil where nothing is told.
func cookedDocument(l cooking.Line) *CookedDocument {
	if l.Treatment == cooking.TreatmentUnknown {
		return nil
	}
	d := CookedDocument{Treatment: string(l.Treatment), Sure: l.Sure, With: l.AwayFor}
	if l.High > 0 {
		d.Minutes = &spread.Range{Low: l.Low, Mid: (l.Low + l.High) / 2, High: l.High}
	}
	if l.AwayFor != "" {
		away := l.Away
		d.PouredOff = &away
	}
	return &d
}

func lineDocument(lp nutrient.LinePanel) LineDocument {
	m := lp.Matched
	d := LineDocument{
		Text: m.Reading.Text, State: string(m.State), Confidence: m.Confidence,
		Notes: append([]string{}, m.Notes...), Nutrients: AmountsOf(lp.Panel), AtTable: lp.AtTable,
	}
	if m.State == foodmatch.Unread {
		return d
	}
	for i, item := range m.Items {
		f := FoodDocument{ID: item.Food.ID, Name: item.Food.Name}
		if i == 0 {
			d.Food = &f
		} else {
			d.Also = append(d.Also, f)
		}
	}
	grams := lp.Grams
	d.Grams = &grams
	return d
}

// LimitDocument is a limit as the household wrote it.
type LimitDocument struct {
	Nutrient string   `json:"nutrient,omitempty"`
	AtMost   *float64 `json:"at_most,omitempty"`
	AtLeast  *float64 `json:"at_least,omitempty"`
	Per      string   `json:"per,omitempty"`
	SetBy    string   `json:"set_by,omitempty"`
}

// FindingDocument is one limit or need against a plate.
type FindingDocument struct {
	Kind    string          `json:"kind"`
	Limit   *LimitDocument  `json:"limit,omitempty"`
	Amount  *spread.Range   `json:"amount,omitempty"`
	Bound   float64         `json:"bound,omitempty"`
	Verdict string          `json:"verdict"`
	Text    string          `json:"text"`
	Shares  []ShareDocument `json:"shares"`
}

// ShareDocument is one line's part in a finding.
type ShareDocument struct {
	Line  int     `json:"line"`
	Share float64 `json:"share"`
	Text  string  `json:"text"`
}

// MemberDocument is one member's plate.
type MemberDocument struct {
	Name     string           `json:"name"`
	Portion  float64          `json:"portion"`
	AtTable  []string         `json:"at_table"`
	Provided []string         `json:"provided"` // what labels must say for it to fit
	Fits     string           `json:"fits"`
	Largest  *LargestDocument `json:"largest_portion,omitempty"`
	Plate    Amounts          `json:"plate"`
	// Grams and Millilitres are what the portion weighs and fills; Costs where the
	// cost of a portion in the member's plan steps up, in words.
	Grams       *spread.Range     `json:"grams,omitempty"`
	Millilitres *spread.Range     `json:"millilitres,omitempty"`
	Costs       string            `json:"costs,omitempty"`
	Findings    []FindingDocument `json:"findings"`
	Cautions    []CautionDocument `json:"cautions"`
	// Dislikes are matters of taste, no part of the verdict.
	Dislikes []string `json:"dislikes,omitempty"`
}

// CautionDocument is something on the plate that the member was told to watch:
// no verdict. Lines count from 0.
type CautionDocument struct {
	ID     string `json:"id"`
	Title  string `json:"title"`
	Sure   bool   `json:"sure"` // false where only a label or the cook can tell
	Text   string `json:"text"`
	Say    string `json:"say"`
	Lines  []int  `json:"lines"`
	Source string `json:"source"`
}

// LargestDocument is the largest portion, as a share of a serving, inside every
// limit from above, and what bounds it.
type LargestDocument struct {
	Share float64 `json:"share"`
	By    string  `json:"by"`
}

func memberDocument(p adaptation.Plate) MemberDocument {
	d := MemberDocument{
		Name: p.Member.Name, Portion: p.Portion, AtTable: append([]string{}, p.AtTable...), Provided: append([]string{}, p.Provided...),
		Fits: string(p.Verdict.Fit), Plate: AmountsOf(p.Panel), Findings: FindingDocuments(p.Verdict.Findings), Cautions: []CautionDocument{},
	}
	if p.Largest.Bounded() {
		d.Largest = &LargestDocument{p.Largest.Share, p.Largest.By}
	}
	if p.Dished.Grams.Mid > 0 {
		d.Grams, d.Millilitres = &p.Dished.Grams, &p.Dished.Millilitres
	}
	if p.Member.Plan != nil {
		d.Costs = portion.CostText(*p.Member.Plan, p.Costs, p.Portion)
	}
	d.Dislikes = p.Dislikes
	for _, c := range p.Cautions {
		d.Cautions = append(d.Cautions, CautionDocument{c.ID, c.Title, c.Sure, c.Text, c.Say, append([]int{}, c.Lines...), c.Source})
	}
	return d
}

// FindingDocuments writes findings.
func FindingDocuments(fs []household.Finding) []FindingDocument {
	out := []FindingDocument{}
	for _, f := range fs {
		out = append(out, findingDocument(f))
	}
	return out
}

func findingDocument(f household.Finding) FindingDocument {
	d := FindingDocument{Kind: f.Kind, Bound: f.Bound, Verdict: string(f.Fit), Text: f.Text, Shares: []ShareDocument{}}
	if f.Limit != nil {
		d.Limit = limitDocument(*f.Limit)
	}
	if f.Kind == "limit" || f.Kind == "plan" {
		amount := f.Amount
		d.Amount = &amount
	}
	for _, s := range f.Shares {
		d.Shares = append(d.Shares, ShareDocument{Line: s.Line, Share: s.Share, Text: s.Text})
	}
	return d
}

func limitDocument(l household.Limit) *LimitDocument {
	return &LimitDocument{
		Nutrient: l.Nutrient.Key(), AtMost: l.AtMost, AtLeast: l.AtLeast,
		Per: string(l.Per), SetBy: string(l.SetBy),
	}
}

// CheckDocument is an analysis with what it means for everyone.
type CheckDocument struct {
	AnalysisDocument
	Fits    string           `json:"fits"`
	Members []MemberDocument `json:"members"`
	Hands   []HandDocument   `json:"hands"`
}

// HandDocument is a line or step that loads the cook's hands; Line and Step
// count from 0, -1 for the other.
type HandDocument struct {
	Line   int    `json:"line"`
	Step   int    `json:"step"`
	Load   string `json:"load"`
	Score  int    `json:"score"` // 0..3, a design choice
	Text   string `json:"text"`
	Easier string `json:"easier,omitempty"`
	// EasierNutrients and EasierYield say what the easier way does, EasierCost how
	// its price compares: "cheaper", "the same" or "dearer".
	EasierNutrients string `json:"easier_nutrients,omitempty"`
	EasierYield     string `json:"easier_yield,omitempty"`
	EasierCost      string `json:"easier_cost,omitempty"`
}

// Document joins an analysis and its report.
func (r Report) Document(a Analysis) CheckDocument {
	doc := CheckDocument{
		AnalysisDocument: a.Document(), Fits: string(r.Fit),
		Members: []MemberDocument{}, Hands: []HandDocument{},
	}
	for _, n := range r.Hands {
		doc.Hands = append(doc.Hands, HandDocument{Line: n.Line, Step: n.Step, Load: n.Load, Score: n.Score, Text: n.Text,
			Easier: n.Easier, EasierNutrients: n.Effect.Nutrients, EasierYield: n.Effect.Yield, EasierCost: string(n.Effect.Cost)})
	}
	for _, p := range r.Plates {
		doc.Members = append(doc.Members, memberDocument(p))
	}
	return doc
}

// ChangeDocument is one change of an adaptation.
type ChangeDocument struct {
	Line int      `json:"line"`
	From string   `json:"from"`
	To   string   `json:"to"`
	Rule string   `json:"rule"`
	Why  []string `json:"why"`
	For  []string `json:"for"`
	Cost float64  `json:"cost"`
}

func changeDocuments(changes []adaptation.Change) []ChangeDocument {
	out := []ChangeDocument{}
	for _, c := range changes {
		out = append(out, ChangeDocument{
			Line: c.Line, From: c.From, To: c.To(), Rule: c.Option.Rule.ID,
			Why: append([]string{}, c.Why...), For: append([]string{}, c.For...), Cost: float64(c.Option.Change),
		})
	}
	return out
}

// AlternativeDocument is another way to suit everyone; Cost is how much it
// changes the dish and the portions in all.
type AlternativeDocument struct {
	Cost    int64            `json:"cost"`
	Changes []ChangeDocument `json:"changes"`
}

// RecipeDocument is a recipe as text.
type RecipeDocument struct {
	Title       string   `json:"title"`
	Servings    float64  `json:"servings"`
	Ingredients []string `json:"ingredients"`
	Steps       []string `json:"steps"`
}

// BalanceDocument is one function of the dish.
type BalanceDocument struct {
	Before float64 `json:"before"`
	After  float64 `json:"after"`
	Unit   string  `json:"unit"`
}

// ReachDocument is the least a limit can be brought to.
type ReachDocument struct {
	Limit  *LimitDocument `json:"limit"`
	Amount float64        `json:"amount"`
}

// ShoppingDocument is a label ceiling for a packaged line.
type ShoppingDocument struct {
	Line        int            `json:"line"`
	LabelAtMost map[string]any `json:"label_at_most"`
}

// AdaptDocument is an answer for other programs.
type AdaptDocument struct {
	Fits         bool                       `json:"fits"`
	Proof        string                     `json:"proof"`
	Seconds      float64                    `json:"seconds"`
	Nodes        int                        `json:"nodes"`
	Recipe       RecipeDocument             `json:"recipe"`
	Changes      []ChangeDocument           `json:"changes"`
	Members      []MemberDocument           `json:"members"`
	PerServing   Amounts                    `json:"per_serving"`
	Balance      map[string]BalanceDocument `json:"balance"`
	Conflicts    []string                   `json:"conflicts"`
	Reachable    map[string][]ReachDocument `json:"reachable"`
	Nearest      []string                   `json:"nearest"`
	Alternatives []AlternativeDocument      `json:"alternatives"`
	Shopping     []ShoppingDocument         `json:"shopping"`
	Cautions     []string                   `json:"cautions"`
}

// AdaptDocumentOf writes an answer.
func AdaptDocumentOf(ans adaptation.Answer) AdaptDocument {
	doc := AdaptDocument{
		Fits: ans.Fits, Proof: string(ans.Proof), Seconds: ans.Elapsed.Seconds(), Nodes: ans.Nodes,
		Recipe:  RecipeDocument{Title: ans.Recipe.Title, Servings: ans.Recipe.Servings, Ingredients: []string{}, Steps: []string{}},
		Changes: []ChangeDocument{}, Members: []MemberDocument{}, PerServing: AmountsOf(ans.Pot.Serving),
		Balance: map[string]BalanceDocument{}, Conflicts: append([]string{}, ans.Conflicts...),
		Reachable: map[string][]ReachDocument{}, Nearest: append([]string{}, ans.Nearest...),
		Alternatives: []AlternativeDocument{}, Shopping: []ShoppingDocument{}, Cautions: append([]string{Caution}, ans.Cautions...),
	}
	for _, l := range ans.Recipe.Lines {
		doc.Recipe.Ingredients = append(doc.Recipe.Ingredients, l.Reading.Text)
	}
	for _, s := range ans.Recipe.Steps {
		doc.Recipe.Steps = append(doc.Recipe.Steps, s.Text)
	}
	doc.Changes = changeDocuments(ans.Changes)
	for _, alt := range ans.Alternatives {
		doc.Alternatives = append(doc.Alternatives, AlternativeDocument{Cost: alt.Cost[0], Changes: changeDocuments(alt.Changes)})
	}
	for _, p := range ans.Plates {
		doc.Members = append(doc.Members, memberDocument(p))
	}
	for _, b := range ans.Balance {
		doc.Balance[b.Function] = BalanceDocument{b.Before, b.After, b.Unit}
	}
	for _, r := range ans.Reachable {
		doc.Reachable[r.Member] = append(doc.Reachable[r.Member], ReachDocument{limitDocument(r.Limit), r.Amount})
	}
	for _, l := range ans.Labels {
		doc.Shopping = append(doc.Shopping, ShoppingDocument{l.Line, map[string]any{l.Nutrient.Key(): l.AtMost, "per": fmt.Sprint(l.Per)}})
	}
	return doc
}
