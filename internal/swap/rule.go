// Package swap is the swap rules as values: matching a rule to an ingredient
// line, the options it opens, and the balance of a dish.
package swap

import (
	"potwright/internal/composition"
	"potwright/internal/foodmatch"
)

// Action is what a rule does to a line.
type Action string

// Actions of a rule.
const (
	Replace Action = "replace" // other foods in its place
	Rinse   Action = "rinse"   // drained and rinsed instead of as it comes
	Drain   Action = "drain"   // drained instead of as it comes
	Reduce  Action = "reduce"  // less of the same
	Omit    Action = "omit"    // left out
	ToTable Action = "table"   // held back from the pot, offered at the table
	First   Action = "first"   // the first of the foods that the line names with "or"
	Second  Action = "second"  // the other one
	Add     Action = "add"     // put in besides the lines, to restore what the dish lost
)

// Rule is one swap rule as written in rules/swap. Its effect on nutrients is
// never written down: it is computed from the foods.
type Rule struct {
	ID    string       `json:"id"`
	Title string       `json:"title"`
	Match Match        `json:"match"`
	Do    Action       `json:"do"`
	With  []Ingredient `json:"with,omitempty"` // for Replace and Add: what comes instead or besides, together
	// Restores is, for Add, the function of the dish that it makes up for.
	Restores string `json:"restores,omitempty"`
	// Keep are, for Reduce, the shares kept, each an option of its own; for
	// ToTable the one share of the line's amount that is offered at the table,
	// the whole where empty; for Add the shares of its amounts that may be taken.
	Keep []float64 `json:"keep,omitempty"`
	// Change is how far one use departs from the dish for those who eat it, from 0,
	// the same dish, to 10, another dish; rules/swap/README.md reasons the steps
	// out. With several shares kept it is that of the smallest.
	Change int `json:"change"`
	// Effort is work for the cook, -3 (much easier) .. 3 (much more).
	Effort int `json:"effort"`
	// Minutes is how much longer the new food cooks than the old in the same pot or
	// oven, less than 0 where it is done sooner.
	Minutes int `json:"minutes,omitempty"`
	// Touches are the functions of dish balance it moves: salt, savour, body, …
	Touches []string `json:"touches,omitempty"`
	// Spares are hand loads that the swap takes away, Asks those it adds.
	Spares []string `json:"spares,omitempty"`
	Asks   []string `json:"asks,omitempty"`
	// Softens are texture features the swap takes away ("stringy", "husks").
	Softens  []string     `json:"softens,omitempty"`
	Method   []MethodEdit `json:"method,omitempty"`
	Why      string       `json:"why"`
	Source   string       `json:"source"` // a source, or "common practice"
	Cautions []string     `json:"cautions,omitempty"`
	// Together names a set of which one dish may use at most one rule, or "".
	Together string `json:"together,omitempty"`
	// Manual rules are never chosen on their own; a person may insist on one.
	Manual bool `json:"manual,omitempty"`
	// Examples are lines that it must and must not fit; they are its test.
	Examples Examples `json:"examples"`
	// File and Line say where the rule stands.
	File string `json:"file,omitempty"`
	Line int    `json:"line,omitempty"`
}

// Examples of a rule are ingredient lines as cooks write them: those it fits and
// those it does not, in a dish with the lines of Dish. Those of a rule of action
// Add are dishes of four servings, their lines parted by semicolons; after
// "method:" stands a step.
type Examples struct {
	Fires []string `json:"fires"`
	Not   []string `json:"not"`
	Dish  []string `json:"dish,omitempty"`
}

// Match says which lines a rule fits. Every list that is not empty must hold;
// within a list one entry is enough.
type Match struct {
	Foods    []string `json:"foods,omitempty"` // names of table rows
	Kinds    []string `json:"kinds,omitempty"`
	NotKinds []string `json:"not_kinds,omitempty"`
	NotFoods []string `json:"not_foods,omitempty"`
	States   []string `json:"states,omitempty"` // state words of the table row
	NotState []string `json:"not_states,omitempty"`
	Units    []string `json:"units,omitempty"` // units of the line: can, cup, each, …
	Words    []string `json:"words,omitempty"` // words in the line as written: "chopped", "diced", …
	NotWords []string `json:"not_words,omitempty"`
	DishHas  []string `json:"dish_has,omitempty"` // kinds or names of rows, one of which another line must be
	DishNot  []string `json:"dish_not,omitempty"` // kinds or names of rows that no other line may be
	// Most is the largest amount of the line, in the line's own unit: a swap that
	// holds for three eggs does not for eight. 0 stands for any amount; a line
	// without an amount never fits where it is set.
	Most float64 `json:"most,omitempty"`
	// Of a rule of action Add: words of the method, one of which must stand there
	// and none of which may, and words that the title may not hold.
	Steps    []string `json:"steps,omitempty"`
	NotSteps []string `json:"not_steps,omitempty"`
	NotTitle []string `json:"not_title,omitempty"`
	// MostSweet is the sweetness of a serving, g of sugar, above which the dish is
	// a sweet one and the rule of action Add is not for it; 0 stands for any.
	MostSweet float64 `json:"most_sweet,omitempty"`
}

// Ingredient is one replacement: Ratio of the original's amount, by weight or
// by volume.
type Ingredient struct {
	Food  string            `json:"food"`           // name of a table row; "" where Same
	Same  bool              `json:"same,omitempty"` // the line's own food, prepared otherwise
	Row   *composition.Food `json:"-"`              // that row
	Ratio float64           `json:"ratio"`          // amount of the new per 1 of the old
	By    By                `json:"by"`             // what the ratio multiplies
	Unit  string            `json:"unit,omitempty"` // unit to write it in, or "" for the line's own or the best kitchen unit
	Say   string            `json:"say,omitempty"`  // words for the line instead of the food's name; must still read as that food
	Note  string            `json:"note,omitempty"` // preparation to write after it: "chopped"
	// KeepPreparation writes the line's own preparation after it.
	KeepPreparation bool `json:"keep_preparation,omitempty"`
}

// By is what the ratio of a replacement multiplies.
type By string

// Ways to measure a replacement.
const (
	ByLine   By = "line"   // the amount as written, in its own unit and container
	ByVolume By = "volume" // the volume of the line's food
	ByWeight By = "weight" // the grams of the line's food
	ByPiece  By = "piece"  // the count of pieces, in Units of the new food

	// Of a rule of action Add; Ratio is then so many of Unit.
	ByServing By = "serving" // for each serving
	ByLiquid  By = "liquid"  // for each cup of liquid in the dish
)

// MethodEdit is what a rule does to the method.
type MethodEdit struct {
	// Do is "add" (a new step), "drop" (sentences that hold Find, where they
	// speak of this line alone), "replace" (Find by Text in steps that mention
	// the line), or "move" (take the ingredient out of its step; say Text at At).
	Do   string `json:"do"`
	Find string `json:"find,omitempty"`
	Text string `json:"text,omitempty"`
	// In Text, {food} stands for the words of the line's own food.
	// At is start, end, before, with or after (the step that uses the line).
	At string `json:"at,omitempty"`
}

// Option is one thing that may be done with a line.
type Option struct {
	Rule *Rule
	// Text is the new ingredient lines, none where the line leaves the pot; read
	// afresh they give Lines.
	Text  []string
	Lines []foodmatch.Matched
	// AtTable is what is offered at the table instead, as text for the whole pot,
	// with its reading; empty unless Rule.Do is ToTable.
	AtTable []string
	Table   []foodmatch.Matched
	Change  int
	// Titled is how much of Change is for a food that the dish is named for.
	Titled int
	// Main is how much of Change is for a line that the dish is mostly made of.
	Main   int
	Effort int
	// Share is the share kept or added, of a rule that has several; else 0.
	Share float64
}
